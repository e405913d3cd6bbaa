import { cableResistance_ohm_per_m, resistanceAt } from '../src/circuit/copper.ts';
import { cableCapacity } from '../src/installation/cable-capacity.ts';
import { ambientFactor, groupingFactor } from '../src/installation/capacity-factors.ts';
import { shortAtFarEnd } from '../src/installation/far-short.ts';
import { mostRating_A } from '../src/installation/fuse-families.ts';
import type { Check } from './check.ts';
import { pointLoads, solveTextbook } from './circuit-feeder.ts';

/** PVC insulation at full load, degC. */
const pvcLimit_degC = 70;

const check = (of: Omit<Check, 'topic'>): Check => ({ topic: 'circuit', ...of });

/** The thinnest single core in conduit that carries so much at 30 degC by itself, mm2. */
function thinnest_mm2(tabled_A: number): number {
  const at30 = { ambient_degC: 30, circuitCount: 1, isInThermalInsulation: false, limit_degC: pvcLimit_degC };
  return [1.5, 2.5, 4, 6, 10].find((area_mm2) => {
    const capacity = cableCapacity({ ...at30, area_mm2, method: 'B1' });
    return capacity.ok && capacity.value.capacity_A >= tabled_A;
  })!;
}

const grouped_A = 15 / (ambientFactor(40, pvcLimit_degC) * groupingFactor(3));
const examination =
  'examination question on BS 7671 with its worked answer (15 A fuse, 40 degC, three circuits, method B), an electricians’ forum';
const motor_A = 40 / ambientFactor(35, pvcLimit_degC);
const contractor =
  'worked example to BS 7671:2011 (37.3 A motor, 40 A fuse, 35 degC, 30 m), an electrical contractor’s page';

/** The printed factors have two figures; the engine's are those of their law. */
const sizing = [
  check({
    id: 'worked-grouping-ambient-tabled',
    quantity: 'tabled rating that 15 A need at 40 degC among three circuits, PVC',
    source: examination,
    standing: 'secondary',
    unit: 'A',
    printed: 24.63,
    computed: grouped_A,
    tolerance: { relative: 0.006 },
  }),
  check({
    id: 'worked-grouping-ambient-size',
    quantity: 'thinnest single core for it, where 2.5 mm2 of 24 A just will not do',
    source: examination,
    standing: 'secondary',
    unit: 'mm2',
    printed: 4,
    computed: thinnest_mm2(grouped_A),
    tolerance: { absolute: 1e-9 },
  }),
  check({
    id: 'worked-motor-tabled',
    quantity: 'tabled rating that 40 A need at 35 degC, PVC',
    source: contractor,
    standing: 'secondary',
    unit: 'A',
    printed: 42.55,
    computed: motor_A,
    tolerance: { relative: 0.006 },
  }),
  check({
    id: 'worked-motor-size',
    quantity: 'thinnest single core for it',
    source: contractor,
    standing: 'secondary',
    unit: 'mm2',
    printed: 10,
    computed: thinnest_mm2(motor_A),
    tolerance: { absolute: 1e-9 },
  }),
  check({
    id: 'worked-cartridge-over-capacity',
    quantity: 'largest cartridge fuse of 2.1 In for a cable of 10 A: 1.45/2.1 x 10 A',
    source: 'worked by hand from IEC 60364-4-43, clause 433.1',
    standing: 'derived',
    unit: 'A',
    printed: 6.905,
    computed: mostRating_A('cartridge', 10),
    tolerance: { absolute: 0.0005 },
  }),
];

const thinWire_ohm_per_m = cableResistance_ohm_per_m(0.75, 'class-5');

/** 24 V over 1.5 ohm are 16 A, four times 4 A; 0.75 mm2 of 26 mohm/m reaches that 28.85 m away. */
const shorts = [
  check({
    id: 'worked-short-cartridge-reach',
    quantity:
      'current of a short 28.85 m out on 2 x 0.75 mm2 class 5 at 20 degC, 24 V, where it just opens 4 A in 5 s',
    source: 'worked by hand: 24/(2 * 28.85 * 0.026), and 4 In of IEC 60127-2 (secondary)',
    standing: 'derived',
    unit: 'A',
    printed: 16,
    computed: shortAtFarEnd({ set_V: 24, loop_ohm: 2 * 28.85 * thinWire_ohm_per_m, sourceLimit_A: 30 })
      .fault_A,
    tolerance: { absolute: 0.01 },
  }),
];

const warm_ohm_per_m = (area_mm2: number): number =>
  resistanceAt(cableResistance_ohm_per_m(area_mm2, 'class-5'), 70);

/** 10 m of 4 mm2 for 6 A, of which 3.5 A leave at its end, then 5 m of 1.5 mm2 for 2.5 A. */
const twoSizes = solveTextbook(
  pointLoads({
    source_V: 24,
    wire_ohm_per_m: warm_ohm_per_m(4),
    loads: [
      { at_m: 10, amps: 3.5 },
      { at_m: 15, amps: 2.5, wire_ohm_per_m: warm_ohm_per_m(1.5) },
    ],
  }),
);

const inSeries = (
  [
    ['first', 'at the end of 10 m of 4 mm2 with 6 A: 12 x 10 x 6', 0.72],
    ['second', '5 m of 1.5 mm2 with 2.5 A further: 0.72 V and 32 x 5 x 2.5', 1.12],
  ] as const
).map(([which, quantity, printed], i) =>
  check({
    id: `worked-two-sizes-${which}`,
    quantity: `drop ${quantity} mV`,
    source: 'worked by hand with mV/A/m of BS 7671:2018 appendix 4, table 4F3B',
    standing: 'derived',
    unit: 'V',
    printed,
    computed: 24 - twoSizes.runs[i]!.lowest_V,
    tolerance: { relative: 0.015 },
  }),
);

/** Worked examples from outside and by hand: sizing with factors, a short at the far end, two sizes in series. */
export const circuitWorkedChecks: readonly Check[] = [...sizing, ...shorts, ...inSeries];
