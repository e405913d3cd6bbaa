import { type Film, nodesAlong, type Rectangle, type Segment } from '../src/heat/conduction.ts';
import type { Check } from './check.ts';
import { cavityConductivity_W_per_mK } from './laws/air-layer.ts';
import {
  type ConductionCase,
  type ConductionSolution,
  solveConduction,
  temperatureAt,
} from './laws/conduction.ts';
import { plateSpreading } from './laws/spreading.ts';

type Standing = Check['standing'];

function check(
  id: string,
  quantity: string,
  unit: string,
  source: string,
  standing: Standing,
  values: { printed: number; computed: number; tolerance: Check['tolerance'] },
): Check {
  return { id: `heat-${id}`, topic: 'heat', quantity, unit, source, standing, ...values };
}

/** As good as a fixed surface temperature. */
const fixed_m2K_per_W = 1e-9;

const rectangle = (
  name: string,
  x: readonly [number, number],
  y: readonly [number, number],
  conductivity: number,
): Rectangle => ({
  name,
  x0: x[0],
  x1: x[1],
  y0: y[0],
  y1: y[1],
  conductivity,
});

// ISO 10211 case 1: half a square column, 28 temperatures as printed.

const columnRows = [
  [1.75, 9.7, 13.4, 14.7, 15.1],
  [1.5, 5.3, 8.6, 10.3, 10.8],
  [1.25, 3.2, 5.6, 7.0, 7.5],
  [1, 2.0, 3.6, 4.7, 5.0],
  [0.75, 1.3, 2.3, 3.0, 3.2],
  [0.5, 0.7, 1.4, 1.8, 1.9],
  [0.25, 0.3, 0.6, 0.8, 0.9],
] as const;
const columnXs = [0.25, 0.5, 0.75, 1] as const;

const columnFilm = (name: string, segment: Segment, air_K: number): Film => ({
  name,
  ...segment,
  resistance_m2K_per_W: fixed_m2K_per_W,
  air_K,
});

const column: ConductionCase = {
  rectangles: [rectangle('column', [0, 1], [0, 2], 1)],
  films: [
    columnFilm('top', { x0: 0, x1: 1, y0: 2, y1: 2 }, 20),
    columnFilm('left', { x0: 0, x1: 0, y0: 0, y1: 2 }, 0),
    columnFilm('bottom', { x0: 0, x1: 1, y0: 0, y1: 0 }, 0),
  ],
  lines: { xs: [0.25, 0.5, 0.75], ys: columnRows.map(([y]) => y) },
};

/** Exact series, y up from the bottom, width 2 of the whole column. */
function columnSeries(x: number, y: number): number {
  let sum = 0;
  for (let n = 1; n < 120; n += 2) {
    const k = (n * Math.PI) / 2;
    // sinh(k*y)/sinh(n*pi), written so that nothing overflows.
    const ratio = Math.exp(k * (y - 2)) * (-Math.expm1(-2 * k * y) / -Math.expm1(-4 * k));
    sum += (Math.sin(k * x) * ratio) / n;
  }
  return (80 / Math.PI) * sum;
}

function columnChecks(): Check[] {
  const solved = solveConduction(column, { finest_m: 1 / 32, growth: 1, coarsest_m: 1 / 32 });
  const source = 'ISO 10211:2007, Annex A, case A.1 (2017: Annex C, case 1)';
  return columnRows.flatMap(([y, ...row]) =>
    columnXs.flatMap((x, k) => {
      const computed = temperatureAt(solved, x, y);
      const at = `x ${x}, y ${y} of a half column 1 wide, 2 high`;
      return [
        check(`iso10211-1-x${x}-y${y}`, at, '°C', source, 'secondary', {
          printed: row[k]!,
          computed,
          tolerance: { absolute: 0.1 },
        }),
        check(
          `iso10211-1-series-x${x}-y${y}`,
          `${at}, exact`,
          '°C',
          'Fourier series of the same case',
          'derived',
          {
            printed: columnSeries(x, y),
            computed,
            tolerance: { absolute: 0.02 },
          },
        ),
      ];
    }),
  );
}

