import { airAt, rayleigh } from '../src/heat/air.ts';
import { elSherbiny, en673, iso15099, macGregorEmery } from '../src/heat/correlations.ts';
import { materials } from '../src/heat/materials.ts';
import { carried_W_per_K, singleSidedFlow_m3_per_s, stackFlow_m3_per_s } from '../src/heat/openings.ts';
import type { Check } from './check.ts';
import {
  airLayerResistance_m2K_per_W,
  cavityConductivity_W_per_mK,
  type HeatFlow,
} from './laws/air-layer.ts';
import { verticalPlateNusselt } from './laws/vertical-plate.ts';

function check(
  id: string,
  quantity: string,
  unit: string,
  source: string,
  standing: Check['standing'],
  values: { printed: number; computed: number; tolerance: Check['tolerance'] },
): Check {
  return { id: `heat-${id}`, topic: 'heat', quantity, unit, source, standing, ...values };
}

const half = { relative: 0.005 };

function airChecks(): Check[] {
  const air = airAt(300, 100_000);
  const source = 'Incropera et al., Table A.4, air at 300 K';
  return [
    check('air-conductivity', 'conductivity', 'W/(m·K)', source, 'memory', {
      printed: 0.0263,
      computed: air.conductivity_W_per_mK,
      tolerance: half,
    }),
    check('air-viscosity', 'kinematic viscosity', 'm²/s', source, 'memory', {
      printed: 15.89e-6,
      computed: air.kinematicViscosity_m2_per_s,
      tolerance: half,
    }),
    check('air-diffusivity', 'thermal diffusivity', 'm²/s', source, 'memory', {
      printed: 22.5e-6,
      computed: air.diffusivity_m2_per_s,
      tolerance: half,
    }),
    check('air-prandtl', 'Prandtl number', '1', source, 'memory', {
      printed: 707 / 1000,
      computed: air.prandtl,
      tolerance: half,
    }),
    check('air-density', 'density', 'kg/m³', source, 'memory', {
      printed: 1.1614,
      computed: air.density_kg_per_m3,
      tolerance: half,
    }),
  ];
}

/** Resistances of unventilated air layers as printed, by thickness. */
const airLayers = [
  { thickness_mm: 5, up: 0.11, horizontal: 0.11, down: 0.11 },
  { thickness_mm: 7, up: 0.13, horizontal: 0.13, down: 0.13 },
  { thickness_mm: 10, up: 0.15, horizontal: 0.15, down: 0.15 },
  { thickness_mm: 15, up: 0.16, horizontal: 0.17, down: 0.17 },
  { thickness_mm: 25, up: 0.16, horizontal: 0.18, down: 0.19 },
  { thickness_mm: 50, up: 0.16, horizontal: 0.18, down: 0.21 },
  { thickness_mm: 100, up: 0.16, horizontal: 0.18, down: 0.22 },
  { thickness_mm: 300, up: 0.16, horizontal: 0.18, down: 0.23 },
] as const;

function layerChecks(): Check[] {
  const flows: readonly HeatFlow[] = ['up', 'horizontal', 'down'];
  return airLayers.flatMap(({ thickness_mm, ...row }) =>
    flows.map((flow) =>
      check(
        `iso6946-${thickness_mm}mm-${flow}`,
        `air layer of ${thickness_mm} mm, heat ${flow}`,
        'm²K/W',
        'ISO 6946:2007, Table 2',
        'secondary',
        {
          printed: row[flow],
          computed: airLayerResistance_m2K_per_W({
            thickness_m: thickness_mm / 1000,
            difference_K: 5,
            mean_K: 283.15,
            emissivity1: 0.9,
            emissivity2: 0.9,
            flow,
          }),
          tolerance: { absolute: 0.005 },
        },
      ),
    ),
  );
}

const smallCavities = [
  [20, 20, 10, 283.15, 0.091],
  [40, 20, 10, 283.15, 0.0996],
  [20, 40, 10, 283.15, 0.1671],
  [6, 54, 10, 283.15, 0.205],
  [5, 34, 10, 283.15, 0.1303],
  [200, 30, 10, 283.15, 0.1648],
  [200, 30, 15, 313, 0.2131],
] as const;

