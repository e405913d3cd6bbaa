import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/job/demo-jobs.ts';
import type { Job } from '../../src/job/job.ts';
import { sizeJob } from '../../src/sizing/size-job.ts';
import { belongingTo, partNamed } from '../../web/state/belonging.ts';
import { linesOf } from '../../web/state/picked-lines.ts';

const windowSeat = demoJobs[0]!.job;

function sizingOf(layout: Job['cables']['layout']) {
  const sized = sizeJob({ ...windowSeat, cables: { ...windowSeat.cables, layout } });
  if (!sized.ok) throw new Error('the window seat must have an answer in every layout');
  return sized.value;
}

type Sized = ReturnType<typeof sizingOf>;

/** From the pads of a feed point back to the driver, cable by cable, by what each is made off to. */
function backToDriver({ cables }: Sized, feedPoint: string): Set<string> {
  const passed = new Set<string>();
  const isFed = (id: string): typeof cables =>
    cables.filter(({ legs }) =>
      legs.some(({ to }) => (to.kind === 'pad' ? to.feedPoint === id || to.run === id : to.id === id)),
    );
  const walk = (id: string): void => {
    for (const cable of isFed(id)) {
      if (passed.has(cable.id)) continue;
      passed.add(cable.id);
      for (const { from } of cable.legs)
        if (from.kind !== 'output') walk(from.kind === 'pad' ? from.run : from.id);
    }
  };
  walk(feedPoint);
  return passed;
}

describe('what belongs to a picked part of the wiring', () => {
  it.each(['radial', 'trunk', 'run to run'] as const)(
    'is the way from a feed point back to its driver: %s',
    (layout) => {
      const sizing = sizingOf(layout);
      for (const { id } of sizing.setOut.runs.flatMap(({ feedPoints }) => feedPoints)) {
        const { cables, feedPoints, drivers } = belongingTo(sizing, { feedPoint: id });
        expect([...cables].sort()).toEqual([...backToDriver(sizing, id)].sort());
        expect([...feedPoints]).toEqual([id]);
        expect(drivers.size).toBe(1);
      }
    },
  );

  it('is everything of a driver, and every cable belongs to one driver', () => {
    for (const layout of ['radial', 'trunk', 'ring'] as const) {
      const sizing = sizingOf(layout);
      const each = sizing.drivers.drivers.map(({ id }) => belongingTo(sizing, { driver: id }));
      const together = each.flatMap(({ cables }) => [...cables]).sort();
      expect(together).toEqual(sizing.cables.map(({ id }) => id).sort());
      expect(each.flatMap(({ runs }) => [...runs]).sort()).toEqual(
        sizing.setOut.runs.map(({ id }) => id).sort(),
      );
      const { blocks, taps } = sizing.installation;
      const devices = new Set(each.flatMap((one) => [...one.devices]));
      expect([...devices].sort()).toEqual([...blocks, ...taps].map(({ id }) => id).sort());
    }
  });

  it('goes with a cable upwards and downwards: a trunk has all its branches, a branch its trunk only', () => {
    const sizing = sizingOf('trunk');
    const trunk = sizing.cables.find(({ kind }) => kind === 'trunk')!;
    const taps = sizing.installation.taps.filter(({ cable }) => cable === trunk.id).map(({ id }) => id);
    const branches = sizing.cables.filter(({ from }) => from.kind === 'tap' && taps.includes(from.id));
    expect(branches.length).toBeGreaterThan(1);
    const ofTrunk = belongingTo(sizing, { cable: trunk.id });
    for (const branch of branches) {
      expect(ofTrunk.cables.has(branch.id)).toBe(true);
      const { cables, runs } = belongingTo(sizing, { cable: branch.id });
      expect(branches.filter(({ id }) => cables.has(id))).toEqual([branch]);
      expect(cables.has(trunk.id)).toBe(true);
      expect(runs.size).toBe(1);
    }
  });

  it('is nothing where a place names no part of the wiring', () => {
    const none = belongingTo(sizingOf('radial'), undefined);
    expect([none.cables.size, none.feedPoints.size, none.drivers.size, none.devices.size]).toEqual([
      0, 0, 0, 0,
    ]);
  });

  it('is found by the names that head the rows of the schedules, and said in their words', () => {
    const sizing = sizingOf('radial');
    const { id, name } = sizing.cables.at(-1)!;
    expect(partNamed(sizing, id)).toEqual({ cable: id });
    expect(partNamed(sizing, 'D1.1')).toEqual({ driver: 'D1' });
    expect(partNamed(sizing, 'S01-F1')).toEqual({ feedPoint: 'S01-F1' });
    expect(partNamed(sizing, 'S01')).toBeUndefined();
    const said = (part: Parameters<typeof linesOf>[1]) =>
      linesOf(sizing, part).map((line) => Object.fromEntries(line));
    expect(said({ cable: id })[0]).toMatchObject({ Type: name });
    expect(said({ feedPoint: 'S01-F1' })).toHaveLength(1);
    expect(said({ driver: 'D1' })).toHaveLength(sizing.drivers.drivers[0]!.outputs.length);
  });
});