// ISO 10211 case 2: composite section, nine temperatures and the flow as printed.

const mm = (value: number): number => value / 1000;
const inMm = (
  name: string,
  x0: number,
  x1: number,
  y0: number,
  y1: number,
  conductivity: number,
): Rectangle => rectangle(name, [mm(x0), mm(x1)], [mm(y0), mm(y1)], conductivity);

const composite: ConductionCase = {
  rectangles: [
    inMm('insulation', 0, 500, 1.5, 41.5, 0.029),
    inMm('concrete', 0, 500, 41.5, 47.5, 1.15),
    inMm('wood', 0, 15, 36.5, 41.5, 0.12),
    inMm('aluminium face', 0, 500, 0, 1.5, 230),
    inMm('aluminium web', 0, 1.5, 1.5, 36.5, 230),
    inMm('aluminium flange', 0, 15, 35, 36.5, 230),
  ],
  films: [
    { name: 'outside', x0: 0, x1: mm(500), y0: mm(47.5), y1: mm(47.5), resistance_m2K_per_W: 0.06, air_K: 0 },
    { name: 'inside', x0: 0, x1: mm(500), y0: 0, y1: 0, resistance_m2K_per_W: 0.11, air_K: 20 },
  ],
};

const compositePoints = [
  ['A', 0, 47.5, 7.1],
  ['B', 500, 47.5, 0.8],
  ['C', 0, 41.5, 7.9],
  ['D', 15, 41.5, 6.3],
  ['E', 500, 41.5, 0.8],
  ['F', 0, 36.5, 16.4],
  ['G', 15, 36.5, 16.3],
  ['H', 0, 0, 16.8],
  ['I', 500, 0, 18.3],
] as const;

function compositeChecks(): Check[] {
  const grading = { finest_m: 0.0015, growth: 1.4, coarsest_m: 0.02 };
  const solved = solveConduction(composite, grading, 1);
  const source = 'ISO 10211:2007, Annex A, case A.2 (2017: Annex C, case 2)';
  const finer = solveConduction(composite, grading, 2);
  return [
    ...compositePoints.map(([name, x, y, printed]) =>
      check(`iso10211-2-${name}`, `point ${name}`, '°C', source, 'secondary', {
        printed,
        computed: temperatureAt(solved, mm(x), mm(y)),
        tolerance: { absolute: 0.1 },
      }),
    ),
    check('iso10211-2-flow', 'heat flow', 'W/m', source, 'secondary', {
      printed: 9.5,
      computed: solved.flow_W_per_m[0]!,
      tolerance: { absolute: 0.1 },
    }),
    check(
      'iso10211-2-halving',
      'flow on a mesh of twice as many subdivisions over flow',
      '1',
      `${source}: less than 1 %`,
      'secondary',
      {
        printed: 1,
        computed: finer.flow_W_per_m[0]! / solved.flow_W_per_m[0]!,
        tolerance: { absolute: 0.01 },
      },
    ),
    check(
      'iso10211-2-balance',
      'net flow over the sum of flows',
      '1',
      `${source}: less than 1e-4`,
      'memory',
      {
        printed: 0,
        computed: solved.balance,
        tolerance: { absolute: 1e-4 },
      },
    ),
  ];
}

// ISO 10077-2 case D.4: a timber frame with an insulation panel.

function frameCavity(x0: number, x1: number, y0: number, y1: number, ventilation: number): Rectangle {
  const conductivity = cavityConductivity_W_per_mK({
    depth_m: mm(y1 - y0),
    breadth_m: mm(x1 - x0),
    difference_K: 10,
    mean_K: 283.15,
    emissivity1: 0.9,
    emissivity2: 0.9,
  });
  return inMm('cavity', x0, x1, y0, y1, ventilation * conductivity);
}

