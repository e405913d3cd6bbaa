import { describe, expect, it } from 'vitest';
import type { CableEnd } from '../../src/answer/cables.ts';
import { legLength_mm } from '../../src/installation/branches.ts';
import { pathLength_mm } from '../../src/installation/cable-routes.ts';
import { coresOf } from '../../src/installation/cores.ts';
import type { InstallationToPlan } from '../../src/installation/installation-to-plan.ts';
import type { Installation, PlannedCable, Point } from '../../src/installation/plan.ts';
import { planInstallation } from '../../src/installation/plan-installation.ts';
import type { DriverPlace } from '../../src/job/driver-place.ts';
import { between, chance, pick, randomOf, whole } from '../fuzz/random.ts';
import { fedRun } from '../set-out/runs.ts';
import { cabling, copper, modelled, placeBelow, plannedWall, wallToPlan } from './plans.ts';

const caseCount = 300;

const layouts = ['radial', 'trunk', 'ring', 'run to run'] as const;
const sides = ['left', 'right', 'up', 'down'] as const;
const channelNames = ['red', 'green', 'blue'];

interface Wall {
  readonly given: InstallationToPlan;
  readonly channels: readonly string[];
}

/** A wall of any layout: up to nine runs in slots that stand, lie or slant, on up to three drivers in up to three places. */
function randomWall(number: number): Wall {
  const random = randomOf(31, number);
  const layout = pick(random, layouts);
  const feeds =
    layout === 'run to run'
      ? (['start', 'finish'] as const)
      : (['start', 'both', 'crossed', 'between'] as const);
  const arrangement = pick(random, feeds);
  const runs = Array.from({ length: whole(random, 1, 9) }, (_, i) => {
    const x_mm = 150 + 180 * i + Math.round(between(random, 0, 60));
    const across_mm = chance(random, 0.3) ? Math.round(between(random, -100, 100)) : 0;
    const ends = [x_mm, 100, x_mm + across_mm, 1100 + Math.round(between(random, 0, 600))] as const;
    return fedRun(`S${String(i + 1).padStart(2, '0')}`, ends, arrangement);
  });
  const places = Array.from({ length: whole(random, 1, 3) }, (_, i): DriverPlace => {
    const spot = pick(random, [
      { x_mm: 100 + 600 * i, y_mm: -300 - 150 * i },
      { x_mm: 2100 + 900 * i, y_mm: Math.round(between(random, -200, 1800)) },
      { x_mm: 200, y_mm: 2050 + 300 * i },
    ]);
    const size = { width_mm: whole(random, 150, 900), height_mm: whole(random, 60, 250), depth_mm: 70 };
    const far = chance(random, 0.2) ? ({ kind: 'remote', cable_mm: whole(random, 500, 9000) } as const) : {};
    return placeBelow({
      name: `Place ${i + 1}`,
      ...spot,
      ...size,
      terminalsFace: pick(random, sides),
      ...far,
    });
  });
  const way = pick(random, ['head', 'foot'] as const);
  const outputs = Array.from({ length: whole(random, 1, 3) }, (_, i) => i);
  const current_A = pick(random, [2, 5, 10, 20]);
  const most_A = (outputs.length * current_A) / (2 * runs.length);
  const given = wallToPlan({
    ...{ runs, places },
    outputs: outputs.map((i) => ({
      ...{ id: `D${i + 1}.1`, driver: `D${i + 1}`, model: 0, place: i % places.length, layout, way },
      runs: runs.filter((_, r) => r % outputs.length === i).map(({ id }) => id),
    })),
    cables: cabling({ layout, way, tail_mm: whole(random, 0, 400), allowance: pick(random, [0, 0.1]) }),
    cable: copper(pick(random, [0.5, 0.75, 1.5])),
    trunk: copper(pick(random, [0.75, 1.5, 2.5])),
    dimmer: chance(random, 0.4) ? { length_mm: 90, width_mm: 40, height_mm: 25, clearance_mm: 10 } : null,
    run_A: runs.map(() => between(random, 0.05, most_A)),
    fuses: pick(random, ['blade', 'cartridge', 'electronic'] as const),
  });
  const models = modelled({ current_A, terminalConductors: whole(random, 1, 4) });
  return { given: { ...given, models }, channels: channelNames.slice(0, whole(random, 1, 3)) };
}

function plan(given: InstallationToPlan): Installation {
  const planned = planInstallation(given);
  if (!planned.ok) throw new Error(planned.issues[0]?.sentence);
  return planned.value;
}