const cavityChecks = smallCavities.map(([b, d, difference_K, mean_K, printed]) =>
  check(
    `iso10077-cavity-${b}x${d}-${mean_K}`,
    `equivalent conductivity of a cavity ${b} mm across, ${d} mm deep`,
    'W/(m·K)',
    'ISO 10077-2:2012, 6.3, worked out',
    'derived',
    {
      printed,
      computed: cavityConductivity_W_per_mK({
        depth_m: d / 1000,
        breadth_m: b / 1000,
        difference_K,
        mean_K,
        emissivity1: 0.9,
        emissivity2: 0.9,
      }),
      tolerance: half,
    },
  ),
);

function incroperaChecks(): Check[] {
  const source = 'F. P. Incropera et al., Fundamentals of Heat and Mass Transfer, example 9.2 (glass screen)';
  const air = {
    expansion_per_K: 1 / 400,
    kinematicViscosity_m2_per_s: 26.4e-6,
    diffusivity_m2_per_s: 38.3e-6,
  };
  const ra = rayleigh({ length_m: 0.71, difference_K: 209, air });
  const nusselt = verticalPlateNusselt({ rayleigh: ra, prandtl: 0.69 });
  const h = (nusselt * 33.8e-3) / 0.71;
  const percent = { relative: 0.01 };
  return [
    check('incropera-screen-ra', 'Rayleigh number', '1', source, 'memory', {
      printed: 1.813e9,
      computed: ra,
      tolerance: percent,
    }),
    check('incropera-screen-nu', 'Nusselt number', '1', source, 'secondary', {
      printed: 147,
      computed: nusselt,
      tolerance: percent,
    }),
    check('incropera-screen-h', 'coefficient', 'W/(m²·K)', source, 'memory', {
      printed: 7.0,
      computed: h,
      tolerance: percent,
    }),
    check('incropera-screen-q', 'heat', 'W', source, 'memory', {
      printed: 1060,
      computed: h * 0.71 * 1.02 * 209,
      tolerance: percent,
    }),
    check(
      'churchill-chu-147',
      'Nusselt number, Pr 0.69, Gr 2.63e9',
      '1',
      'documented example of a public heat-transfer library',
      'secondary',
      {
        printed: 147.16,
        computed: verticalPlateNusselt({ rayleigh: 0.69 * 2.63e9, prandtl: 0.69 }),
        tolerance: { relative: 0.001 },
      },
    ),
  ];
}

function cengelChecks(): Check[] {
  const source = 'Y. A. Çengel, Heat Transfer, example 9-4 (double window)';
  const air = {
    expansion_per_K: 1 / 280,
    kinematicViscosity_m2_per_s: 1.399e-5,
    diffusivity_m2_per_s: 1.399e-5 / 0.7344,
  };
  const ra = rayleigh({ length_m: 0.02, difference_K: 10, air });
  const nusselt = macGregorEmery({ rayleigh: ra, prandtl: 0.7344, aspect: 40 });
  const h = (nusselt * 0.02416) / 0.02;
  const percent = { relative: 0.01 };
  return [
    check('cengel-window-ra', 'Rayleigh number', '1', source, 'memory', {
      printed: 1.05e4,
      computed: ra,
      tolerance: percent,
    }),
    check('cengel-window-nu', 'Nusselt number', '1', source, 'memory', {
      printed: 1.401,
      computed: nusselt,
      tolerance: percent,
    }),
    check('cengel-window-q', 'heat', 'W', source, 'memory', {
      printed: 27.1,
      computed: h * 1.6 * 10,
      tolerance: percent,
    }),
  ];
}

const gaps = [
  ['elsherbiny', elSherbiny, [1.3034, 3.0024, 6.05], 'S. M. ElSherbiny et al., J. Heat Transfer 104 (1982)'],
  ['iso15099', iso15099, [1.275, 3.128, 6.738], 'ISO 15099:2003, 5.3.3.6'],
] as const;

