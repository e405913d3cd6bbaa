import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { newZone } from '../../../src/job/zone.ts';
import { sizeJob } from '../../../src/sizing/size-job.ts';
import { rowsOf } from '../../hand-over/rows.ts';
import { granted } from './granted.ts';
import { wallOf } from './small-wall.ts';

const sized = (change: (job: Job) => void) => granted(sizeJob(wallOf([400, 600, 800], change)));

describe('papers of a wall with a dimmer', () => {
  const answer = sized(({ dimming }) => {
    dimming.control = 'dimmer';
    dimming.dimmer = { entry: '1x10A-1-10-v', data: {} };
  });
  const named = (id: string) => answer.schedules.find((schedule) => schedule.id === id)!;

  it('name it at the ends of its cables, from the output to it and from it on', () => {
    const ends = answer.cables.map(({ from, to }) => [from, to]);
    expect(ends[0]).toEqual([
      { kind: 'output', id: 'D1.1' },
      { kind: 'dimmer', id: 'K1.1', side: 'in' },
    ]);
    const cells = named('cables').rows.flat();
    expect(cells).toContain('K1.1 in');
    expect(cells).toContain('K1.1 out');
    expect(answer.cables.flatMap(({ cores }) => cores).map(({ from }) => from)).toContain('K1.1 out, plus');
  });

  it('list it with what it carries, 3 slots of 2.4 W and some over 24 V, and the control wiring', () => {
    const [row, ...others] = rowsOf(named('dimming'));
    expect(others).toEqual([]);
    const [dimmer] = answer.installation.dimmers;
    expect(dimmer!.current_A).toBeGreaterThan(0.28);
    expect(dimmer!.current_A).toBeLessThan(0.32);
    expect(row).toMatchObject({
      ...{ ref: 'K1.1', outputs: 'D1.1', rating: 10, lowest: 1, pulses: 4000 },
      ...{ current: dimmer!.current_A, heat: dimmer!.loss_W, place: 'Plinth' },
    });
    expect(String(row!.control)).toMatch(/^1-10 V to IEC 60929, annex E: one pair/);
  });

  it('say what to set, zone by zone where they differ', () => {
    expect(named('dimming').notes.at(-1)).toBe(
      'The wall: set to 15 % of full, and down to 15 % without flicker.',
    );
    const zoned = sized(({ dimming }) => {
      dimming.control = 'dimmer';
      dimming.dimmer = { entry: '1x10A-1-10-v', data: {} };
      const own = { levels: [0.4], lowest: 0.01 };
      dimming.zones = [{ ...newZone({ id: 'Z1', name: 'shelf', slots: [2] }), ...own }];
      dimming.restName = 'Back';
    });
    const schedule = zoned.schedules.find(({ id }) => id === 'dimming')!;
    expect(schedule.notes.slice(-2)).toEqual([
      'Back: set to 15 % of full, and down to 15 % without flicker.',
      'Shelf: set to 40 % of full, and down to 1 % without flicker.',
    ]);
    expect(rowsOf(schedule).map(({ zone }) => zone)).toEqual(['Back', 'shelf']);
  });

  it('order it, one and a spare', () => {
    const rows = rowsOf(named('bill')).filter(({ item }) => item === 'Dimmer');
    expect(rows).toMatchObject([{ quantity: 1, spare: 1, unit: 'piece' }]);
  });

  it('balance with what it takes', () => {
    const { supply_W, lamps_W, stripCopper_W, cable_W, dimmer_W } = answer.circuit;
    expect(dimmer_W).toBeGreaterThan(0.8);
    expect(supply_W).toBeCloseTo(lamps_W + stripCopper_W + cable_W + dimmer_W, 8);
    const [driver] = answer.drivers.drivers;
    expect(driver!.watts).toBeCloseTo(supply_W, 8);
    const [place] = answer.drivers.places;
    expect(place!.loss_W).toBeCloseTo(driver!.loss_W + answer.installation.dimmers[0]!.loss_W, 9);
  });
});

describe('papers of drivers that dim themselves', () => {
  it.each([
    ['DALI', /^DALI to IEC 62386: .* not SELV/],
    ['mains phase', /^A phase dimmer in the mains lead/],
    ['switch', /^A switch in the mains lead/],
  ] as const)('by %s say what comes to each', (control, text) => {
    const { schedules, installation } = sized((job) => {
      job.dimming.control = 'driver';
      job.drivers.data = { control };
    });
    expect(installation.dimmers).toEqual([]);
    const rows = rowsOf(schedules.find(({ id }) => id === 'dimming')!);
    expect(rows.map(({ ref, outputs, heat }) => [ref, outputs, heat])).toEqual([['D1', 'D1.1', null]]);
    expect(String(rows[0]!.control)).toMatch(text);
  });
});
