import { uprightLayerResistance_m2K_per_W } from '../src/heat/air-layer.ts';
import { surfaceResistance_m2K_per_W, type WallLayer, wallResistance } from '../src/heat/wall-layers.ts';
import { wallMaterials } from '../src/heat/wall-materials.ts';
import type { Check } from './check.ts';

function check(
  id: string,
  [quantity, unit]: readonly [quantity: string, unit: string],
  source: string,
  values: { printed: number; computed: number; tolerance: Check['tolerance'] },
  standing: Check['standing'] = 'secondary',
): Check {
  return { id: `heat-wall-${id}`, topic: 'heat', quantity, unit, source, standing, ...values };
}

const solid = (
  thickness_mm: number,
  conductivity_W_per_mK: number,
  bridge: WallLayer['bridge'] = null,
): WallLayer => ({ thickness_m: thickness_mm / 1000, conductivity_W_per_mK, emissivity: null, bridge });

const air = (thickness_mm: number, emissivity: number | null = null): WallLayer => ({
  ...{ thickness_m: thickness_mm / 1000, conductivity_W_per_mK: null, emissivity, bridge: null },
});

const bridged = (share: number, conductivity_W_per_mK: number) => ({ share, conductivity_W_per_mK });

const { inside, outside } = surfaceResistance_m2K_per_W;

/** A worked example by its layers and what is printed of it. */
interface Example {
  readonly id: string;
  readonly name: string;
  readonly layers: readonly WallLayer[];
  readonly upper: number;
  readonly lower: number;
  readonly U: number;
}

const examples: readonly Example[] = [
  {
    ...{ id: 'timber-frame', name: 'timber framed wall, studs 15 %', upper: 3.435, lower: 3.304, U: 0.297 },
    layers: [
      solid(102, 0.77),
      air(50),
      solid(9, 0.13),
      solid(140, 0.04, bridged(0.15, 0.12)),
      solid(12.5, 0.21),
    ],
  },
  {
    ...{ id: 'masonry', name: 'blocks with mortar 6.7 %, studs 11.8 %', upper: 3.617, lower: 3.136, U: 0.3 },
    layers: [
      solid(102, 0.77),
      air(50),
      solid(125, 0.11, bridged(0.067, 0.88)),
      solid(89, 0.038, bridged(0.118, 0.13)),
      solid(12.5, 0.21),
    ],
  },
];

const handbook =
  'Scottish building standards, technical handbook 6.B, worked examples of U-values by the combined method (BS EN ISO 6946)';

function exampleChecks({ id, name, layers, upper, lower, U }: Example): Check[] {
  const { upper_m2K_per_W, lower_m2K_per_W, resistance_m2K_per_W } = wallResistance(layers, inside + outside);
  const thousandths = { absolute: 0.0015 };
  return [
    check(`${id}-upper`, [`${name}: upper limit`, 'm²K/W'], handbook, {
      ...{ printed: upper, computed: upper_m2K_per_W, tolerance: thousandths },
    }),
    check(`${id}-lower`, [`${name}: lower limit`, 'm²K/W'], handbook, {
      ...{ printed: lower, computed: lower_m2K_per_W, tolerance: thousandths },
    }),
    check(`${id}-u`, [`${name}: U-value`, 'W/(m²K)'], handbook, {
      ...{
        printed: U,
        computed: 1 / resistance_m2K_per_W,
        tolerance: { absolute: U === 0.3 ? 0.005 : 0.0005 },
      },
    }),
  ];
}

/** Upright layers as printed. */
const printedAir = [
  [5, 0.11],
  [7, 0.13],
  [10, 0.15],
  [15, 0.17],
  [25, 0.18],
  [50, 0.18],
  [300, 0.18],
] as const;

const airChecks = printedAir.flatMap(([thickness_mm, printed]): Check[] => {
  const source = 'ISO 6946:2007, Table 2, horizontal';
  const what = `air layer of ${thickness_mm} mm`;
  const ordinary = uprightLayerResistance_m2K_per_W(thickness_mm / 1000, null);
  const byFormula = uprightLayerResistance_m2K_per_W(thickness_mm / 1000, 0.9);
  return [
    check(`air-${thickness_mm}mm`, [what, 'm²K/W'], source, {
      ...{ printed, computed: ordinary, tolerance: { absolute: 1e-9 } },
    }),
    check(`air-${thickness_mm}mm-formula`, [`${what}, emissivity given as 0.9`, 'm²K/W'], source, {
      ...{ printed, computed: byFormula, tolerance: { absolute: 0.005 } },
    }),
  ];
});

/** ISO 10456:2007 Table 3, gypsum plaster of 1000 kg/m3 and concrete of 1800 kg/m3. */
const materialChecks = [
  check(
    'plaster',
    ['gypsum plaster, 1000 kg/m³', 'W/(m·K)'],
    'ISO 10456:2007, Table 3',
    { printed: 0.4, computed: wallMaterials.plaster.conductivity_W_per_mK, tolerance: { absolute: 0.005 } },
    'memory',
  ),
  check(
    'concrete',
    ['concrete, 1800 kg/m³', 'W/(m·K)'],
    'ISO 10456:2007, Table 3',
    { printed: 1.15, computed: wallMaterials.concrete.conductivity_W_per_mK, tolerance: { absolute: 0.005 } },
    'memory',
  ),
];

/** Walls by layers, ISO 6946: the combined method and layers of air. */
export const heatWallChecks: readonly Check[] = [
  ...examples.flatMap(exampleChecks),
  ...airChecks,
  ...materialChecks,
];
