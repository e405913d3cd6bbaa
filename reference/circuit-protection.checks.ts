import { leastCableRatio } from '../src/circuit/copper.ts';
import { cableCapacity, type LayingMethod } from '../src/installation/cable-capacity.ts';
import { ambientFactor, groupingFactor } from '../src/installation/capacity-factors.ts';
import { shortAtFarEnd } from '../src/installation/far-short.ts';
import type { Check } from './check.ts';

/** PVC insulation at full load, degC. */
const pvcLimit_degC = 70;

const check = (of: Omit<Check, 'topic'>): Check => ({ topic: 'circuit', ...of });

const atTable = {
  ambient_degC: 30,
  circuitCount: 1,
  isInThermalInsulation: false,
  limit_degC: pvcLimit_degC,
};

function capacity_A(of: Parameters<typeof cableCapacity>[0]): number {
  const outcome = cableCapacity(of);
  return outcome.ok ? outcome.value.capacity_A : Number.NaN;
}

/** IEC 60364-5-52:2009 table B.52.2 as printed: size, then A1, A2, B1, B2, C. */
const tableB522: readonly (readonly [number, ...number[]])[] = [
  [1.5, 14.5, 14, 17.5, 16.5, 19.5],
  [2.5, 19.5, 18.5, 24, 23, 27],
  [4, 26, 25, 32, 30, 36],
];

const methods: readonly LayingMethod[] = ['A1', 'A2', 'B1', 'B2', 'C'];

const capacityChecks = tableB522.flatMap(([area_mm2, ...row]) =>
  row.map((printed, m) =>
    check({
      id: `iec60364-5-52-${methods[m]}-${area_mm2}mm2`,
      quantity: `capacity of ${area_mm2} mm2, method ${methods[m]}, 30 degC`,
      source: 'IEC 60364-5-52:2009, table B.52.2',
      standing: 'memory',
      unit: 'A',
      printed,
      computed: capacity_A({ ...atTable, area_mm2, method: methods[m]! }),
      tolerance: { absolute: 1e-9 },
    }),
  ),
);

const flexibleChecks = (
  [
    [0.5, 3],
    [0.75, 6],
    [1, 10],
    [1.5, 16],
  ] as const
).map(([area_mm2, printed]) =>
  check({
    id: `vde0298-4-flexible-${area_mm2}mm2`,
    quantity: `capacity of a flexible cord of ${area_mm2} mm2, 30 degC`,
    source: 'DIN VDE 0298-4, table 11',
    standing: 'secondary',
    unit: 'A',
    printed,
    computed: capacity_A({ ...atTable, area_mm2, method: 'flexible' }),
    tolerance: { absolute: 1e-9 },
  }),
);

/** IEC 60364-5-52:2009 table B.52.14 as printed: air, PVC at 70 degC, cross-linked at 90 degC. */
const tableB5214: readonly (readonly [number, number, number])[] = [
  [25, 1.06, 1.04],
  [35, 0.94, 0.96],
  [40, 0.87, 0.91],
  [45, 0.79, 0.87],
  [50, 0.71, 0.82],
  [55, 0.61, 0.76],
  [60, 0.5, 0.71],
];

const ambientChecks = tableB5214.flatMap(([ambient_degC, pvc, crossLinked]) =>
  (
    [
      ['', 'PVC', 70, pvc],
      ['-90degC', 'cross-linked', 90, crossLinked],
    ] as const
  ).map(([suffix, insulation, limit_degC, printed]) =>
    check({
      id: `iec60364-5-52-ambient-${ambient_degC}${suffix}`,
      quantity: `factor at ${ambient_degC} degC, ${insulation}`,
      source: 'IEC 60364-5-52:2009, table B.52.14',
      standing: 'memory',
      unit: '1',
      printed,
      computed: ambientFactor(ambient_degC, limit_degC),
      tolerance: { absolute: 0.0051 },
    }),
  ),
);

const groupingChecks = (
  [
    [2, 0.8],
    [3, 0.7],
    [4, 0.65],
    [6, 0.57],
    [9, 0.5],
    [12, 0.45],
    [16, 0.41],
    [20, 0.38],
  ] as const
).map(([count, printed]) =>
  check({
    id: `iec60364-5-52-grouping-${count}`,
    quantity: `factor for ${count} circuits bunched`,
    source: 'IEC 60364-5-52:2009, table B.52.17',
    standing: 'memory',
    unit: '1',
    printed,
    computed: groupingFactor(count),
    tolerance: { absolute: 1e-9 },
  }),
);

const shortCheck = check({
  id: 'short-5m-strip-10m-cable',
  quantity: 'current of a far-end short, 24 V, 5 m of 0.123 ohm/m and 10 m of 2 x 1.5 mm2 class 5',
  source: 'worked by hand: 24/(5 * 0.123 + 2 * 10 * 0.0133)',
  standing: 'derived',
  unit: 'A',
  printed: 27.2,
  computed: shortAtFarEnd({ set_V: 24, loop_ohm: 5 * 0.1232 + 2 * 10 * 0.0133, sourceLimit_A: 6.3 })
    .prospective_A,
  tolerance: { absolute: 0.05 },
});

/** The table stands 13 to 16 % above rho/A in class 5 and 4 to 7 % in class 2. */
const ratioChecks = (
  [
    ['class-2', 1.055, 0.016],
    ['class-5', 1.145, 0.016],
  ] as const
).map(([conductorClass, printed, absolute]) =>
  check({
    id: `iec60228-over-resistivity-${conductorClass}`,
    quantity: `table over rho/A at 1.5 mm2, ${conductorClass}`,
    source: 'IEC 60228:2004 against IEC 60028 (17.241 ohm mm2/km)',
    standing: 'derived',
    unit: '1',
    printed,
    computed: 1 / leastCableRatio(1.5, conductorClass),
    tolerance: { absolute },
  }),
);

/** Capacities, their factors, and the worked short circuit. */
export const circuitProtectionChecks: readonly Check[] = [
  ...capacityChecks,
  ...flexibleChecks,
  ...ambientChecks,
  ...groupingChecks,
  shortCheck,
  ...ratioChecks,
];
