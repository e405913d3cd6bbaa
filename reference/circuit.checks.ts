import {
  type ConductorClass,
  cableResistance_ohm_per_m,
  resistanceAt,
  traceResistance_ohm_per_m,
} from '../src/circuit/copper.ts';
import type { Check } from './check.ts';
import {
  constantCurrent,
  fedFrom,
  feeder,
  pointLoads,
  solveTextbook,
  straightLine,
} from './circuit-feeder.ts';
import { awgDiameter_mm, awgResistance_ohm_per_m } from './laws/wire-gauge.ts';

type Printed = Pick<
  Check,
  'id' | 'quantity' | 'source' | 'standing' | 'unit' | 'printed' | 'computed' | 'tolerance'
>;

const check = (of: Printed): Check => ({ topic: 'circuit', ...of });

/** IEC 60228:2004, tables 1 to 3, ohm/km at 20 degC as printed. */
const iec60228: readonly (readonly [number, number, number])[] = [
  [0.5, 36.0, 39.0],
  [0.75, 24.5, 26.0],
  [1, 18.1, 19.5],
  [1.5, 12.1, 13.3],
  [2.5, 7.41, 7.98],
  [4, 4.61, 4.95],
  [6, 3.08, 3.3],
  [10, 1.83, 1.91],
];

const iec60228Checks = iec60228.flatMap(([area_mm2, class2, class5]) =>
  (
    [
      ['class-2', class2],
      ['class-5', class5],
    ] as const
  ).map(([conductorClass, printed]) =>
    check({
      id: `iec60228-${conductorClass}-${area_mm2}mm2`,
      quantity: `highest resistance of ${area_mm2} mm2 ${conductorClass} at 20 degC`,
      source: 'IEC 60228:2004, tables 1 to 3',
      standing: 'secondary',
      unit: 'ohm/km',
      printed,
      computed: 1000 * cableResistance_ohm_per_m(area_mm2, conductorClass),
      tolerance: { absolute: 1e-9 },
    }),
  ),
);

const voltDropTable = (of: {
  readonly table: string;
  readonly standing: Check['standing'];
  readonly conductorClass: ConductorClass;
  readonly conductor_degC: number;
  readonly relative: number;
  readonly rows: readonly (readonly [number, number])[];
}): readonly Check[] =>
  of.rows.map(([area_mm2, printed]) =>
    check({
      id: `bs7671-${of.table}-${area_mm2}mm2`,
      quantity: `drop in two-core ${area_mm2} mm2 at ${of.conductor_degC} degC`,
      source: `BS 7671:2018 appendix 4, table ${of.table}, d.c.`,
      standing: of.standing,
      unit: 'mV/A/m',
      printed,
      computed:
        2000 * resistanceAt(cableResistance_ohm_per_m(area_mm2, of.conductorClass), of.conductor_degC),
      tolerance: { relative: of.relative },
    }),
  );

const bs7671Checks = [
  ...voltDropTable({
    table: '4F3B',
    standing: 'secondary',
    conductorClass: 'class-5',
    conductor_degC: 70,
    relative: 0.02,
    rows: [
      [0.5, 93],
      [0.75, 62],
      [1, 46],
      [1.5, 32],
      [2.5, 19],
      [4, 12],
    ],
  }),
  ...voltDropTable({
    table: '4D1B',
    standing: 'memory',
    conductorClass: 'class-2',
    conductor_degC: 70,
    relative: 0.025,
    rows: [
      [1, 44],
      [1.5, 29],
      [2.5, 18],
      [4, 11],
      [6, 7.3],
    ],
  }),
  ...voltDropTable({
    table: '4E4B',
    standing: 'secondary',
    conductorClass: 'class-2',
    conductor_degC: 90,
    relative: 0.025,
    rows: [
      [1.5, 31],
      [2.5, 19],
      [4, 12],
      [6, 7.9],
    ],
  }),
];

const foot_m = 0.3048;

