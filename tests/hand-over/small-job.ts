import type { Cable } from '../../src/answer/cables.ts';
import type { CircuitRun } from '../../src/answer/circuit.ts';
import type { Block } from '../../src/answer/installation.ts';
import type { FeedPoint, Run } from '../../src/answer/set-out.ts';
import type { HandOverInput } from '../../src/hand-over/input.ts';
import { newJob } from '../../src/job/new-job.ts';
import { resolveProducts } from '../../src/job/resolve.ts';
import { newZone } from '../../src/job/zone.ts';

/** Three upright slots, 1 m of strip in 20 units each: fed at the start, at both ends, and crossed. */
const unitCount = 20;
const spacing_mm = 300;

type Pad = readonly [cutLine: number, conductors: FeedPoint['conductors']];

const at = (cutLine: number): FeedPoint['at'] =>
  cutLine === 0 ? 'start' : cutLine === unitCount ? 'finish' : 'between';

function run(number: number, jointLines: number[], pads: readonly Pad[]): Run {
  const id = `S0${number}`;
  const x_mm = number * spacing_mm;
  const bounds = [0, ...jointLines, unitCount];
  return {
    id,
    slot: id,
    zone: number === 1 ? 'Left' : null,
    unitCount,
    strip_mm: 1000,
    darkStart_mm: 10,
    darkFinish_mm: 10,
    x0_mm: x_mm,
    y0_mm: 110,
    x1_mm: x_mm,
    y1_mm: 1110,
    pieces: bounds.slice(1).map((end, i) => ({
      id: `${id}-${'AB'[i]}`,
      run: id,
      unitCount: end - bounds[i]!,
      length_mm: (end - bounds[i]!) * 50,
      reel: 'R1',
    })),
    jointLines,
    feedPoints: pads.map(([cutLine, conductors], i) => ({
      id: `${id}-F${i + 1}`,
      run: id,
      cutLine,
      conductors,
      at: at(cutLine),
      x_mm,
      y_mm: 110 + cutLine * 50,
    })),
  };
}

/** A cable from the block: 13.3 mohm for every metre of every conductor; 0.1 A at 23.9 V, 20 mV of them in the cable. */
function cable(id: string, way: number, feedPoint: FeedPoint, length_mm: number): Cable {
  const both = feedPoint.conductors === 'both';
  const from = { kind: 'block', id: 'B1.1', way } as const;
  const to = {
    kind: 'pad',
    run: feedPoint.run,
    cutLine: feedPoint.cutLine,
    feedPoint: feedPoint.id,
  } as const;
  const loop_ohm = ((both ? 2 : 1) * 13.3 * length_mm) / 1e6;
  const flow = { current_A: 0.1, drop_V: 0.02, loss_W: 0.002, contacts_W: 0.001, loop_ohm };
  const each = { way_mm: length_mm - 600, length_mm, ...flow };
  const alone = feedPoint.conductors === 'return' ? ('minus' as const) : ('plus' as const);
  const rails = both ? (['plus', 'minus'] as const) : [alone];
  return {
    ...{ id, kind: 'feed', name: `${both ? 2 : 1} × 1.5 mm² fine-wire`, output: 'D1.1', from, to },
    ...{ conductors: feedPoint.conductors, serves: [feedPoint.id], panels: [], route: [] },
    legs: [{ id, from, to, serves: [feedPoint.id], ...each, cores_A: rails.map(() => 0.1) }],
    cores: rails.map((rail, i) => ({
      ...{ number: i + 1, mark: rail === 'plus' ? 'red' : 'white', rail, channel: null, current_A: 0.1 },
      ...{ from: `B1.1 way ${way} ${rail}`, to: `${feedPoint.id} ${rail}` },
    })),
    ...{
      soldCoreCount: both ? 2 : 1,
      spareCoreCount: 0,
      conductorCount: both ? 2 : 1,
      area_mm2: 1.5,
      outer_mm: 8.6,
    },
    stretches: (['place', 'riser', 'way', 'panel', 'slot'] as const).map((where, i) => ({
      ...{ in: where, from: { x_mm: 0, y_mm: 0 }, to: { x_mm: 0, y_mm: 0 }, length_mm: 0 },
      ...{ togetherCount: 6 - i, air_degC: 40 },
    })),
    ...{ ...each, tails_mm: 600, design_A: 0.12, capacity_A: 12, worstStretch: 1, capacityNote: null },
    rating: { table_A: 16, ambientFactor: 1, groupingFactor: 0.75, sizeFactor: 1 },
    ...{ fuse: `F1.1-${way}`, fuse_A: 1, fuseOpens: true, protectedBy: 'fuse' },
    ...{ farShort_A: 20, farShortNoticed: true },
  };
}