const walls = Array.from({ length: caseCount }, (_, i) => randomWall(i));
const plans = walls.map(({ given, channels }) => ({ given, channels, plan: plan(given) }));

const apart_mm = (a: Point, b: Point): number => Math.hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm);

/** Taken from the run, the block or the tap itself, not from the way of a cable; null where it has no room in its place. */
function spotOf(end: CableEnd, side: 'in' | 'out', of: (typeof plans)[number]): Point | null {
  const { given, plan } = of;
  if (end.kind === 'tap') return plan.taps.find(({ id }) => id === end.id)!;
  if (end.kind === 'pad') {
    const run = given.runs.find(({ id }) => id === end.run)!;
    const part = end.cutLine / run.unitCount;
    return {
      x_mm: run.x0_mm + part * (run.x1_mm - run.x0_mm),
      y_mm: run.y0_mm + part * (run.y1_mm - run.y0_mm),
    };
  }
  const device = end.kind === 'output' ? end.id.split('.')[0]! : end.id;
  const stands = plan.layouts.flatMap(({ standing }) => standing).find(({ id }) => id === device);
  return stands?.[side] ?? null;
}

/** The side of its terminals an end is made off to: a link comes in, everything else goes out of its block or dimmer. */
const sideAt = ({ kind }: PlannedCable, which: 'from' | 'to'): 'in' | 'out' =>
  kind === 'link' && which === 'to' ? 'in' : 'out';

