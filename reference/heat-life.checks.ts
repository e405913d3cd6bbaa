import { luminousEfficacyOfRadiation_lm_per_W } from '../src/constants.ts';
import { driverLifeRatio } from '../src/drivers/derating.ts';
import { decayBetween, fitDecay, projectedLife } from '../src/heat/life.ts';
import { temperatureLimits } from '../src/heat/limits.ts';
import type { Check } from './check.ts';
import { splitStripWatts } from './laws/led-heat.ts';

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

const tm21 = 'IES TM-21-11, worked example in US DOE slides';
const mille = { relative: 0.001 };

function interpolationChecks(): Check[] {
  const tests = [
    { temperature_K: 328.15, alpha_per_h: 1.684e-6, b: 0.9639 },
    { temperature_K: 358.15, alpha_per_h: 3.354e-6, b: 0.9525 },
  ] as const;
  const outcome = decayBetween(tests, 343.15);
  if (!outcome.ok) throw new RangeError('the worked example has an answer');
  const decay = outcome.value;
  const test = { test_h: 10_000, sampleCount: 20 };
  const life = (share: number) => projectedLife(decay, { ...test, share });
  const of = (printed: number, computed: number) => ({ printed, computed, tolerance: mille });
  return [
    check(
      'tm21-70C-activation',
      'activation energy over Boltzmann constant',
      'K',
      tm21,
      'secondary',
      of(2699, decay.activation_K),
    ),
    check('tm21-70C-prefactor', 'prefactor', '1/h', tm21, 'secondary', of(6.283e-3, decay.prefactor_per_h)),
    check('tm21-70C-b', 'projected first light', '1', tm21, 'secondary', of(0.9582, decay.b)),
    check('tm21-70C-rate', 'decay at 70 °C', '1/h', tm21, 'secondary', of(2.413e-6, decay.alpha_per_h)),
    check(
      'tm21-70C-l70',
      'L70 at 70 °C, projected',
      'h',
      tm21,
      'secondary',
      of(130_131, life(0.7).projected_h),
    ),
    check(
      'tm21-70C-reported',
      'L70 at 70 °C, reported as more than',
      'h',
      tm21,
      'secondary',
      of(60_000, life(0.7).reported_h),
    ),
    check(
      'tm21-70C-l80',
      'L80 at 70 °C, projected',
      'h',
      `${tm21}, recomputed`,
      'derived',
      of(74_784, life(0.8).projected_h),
    ),
    check(
      'tm21-70C-l90',
      'L90 at 70 °C, projected',
      'h',
      `${tm21}, recomputed`,
      'derived',
      of(25_965, life(0.9).projected_h),
    ),
    check(
      'tm21-55C-l70',
      'L70 at 55 °C, projected',
      'h',
      `${tm21}, recomputed`,
      'derived',
      of(189_969, projectedLife(tests[0], { ...test, share: 0.7 }).projected_h),
    ),
    check(
      'tm21-85C-l70',
      'L70 at 85 °C, projected',
      'h',
      `${tm21}, recomputed`,
      'derived',
      of(91_834, projectedLife(tests[1], { ...test, share: 0.7 }).projected_h),
    ),
  ];
}

function fitChecks(): Check[] {
  const readings = (
    [
      [0, 1.0],
      [500, 0.9831],
      [1000, 0.968],
      [2000, 0.9719],
      [3000, 0.9667],
      [4000, 0.9599],
      [5000, 0.9553],
      [6000, 0.9542],
    ] as const
  ).map(([hours, maintenance]) => ({ hours, maintenance }));
  const outcome = fitDecay(readings);
  if (!outcome.ok) throw new RangeError('the data set is long enough');
  const life = projectedLife(outcome.value, { share: 0.7, test_h: 6000, sampleCount: 20 });
  const source = 'IES TM-21-11, data set in US DOE slides, fit recomputed';
  const of = (printed: number, computed: number, relative: number) => ({
    printed,
    computed,
    tolerance: { relative },
  });
  return [
    check('tm21-fit-rate', 'decay', '1/h', source, 'derived', of(3.7296e-6, outcome.value.alpha_per_h, 1e-4)),
    check('tm21-fit-b', 'first light', '1', source, 'derived', of(0.97529, outcome.value.b, 1e-4)),
    check('tm21-fit-l70', 'L70, projected', 'h', source, 'derived', of(88_926, life.projected_h, 1e-3)),
    check(
      'tm21-fit-reported',
      'L70, reported as more than',
      'h',
      source,
      'derived',
      of(36_000, life.reported_h, 1e-9),
    ),
  ];
}

