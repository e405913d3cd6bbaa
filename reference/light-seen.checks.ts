import { relativeLight } from '../src/circuit/strip-law.ts';
import { hexColour, linearRgb, planckianChromaticity } from '../src/light/colour.ts';
import { contrastSensitivity, cyclesPerDegree, peakSensitivity } from '../src/light/contrast-sensitivity.ts';
import { dotVerdict } from '../src/light/dots.ts';
import { neighbourLimits } from '../src/light/evenness.ts';
import { michelsonContrast } from '../src/light/lamp-row.ts';
import type { Check } from './check.ts';
import { fallContrast } from './laws/fall-contrast.ts';
import { lowRiskModulation } from './laws/flicker.ts';
import { fullContrastSensitivity, pupilDiameter_mm } from './laws/full-contrast-sensitivity.ts';
import { luminanceAtRating, unifiedGlareRating } from './laws/glare.ts';
import { rowHarmonics } from './laws/lamp-row.ts';
import { reflectanceFromLightness } from './laws/lightness.ts';

const barten2003 = 'Barten, Proc. SPIE 5294, 231 (2003), short form';
const barten1999 = 'Barten, Contrast Sensitivity of the Human Eye (1999)';

type Row = Omit<Check, 'topic' | 'standing'> & { readonly standing?: Check['standing'] };

const light = (row: Row): Check => ({ topic: 'light', standing: 'secondary', ...row });

/** Luminance, field, and the printed sensitivity at 0.5, 1, 2, 4, 8, 16 and 30 cycles per degree. */
const shortTable = [
  [10, 10, [222.5, 382.4, 488.4, 393.1, 213.1, 76.4, 11.8]],
  [100, 2, [60.0, 117.5, 216.5, 328.3, 317.9, 154.1, 29.7]],
  [100, 5, [139.1, 264.9, 446.1, 547.3, 406.4, 167.2, 30.5]],
  [100, 10, [226.9, 410.7, 609.0, 633.7, 426.1, 169.4, 30.6]],
  [500, 10, [227.5, 414.8, 631.9, 710.2, 538.2, 227.5, 43.0]],
] as const;

const frequencies_per_deg = [0.5, 1, 2, 4, 8, 16, 30] as const;

const short: Check[] = shortTable.flatMap(([luminance, field_deg, values]) =>
  values.map((printed, i) => {
    const u = frequencies_per_deg[i] ?? 0;
    return light({
      id: `barten-short-${luminance}-${field_deg}-${u}`,
      quantity: `Contrast sensitivity at ${u} cycles per degree, ${luminance} cd/m2, field ${field_deg} degrees`,
      source: barten2003,
      unit: '1',
      printed,
      computed: contrastSensitivity(u, { luminance_cd_per_m2: luminance, field_deg }),
      tolerance: { relative: printed > 100 ? 0.001 : 0.005 },
    });
  }),
);

const peak = peakSensitivity({ luminance_cd_per_m2: 100, field_deg: 10 });
const wideField = { luminance_cd_per_m2: 100, width_deg: 60, height_deg: 60 };

const bartens: Check[] = [
  light({
    id: 'barten-short-peak',
    quantity: 'Highest contrast sensitivity at 100 cd/m2, field 10 degrees',
    source: barten2003,
    unit: '1',
    printed: 655.3,
    computed: peak.sensitivity,
    tolerance: { relative: 0.001 },
  }),
  light({
    id: 'barten-short-peak-at',
    quantity: 'Where it lies',
    source: barten2003,
    unit: 'cycles/degree',
    printed: 3.04,
    computed: peak.frequency_per_deg,
    tolerance: { absolute: 0.005 },
  }),
  light({
    id: 'barten-pupil',
    quantity: 'Pupil diameter at 100 cd/m2, field 60 x 60 degrees',
    source: barten1999,
    unit: 'mm',
    printed: 2.07776,
    computed: pupilDiameter_mm(wideField),
    tolerance: { absolute: 1e-5 },
  }),
  light({
    id: 'barten-full',
    quantity:
      'Contrast sensitivity, full formula, at 4 cycles per degree, 20 cd/m2, pupil 2.1 mm, 60 x 60 degrees',
    source: barten1999,
    unit: '1',
    printed: 360.869,
    computed: fullContrastSensitivity(4, { ...wideField, luminance_cd_per_m2: 20 }, 2.1),
    tolerance: { absolute: 1e-3 },
  }),
  ...(
    [
      [1, 170],
      [2, 268],
      [4, 340],
    ] as const
  ).map(([u, printed]) =>
    light({
      id: `barten-full-slot-${u}`,
      quantity: `Contrast sensitivity, full formula, in a slot 0.86 x 53 degrees at ${u} cycles per degree, 100 cd/m2`,
      source: barten1999,
      standing: 'derived',
      unit: '1',
      printed,
      computed: fullContrastSensitivity(u, { luminance_cd_per_m2: 100, width_deg: 0.86, height_deg: 53 }),
      tolerance: { absolute: 1 },
    }),
  ),
];