describe('any wall of any layout', () => {
  it('has every sort of wall among those tried', () => {
    const cables = plans.flatMap(({ plan }) => plan.cables);
    expect(new Set(cables.map(({ kind }) => kind)).size).toBe(5);
    expect(new Set(cables.map(({ protectedBy }) => protectedBy)).size).toBe(3);
    expect(new Set(cables.flatMap(({ stretches }) => stretches.map((s) => s.in))).size).toBe(6);
    expect(
      plans.filter(({ plan }) => plan.dimmers.length > 0 && plan.blocks.length > 0).length,
    ).toBeGreaterThan(20);
    expect(plans.filter(({ plan }) => plan.blocks.length === 0).length).toBeGreaterThan(20);
    expect(cables.filter((c) => c.kind === 'branch' && c.fuse !== null).length).toBeGreaterThan(20);
    expect(cables.filter((c) => c.conductors === 'return' && c.fuse !== null).length).toBeGreaterThan(20);
  });

  it('cuts each cable no shorter than its drawn way, nor than straight from end to end', () => {
    for (const each of plans)
      for (const cable of each.plan.cables) {
        // What lies between a remote place and the panel has a length, and no place on the drawing.
        const drawn = cable.stretches.filter((each) => each.in !== 'remote');
        const drawn_mm = drawn.reduce((sum, { from, to }) => sum + apart_mm(from, to), 0);
        expect(cable.length_mm).toBeGreaterThanOrEqual(drawn_mm - 1e-9);
        for (const leg of cable.legs.filter(({ paths }) => paths.every((path) => path.in !== 'remote'))) {
          const from = spotOf(leg.from, sideAt(cable, 'from'), each);
          const to = spotOf(leg.to, sideAt(cable, 'to'), each);
          if (from && to) expect(pathLength_mm(leg.paths)).toBeGreaterThanOrEqual(apart_mm(from, to) - 1e-6);
        }
      }
  });

  it('draws the way of each leg from one end to the other without a gap', () => {
    for (const each of plans)
      for (const cable of each.plan.cables)
        for (const { from, to, paths } of cable.legs) {
          const ends = [spotOf(from, sideAt(cable, 'from'), each), spotOf(to, sideAt(cable, 'to'), each)];
          if (paths.length === 0) continue;
          if (ends[0]) expect(apart_mm(paths[0]!.from, ends[0])).toBeLessThan(1e-6);
          if (ends[1]) expect(apart_mm(paths.at(-1)!.to, ends[1])).toBeLessThan(1e-6);
          for (const [i, path] of paths.slice(1).entries()) expect(path.from).toEqual(paths[i]!.to);
        }
  });

  it('shares the cut length of a cable out over its legs, to the last bit', () => {
    for (const { plan, given } of plans)
      for (const cable of plan.cables) {
        const legs_mm = cable.legs.reduce((sum, leg) => sum + legLength_mm(leg, cable), 0);
        const legless = cable.way_mm + cable.tails_mm === 0;
        expect(legs_mm).toBeCloseTo(legless ? 0 : cable.length_mm, 9);
        const made_mm = pathLength_mm(cable.stretches) + cable.tails_mm;
        expect(cable.length_mm).toBeCloseTo(made_mm * (1 + given.cables.allowance), 9);
      }
  });

  it('gives every core a terminal at either end, no two cores of a pad the same', () => {
    for (const { plan, channels } of plans) {
      const atPads: string[] = [];
      for (const { conductors, legs } of plan.cables) {
        const currents_A = [1, ...channels.map(() => 1)];
        const [from, to] = [legs[0]!.from, legs.at(-1)!.to];
        const asked = { conductors, channels, from, to, currents_A, fromOneMinus: false, sold: [5] };
        const { cores } = coresOf(asked);
        const returns = conductors === 'positive' ? 0 : channels.length;
        expect(cores).toHaveLength(returns + (conductors === 'return' ? 0 : 1));
        for (const core of cores) for (const end of [core.from, core.to]) expect(end).toMatch(/^[A-Z]\S+ \S/);
        for (const [end, key] of [
          [from, 'from'],
          [to, 'to'],
        ] as const)
          if (end.kind === 'pad') atPads.push(...cores.map((core) => core[key]));
      }
      expect(new Set(atPads).size).toBe(atPads.length);
    }
  });

  it('never has a fuse in a return', () => {
    for (const { plan, given } of plans) {
      const most_ohm = 2 * given.resistances.connector_ohm + given.resistances.dimmer_ohm;
      for (const { conductors, return_ohm, positive_ohm, from, to } of plan.branches) {
        expect(return_ohm).toBeLessThanOrEqual(most_ohm + 1e-12);
        if (conductors !== 'return') continue;
        expect(positive_ohm).toBeLessThanOrEqual(2 * given.resistances.connector_ohm);
        for (const end of [from, to]) expect(end.kind === 'block' && end.way !== null).toBe(false);
      }
      for (const { ways } of plan.blocks)
        for (const { cables } of ways)
          for (const id of cables)
            expect(plan.cables.find((c) => c.id === id)!.conductors).not.toBe('return');
    }
  });

  it('puts no more on a terminal than it takes: four pluses to a way, what the driver names to its output', () => {
    for (const { plan, given } of plans) {
      const ends = plan.cables
        .filter(({ conductors }) => conductors !== 'return')
        .flatMap(({ legs }) => legs.flatMap(({ from, to }) => [from, to]));
      for (const { id, ways } of plan.blocks) {
        expect(ends.filter((end) => end.kind === 'block' && end.id === id && end.way === null)).toHaveLength(
          1,
        );
        for (const { number } of ways) {
          const here = ends.filter((end) => end.kind === 'block' && end.id === id && end.way === number);
          expect(here.length).toBeGreaterThan(0);
          expect(here.length).toBeLessThanOrEqual(4);
        }
      }
      for (const { id } of given.outputs) {
        const here = ends.filter((end) => end.kind === 'output' && end.id === id);
        expect(here.length).toBeLessThanOrEqual(given.models[0]!.terminalConductors);
      }
    }
  });

  it('reaches every feed point from its output, over as many legs as it takes', () => {
    const keyOf = (end: CableEnd): string => (end.kind === 'pad' ? `run ${end.run}` : end.id);
    for (const { plan, given } of plans)
      for (const output of given.outputs) {
        const reached = new Set([output.id]);
        const feeds = new Set<string>();
        const legs = plan.cables.filter((c) => c.output === output.id).flatMap((c) => c.legs);
        for (const _ of legs)
          for (const { from, to } of legs) {
            if (!reached.has(keyOf(from))) continue;
            reached.add(keyOf(to));
            if (to.kind === 'pad') feeds.add(to.feedPoint!);
          }
        const wanted = given.runs
          .filter(({ id }) => output.runs.includes(id))
          .flatMap((run) => run.feedPoints);
        expect([...feeds].sort()).toEqual(wanted.map(({ id }) => id).sort());
      }
  });

  it('stands every driver, dimmer and block in the place of its output, or says it has no room', () => {
    for (const { plan, given } of plans)
      for (const { id, driver, place } of given.outputs) {
        const heads = [...plan.dimmers, ...plan.blocks].filter(({ output }) => output === id);
        for (const device of [driver, ...heads.map((head) => head.id)]) {
          const { standing, without } = plan.layouts[place]!;
          const stands = standing.find((each) => each.id === device);
          expect(stands !== undefined).toBe(!without.includes(device));
          const { x_mm, y_mm, width_mm, height_mm } = given.places[place]!;
          if (!stands) continue;
          expect(stands.x_mm).toBeGreaterThanOrEqual(x_mm);
          expect(stands.x_mm + stands.across_mm).toBeLessThanOrEqual(x_mm + width_mm + 1e-9);
          expect(stands.y_mm + stands.up_mm).toBeLessThanOrEqual(y_mm + height_mm + 1e-9);
        }
      }
  });

  it('names every cable, leg, block, fuse, dimmer and tap once', () => {
    for (const { plan } of plans) {
      const names = [
        ...plan.cables.map(({ id }) => id),
        ...plan.blocks.flatMap(({ id, ways }) => [id, ...ways.flatMap(({ fuse }) => fuse?.id ?? [])]),
        ...[...plan.dimmers, ...plan.taps].map(({ id }) => id),
      ];
      expect(new Set(names).size).toBe(names.length);
      const branches = plan.branches.map(({ id }) => id);
      expect(new Set(branches).size).toBe(branches.length);
    }
  });

  it('fuses each cable for no more than it may carry, for all that is behind the fuse', () => {
    for (const { plan } of plans)
      for (const { fuse, capacity_A, design_A, protectedBy, kind } of plan.cables) {
        if (protectedBy === 'driver') expect(capacity_A).toBeGreaterThanOrEqual(design_A);
        if (fuse === null) continue;
        expect(kind).not.toBe('link');
        expect(fuse.rating_A).toBeLessThanOrEqual(capacity_A);
        expect(fuse.rating_A).toBeGreaterThan(design_A);
        expect(fuse.design_A).toBeGreaterThanOrEqual(design_A - 1e-9);
      }
  });

  it('takes the same cable mirrored left to right, terminals and all', () => {
    const mirroredSide = { left: 'right', right: 'left', up: 'up', down: 'down' } as const;
    // By output and kind: which side of a trunk or a ring is called first is not mirrored.
    const lengths = (given: InstallationToPlan): Map<string, number> => {
      const sums = new Map<string, number>();
      for (const { output, kind, length_mm } of plan(given).cables)
        sums.set(`${output} ${kind}`, (sums.get(`${output} ${kind}`) ?? 0) + length_mm);
      return sums;
    };
    let tried = 0;
    for (const { given } of plans) {
      // A case that is turned a quarter from up or down faces right whichever way round: only what faces sideways mirrors.
      if (given.places.some(({ terminalsFace }) => terminalsFace === 'up' || terminalsFace === 'down'))
        continue;
      const runs = given.runs.map((run) => ({
        ...run,
        ...{ x0_mm: 2000 - run.x0_mm, x1_mm: 2000 - run.x1_mm },
        feedPoints: run.feedPoints.map((point) => ({ ...point, x_mm: 2000 - point.x_mm })),
      }));
      const places = given.places.map((place) => ({
        ...place,
        x_mm: place.kind === 'remote' ? 2000 - place.x_mm : 2000 - place.x_mm - place.width_mm,
        terminalsFace: mirroredSide[place.terminalsFace],
      }));
      if (places.some(({ kind }) => kind === 'remote')) continue;
      const there = lengths(given);
      for (const [id, length_mm] of lengths({ ...given, runs, places })) {
        expect(length_mm).toBeCloseTo(there.get(id)!, 6);
        tried++;
      }
    }
    expect(tried).toBeGreaterThan(100);
  });
});

