import { describe, expect, it } from 'vitest';
import type { Condition } from '../../../src/answer/conditions.ts';
import type { Finding } from '../../../src/answer/findings.ts';
import { findAll } from '../../../src/findings/find-all.ts';
import { type Wall, wall } from './wall.ts';

const idsOf = (findings: readonly Finding[], status: Finding['status']) =>
  findings.filter((finding) => finding.status === status).map(({ id }) => id);

describe('the list of findings', () => {
  /**
   * What is left of the limits of the small wall: 3.5 mm of 45 (7.8 %), 5 K of 60 (8.3 %) and of 50 (10 %), 20 of
   * 180 cd/m2 (11 %), 14 K of 80 (17.5 %), 5 mm of 25 and 15 K of 75 (20 % each, in the order of the questions), 26 K of
   * 70 (37.1 %), 18 W of 48 (37.5 %), 2 of 5 % (40 %), 1.25 of 2.5 A and 0.001 of 0.002 (50 % each), 0.12 of 0.2
   * (60 %), 0.128 of 0.178 (72 %), 7 of 9 (78 %), 4 of 5 m (80 %), 4.5 of 5 A (90 %), 2750 over 1250 Hz (220 %), 0.13
   * over 0.02 (650 %). Room for drivers has no limit.
   */
  it('has what is nearest to its limit first, then what has no limit, and notes last', () => {
    const list = findAll(wall());
    expect(idsOf(list, 'passes')).toEqual([
      ...['depth', 'heat-timber', 'heat-glue', 'brightness', 'driver-case', 'dark-end', 'heat-solder'],
      ...['driver-ambient', 'driver-load', 'voltage-drop', 'driver-current', 'dots', 'light-fall'],
      ...['neighbour-difference', 'breaker-inrush', 'longest-run', 'cable-capacity', 'flicker'],
      ...['dimming-floor', 'driver-fit-1', 'driver-fit-2'],
    ]);
    expect(list.map(({ id }) => id)).toEqual([...idsOf(list, 'passes'), 'heat-left', 'life']);
  });

  it('gives every finding its remedies, none among them', () => {
    for (const { remedies } of findAll(wall())) expect(remedies).toEqual([]);
    const drop = findAll(wall(({ circuit }) => (circuit.runs[1]!.drop = 0.06)))[0]!;
    expect(drop.id).toBe('voltage-drop');
    expect(drop.remedies.length).toBeGreaterThan(0);
  });

  /**
   * Fails: a cable without a fuse (one over none), a drop of 6 where 5 % are allowed (20 % over), 5.01 of 5 A (0.2 % over).
   * To be watched: dark ends of 30 where 25 mm show (20 % over), 60 % left of the flicker limit at 2000 Hz, and
   * temperatures that are not known, which have a limit but nothing left that anybody could name.
   */
  it('begins with what fails, then what is to be watched, each furthest over first', () => {
    const list = findAll(
      wall(({ circuit, cables, setOut, job, heat }) => {
        Object.assign(cables[1]!, { current_A: 5.01 });
        Object.assign(cables[2]!, { protectedBy: 'nothing' });
        circuit.runs[1]!.drop = 0.06;
        setOut.runs[0]!.darkStart_mm = 30;
        job.dimming.pwm_Hz = 2000;
        heat.unknown = 'A level slot is not known.';
      }),
    );
    expect(list.slice(0, 8).map(({ id, status }) => [status, id])).toEqual([
      ['fails', 'cable-fuse'],
      ['fails', 'voltage-drop'],
      ['fails', 'cable-capacity'],
      ['watch', 'dark-end'],
      ['watch', 'flicker'],
      ['watch', 'heat-solder'],
      ['watch', 'heat-timber'],
      ['watch', 'heat-glue'],
    ]);
    expect(list.slice(8).every(({ status }) => status === 'passes' || status === 'note')).toBe(true);
  });

  it('asks of driver places in the panel as well', () => {
    const list = findAll(
      wall(({ job, drivers }) => {
        for (const lies of [job.drivers.places[1]!, drivers.drivers[1]!])
          Object.assign(lies, { x_mm: 250, y_mm: 300 });
      }),
    );
    expect(list.map(({ id }) => id)).toContain('driver-place-depth-2');
  });
});