/** The link from the output to the block, 300 mm, for all the current of the output. */
function link(serves: string[]): Cable {
  const [from, to] = [
    { kind: 'output', id: 'D1.1' } as const,
    { kind: 'block', id: 'B1.1', way: null } as const,
  ];
  const each = {
    way_mm: 100,
    length_mm: 300,
    current_A: 0.44,
    drop_V: 0.004,
    loss_W: 0.002,
    contacts_W: 0.001,
    loop_ohm: 0.00798,
  };
  return {
    ...{ id: 'L1.1', kind: 'link', name: '2 × 1.5 mm² fine-wire', output: 'D1.1', from, to },
    ...{
      conductors: 'both',
      serves,
      panels: [],
      route: [],
      legs: [{ id: 'L1.1', from, to, serves, ...each, cores_A: [0.44, 0.44] }],
    },
    cores: (['plus', 'minus'] as const).map((rail, i) => ({
      ...{ number: i + 1, mark: i === 0 ? 'red' : 'white', rail, channel: null, current_A: 0.44 },
      ...{ from: `D1.1 ${rail}`, to: `B1.1 in, ${rail}` },
    })),
    ...{ soldCoreCount: 2, spareCoreCount: 0, conductorCount: 2, area_mm2: 1.5, outer_mm: 8.6 },
    stretches: [
      {
        ...{ in: 'place', from: { x_mm: 0, y_mm: 0 }, to: { x_mm: 0, y_mm: 0 } },
        ...{ length_mm: 100, togetherCount: 1, air_degC: 38 },
      },
    ],
    ...{ ...each, tails_mm: 200, design_A: 0.48, capacity_A: 14, worstStretch: 0, capacityNote: null },
    rating: { table_A: 16, ambientFactor: 0.875, groupingFactor: 1, sizeFactor: 1 },
    ...{ fuse: null, fuse_A: null, fuseOpens: false, protectedBy: 'driver' },
    ...{ farShort_A: 20, farShortNoticed: true },
  };
}

/** A block of three fused ways: S01; both cables of S02; the plus of S03, whose return is held by the same fuse. */
const block: Block = {
  ...{ id: 'B1.1', output: 'D1.1', standing: null },
  ways: [['C01'], ['C02.1', 'C02.2'], ['C03.1']].map((cables, i) => ({
    number: i + 1,
    fuse: {
      ...{ id: `F1.1-${i + 1}`, family: 'cartridge', name: 'small fuse', standard: 'IEC 60127-2' },
      ...{
        remark: 'See that the holder is made for it.',
        rated_V: 250,
        breaking_A: 35,
        rating_A: 1,
        opens_A: 4,
      },
      ...{
        resistance_mohm: 180,
        design_A: 0.12 * cables.length,
        least_A: 12,
        current_A: 0.1 * cables.length,
        loss_W: 0.002,
      },
    },
    cables,
  })),
};

/** The cable of that id; a missing one is a broken test. */
export function cableOf<C extends Pick<Cable, 'id'>>(
  { cables }: { readonly cables: readonly C[] },
  id: string,
): C {
  const found = cables.find((each) => each.id === id);
  if (!found) throw new Error(`no cable ${id}`);
  return found;
}

/** Makes a ring of the cable of S01: a trunk that comes back to its block. */
export function closeRing({ cables }: HandOverInput): void {
  const back = { kind: 'block', id: 'B1.1', way: 1 } as const;
  Object.assign(cableOf({ cables }, 'C01'), { kind: 'trunk', to: back });
}

function solved(of: Run): CircuitRun {
  return {
    run: of.id,
    driver: 'D1',
    output: 'D1.1',
    feed_A: of.feedPoints.map((f) => ({ feedPoint: f.id, current_A: 0.1, terminal_V: 23.9 })),
    unit_V: Array<number>(unitCount).fill(23.8),
    unit_A: Array<number>(unitCount).fill(0.01),
    pads: [],
    unit_light: Array<number>(unitCount).fill(0.98),
    channels: [],
    lowest_V: 23.8,
    lowestUnit: unitCount - 1,
    highest_V: 23.9,
    drop_V: 0.2,
    drop: 0.2 / 24,
    fall: 0.01,
    neighbour: null,
    // 0.1 A at 23.9 V through every feed point that brings plus.
    watts: 2.39 * of.feedPoints.filter(({ conductors }) => conductors !== 'return').length,
    copper_W: 0.01,
    worst_W_per_m: 3.6,
    strip_degC: 35,
    band: null,
  };
}

