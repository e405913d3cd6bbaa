import type { FeedPoint, Run } from '../../../src/answer/set-out.ts';
import { solveCircuit } from '../../../src/circuit/solve-circuit.ts';
import type { LoopPath } from '../../../src/hand-over/dead-test.ts';
import type { Branch, Installation, PlannedCable } from '../../../src/installation/plan.ts';
import { cableCatalogue } from '../../../src/job/cable-catalogue.ts';
import { newJob } from '../../../src/job/new-job.ts';
import { resolveProducts } from '../../../src/job/resolve.ts';
import type { Box } from '../../../src/readings/reading-model-boxes.ts';
import { circuitOfJob, type WiredJob } from '../../../src/sizing/circuit-of-job.ts';
import type { Settled } from '../../../src/sizing/settle.ts';
import { granted } from '../site.ts';

/**
 * Three runs of 1 m in 20 units on two outputs of 24 V, in numbers for the head. Regulated strip of 9.6 W/m draws 0.02 A in
 * every unit whatever its volts, 0.4 A a run; each rail has 5 mohm a unit. Every cable has 0.1 ohm in each conductor and 5
 * mohm at the pad. D1.1 feeds S01 at its start, with a joint of 2 mohm in each rail at cut line 8, and S02 at both ends,
 * with a joint at 10; D2.1 feeds S03 crossed: plus at its start, minus at its finish, with a joint at 10.
 */
function plannedJob() {
  const job = newJob();
  Object.assign(job.strip.data, { law: 'regulated', unitsPerMetre: 20 });
  Object.assign(job.strip.data, { railPositive_mohm_per_m: 100, railReturn_mohm_per_m: 100 });
  job.strip.data.channels = [
    {
      ...{ name: 'white', watts_per_m: 9.6, lumens_per_m: 900, cct_K: 2700 },
      ...{ lampsInSeries: 6, lampForward_V: 2.9 },
    },
  ];
  job.cables.data.conductor_ohm_per_km = 50;
  job.cables.cable_degC = 20;
  Object.assign(job.feeds, { terminal_mohm: 5, joint_mohm: 2 });
  return job;
}

const feedPoint = (
  run: string,
  number: number,
  cutLine: number,
  conductors: FeedPoint['conductors'] = 'both',
): FeedPoint => ({
  ...{ id: `${run}-F${number}`, run, cutLine, conductors, x_mm: 0, y_mm: 0 },
  at: cutLine === 0 ? 'start' : cutLine === 20 ? 'finish' : 'between',
});

const run = (id: string, jointLines: number[], feedPoints: FeedPoint[]): Run => ({
  ...{ id, slot: id, zone: null, unitCount: 20, strip_mm: 1000, darkStart_mm: 0, darkFinish_mm: 0 },
  ...{ x0_mm: 0, y0_mm: 0, x1_mm: 0, y1_mm: 1000, pieces: [], jointLines, feedPoints },
});

const runs = [
  run('S01', [8], [feedPoint('S01', 1, 0)]),
  run('S02', [10], [feedPoint('S02', 1, 0), feedPoint('S02', 2, 20)]),
  run('S03', [10], [feedPoint('S03', 1, 0, 'positive'), feedPoint('S03', 2, 20, 'return')]),
];

const cableIds = ['C01', 'C02.1', 'C02.2', 'C03.1', 'C03.2'];

/** Leg by leg: 2 m of 50 ohm/km, from the output of each run to its pads. */
const branches = runs
  .flatMap(({ feedPoints }) => feedPoints)
  .map(
    (fed, i): Branch => ({
      ...{ id: cableIds[i]!, cable: cableIds[i]! },
      from: { kind: 'output', id: fed.run === 'S03' ? 'D2.1' : 'D1.1' },
      to: { kind: 'pad', run: fed.run, cutLine: fed.cutLine, feedPoint: fed.id },
      ...{ conductors: fed.conductors, hasOneMinus: false, serves: [fed.id], length_mm: 2000 },
      ...{ conductor_ohm_per_km: 50, connectors_ohm: 0, positive_ohm: 0, return_ohm: 0 },
    }),
  );

/** A cable as far as the names of places ask for it. */
const laid = ({ id, from, to, conductors, serves }: Branch, kind: PlannedCable['kind']): PlannedCable => ({
  ...{ id, kind, conductors, output: from.kind === 'output' || to.kind !== 'pad' ? 'D1.1' : 'D2.1' },
  legs: [{ id, from, to, serves, paths: [], tailCount: 2 }],
  product: cableCatalogue[0]!,
  ...{ stretches: [], way_mm: 2000, tails_mm: 0, length_mm: 2000, design_A: 0.4, capacity_A: 5, source_A: 3 },
  rating: { table_A: 5, ambientFactor: 1, groupingFactor: 1, sizeFactor: 1 },
  ...{ worstStretch: 0, capacityNote: null, fuse: null, protectedBy: 'driver' },
});

const plain: Installation = {
  ...{ blocks: [], dimmers: [], taps: [], layouts: [] },
  branches,
  cables: branches.map((branch) => laid(branch, 'feed')),
};

