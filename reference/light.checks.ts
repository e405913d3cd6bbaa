import { cavityLight, type SlotLight } from '../src/light/cavity.ts';
import { lampExponent, michelsonContrast, relativeLight } from '../src/light/lamp-row.ts';
import type { LitSection, Sheet } from '../src/light/section.ts';
import { directExchange } from '../src/numeric/view-factors.ts';
import type { Check } from './check.ts';
import { lengthExcess, opposedRectangles, perpendicularRectangles } from './laws/finite-length.ts';
import { endFade, flattestPairSpacing, rowHarmonics, rowMean_lx } from './laws/lamp-row.ts';

const moreno = 'Moreno, Avendano-Alejo, Tzonchev, Appl. Opt. 45, 2265 (2006)';
const poisson = 'Long row of lamps by Poisson summation, equal to a sum over 4001 lamps';
const twoWays = 'Worked cavity 60 x 40 mm, slot 30 mm: radiosity and a million counted rays agree';

type Row = Pick<Check, 'id' | 'quantity' | 'source' | 'unit' | 'printed' | 'computed' | 'tolerance'> & {
  readonly standing?: Check['standing'];
};

const light = (row: Row): Check => ({ topic: 'light', standing: 'derived', ...row });

const exponents: Check[] = [
  ...(
    [
      [60, 1.0],
      [30, 4.8188],
      [45, 2.0],
      [55, 1.247],
      [65, 0.805],
      [70, 0.646],
    ] as const
  ).map(([angle, printed]) =>
    light({
      id: `lamp-exponent-${angle}`,
      quantity: `Exponent of a lamp at half intensity at ${angle} degrees`,
      source: moreno,
      standing: 'memory',
      unit: '1',
      printed,
      computed: lampExponent(angle),
      tolerance: { absolute: angle === 60 || angle === 30 ? 1e-4 : 5e-4 },
    }),
  ),
  light({
    id: 'pair-flat-intensity',
    quantity: 'Flattest spacing of two lamps over distance, intensity cos^1',
    source: moreno,
    unit: '1',
    printed: 0.8944,
    computed: flattestPairSpacing(1),
    tolerance: { absolute: 1e-4 },
  }),
  light({
    id: 'pair-flat-irradiance',
    quantity: 'Flattest spacing of two lamps over distance, irradiance cos^1/r^2',
    source: moreno,
    standing: 'memory',
    unit: '1',
    printed: 1.0,
    computed: flattestPairSpacing(0),
    tolerance: { absolute: 1e-4 },
  }),
];

const rowRipple = (distanceOverPitch: number): number =>
  michelsonContrast(rowHarmonics({ exponent: 1, distance_m: distanceOverPitch, lampPitch_m: 1 }));

const ripples: Check[] = (
  [
    [0.25, 0.85, 1e-3],
    [0.5, 0.35008, 0],
    [0.75, 0.1025, 0],
    [0.8, 0.079, 0],
    [1, 0.0272, 0],
    [1.25, 0.00687, 0],
    [1.5, 0.0016825, 0],
    [2, 9.46e-5, 0],
  ] as const
).map(([distance, printed, absolute]) =>
  light({
    id: `row-ripple-${distance}`,
    quantity: `Michelson ripple of a long row, distance ${distance} pitches, m = 1`,
    source: poisson,
    unit: '1',
    printed,
    computed: rowRipple(distance),
    tolerance: absolute > 0 ? { absolute } : { relative: 0.005 },
  }),
);

/** Printed depth over pitch at which the first harmonic falls to a share of the mean, and that share. */
const amplitudes: Check[] = (
  [
    [65, 0.734, 0.1],
    [65, 1.156, 0.01],
    [60, 0.755, 0.1],
    [60, 1.183, 0.01],
    [60, 1.47, 0.002],
    [55, 0.781, 0.1],
    [55, 1.505, 0.002],
    [45, 0.854, 0.1],
    [45, 1.306, 0.01],
    [45, 1.605, 0.002],
  ] as const
).map(([angle, distance, printed]) =>
  light({
    id: `row-amplitude-${angle}-${distance}`,
    quantity: `First harmonic of a long row, half angle ${angle} degrees, distance ${distance} pitches`,
    source: poisson,
    unit: '1',
    printed,
    computed: rowHarmonics({ exponent: lampExponent(angle), distance_m: distance, lampPitch_m: 1 })[0] ?? 0,
    tolerance: { relative: 0.01 },
  }),
);