const awgChecks = [
  ...(
    [
      [24, 0.5106, 84.22],
      [18, 1.0237, 20.95],
      [10, 2.5882, 3.277],
    ] as const
  ).flatMap(([gauge, diameter_mm, ohm_per_km]) => [
    check({
      id: `awg-${gauge}-diameter`,
      quantity: `diameter of ${gauge} AWG`,
      source: 'ASTM B258; NBS Handbook 100',
      standing: 'secondary',
      unit: 'mm',
      printed: diameter_mm,
      computed: awgDiameter_mm(gauge),
      tolerance: { relative: 0.001 },
    }),
    check({
      id: `awg-${gauge}-resistance`,
      quantity: `resistance of solid ${gauge} AWG at 20 degC`,
      source: 'ASTM B258; NBS Handbook 100',
      standing: 'secondary',
      unit: 'ohm/km',
      printed: ohm_per_km,
      computed: 1000 * awgResistance_ohm_per_m(gauge),
      tolerance: { relative: 0.001 },
    }),
  ]),
  ...(
    [
      [18, 7.77],
      [16, 4.89],
      [14, 3.07],
      [12, 1.93],
      [10, 1.21],
    ] as const
  ).map(([gauge, printed]) =>
    check({
      id: `nec-table8-${gauge}awg`,
      quantity: `resistance of solid uncoated ${gauge} AWG at 75 degC`,
      source: 'NFPA 70 (NEC), chapter 9, table 8',
      standing: gauge === 10 ? 'memory' : 'secondary',
      unit: 'ohm/kft',
      printed,
      computed: resistanceAt(awgResistance_ohm_per_m(gauge), 75) * 1000 * foot_m,
      tolerance: { relative: 0.005 },
    }),
  ),
];

const traceChecks = (
  [
    [3, 1, 164],
    [4, 2, 61.6],
    [5, 3, 32.8],
  ] as const
).map(([width_mm, weight_oz, printed]) =>
  check({
    id: `trace-${width_mm}mm-${weight_oz}oz`,
    quantity: `rail of ${width_mm} mm in ${weight_oz} oz copper`,
    source: 'R = rho/(w t), rho 1.724e-8 ohm m, 1 oz 35 um',
    standing: 'derived',
    unit: 'mohm/m',
    printed,
    computed: 1000 * traceResistance_ohm_per_m(width_mm / 1000, weight_oz),
    tolerance: { relative: 0.003 },
  }),
);

/** Drop over a length that includes the return, fed to one load of constant current. */
const loopDrop_V = (of: { ohm_per_ft: number; loop_ft: number; amps: number; source_V: number }): number => {
  const loads = [{ at_m: (of.loop_ft / 2) * foot_m, amps: of.amps }];
  const wire_ohm_per_m = of.ohm_per_ft / foot_m;
  const solution = solveTextbook(pointLoads({ source_V: of.source_V, wire_ohm_per_m, loads }));
  return of.source_V - solution.runs[0]!.lowest_V;
};

const faaChecks = (
  [
    ['14awg-100ft', 0.00306, 100, 6.12, 0.005],
    ['12awg-88ft', 0.00202, 88, 3.6, 0.015],
    ['4awg-90ft', 0.00028, 90, 0.504, 0.005],
    ['10awg-39ft', 0.00126, 39, 0.98, 0.005],
    ['10awg-156ft', 0.00126, 156, 3.93, 0.005],
    ['10awg-273ft', 0.00126, 273, 6.88, 0.005],
  ] as const
).map(([name, ohm_per_ft, loop_ft, printed, relative]) =>
  check({
    id: `faa-${name}`,
    quantity: `drop at 20 A, ${ohm_per_ft} ohm/ft, ${loop_ft} ft with return`,
    source: 'FAA AC 43.13-1B, tables 11-7 and 11-8',
    standing: 'secondary',
    unit: 'V',
    printed,
    computed: loopDrop_V({ ohm_per_ft, loop_ft, amps: 20, source_V: 28 }),
    tolerance: { relative },
  }),
);

const trainingCheck = check({
  id: 'nec-16awg-100ft-4a',
  quantity: 'drop at 4 A in 100 ft of 16 AWG pair, 4.99 ohm/kft',
  source: 'training example on NFPA 70 (NEC), chapter 9, table 8',
  standing: 'secondary',
  unit: 'V',
  printed: 3.99,
  computed: loopDrop_V({ ohm_per_ft: 0.00499, loop_ft: 200, amps: 4, source_V: 24 }),
  tolerance: { relative: 0.005 },
});