const tenKelvin = [
  [40_000, 85, 105, 10_000],
  [160_000, 65, 85, 40_000],
] as const;

const tenKelvinChecks = tenKelvin.map(([rated_h, rated, at, printed]) =>
  check(
    `ten-kelvin-${rated}-${at}`,
    `life at ${at} °C of ${rated_h} h at ${rated} °C`,
    'h',
    'rule of thumb for electrolytic capacitors',
    'secondary',
    {
      printed,
      computed: rated_h * driverLifeRatio({ caseLimit_degC: rated, case_degC: at }),
      tolerance: { relative: 1e-9 },
    },
  ),
);

const whiteLeds = [311.8, 313.8, 316.9, 319.2, 305.2] as const;

const efficacyCheck = check(
  'ler-phosphor-white',
  'light per optical watt of a phosphor white lamp',
  'lm/W',
  'CIE 015:2018, mean of LED-B1 to LED-B5 with V(λ)',
  'derived',
  {
    printed: whiteLeds.reduce((sum, value) => sum + value, 0) / whiteLeds.length,
    computed: luminousEfficacyOfRadiation_lm_per_W,
    tolerance: { absolute: 15 },
  },
);

const fractions = [
  [80, 315, 0.746],
  [100, 315, 0.683],
  [120, 315, 0.619],
  [150, 315, 0.524],
  [180, 315, 0.429],
  [100, 313.8, 0.681],
] as const;

const fractionChecks = fractions.map(([efficacy_lm_per_W, efficacyOfRadiation_lm_per_W, printed]) =>
  check(
    `fraction-${efficacy_lm_per_W}-${efficacyOfRadiation_lm_per_W}`,
    `heat fraction of a strip of ${efficacy_lm_per_W} lm/W at ${efficacyOfRadiation_lm_per_W} lm per optical watt`,
    '1',
    '1 - efficacy over efficacy of radiation (CIE 015:2018)',
    'derived',
    {
      printed,
      computed: splitStripWatts({
        electrical_W_per_m: 1,
        leavingShare: 1,
        efficacy_lm_per_W,
        efficacyOfRadiation_lm_per_W,
      }).strip_W_per_m,
      tolerance: { absolute: 0.001 },
    },
  ),
);

const limits = [
  ['timber-77', 77, 'Babrauskas, Gray, Janssens, Fire and Materials 31(2), 2007', 'secondary'],
  ['timber-90', 90, 'IEC 60598-1, Table 12.1', 'memory'],
  ['cable-pvc-70', 70, 'IEC 60364-5-52', 'secondary'],
  ['glue-pvac-80', 80, 'EN 14257', 'secondary'],
  ['roomFace-touch-43', 43, 'EN ISO 13732-1:2006, Table 1, 8 h', 'memory'],
  ['roomFace-touch-48', 48, 'EN ISO 13732-1:2006, Table 1, 10 min', 'secondary'],
  ['roomFace-touch-60', 60, 'EN ISO 13732-1:2006, Table 1, 1 min, wood', 'memory'],
  ['roomFace-touch-90', 90, 'IEC 60364-4-42, Table 42.1, non-metallic, not touched', 'secondary'],
] as const;

const allLimits = (['seat or bed head', 'leant on', 'touched', 'not-touched'] as const).flatMap((touch) =>
  temperatureLimits({ touch, stripRating_degC: null }),
);

const limitCheckList = limits.map(([id, printed, source, standing]) =>
  check(`limit-${id}`, `limit ${id}`, '°C', source, standing, {
    printed,
    computed: allLimits.find((limit) => limit.id === id)?.limit_degC ?? Number.NaN,
    tolerance: { absolute: 1e-9 },
  }),
);

/** Life, heat of the strip and limits. */
export const heatLifeChecks: readonly Check[] = [
  ...interpolationChecks(),
  ...fitChecks(),
  ...tenKelvinChecks,
  efficacyCheck,
  ...fractionChecks,
  ...limitCheckList,
];