const strip60 = { exponent: 1, distance_m: 0.02, lampPitch_m: 1 / 60 };
const stripMean = rowMean_lx({
  ...{ exponent: 1, flux_lm_per_m: 1000 },
  ...{ lampHeight_m: 0.02, planeHeight_m: 0.02, distance_m: 0.02 },
});

const rows: Check[] = (
  [
    ['row-above-lamp', 'Above a lamp', 25_227, stripMean * relativeLight(rowHarmonics(strip60), 0)],
    ['row-midway', 'Midway between lamps', 24_773, stripMean * relativeLight(rowHarmonics(strip60), 0.5)],
    ['row-mean-illuminance', 'Mean', 25_000, stripMean],
    [
      'row-end-plane',
      'At the end plane of a 2 m row',
      12_387,
      stripMean * relativeLight(rowHarmonics(strip60), 0.5) * endFade(1, 0, 0.02),
    ],
  ] as const
).map(([id, quantity, printed, computed]) =>
  light({
    id,
    quantity: `${quantity}: 60 lamps and 1000 lm per metre, 20 mm away, m = 1`,
    source: poisson,
    unit: 'lx',
    printed,
    computed,
    tolerance: { relative: 0.001 },
  }),
);

function workedCavity(reflectance: number, sheet: Sheet | null): SlotLight {
  const section: LitSection = {
    ...{ width_m: 0.06, endless: false, depth_m: 0.04, slotWidth_m: 0.03, slotOffset_m: 0 },
    strip: { mount: 'back', offset_m: 0, flux_lm_per_m: 1000, lampPitch_m: 1 / 60, halfAngle_deg: 60 },
    reflectance: { back: reflectance, sides: reflectance, front: reflectance },
    sheet,
    reveal: { depth_m: 0, reflectance: 0 },
  };
  const answer = cavityLight(section);
  if (!answer.ok) throw new RangeError(answer.issues.map((i) => i.sentence).join(' '));
  return answer.value;
}

const opal: Sheet = { transmittance: 0.55, reflectance: 0.35 };

const openCavity: Check[] = (
  [
    [0, 0.3511],
    [0.05, 0.3546],
    [0.2, 0.3692],
    [0.4, 0.4019],
    [0.7, 0.514],
    [0.8, 0.5927],
    [0.85, 0.6498],
    [0.95, 0.8353],
  ] as const
).map(([reflectance, printed]) =>
  light({
    id: `cavity-out-${reflectance}`,
    quantity: `Share of the strip's light out of the open slot, faces ${reflectance}`,
    source: twoWays,
    unit: '1',
    printed,
    computed: workedCavity(reflectance, null).outShare,
    tolerance: { relative: 0.005 },
  }),
);

const closedCavity: Check[] = (
  [
    [0.8, 0.3839, 4073],
    [0.4, 0.2312, 2454],
    [0.15, 0.203, 2152],
  ] as const
).flatMap(([reflectance, out, luminance]) => {
  const computed = workedCavity(reflectance, opal);
  return [
    light({
      id: `cavity-sheet-out-${reflectance}`,
      quantity: `Share of the strip's light out through a sheet 0.55/0.35, faces ${reflectance}`,
      source: twoWays,
      unit: '1',
      printed: out,
      computed: computed.outShare,
      tolerance: { relative: 0.005 },
    }),
    light({
      id: `cavity-sheet-luminance-${reflectance}`,
      quantity: `Luminance of that sheet at 1000 lm/m, faces ${reflectance}`,
      source: twoWays,
      unit: 'cd/m2',
      printed: luminance,
      computed: computed.seen_cd_per_m2,
      tolerance: { relative: 0.005 },
    }),
  ];
});

const worked = workedCavity(0.8, null);

/** Share of what a horizontal line from 0 to `width` sends to a facet of its enclosure. */
const fromFloor = (width: number, x0: number, y0: number, x1: number, y1: number): number =>
  directExchange({ x0: 0, y0: 0, x1: width, y1: 0 }, { x0, y0, x1, y1 }) / width;