const cycles: Check[] = (
  [
    [5, 1, 3.49],
    [8.33, 2, 4.19],
    [16.67, 0.3, 0.314],
    [16.67, 1, 1.05],
    [33.3, 3, 1.57],
  ] as const
).map(([pitch_mm, distance_m, printed]) =>
  light({
    id: `cycles-per-degree-${pitch_mm}-${distance_m}`,
    quantity: `Pitch ${pitch_mm} mm seen from ${distance_m} m`,
    source: 'Geometry',
    standing: 'derived',
    unit: 'cycles/degree',
    printed,
    computed: cyclesPerDegree({ pitch_m: pitch_mm / 1000, distance_m }),
    tolerance: { relative: 0.005 },
  }),
);

/** Pitch, depth, viewing distance [mm, mm, m] and the printed visibility at 100 cd/m2. */
const dots: Check[] = (
  [
    [16.67, 16.67, 1, 11.6],
    [16.67, 25, 1, 0.72],
    [16.67, 16.67, 2, 16.8],
    [8.33, 16.67, 1, 0.06],
    [16.67, 8.33, 1, 149],
  ] as const
).map(([pitch_mm, depth_mm, viewingDistance_m, printed]) => {
  const lampPitch_m = pitch_mm === 16.67 ? 1 / 60 : 1 / 120;
  const distance_m = depth_mm === 25 ? 0.025 : depth_mm === 8.33 ? 1 / 120 : 1 / 60;
  const michelson = michelsonContrast(rowHarmonics({ exponent: 1, distance_m, lampPitch_m }));
  return light({
    id: `dots-${pitch_mm}-${depth_mm}-${viewingDistance_m}`,
    quantity: `Visibility of bare lamps ${pitch_mm} mm apart, ${depth_mm} mm deep, from ${viewingDistance_m} m, 100 cd/m2`,
    source: `${barten2003}, times the ripple of a long row`,
    standing: 'derived',
    unit: '1',
    printed,
    computed: dotVerdict({ michelson, lampPitch_m, viewingDistance_m, luminance_cd_per_m2: 100 }).visibility,
    tolerance: printed === 0.06 ? { absolute: 0.005 } : { relative: 0.01 },
  });
});

const slotSource = { area_m2: 0.06, distance_m: 2, positionIndex: 1 };

const glare: Check[] = [
  ...(
    [
      [100, 2.2],
      [200, 7.0],
      [500, 13.4],
      [1000, 18.18],
      [1125, 19.0],
      [2000, 23.0],
      [4000, 27.8],
    ] as const
  ).map(([luminance, printed]) =>
    light({
      id: `ugr-${luminance}`,
      quantity: `Glare rating of a slot of 0.06 m2 at ${luminance} cd/m2, 2 m away, background 20 cd/m2`,
      source: 'CIE 117, Discomfort glare in interior lighting',
      unit: '1',
      printed,
      computed: unifiedGlareRating([{ ...slotSource, luminance_cd_per_m2: luminance }], 20),
      tolerance: { absolute: 0.05 },
    }),
  ),
  light({
    id: 'ugr-19-luminance',
    quantity: 'Luminance at which that slot reaches 19',
    source: 'CIE 117, Discomfort glare in interior lighting',
    unit: 'cd/m2',
    printed: 1125,
    computed: luminanceAtRating(19, slotSource, 20),
    tolerance: { relative: 0.01 },
  }),
];

/** Colour temperature, fitted xy and the screen colour, as printed. */
const colourTable = [
  [1800, 0.5496, 0.4081, '#ff7e00'],
  [2200, 0.5054, 0.4152, '#ff962f'],
  [2400, 0.4857, 0.4147, '#ffa042'],
  [2700, 0.4593, 0.4107, '#ffad59'],
  [3000, 0.4366, 0.4042, '#ffb86d'],
  [3500, 0.4053, 0.3909, '#ffc78b'],
  [4000, 0.3805, 0.3767, '#ffd3a5'],
  [5000, 0.345, 0.3516, '#ffe6d0'],
  [6500, 0.3135, 0.3237, '#fff9fe'],
] as const;

const channel = (hex: string, at: number): number => Number.parseInt(hex.slice(1 + 2 * at, 3 + 2 * at), 16);