const gapChecks = gaps.flatMap(([name, law, printed, source]) =>
  [1e4, 1e5, 1e6].map((ra, k) =>
    check(
      `${name}-${ra}`,
      `Nusselt number of a gap, H/L 40, Ra ${ra}`,
      '1',
      `${source}, recomputed`,
      'derived',
      {
        printed: printed[k]!,
        computed: law({ rayleigh: ra, prandtl: 0.71, aspect: 40 }),
        tolerance: { relative: 0.001 },
      },
    ),
  ),
);

const en673Check = check(
  'en673-unity',
  'Nusselt number where convection begins, Ra 6783',
  '1',
  'EN 673:2011, 5.3.2: 0.035·Ra^0.38 = 1',
  'derived',
  {
    printed: 1.0,
    computed: en673({ rayleigh: 6790, prandtl: 0.71, aspect: 40 }),
    tolerance: { absolute: 0.001 },
  },
);

function openingChecks(): Check[] {
  const stack = { low_m2: 0.003, high_m2: 0.003, rise_m: 2.4, inside_K: 303.15, outside_K: 293.15 };
  const source = 'ASHRAE Handbook of Fundamentals, ch. 16, stack flow, worked out';
  const flow = stackFlow_m3_per_s(stack);
  const air = { density_kg_per_m3: 1.165, heatCapacity_J_per_kgK: 1006 };
  return [
    check('stack-0.003', 'flow through two vents of 0.003 m²', 'L/s', source, 'derived', {
      printed: 1.586,
      computed: 1000 * flow,
      tolerance: half,
    }),
    check('stack-0.003-heat', 'heat it carries at 10 K', 'W', source, 'derived', {
      printed: 18.6,
      computed: 10 * carried_W_per_K(flow, air),
      tolerance: half,
    }),
    check('stack-0.001', 'flow through two vents of 0.001 m²', 'L/s', source, 'derived', {
      printed: 0.529,
      computed: 1000 * stackFlow_m3_per_s({ ...stack, low_m2: 0.001, high_m2: 0.001 }),
      tolerance: half,
    }),
    check(
      'bs5925-single-sided',
      'flow through a slot 10 mm by 2.4 m, 10 K',
      'L/s',
      'BS 5925:1991, Table 12: Cd·A/3·sqrt(g·H·ΔT/T), worked out',
      'derived',
      {
        printed: 4.265,
        computed:
          1000 *
          singleSidedFlow_m3_per_s({ area_m2: 0.024, height_m: 2.4, inside_K: 303.15, outside_K: 293.15 }),
        tolerance: { relative: 0.001 },
      },
    ),
  ];
}

const iso10456: readonly (readonly [keyof typeof materials, number])[] = [
  ['timber-450', 0.12],
  ['timber-500', 0.13],
  ['timber-700', 0.18],
  ['plywood-500', 0.13],
  ['plywood-700', 0.17],
  ['mdf-600', 0.14],
  ['mdf-800', 0.18],
  ['particleboard-600', 0.14],
  ['osb', 0.13],
  ['plasterboard-900', 0.25],
  ['aluminium-mill', 160],
  ['aluminium-anodised', 160],
  ['steel', 50],
  ['pmma', 0.18],
  ['polycarbonate', 0.2],
  ['silicone', 0.35],
];

const materialChecks = iso10456.map(([key, printed]) =>
  check(
    `material-${key}`,
    `conductivity of ${materials[key].name}`,
    'W/(m·K)',
    'ISO 10456:2007, Table 3',
    'secondary',
    {
      printed,
      computed: materials[key].conductivity_W_per_mK,
      tolerance: { absolute: 1e-9 },
    },
  ),
);

/** Air, gaps, layers, openings and materials. */
export const heatCavityChecks: readonly Check[] = [
  ...airChecks(),
  ...layerChecks(),
  ...cavityChecks,
  ...incroperaChecks(),
  ...cengelChecks(),
  ...gapChecks,
  en673Check,
  ...openingChecks(),
  ...materialChecks,
];