/** Case, what is varied, and the printed and computed view factors. */
const factors = [
  ...(
    [
      [0.25, 0.7808],
      [0.5, 0.618],
      [1, 0.41421],
      [2, 0.2361],
      [4, 0.1231],
    ] as const
  ).map(
    ([h, printed]) => [`opposed-${h}`, `C-1, gap ${h} widths`, printed, fromFloor(1, 1, h, 0, h)] as const,
  ),
  ...(
    [
      [0.25, 0.1096],
      [0.5, 0.191],
      [1, 0.29289],
      [2, 0.382],
      [4, 0.4385],
    ] as const
  ).map(
    ([h, printed]) =>
      [`perpendicular-${h}`, `C-3, height ${h} widths`, printed, fromFloor(1, 1, 0, 1, h)] as const,
  ),
  ...(
    [
      [60, 0.5],
      [90, 0.2929],
      [120, 0.134],
    ] as const
  ).map(([angle, printed]) => {
    const turn = ((180 - angle) * Math.PI) / 180;
    const computed = fromFloor(1, 1, 0, 1 + Math.cos(turn), Math.sin(turn));
    return [`angle-${angle}`, `equal plates at ${angle} degrees`, printed, computed] as const;
  }),
  ['unequal-60-30', 'centred plates 60 and 30 at 40', 0.2915, fromFloor(60, 45, 40, 15, 40)] as const,
  ['unequal-30-60', 'centred plates 30 and 60 at 40', 0.5829, fromFloor(30, 45, 40, -15, 40)] as const,
  ['slot-2d', 'C-1, 30 wide at 40', 0.3333, fromFloor(30, 30, 40, 0, 40)] as const,
  [
    'slot-3d',
    'C-11, 2 m by 30 mm at 40 mm',
    0.3289,
    opposedRectangles({ a_m: 0.03, b_m: 2, gap_m: 0.04 }),
  ] as const,
  [
    'opposed-3d',
    'C-11, 1 by 1.5 at 0.5',
    0.4756,
    opposedRectangles({ a_m: 1, b_m: 1.5, gap_m: 0.5 }),
  ] as const,
  ['opposed-3d-cube', 'C-11, 1 by 1 at 1', 0.1998, opposedRectangles({ a_m: 1, b_m: 1, gap_m: 1 })] as const,
  [
    'perpendicular-3d',
    'C-14, 1 and 1, edge 0.5',
    0.1493,
    perpendicularRectangles({ w_m: 1, h_m: 1, edge_m: 0.5 }),
  ] as const,
  [
    'perpendicular-3d-cube',
    'C-14, 1 and 1, edge 1',
    0.2,
    perpendicularRectangles({ w_m: 1, h_m: 1, edge_m: 1 }),
  ] as const,
];

const formFactors: Check[] = factors.map(([id, quantity, printed, computed]) =>
  light({
    id: `form-factor-${id}`,
    quantity: `View factor, ${quantity}`,
    source: 'Howell, A Catalog of Radiation Configuration Factors',
    standing: 'secondary',
    unit: '1',
    printed,
    computed,
    tolerance: { absolute: 1e-4 },
  }),
);

const excess: Check = light({
  id: 'form-factor-length-excess',
  quantity: 'Excess of the two-dimensional view factor, 2 m by 30 mm at 40 mm, endless cavity',
  source: 'Ratio of the catalogue cases C-1 and C-11',
  unit: '1',
  printed: 0.013,
  computed: lengthExcess(
    {
      ...{ width_m: 0.06, endless: true, depth_m: 0.04, slotWidth_m: 0.03, slotOffset_m: 0, sheet: null },
      strip: { mount: 'back', offset_m: 0, flux_lm_per_m: 1000, lampPitch_m: 1 / 60, halfAngle_deg: 60 },
      reflectance: { back: 0.8, sides: 0.8, front: 0.8 },
      reveal: { depth_m: 0, reflectance: 0 },
    },
    2,
  ),
  tolerance: { absolute: 5e-4 },
});

const cavityProof: Check[] = [
  light({
    id: 'cavity-direct-share',
    quantity: "Share of the strip's light straight through a 30 mm slot 40 mm away",
    source:
      'Line source under parallel strip edges, (sin a2 - sin a1)/2; Howell, A Catalog of Radiation Configuration Factors',
    standing: 'memory',
    unit: '1',
    printed: 0.3511,
    computed: (worked.slotPlane.direct_lx * 0.03) / 1000,
    tolerance: { absolute: 1e-4 },
  }),
  light({
    id: 'cavity-balance',
    quantity: 'Light out plus light absorbed over light in',
    source: twoWays,
    unit: '1',
    printed: 1,
    computed: 1 - worked.balanceResidual,
    tolerance: { absolute: 1e-6 },
  }),
];

/** Light: rows of lamps and cavities. */
export const lightChecks: readonly Check[] = [
  ...exponents,
  ...ripples,
  ...amplitudes,
  ...rows,
  ...openCavity,
  ...closedCavity,
  ...cavityProof,
  ...formFactors,
  excess,
];