const frame: ConductionCase = {
  rectangles: [
    inMm('wood', 0, 42, 5, 71, 0.13),
    inMm('wood', 42, 63, 5, 20, 0.13),
    inMm('wood', 68, 110, 5, 20, 0.13),
    inMm('wood', 68, 90, 20, 23, 0.13),
    inMm('wood', 48, 90, 23, 74, 0.13),
    inMm('wood', 26, 90, 74, 88, 0.13),
    inMm('wood', 90, 110, 54, 88, 0.13),
    inMm('gasket', 26, 42, 71, 74, 0.25),
    inMm('gasket', 48, 63, 20, 23, 0.25),
    inMm('gasket', 95, 110, 51, 54, 0.25),
    inMm('gasket', 95, 110, 20, 23, 0.25),
    inMm('panel', 95, 300, 23, 51, 0.035),
    frameCavity(42, 48, 20, 74, 1),
    frameCavity(90, 95, 20, 54, 1),
    frameCavity(63, 68, 5, 23, 2),
  ],
  films: (
    [
      ['cold', 0, 110, 5, 5, 0.04, 0],
      ['cold', 110, 110, 5, 23, 0.04, 0],
      ['cold', 110, 300, 23, 23, 0.04, 0],
      ['warm', 0, 9, 71, 71, 0.13, 20],
      ['warm', 9, 26, 71, 71, 0.2, 20],
      ['warm', 26, 26, 71, 88, 0.2, 20],
      ['warm', 26, 110, 88, 88, 0.13, 20],
      ['warm', 110, 110, 81, 88, 0.13, 20],
      ['warm', 110, 110, 51, 81, 0.2, 20],
      ['warm', 110, 140, 51, 51, 0.2, 20],
      ['warm', 140, 300, 51, 51, 0.13, 20],
    ] as const
  ).map(([name, x0, x1, y0, y1, resistance_m2K_per_W, air_K]) => ({
    name,
    x0: mm(x0),
    x1: mm(x1),
    y0: mm(y0),
    y1: mm(y1),
    resistance_m2K_per_W,
    air_K,
  })),
};

function frameChecks(): Check[] {
  const solved = solveConduction(frame, { finest_m: 0.001, growth: 1.5, coarsest_m: 0.01 });
  const cold = solved.flow_W_per_m.slice(0, 3).reduce((sum, flow) => sum + flow, 0);
  const conductance = cold / 20;
  const panel = 1 / (0.028 / 0.035 + 0.17);
  const source = 'ISO 10077-2:2012, Annex D, case D.4';
  return [
    check('iso10077-d4-l2d', 'two-dimensional conductance', 'W/(m·K)', source, 'memory', {
      printed: 0.346,
      computed: conductance,
      tolerance: { relative: 0.03 },
    }),
    check('iso10077-d4-uf', 'transmittance of the frame', 'W/(m²·K)', source, 'memory', {
      printed: 1.36,
      computed: (conductance - panel * 0.19) / 0.11,
      tolerance: { relative: 0.03 },
    }),
  ];
}

// Closed forms: a strip source on a slab, a line source on a fin, the corner of a wall.

/** Mean rise under the source of 1 W/m on a slab with a film on its far side, solved on half of it. */
function stripOnSlab(slab: { a: number; b: number; t: number; conductivity: number; film: number }): number {
  const under: Segment = { x0: 0, x1: slab.a, y0: slab.t, y1: slab.t };
  const problem: ConductionCase = {
    rectangles: [rectangle('slab', [0, slab.b], [0, slab.t], slab.conductivity)],
    films: [{ name: 'far', x0: 0, x1: slab.b, y0: 0, y1: 0, resistance_m2K_per_W: 1 / slab.film, air_K: 0 }],
    sources: [{ ...under, heat_W_per_m: 0.5 }],
  };
  return meanAlong(
    solveConduction(problem, { finest_m: slab.a / 25, growth: 1.4, coarsest_m: slab.b / 20 }, 1),
    under,
  );
}

function meanAlong(solved: ConductionSolution, segment: Segment): number {
  const along = nodesAlong(solved.network, segment);
  const length = along.reduce((sum, n) => sum + n.length_m, 0);
  return along.reduce((sum, n) => sum + n.length_m * solved.temperature_K[n.node]!, 0) / length;
}