describe('a wall by hand', () => {
  it('has the driver, the link, the block and two cables on one way', () => {
    /*
     * The driver needs 10 mm round it: its lower left corner is at (110, -190), its terminals at the middle of its right
     * end, (310, -170). A block of one way is 60 mm along, 32 mm high; 10 mm on, it stands at (320, -190), in at
     * (320, -174), out at (380, -174). The hole is at the middle of the top, (500, -100).
     */
    const { cables, blocks, dimmers, layouts } = plannedWall();
    expect(dimmers).toEqual([]);
    expect(layouts[0]!.standing.map(({ id, out }) => [id, out.x_mm, out.y_mm])).toEqual([
      ['D1', 310, -170],
      ['B1.1', 380, -174],
    ]);
    expect(blocks).toEqual([
      { id: 'B1.1', output: 'D1.1', ways: [{ number: 1, fuse: null, cables: ['C01', 'C02'] }] },
    ]);
    expect(cables.map(({ id, way_mm, tails_mm }) => [id, way_mm, tails_mm])).toEqual([
      // 10 mm across and 4 down, two tails of 100 mm.
      ['L1.1', 14, 200],
      // 120 to the hole's line and 74 up, 140 up to the way at 40, 100 and 400 along, 60 up.
      ['C01', 120 + 74 + 140 + 100 + 60, 600],
      ['C02', 120 + 74 + 140 + 400 + 60, 600],
    ]);
    expect(cables[1]!.length_mm).toBeCloseTo(1.1 * (494 + 600), 9);
    // Two side by side: 16 A times 0.8. The driver gives 7.5 A at most.
    expect(cables[1]).toMatchObject({ design_A: 1, protectedBy: 'driver', fuse: null });
    expect(cables[1]!.capacity_A).toBeCloseTo(12.8, 9);
    expect(cables[0]).toMatchObject({ design_A: 2, protectedBy: 'driver', capacity_A: 16 });
  });

  /** "in, circuits, air" of each stretch. */
  const lying = (cable: PlannedCable) =>
    cable.stretches.map((each) => [each.in, each.togetherCount, each.air_degC]);

  it('counts what lies together stretch by stretch, inside the place all that leave it', () => {
    // The hole at 750 is between the slots: both rise, and part on the way.
    const places = [placeBelow({ x_mm: 350 })];
    expect(lying(plannedWall({ places }).cables[1]!)).toEqual([
      ['place', 2, 30],
      ['place', 2, 30],
      ['riser', 2, 30],
      ['way', 1, 30],
      ['panel', 1, 30],
    ]);
    // Never fewer than the job says.
    const grouped = plannedWall({ places, cables: cabling({ grouped: 3 }) }).cables[1]!;
    expect(new Set(grouped.stretches.map(({ togetherCount }) => togetherCount))).toEqual(new Set([3]));
  });

  it('counts the cables of every output of a place inside it', () => {
    const { outputs } = wallToPlan();
    const two = ['S01', 'S02'].map((run, i) => ({
      ...{ ...outputs[0]!, id: `D${i + 1}.1`, driver: `D${i + 1}` },
      runs: [run],
    }));
    const cables = plannedWall({ outputs: two }).cables;
    expect(cables.map(({ id, stretches }) => [id, stretches[0]!.in, stretches[0]!.togetherCount])).toEqual([
      ['C01', 'place', 2],
      ['C02', 'place', 2],
    ]);
  });

  /*
   * A remote place of 800 x 100 mm, 3 m of cable away, whose cable comes in at x = 500: the block's outgoing side lies
   * 120 mm left of the middle of its top and 74 mm below it, as in the plinth, whatever height the box is written at. Then
   * 3,000 mm, 100 along the foot way at 40 mm, and up to 100 mm.
   */
  it('counts of a remote place the route inside its box and the length of its cable, wherever it is written', () => {
    const far = (y_mm: number) =>
      plannedWall({
        places: [placeBelow({ kind: 'remote', x_mm: 500, y_mm, cable_mm: 3000 })],
      }).cables.find(({ id }) => id === 'C01')!;
    for (const y_mm of [-200, -5000, 0, 1500]) {
      const { way_mm, stretches } = far(y_mm);
      expect(way_mm).toBeCloseTo(120 + 74 + 3000 + 100 + 60, 9);
      expect(stretches.map((each) => each.in)).toEqual(['place', 'place', 'remote', 'way', 'panel']);
      for (const [i, each] of stretches.entries()) if (i > 0) expect(each.from).toEqual(stretches[i - 1]!.to);
    }
  });

  it('has the air of the place, of the slot and of the room round it, never cooler than the job says', () => {
    const hot = { place_degC: [45], slot_degC: 55, room_degC: 35 };
    const remote = placeBelow({ kind: 'remote', x_mm: 500, y_mm: 0, cable_mm: 3000 });
    const head = wallToPlan().outputs.map((output) => ({ ...output, way: 'head' as const }));
    const [, cable] = plannedWall({ ...hot, outputs: head, places: [remote] }).cables;
    const airs = new Map(cable!.stretches.map((each) => [each.in, each.air_degC]));
    expect([...airs]).toEqual([
      ['place', 45],
      ['remote', 35],
      ['way', 30],
      ['panel', 30],
      ['slot', 55],
    ]);
    // Two side by side all the way but in the slot, where it is alone: 0.8*sqrt(25/40) = 0.632 at 45 degC, sqrt(15/40) = 0.612 at 55.
    expect(cable!.capacity_A).toBeCloseTo(16 * Math.min(0.8 * Math.sqrt(25 / 40), Math.sqrt(15 / 40)), 9);
    expect(cable!.stretches[cable!.worstStretch]!.in).toBe('slot');
    const typed = plannedWall({ ...hot, cables: cabling({ cable_degC: 50 }) }).cables[1]!;
    expect(new Set(typed.stretches.map(({ air_degC }) => air_degC))).toEqual(new Set([50]));
  });

  it('is held by its driver up to one and a half times its rating, where no fuse fits', () => {
    // 0.75 mm2 carries 6 A by itself. 5 A ask for a blade fuse of 6.25 A and more: none. 4 A give 6 A at most, 4.1 A 6.15.
    const [s01] = wallToPlan().runs;
    const held = (current_A: number) =>
      plannedWall({
        ...{ runs: [s01!], run_A: [5], cable: copper(0.75) },
        models: modelled({ current_A }),
      }).cables[0]!;
    expect(held(4)).toMatchObject({ protectedBy: 'driver', fuse: null, capacity_A: 6 });
    expect(held(4.1)).toMatchObject({ protectedBy: 'nothing', fuse: null });
  });

  it('by itself is held up to what it may carry, and by nothing beyond', () => {
    // 4 A limit at 6 A, which 0.75 mm2 carries; so much and no more may it be left with.
    const [s01] = wallToPlan().runs;
    const models = modelled({ current_A: 4 });
    const held = (run_A: number) =>
      plannedWall({ runs: [s01!], run_A: [run_A], cable: copper(0.75), models }).cables[0]!.protectedBy;
    expect(held(6)).toBe('driver');
    expect(held(6.1)).toBe('nothing');
  });

  it('has fuses as soon as the driver gives more than a cable may carry', () => {
    // 6 A of 0.75 mm2 times 0.8 for two side by side, 4.8 A: 3.2 A limit at 4.8 A, 3.3 A at 4.95 A.
    const fuses = (current_A: number) => {
      const models = modelled({ current_A });
      return plannedWall({ cable: copper(0.75), models }).blocks[0]!.ways.map(({ fuse }) => fuse?.rating_A);
    };
    expect(fuses(3.2 - 1e-9)).toEqual([undefined]);
    // 2 A need 2.5 A: 3 A.
    expect(fuses(3.3)).toEqual([3]);
  });

  it('holds a fuse to what a cable may carry in the air of its place', () => {
    // Two leave it at 60 degC: 16 A x 0.8 x sqrt(10/40) = 6.4 A, less than the 7.5 A of the driver. 2 A need 3 A.
    const [way] = plannedWall({ place_degC: [60] }).blocks[0]!.ways;
    expect(way).toMatchObject({ cables: ['C01', 'C02'], fuse: { rating_A: 3 } });
    expect(way!.fuse!.least_A).toBeCloseTo(6.4, 9);
  });

  it('does not count the air of the place for branches, which never lie in it', () => {
    // The trunk of 2.5 mm2 leaves alone, 20 A x sqrt(10/40) = 10 A; a branch of 1.5 mm2 carries 16 A. 8 A limit at 12 A.
    const { blocks } = plannedWall({
      ...{ cables: cabling({ layout: 'trunk' }), trunk: copper(2.5), place_degC: [60] },
      models: modelled({ current_A: 8 }),
    });
    expect(blocks[0]!.ways).toHaveLength(1);
    expect(blocks[0]!.ways[0]!.fuse!.least_A).toBeCloseTo(10, 9);
  });

  it('could be left with the whole of each run it serves, once', () => {
    const runs = [fedRun('S01', [600, 100, 600, 1100], 'both'), fedRun('S02', [900, 100, 900, 1100], 'both')];
    const design = (layout: InstallationToPlan['cables']['layout']) =>
      plannedWall({ runs, run_A: [0.5, 1.5], cables: cabling({ layout }) }).cables.map((cable) => [
        cable.id,
        cable.design_A,
      ]);
    const each = [
      ['C01.1', 0.5],
      ['C01.2', 0.5],
      ['C02.1', 1.5],
      ['C02.2', 1.5],
    ];
    expect(design('radial')).toEqual([['L1.1', 2], ...each]);
    expect(design('trunk')).toEqual([['T1.1', 2], ...each]);
  });

  it('is refused where cable cannot go from run to run', () => {
    const runs = [fedRun('S01', [600, 100, 600, 1100], 'both')];
    const refusal = planInstallation(wallToPlan({ runs, cables: cabling({ layout: 'run to run' }) }));
    expect(refusal.ok ? [] : refusal.issues.map(({ code }) => code)).toEqual(['layout-needs-end-feed']);
  });
});

