import type { Quantity, Working } from '../answer/workings.ts';
import { sectionOf, type Zone } from './lit-zone.ts';
import { between, given, made, product, workingOf } from './working.ts';

/** What the warm strip gives of the light on its data sheet, where that says what it loses. */
function warmShare({ warm }: Zone['sized']['light']): Quantity[] {
  if (!warm) return [];
  const { strip_degC, fluxShare } = warm;
  return [
    given(
      'w',
      fluxShare,
      'ratio',
      `light of the strip at ${strip_degC.toFixed(0)} °C, as a part of that at 25 °C`,
      'its data sheet, at the temperature of the strip',
    ),
  ];
}

/** Brightness of the slot at full, in proportion to the light of the strip. */
function atFull(zone: Zone): Quantity[] {
  const { light, products } = zone.sized;
  const flux = products.strip.channels.reduce((all, { lumens_per_m }) => all + lumens_per_m, 0);
  const full = sectionOf(zone).full_cd_per_m2;
  const share = light.warm?.fluxShare ?? 1;
  return [
    given('Φ', flux, 'lm/m', 'light of a metre of strip, all channels at full', 'its data sheet'),
    given(
      'y',
      flux > 0 ? full / share / flux : 0,
      'cd/m² per lm/m',
      'brightness of a slot for each lumen of that',
      'light in the cavity, face to face (radiosity)',
    ),
    ...warmShare(light),
    made(
      'L_full',
      full,
      'cd/m²',
      'brightness of a slot at full',
      product(light.warm ? ['Φ', 'y', 'w'] : ['Φ', 'y']),
    ),
  ];
}

/** Light of the channels at their levels, as a part of all at full. */
function levelOf(zone: Zone): Quantity[] {
  const { sized, lit } = zone;
  const { full_cd_per_m2 } = sectionOf(zone);
  const cooler = lit.fluxShare === undefined ? 1 : lit.fluxShare / (sized.light.warm?.fluxShare ?? 1);
  const share = full_cd_per_m2 > 0 ? lit.luminance_cd_per_m2 / full_cd_per_m2 / cooler : 0;
  const isOne = sized.products.strip.channels.length === 1;
  return [
    given(
      's',
      share,
      'ratio',
      isOne ? 'working level' : 'light of all channels at their working levels, as a part of full',
      'the job',
    ),
    ...(lit.fluxShare === undefined
      ? []
      : [given('c', cooler, 'ratio', 'more light of the cooler strip at that level', 'its data sheet')]),
    made(
      'L',
      lit.luminance_cd_per_m2,
      'cd/m²',
      'brightness at the working level',
      product(lit.fluxShare === undefined ? ['L_full', 's'] : ['L_full', 's', 'c']),
    ),
  ];
}

/** Brightness at the working level against the part of what is wanted below which the difference is seen. */
export function brightnessWorking(zone: Zone, met: number): Working {
  const { wanted_cd_per_m2 } = zone.lit;
  return workingOf(
    [
      ...atFull(zone),
      ...levelOf(zone),
      given('L_want', wanted_cd_per_m2, 'cd/m²', 'brightness wanted', 'the job'),
      given('m', met, 'ratio', 'part of it that looks like all of it', 'judgement: a tenth less goes unseen'),
      between('L_min', 'cd/m²', 'the least it must reach', product(['L_want', 'm'])),
    ],
    {
      result: 'L',
      limit: 'L_min',
      must: 'reach',
      turns: ['s', 'Φ'],
    },
  );
}

/** The same against where a slot in the line of sight glares. */
export function glareWorking(zone: Zone, from_cd_per_m2: number): Working {
  return workingOf(
    [
      ...atFull(zone),
      ...levelOf(zone),
      given(
        'L_max',
        from_cd_per_m2,
        'cd/m²',
        'from here on it glares',
        'judgement after IES Lighting Handbook and UGR',
      ),
    ],
    { result: 'L', limit: 'L_max', must: 'not exceed', turns: ['s'] },
  );
}

/** Contrast of the LEDs along the slot against what the eye can just see. */
export function rippleWorking(zone: Zone): Working | undefined {
  const { threshold } = zone.lit;
  const { job, products } = zone.sized;
  if (!(threshold > 0)) return undefined;
  return workingOf(
    [
      given(
        'c',
        sectionOf(zone).ripple,
        'ratio',
        'contrast of light and dark along the slot',
        `light in the cavity; LEDs ${(1000 / products.strip.lampsPerMetre).toFixed(1)} mm apart`,
      ),
      given(
        'c_eye',
        threshold,
        'ratio',
        `contrast the eye can just see from ${job.light.viewing_mm} mm away`,
        'Barten 2003 (secondary)',
      ),
    ],
    { result: 'c', limit: 'c_eye', must: 'not exceed', turns: [] },
  );
}