const slabSource = 'strip source on a slab, plane form of M. M. Yovanovich, Y. S. Muzychka, J. R. Culham';
const slabs = [
  ['timber', { a: 0.005, b: 0.1, t: 0.018, conductivity: 0.13, film: 7.692 }, 7.44, 0.005],
  ['aluminium-18', { a: 0.005, b: 0.1, t: 0.018, conductivity: 160, film: 8 }, 0.633, 0.005],
  ['aluminium-1.5', { a: 0.005, b: 0.05, t: 0.0015, conductivity: 160, film: 8 }, 1.2783, 0.005],
] as const;

function finChecks(): Check[] {
  const fin: ConductionCase = {
    rectangles: [rectangle('fin', [0, 0.1], [0, 0.0015], 160)],
    films: [{ name: 'film', x0: 0, x1: 0.1, y0: 0, y1: 0, resistance_m2K_per_W: 1 / 8, air_K: 0 }],
    sources: [{ x0: 0, x1: 0, y0: 0, y1: 0.0015, heat_W_per_m: 5 }],
  };
  const solved = solveConduction(fin, { finest_m: 0.0004, growth: 1.3, coarsest_m: 0.005 });
  const spread = plateSpreading({
    heat_W_per_m: 10,
    halfStrip_m: 1e-5,
    halfWidth_m: 0.1,
    thickness_m: 0.0015,
    conductivity_W_per_mK: 160,
    film_W_per_m2K: 8,
  });
  const source = 'fin equation: q/(2·sqrt(h·λ·t)·tanh(mL))';
  const values = { printed: 6.929, tolerance: { relative: 0.001 } };
  return [
    check(
      'fin-line-source',
      'centre of a 1.5 mm aluminium plate, 10 W/m, closed form',
      'K',
      source,
      'derived',
      {
        ...values,
        computed: spread.peak_K + 10 / (0.2 * 8),
      },
    ),
    check('fin-field', 'centre of the same plate, field', 'K', source, 'derived', {
      ...values,
      computed: temperatureAt(solved, 0, 0.0015),
    }),
  ];
}

function cornerCheck(): Check {
  const film = (
    name: string,
    x: readonly [number, number],
    y: readonly [number, number],
    air_K: number,
  ): Film => ({
    name,
    x0: x[0],
    x1: x[1],
    y0: y[0],
    y1: y[1],
    resistance_m2K_per_W: fixed_m2K_per_W,
    air_K,
  });
  const wall: ConductionCase = {
    rectangles: [rectangle('leg', [0, 5], [0, 1], 1), rectangle('leg', [0, 1], [0, 5], 1)],
    films: [
      film('outer', [0, 5], [0, 0], 0),
      film('outer', [0, 0], [0, 5], 0),
      film('inner', [1, 5], [1, 1], 1),
      film('inner', [1, 1], [1, 5], 1),
    ],
  };
  const solved = solveConduction(wall, { finest_m: 0.01, growth: 1.15, coarsest_m: 0.2 });
  return check(
    'square-corner',
    'shape factor of a square corner over its legs',
    '1',
    'conformal mapping of a right-angled corner',
    'derived',
    {
      printed: 0.559,
      computed: solved.flow_W_per_m[0]! + solved.flow_W_per_m[1]! - 8,
      tolerance: { absolute: 0.003 },
    },
  );
}

/** Conduction in the plane: standards' cases and closed forms. */
export const heatConductionChecks: readonly Check[] = [
  ...columnChecks(),
  ...compositeChecks(),
  ...frameChecks(),
  ...slabs.map(([name, slab, printed, relative]) =>
    check(`strip-on-slab-${name}`, 'mean rise under the strip per W/m', 'K·m/W', slabSource, 'derived', {
      printed,
      computed: stripOnSlab(slab),
      tolerance: { relative },
    }),
  ),
  ...finChecks(),
  cornerCheck(),
];