describe('a ring by hand', () => {
  const models = modelled({ terminalConductors: 2 });
  const ring = () => plannedWall({ models, cables: cabling({ layout: 'ring' }) });

  it('leaves the terminals of the driver and comes home to them', () => {
    // From (310, -170) 190 across and 70 up to the hole at (500, -100), 140 up, 100 along to 600; 300 on to 900; and back.
    const [trunk] = ring().cables;
    expect(trunk).toMatchObject({ id: 'T1.1', tails_mm: 600 });
    expect(trunk!.legs.map(({ paths }) => pathLength_mm(paths))).toEqual([500, 300, 800]);
    expect(trunk!.way_mm).toBe(1600);
    expect(trunk!.stretches.map((each) => each.in)).toEqual([
      ...['place', 'place', 'riser', 'way', 'way', 'way', 'riser', 'place', 'place'],
    ]);
    expect(trunk!.stretches.at(-1)!.to).toEqual({ x_mm: 310, y_mm: -170 });
    // Wherever it lies, it lies twice.
    expect(new Set(trunk!.stretches.map(({ togetherCount }) => togetherCount))).toEqual(new Set([2]));
  });

  it('meets on its way home the cables of other places, as on its way out', () => {
    const runs = [600, 900, 700].map((x, i) => fedRun(`S0${i + 1}`, [x, 100, x, 1100]));
    const [first] = wallToPlan().outputs;
    const outputs = [
      { ...first!, layout: 'ring' as const, runs: ['S01', 'S02'] },
      { ...first!, id: 'D2.1', driver: 'D2', place: 1, runs: ['S03'] },
    ];
    const places = [placeBelow(), placeBelow({ x_mm: 1000 })];
    const [trunk] = plannedWall({ models, runs, outputs, places }).cables;
    // C03 comes along the foot from 1,400 to 700: beside 600 to 900 on the way out, and 900 to 500 on the way home.
    expect(trunk!.stretches.map((each) => each.togetherCount)).toEqual([2, 2, 2, 2, 3, 3, 2, 2, 2]);
  });

  it('has its taps on the way below the slots', () => {
    const taps = [
      { id: 'D1.1-T1', cable: 'T1.1', x_mm: 600, y_mm: 40 },
      { id: 'D1.1-T2', cable: 'T1.1', x_mm: 900, y_mm: 40 },
    ];
    expect(ring().taps).toEqual(taps);
    expect(plannedWall({ cables: cabling({ layout: 'trunk' }) }).taps).toEqual(taps);
    expect(plannedWall().taps).toEqual([]);
  });

  it('and a tap where the cable of a remote place comes in, should it come in there', () => {
    const places = [placeBelow({ kind: 'remote', x_mm: 600, y_mm: 0, cable_mm: null })];
    const { taps, cables } = plannedWall({ places, cables: cabling({ layout: 'trunk' }) });
    expect(taps[0]).toEqual({ id: 'D1.1-T1', cable: 'T1.1', x_mm: 600, y_mm: 40 });
    // No length is known from there to the panel: none is counted.
    expect(cables[0]!.stretches.map((each) => each.in)).toEqual(['place', 'place', 'way']);
  });
});