/**
 * The same with a block on D1.1: a short link L1.1, way 1 with C01 to itself, way 2 with a fuse of 0.1 ohm for both cables
 * of S02.
 */
function blocked(): Installation {
  const bar = { kind: 'block', id: 'B1.1', way: null } as const;
  const way = (number: number) => ({ kind: 'block', id: 'B1.1', way: number }) as const;
  const none = { positive_ohm: 0, return_ohm: 0, connectors_ohm: 0 };
  const short = { conductor_ohm_per_km: 0, length_mm: 0, ...none };
  const both = { conductors: 'both', hasOneMinus: false, ...short } as const;
  const link: Branch = {
    ...{ id: 'L1.1', cable: 'L1.1', from: { kind: 'output', id: 'D1.1' }, to: bar },
    ...{ ...both, serves: ['S01-F1', 'S02-F1', 'S02-F2'] },
  };
  const fuse: Branch = {
    ...{ id: 'F1.1-2', cable: null, from: bar, to: way(2), serves: ['S02-F1', 'S02-F2'] },
    ...{ ...both, positive_ohm: 0.1 },
  };
  const [c01, c021, c022, ...crossed] = branches as [Branch, Branch, Branch, Branch, Branch];
  const onFuse = [c021, c022].map((branch) => ({ ...branch, from: way(2) }));
  return {
    ...plain,
    branches: [fuse, link, { ...c01, from: bar }, ...onFuse, ...crossed],
    cables: [
      laid(link, 'link'),
      ...[{ ...c01, from: way(1) }, ...onFuse, ...crossed].map((branch) => laid(branch, 'feed')),
    ],
  };
}

/** The wall as settled, without the heat and the sharing-out, which its readings do not ask for. */
export function settledWall(hasBlock = false): Settled {
  const job = plannedJob();
  const products = granted(resolveProducts(job));
  const installation = hasBlock ? blocked() : plain;
  const wired: WiredJob = { job, products, runs, installation, outputs: ['D1.1', 'D2.1'] };
  const description = circuitOfJob(
    wired,
    wired.runs.map(() => 20),
  );
  const output = (id: string, of: string[]) => ({ id, zone: null, runs: of, watts: 0, limit_W: 60 });
  const driver = (id: string, of: string[]) => ({
    ...{ id, model: 0, place: 0, outputs: [output(`${id}.1`, of)], watts: 0, usable_W: 60, rated_W: 75 },
  });
  return {
    allocation: {
      drivers: [driver('D1', ['S01', 'S02']), driver('D2', ['S03'])],
      ...{ method: '', lowerBoundCount: 2 },
      sharing: {
        ...{ driverCount: 2, price_cents: null, isProved: true, gap: 0, leastPrice_cents: null },
        ...{ leastCount: 2, isSideBySide: true, sideBySide: null },
      },
    },
    ...{ wired, description, solution: granted(solveCircuit(description)) },
    ...{ strip_degC: [20, 20, 20], air_degC: [], notes: [] },
  };
}

const lead = (leg: string, rail: 'positive' | 'return') => ({
  ...{ leg, rail, copper_ohm: 0.1, contact_ohm: 0.005 },
});
const pair = (leg: string) => [lead(leg, 'positive'), lead(leg, 'return')];
const joint = (id: string, cutLine: number, rail: 'positive' | 'return') => ({
  ...{ run: id, cutLine, rail, ohm: 0.002 },
});

/** Loops to the pads and to the ends: cables there and back, and two rails of 0.1 ohm where the strip lies between. */
const paths: Readonly<Record<string, LoopPath>> = {
  'S01-F1': { leads: pair('C01'), joints: [], strip_ohm: 0 },
  'S01 finish': {
    leads: pair('C01'),
    joints: [joint('S01', 8, 'positive'), joint('S01', 8, 'return')],
    strip_ohm: 0.2,
  },
  // Plus at hand, minus at the far end: one rail of the strip and its joint lie between.
  'S03 start': {
    leads: [lead('C03.1', 'positive'), lead('C03.2', 'return')],
    joints: [joint('S03', 10, 'return')],
    strip_ohm: 0.1,
  },
};

const spreads = { loop: 0.01, noLoad: 0.01, loaded: 0.01, current: 0.02 } as const;
const box = (row: string, quantity: Box['quantity']): Box => ({
  ...{ row, quantity, path: paths[row] ?? null, spread: spreads[quantity], isOpen: false },
});

/** The boxes measured, in order. */
export const boxes: readonly Box[] = [
  ...(['noLoad', 'loaded', 'current'] as const).map((quantity) => box('D1.1', quantity)),
  ...(['loop', 'noLoad', 'loaded', 'current'] as const).map((quantity) => box('S01-F1', quantity)),
  ...(['loop', 'loaded'] as const).map((quantity) => box('S01 finish', quantity)),
  ...['S02-F1', 'S02-F2'].flatMap((row) => [box(row, 'loaded'), box(row, 'current')]),
  ...(['loaded', 'current'] as const).map((quantity) => box('D2.1', quantity)),
  ...['S03-F1', 'S03-F2'].map((row) => box(row, 'current')),
  ...[box('S03 start', 'loop'), box('S03 start', 'loaded'), box('S03 finish', 'loaded')],
];