/** A whole small job with round figures, a block with three fused ways on its one output, so that every prediction can be worked out by hand. */
export function smallJob(): HandOverInput {
  const job = newJob();
  job.dimming.pwm_Hz = null;
  job.cables.layout = 'radial';
  job.site.dropLimit = 0.05;
  Object.assign(job.feeds, { terminal_mohm: 5, joint_mohm: 2 });
  job.dimming.zones = [newZone({ id: 'Z1', name: 'Left', slots: [1] })];
  job.feeds.exceptions = [
    { slot: 2, arrangement: 'both', betweenCount: 1, cutLines: [] },
    { slot: 3, arrangement: 'crossed', betweenCount: 1, cutLines: [] },
  ];
  const products = resolveProducts(job);
  if (!products.ok) throw new Error('products');
  const { strip, driver, cable: cableSheet } = products.value;
  const ownCable = { ...cableSheet, area_mm2: 1.5, conductor_ohm_per_km: 13.3 };
  const runs = [
    run(1, [10], [[0, 'both']]),
    run(
      2,
      [],
      [
        [0, 'both'],
        [unitCount, 'both'],
      ],
    ),
    run(
      3,
      [],
      [
        [0, 'positive'],
        [unitCount, 'return'],
      ],
    ),
  ];
  const named = [
    ['C01', 1],
    ['C02.1', 2],
    ['C02.2', 2],
    ['C03.1', 3],
    ['C03.2', 3],
  ] as const;
  const feedPoints = runs.flatMap((r) => r.feedPoints);
  const cables = [
    link(feedPoints.map(({ id }) => id)),
    ...feedPoints.map((f, i) => cable(named[i]![0], named[i]![1], f, 2000 + 1000 * i)),
  ];
  return {
    job,
    products: {
      ...products.value,
      strip: { ...strip, nominal_V: 24, railPositive_mohm_per_m: 61.6, railReturn_mohm_per_m: 61.6 },
      driver: { ...driver, output_V: 24, rated_W: 60, current_A: 2.5, tolerance: 0.03 },
      cable: ownCable,
      trunk: ownCable,
    },
    set_V: 24,
    bars: [],
    setOut: {
      slots: runs.map((r, i) => ({
        id: r.slot,
        number: i + 1,
        panel: null,
        x0_mm: r.x0_mm,
        y0_mm: 100,
        x1_mm: r.x1_mm,
        y1_mm: 1120,
        length_mm: 1020,
        width_mm: 20,
      })),
      neighbours: [],
      runs,
      reels: [
        {
          id: 'R1',
          length_mm: 5000,
          fromStock: false,
          pieces: runs.flatMap((r) => r.pieces.map((p) => p.id)),
          used_mm: 3000,
          left_mm: 2000,
        },
      ],
      reelMethod: '',
      strip_m: 3,
      jointCount: 1,
    },
    cables,
    installation: {
      blocks: [structuredClone(block)],
      dimmers: [],
      besidePanels: [],
      taps: [],
      fullestWay: null,
      throughOpenings: [],
    },
    circuit: {
      runs: runs.map(solved),
      level: 'full',
      stripTemperature: 'worked out',
      supply_W: 10.5,
      average_W: 10.5,
      lamps_W: 10.4,
      stripCopper_W: 0.05,
      cable_W: 0.05,
      dimmer_W: 0,
      unaccounted_A: 0,
      imbalance_W: 0,
      iterationCount: 4,
      tolerances: '',
    },
    drivers: {
      drivers: [
        {
          id: 'D1',
          name: '24 V 60 W driver',
          model: 0,
          place: 'Plinth',
          x_mm: 200,
          y_mm: 30,
          outputs: [
            {
              id: 'D1.1',
              runs: ['S01', 'S02', 'S03'],
              watts: 10.5,
              current_A: 0.44,
              usable_W: 48,
              load: 0.22,
              band_W: null,
            },
          ],
          rated_W: 60,
          derating: 1,
          derated_degC: 35,
          ambient_degC: 35,
          case_degC: 40,
          lifeRatio: 2,
          watts: 10.5,
          average_W: 10.5,
          input_W: 12,
          input_A: 0.06,
          loss_W: 1.5,
        },
      ],
      places: [
        {
          name: 'Plinth',
          driverCount: 1,
          fits: true,
          fitNote: '',
          cases: [],
          without: [],
          loss_W: 1.5,
          air_degC: 35,
        },
      ],
      method: 'Side by side.',
      sharing: {
        ...{ driverCount: 1, price_cents: null, isProved: true, gap: 0, leastPrice_cents: null },
        ...{ leastCount: 1, isSideBySide: true, sideBySide: null },
      },
      lowerBoundCount: 1,
      input_W: 12,
      input_A: 0.06,
      standby_W: null,
      breaker: {
        name: 'B16',
        curve: 'B',
        rating_A: 16,
        peak_A: 67.88,
        models: [
          {
            ...{ model: 0, name: '24 V 60 W driver', input_A: 0.3, printed: null, isPrinted: false },
            ...{ bySteady: 42, byInrush: 1, mostDrivers: 1, formula: '3 × 16 A × √2 / 40 A' },
            isInrushPrinted: false,
          },
        ],
        most: '1 driver',
        loads: [{ id: 'M1', drivers: ['D1'], input_A: 0.06, inrush_A: 40, share: 1 }],
      },
    },
    conditions: [],
    light: { zones: [] },
  };
}