describe('a limit of the dimmer', () => {
  const condition: Condition = {
    ...{ id: 'dimmer-limit', holds: 'everything', levels: [0.15, 0.3] },
    ...{ sentence: 'It must be made unable to go above 30 %.', short: 'only with the dimmer limited' },
  };
  const under = (holds: Condition['holds'], change: (wall: Wall) => void = () => {}) =>
    findAll(
      wall((made) => {
        change(made);
        made.conditions = [{ ...condition, holds }];
      }),
    );

  it('is a finding of its own that never passes, with the highest level', () => {
    for (const [holds, question] of [
      ['everything', 'drivers'],
      ['heat', 'heat'],
    ] as const)
      expect(under(holds).find(({ id }) => id === 'dimmer-limit')).toMatchObject({
        ...{ question, status: 'watch', value: 0.3, limit: null, margin: null, remedies: [] },
        ...{ place: { field: 'dimming.sizeFor' }, sentence: condition.sentence },
      });
  });

  const heat = ['heat-timber', 'heat-glue', 'driver-case', 'heat-solder', 'driver-ambient'];
  const loads = [
    ...['driver-load', 'voltage-drop', 'driver-current', 'light-fall', 'neighbour-difference'],
    ...['breaker-inrush', 'cable-capacity', 'driver-fit-1', 'driver-fit-2'],
  ];

  // The dimmer pulses: only what goes by watts over time rests on its limit.
  it('that holds for heat leaves nothing that goes by temperature better than to be watched', () => {
    expect(idsOf(under('heat'), 'watch').toSorted()).toEqual([...heat, 'dimmer-limit'].toSorted());
  });

  it('that holds for everything leaves nothing of circuit, cables and drivers better than to be watched', () => {
    const watched = idsOf(under('everything'), 'watch');
    expect(watched.toSorted()).toEqual([...heat, ...loads, 'dimmer-limit'].toSorted());
  });

  it('is named by what would pass but for it, and by nothing else', () => {
    const list = under('everything', ({ circuit }) => (circuit.runs[1]!.drop = 0.06));
    const held = list.filter(({ passesUnder }) => passesUnder !== undefined);
    const expected = [...heat, ...loads].filter((id) => id !== 'voltage-drop');
    expect(held.map(({ id }) => id).toSorted()).toEqual(expected.toSorted());
    for (const { passesUnder } of held) expect(passesUnder).toEqual(['dimmer-limit']);
    expect(under('heat').filter(({ passesUnder }) => passesUnder).length).toBe(heat.length);
  });

  it('is said where a finding has a number that rests on it', () => {
    const list = under('everything', ({ circuit }) => (circuit.runs[1]!.drop = 0.06));
    const sentence = (id: string) => list.find((finding) => finding.id === id)!.sentence;
    expect(sentence('driver-load')).toMatch(/48 W usable\. This holds only with the dimmer limited\.$/);
    expect(sentence('heat-left')).toMatch(/ This holds only with the dimmer limited\.$/);
    expect(sentence('depth')).not.toContain('This holds');
    expect(sentence('brightness')).not.toContain('This holds');
    expect(list[0]).toMatchObject({ id: 'voltage-drop', status: 'fails' });
    expect(list.find(({ id }) => id === 'life')!.status).toBe('note');
  });

  it('is not said of a number that nobody knows', () => {
    const list = under('heat', ({ heat }) => (heat.unknown = 'A level slot is not known.'));
    expect(list.find(({ id }) => id === 'heat-solder')!.sentence).not.toContain('This holds');
  });

  it('does not touch the efficiency on a data sheet, nor the depth', () => {
    const list = under('everything', ({ section, products }) => {
      section.available_mm = 41;
      products.driver.efficiency = 0.8;
    });
    for (const id of ['depth', 'driver-efficiency'])
      expect(list.find((finding) => finding.id === id)!.sentence).not.toContain('This holds');
  });
});