describe('a link by hand', () => {
  it('is the thinnest size that carries all the driver may give, or the thickest', () => {
    // They carry 6, 10 and 16 A. 4 A limit at 6 A, 4.1 A at 6.15 A, 10 A at 15 A, 20 A at 30 A.
    const size = (current_A: number) =>
      plannedWall({
        linkSizes: [copper(0.75), copper(1), copper(1.5)],
        models: modelled({ current_A }),
      }).cables[0]!.product.area_mm2;
    expect([4, 4.1, 10, 20].map(size)).toEqual([0.75, 1, 1.5, 1.5]);
  });

  it('lies by itself in the air of its place', () => {
    const [link] = plannedWall({ cables: cabling({ grouped: 3 }), place_degC: [45] }).cables;
    expect(link!.stretches.map(({ togetherCount, air_degC }) => [togetherCount, air_degC])).toEqual([
      [1, 45],
      [1, 45],
    ]);
    expect(link!.capacity_A).toBeCloseTo(16 * Math.sqrt(25 / 40), 9);
  });

  it('goes over a dimmer to the block', () => {
    // The dimmer of 90 x 40 mm stands 10 mm after the driver, (320, -190); the block 10 mm on, in at (420, -174).
    const dimmer = { length_mm: 90, width_mm: 40, height_mm: 25, clearance_mm: 10 };
    const { cables, dimmers } = plannedWall({ dimmer });
    expect(dimmers).toEqual([{ id: 'K1.1', output: 'D1.1' }]);
    expect(cables.map(({ id, way_mm }) => [id, way_mm])).toEqual([
      ['L1.1a', 10],
      ['L1.1b', 10 + 4],
      // Out at (480, -174): 20 across, 74 and 140 up, 100 and 400 along, 60 up.
      ['C01', 20 + 74 + 140 + 100 + 60],
      ['C02', 20 + 74 + 140 + 400 + 60],
    ]);
  });
});