const mehta = 'Mehta and Mehta, Principles of Power System, chapter 13';

const mehtaMain = solveTextbook(
  pointLoads({
    source_V: 300,
    wire_ohm_per_m: 0.01e-3,
    loads: [
      { at_m: 500, amps: 100 },
      { at_m: 1000, amps: 150 },
      { at_m: 1600, amps: 200 },
      { at_m: 2000, amps: 50 },
    ],
  }),
);

const pointLoadChecks = [295, 291, 288, 287.6].map((printed, i) =>
  check({
    id: `mehta-13.1-load-${i + 1}`,
    quantity: `volts at load ${i + 1} of a 300 V main`,
    source: `${mehta}, example 13.1`,
    standing: 'secondary',
    unit: 'V',
    printed,
    computed: mehtaMain.runs[i]!.lowest_V,
    tolerance: { absolute: 0.002 },
  }),
);

const uniform = (length_m: number, amps_per_m: number, wire_ohm_per_m: number) =>
  feeder({ length_m, unitCount: length_m, wire_ohm_per_m, law: constantCurrent(amps_per_m) });

const loopAt = (solution: ReturnType<typeof solveTextbook>, cutLine: number): number =>
  solution.runs[0]!.positivePad_V[cutLine]! - solution.runs[0]!.channels[0]!.returnPad_V[cutLine]!;

const street200 = solveTextbook(fedFrom(uniform(200, 2, 0.3e-3), 220));
const street200Both = solveTextbook(fedFrom(uniform(200, 2, 0.3e-3), 220, 220));
const street500 = solveTextbook(fedFrom(uniform(500, 1, 0.1e-3), 255, 250));
const street1000 = solveTextbook(fedFrom(uniform(1000, 0.5, 0.05e-3), 220, 220));
const street300 = solveTextbook(fedFrom(uniform(300, 0.75, 0.09e-3), 250));
const street300Both = solveTextbook(fedFrom(uniform(300, 0.75, 0.09e-3), 250, 250));
const street800 = solveTextbook(fedFrom(uniform(800, 1.25, 0.05e-3), 232.656, 227.656));

const uniformRows: readonly (readonly [string, string, Check['standing'], string, number, number, number])[] =
  [
    [
      'uniform-200m-at-150m',
      '200 m, 2 A/m, 0.3 mohm/m a wire: drop to 150 m',
      'memory',
      'V',
      22.5,
      220 - loopAt(street200, 150),
      0.002,
    ],
    ['uniform-200m-end', 'the same, drop to the end', 'memory', 'V', 24, 220 - loopAt(street200, 200), 0.002],
    [
      'uniform-200m-both',
      'the same, fed at both ends: drop to the middle',
      'derived',
      'V',
      6,
      220 - loopAt(street200Both, 100),
      0.002,
    ],
    [
      'uniform-500m-lowest',
      '500 m, 1 A/m, 0.1 mohm/m a wire, 255 and 250 V: at 300 m',
      'memory',
      'V',
      246,
      loopAt(street500, 300),
      0.002,
    ],
    [
      'uniform-500m-lowest-unit',
      'the same, distance of the lowest volts',
      'memory',
      'm',
      300,
      street500.runs[0]!.channels[0]!.lowestUnit + 0.5,
      1,
    ],
    [
      'uniform-500m-start-amps',
      'the same, current from the 255 V end',
      'memory',
      'A',
      300,
      street500.sources[0]!.current_A,
      0.02,
    ],
    [
      'uniform-500m-finish-amps',
      'the same, current from the 250 V end',
      'memory',
      'A',
      200,
      street500.sources[1]!.current_A,
      0.02,
    ],
    [
      'uniform-1000m-both',
      '1000 m, 0.5 A/m, 0.05 mohm/m a wire, 220 V at both ends: middle',
      'memory',
      'V',
      213.75,
      loopAt(street1000, 500),
      0.002,
    ],
    [
      'uniform-300m-at-200m',
      '300 m, 0.75 A/m, 0.18 mohm/m loop, 250 V: at 200 m',
      'derived',
      'V',
      244.6,
      loopAt(street300, 200),
      0.002,
    ],
    [
      'uniform-300m-loss',
      'the same, watts lost in the wires',
      'derived',
      'W',
      911.25,
      street300.stripCopper_W,
      0.05,
    ],
    [
      'uniform-300m-loss-both',
      'the same fed at both ends',
      'derived',
      'W',
      227.8,
      street300Both.stripCopper_W,
      0.05,
    ],
    [
      'uniform-800m-lowest',
      '800 m, 1.25 A/m, 0.05 mohm/m a wire, 232.656 and 227.656 V: at 450 m',
      'derived',
      'V',
      220,
      loopAt(street800, 450),
      0.002,
    ],
  ];