const colours: Check[] = colourTable.flatMap(([temperature_K, x, y, hex]) => {
  const fitted = planckianChromaticity(temperature_K);
  const drawn = hexColour(linearRgb(fitted));
  const source = 'Kim et al., cubic fit of the Planckian locus';
  const tolerance = { absolute: 2e-4 };
  return [
    light({
      id: `colour-x-${temperature_K}`,
      quantity: `x at ${temperature_K} K`,
      source,
      unit: '1',
      printed: x,
      computed: fitted.x,
      tolerance,
    }),
    light({
      id: `colour-y-${temperature_K}`,
      quantity: `y at ${temperature_K} K`,
      source,
      unit: '1',
      printed: y,
      computed: fitted.y,
      tolerance,
    }),
    ...['red', 'green', 'blue'].map((name, i) =>
      light({
        id: `colour-${name}-${temperature_K}`,
        quantity: `${name} at ${temperature_K} K, of 255`,
        source: 'IEC 61966-2-1, XYZ to sRGB, largest channel full',
        unit: '1',
        printed: channel(hex, i),
        computed: channel(drawn, i),
        tolerance: { absolute: 1 },
      }),
    ),
  ];
});

const whitePoint = linearRgb({ x: 0.3127, y: 0.329 });

const white: Check = light({
  id: 'colour-d65-white',
  quantity: 'Least channel of D65 white',
  source: 'IEC 61966-2-1: the white of sRGB is D65',
  standing: 'memory',
  unit: '1',
  printed: 1,
  computed: Math.min(...whitePoint),
  tolerance: { absolute: 2e-3 },
});

const falls: Check[] = (
  [
    [0.05, 0.026],
    [0.1, 0.0526],
    [0.2, 0.111],
    [0.3, 0.176],
    [0.5, 0.333],
  ] as const
).map(([fall, printed]) =>
  light({
    id: `fall-michelson-${fall}`,
    quantity: `Michelson contrast of a fall of ${100 * fall} %`,
    source: 'F/(2 - F)',
    standing: 'derived',
    unit: '1',
    printed,
    computed: fallContrast(fall),
    tolerance: { absolute: fall === 0.1 ? 1e-4 : 6e-4 },
  }),
);

const huDavis = 'Hu and Davis, Opt. Express 24, A885 (2016)';

const neighbours: Check[] = [
  light({
    id: 'hu-davis-detect',
    quantity: 'Difference between two views noticed half the time',
    source: huDavis,
    unit: '1',
    printed: 0.074,
    computed: neighbourLimits.unseen,
    tolerance: { absolute: 0 },
  }),
  light({
    id: 'hu-davis-accept',
    quantity: 'Difference accepted as matching, least figure',
    source: huDavis,
    unit: '1',
    printed: 0.178,
    computed: neighbourLimits.fine,
    tolerance: { absolute: 0 },
  }),
  light({
    id: 'hu-davis-step',
    quantity: 'Usable control step on luminaire faces, least figure',
    source: 'Hu and Davis, luminance differences on luminaire faces',
    unit: '1',
    printed: 0.26,
    computed: neighbourLimits.noticed,
    tolerance: { absolute: 0 },
  }),
];

const flicker: Check[] = (
  [
    [100, 0.08],
    [120, 0.096],
  ] as const
).map(([frequency_Hz, printed]) =>
  light({
    id: `flicker-${frequency_Hz}`,
    quantity: `Largest modulation of low risk at ${frequency_Hz} Hz`,
    source: 'IEEE 1789-2015',
    standing: 'memory',
    unit: '1',
    printed,
    computed: lowRiskModulation(frequency_Hz),
    tolerance: { absolute: 1e-9 },
  }),
);

const lightness: Check[] = (
  [
    [20, 0.03],
    [45, 0.145],
    [50, 0.184],
    [65, 0.341],
    [70, 0.408],
    [80, 0.567],
    [90, 0.763],
  ] as const
).map(([reading, printed]) =>
  light({
    id: `lightness-${reading}`,
    quantity: `Reflectance at lightness ${reading}`,
    source: 'CIE 015:2018, lightness turned round',
    standing: 'memory',
    unit: '1',
    printed,
    computed: reflectanceFromLightness(reading),
    tolerance: { absolute: 6e-4 },
  }),
);

const dimmed: Check = light({
  id: 'flux-at-half-current',
  quantity: 'Light of a white LED array at 0.5263 of its current, re-integrated from measured spectra',
  source: 'Published spectra of a chip-on-board array, weighted with V(lambda)',
  unit: '1',
  printed: 0.553,
  computed: relativeLight(0.5263),
  tolerance: { relative: 0.01 },
});

/** Light as the eye and the screen meet it. */
export const lightSeenChecks: readonly Check[] = [
  ...short,
  ...bartens,
  ...cycles,
  ...dots,
  ...glare,
  ...colours,
  white,
  dimmed,
  ...falls,
  ...neighbours,
  ...flicker,
  ...lightness,
];