describe('what stands in a place', () => {
  const dimmer = { length_mm: 90, width_mm: 40, height_mm: 25, clearance_mm: 10 };

  /** An output for each of the two runs, on the driver and in the place that are named. */
  const outputs = (...of: readonly (readonly [id: string, place: number])[]) =>
    of.map(([id, place], i) => ({
      ...{ ...wallToPlan().outputs[0]!, id, driver: id.split('.')[0]!, place },
      runs: [`S0${i + 1}`],
    }));

  const standing = (change: Partial<InstallationToPlan>) =>
    plannedWall(change).layouts.map((layout) => layout.standing.map(({ id }) => id).join(' '));

  it('is each driver once, with what belongs to its outputs', () => {
    const one = outputs(['D1.1', 0], ['D1.2', 0]);
    const two = outputs(['D1.1', 0], ['D2.1', 0]);
    expect(standing({ outputs: one })).toEqual(['D1']);
    expect(standing({ outputs: one, dimmer })).toEqual(['D1 K1.1 K1.2']);
    expect(standing({ outputs: two, dimmer })).toEqual(['D1 K1.1 D2 K2.1']);
  });

  it('is what is in that place, and its air is that of the place', () => {
    const apart = {
      ...{ outputs: outputs(['D1.1', 0], ['D2.1', 1]), place_degC: [30, 50] },
      places: [placeBelow(), placeBelow({ x_mm: 1000 })],
    };
    expect(standing(apart)).toEqual(['D1', 'D2']);
    expect(
      plannedWall(apart).cables.map(({ id, stretches: [first] }) => [
        ...[id, first!.in, first!.togetherCount, first!.air_degC],
      ]),
    ).toEqual([
      ['C01', 'place', 1, 30],
      ['C02', 'place', 1, 50],
    ]);
  });

  it('is a block 12 mm wider for each way, 45 mm deep with 10 mm before it', () => {
    // Five cables, four to a way: 20 + 2 x 12 = 44 mm. In at -190 + 22: 10 across and 2 up from the driver.
    const runs = [0, 1, 2, 3, 4].map((i) => fedRun(`S0${i + 1}`, [600 + 200 * i, 100, 600 + 200 * i, 1100]));
    const many = plannedWall({ runs, run_A: runs.map(() => 0.5) });
    expect(many.layouts[0]!.standing[1]).toMatchObject({ id: 'B1.1', across_mm: 60, up_mm: 44, deep_mm: 45 });
    expect(many.cables[0]!.way_mm).toBe(12);
    // In 55 mm it lies flat; in 54 mm it is on edge, and the driver with it.
    const block = (depth_mm: number) =>
      plannedWall({ places: [placeBelow({ depth_mm })] }).layouts[0]!.standing[1]!;
    expect(block(55)).toMatchObject({ up_mm: 32, deep_mm: 45 });
    expect(block(54)).toMatchObject({ up_mm: 45, deep_mm: 32 });
  });

  it('counts from the middle of the place where there is no room for it', () => {
    // 40 x 30 mm from (100, -200): the middle is (120, -185), the hole 15 mm above it.
    const places = [placeBelow({ width_mm: 40, height_mm: 30 })];
    const { layouts, cables } = plannedWall({ places, place_degC: [45] });
    expect(layouts[0]!.without).toEqual(['D1', 'B1.1']);
    expect(cables.map(({ id, way_mm }) => [id, way_mm])).toEqual([
      ['L1.1', 0],
      // 15 and 210 up, 480 and 780 along, 60 up.
      ['C01', 15 + 210 + 480 + 60],
      ['C02', 15 + 210 + 780 + 60],
    ]);
    // A link of no way has its two tails of 100 mm, in the air of the place.
    expect(cables[0]!.length_mm).toBeCloseTo(1.1 * 200, 9);
    expect(cables[0]!.stretches).toEqual([
      {
        ...{ in: 'place', from: { x_mm: 100, y_mm: -200 }, to: { x_mm: 100, y_mm: -200 }, length_mm: 0 },
        ...{ togetherCount: 1, air_degC: 45 },
      },
    ]);
  });
});