const uniformChecks = uniformRows.map(([id, quantity, standing, unit, printed, computed, absolute]) =>
  check({
    id,
    quantity,
    source: `${mehta}, uniformly loaded distributors`,
    standing,
    unit,
    printed,
    computed,
    tolerance: { absolute },
  }),
);

const amps = 0.4166667 * 0.05;
const strip = (law: Parameters<typeof feeder>[0]['law']) =>
  feeder({ length_m: 5, unitCount: 100, wire_ohm_per_m: 0.12315 / 2, law });
const constant = strip({ ...constantCurrent(amps) });
const resistive = strip(straightLine({ nominal_V: 24, knee_V: 0, amps }));
const knee = strip(straightLine({ nominal_V: 24, knee_V: 18.2, amps }));
const oneEnd = (run: typeof constant, lead_ohm = 0) => solveTextbook(fedFrom(run, 24, undefined, lead_ohm));
const ladder = oneEnd(resistive, (0.12315 / 2) * 0.025);

const stripRows: readonly (readonly [string, string, string, number, number, number])[] = [
  [
    'strip-constant-current',
    'end volts, constant current',
    'V',
    23.3586,
    oneEnd(constant).runs[0]!.lowest_V,
    1e-3,
  ],
  ['strip-resistive', 'end volts, resistive units', 'V', 23.3726, oneEnd(resistive).runs[0]!.lowest_V, 1e-3],
  [
    'strip-knee',
    'end volts, units with a knee at 18.2 V',
    'V',
    23.4128,
    oneEnd(knee).runs[0]!.lowest_V,
    1e-3,
  ],
  ['strip-knee-input', 'input current of the same', 'A', 1.9422, oneEnd(knee).sources[0]!.current_A, 1e-3],
  [
    'strip-constant-current-both',
    'middle volts, constant current, fed at both ends',
    'V',
    23.8396,
    solveTextbook(fedFrom(constant, 24, 24)).runs[0]!.lowest_V,
    1e-3,
  ],
  [
    'strip-resistive-both',
    'middle volts, resistive units, fed at both ends',
    'V',
    23.8405,
    solveTextbook(fedFrom(resistive, 24, 24)).runs[0]!.lowest_V,
    1e-3,
  ],
  [
    'strip-knee-both',
    'middle volts, units with a knee, fed at both ends',
    'V',
    23.8433,
    solveTextbook(fedFrom(knee, 24, 24)).runs[0]!.lowest_V,
    1e-3,
  ],
  [
    'ladder-end',
    'last unit of 100 with a whole unit of copper before each',
    'V',
    23.36644,
    ladder.runs[0]!.lowest_V,
    1e-4,
  ],
  ['ladder-input', 'input current of the same', 'A', 2.04645, ladder.sources[0]!.current_A, 1e-5],
];

const stripChecks = stripRows.map(([id, quantity, unit, printed, computed, absolute]) =>
  check({
    id,
    quantity: `24 V, 10 W/m, 5 m, 0.12315 ohm/m loop: ${quantity}`,
    source:
      'u" = r g u in closed form (Kersting, Distribution System Modeling and Analysis, ch. 3, for constant current), finite differences alike',
    standing: 'derived',
    unit,
    printed,
    computed,
    tolerance: { absolute },
  }),
);

/** Published and hand-worked values for copper, feeders and strips. */
export const circuitChecks: readonly Check[] = [
  ...iec60228Checks,
  ...bs7671Checks,
  ...awgChecks,
  ...traceChecks,
  ...faaChecks,
  trainingCheck,
  ...pointLoadChecks,
  ...uniformChecks,
  ...stripChecks,
];
