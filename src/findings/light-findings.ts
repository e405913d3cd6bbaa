import type { Remedy } from '../answer/findings.ts';
import { dimmingFrequency_Hz } from '../job/resolve.ts';
import { apart, candelas, figures, hertz, levelsOf, mm, percent, wattsPerMetre } from '../words.ts';
import { type Check, limited, reaching, remedy, type Sized, sheet } from './context.ts';

/** Wanted brightness is met from this share of it (judgement: a tenth less goes unseen). */
const met = 0.9;

/** More than this times what was wanted is strip bought for nothing. */
const over = 1.5;

/** The working levels of a job in words: "the working level of 15 %". */
function working({ light, products }: Sized): string {
  const said = levelsOf(light.levels.working, products.strip.channels);
  return said.includes('(') ? `the working levels of ${said}` : `the working level of ${said}`;
}

/** The levels that give what is wanted, as they go into the field. */
function setLevels({ light, products }: Sized): string {
  const said = levelsOf(light.neededLevels, products.strip.channels);
  const several = products.strip.channels.length > 1;
  return `the working level${several ? 's' : ''} to ${said}${several && !said.includes('(') ? ' each' : ''}`;
}

const levelField = 'dimming.levels[1]';

/** What to do about a slot that is too dark: turn it up where that is enough, else more light. */
function tooDark(sized: Sized): Remedy[] {
  const { neededLevels, needed_W_per_m } = sized.light;
  if (neededLevels.length > 0) return [remedy(levelField, `Set ${setLevels(sized)}.`)];
  return [
    remedy('strip.entry', `Choose ${wattsPerMetre(needed_W_per_m)} of this kind of strip.`),
    remedy('section.backFinish', 'Give the cavity a whiter finish.'),
  ];
}

/** The two ways out of too much light; both strips are rated at full. */
function tooBright(sized: Sized, ratio: number): Remedy[] {
  const rated_W_per_m = sized.products.strip.channels.reduce((sum, { watts_per_m }) => sum + watts_per_m, 0);
  return [
    remedy(
      'strip.entry',
      `Choose a strip of ${wattsPerMetre(rated_W_per_m / ratio)} instead of ${wattsPerMetre(rated_W_per_m)}: it gives this at the same level, with less heat, less drop and smaller drivers.`,
    ),
    remedy(levelField, `Set ${setLevels(sized)}.`),
  ];
}

/** What reaches a brightness, since an open slot has none of its own. */
const seenWords: Readonly<Record<Sized['light']['seen'], string>> = {
  cover: 'a slot',
  back: 'the lit back seen through the open slot',
  'back through the cover': 'the lit back seen through the cover',
};

/** What a slot reaches beside what is wanted. */
function reached(sized: Sized, ratio: number): string {
  const { seen, luminance_cd_per_m2, full_cd_per_m2, wanted_cd_per_m2, neededLevels } = sized.light;
  const [given, least] = apart(candelas, luminance_cd_per_m2, met * wanted_cd_per_m2);
  const unseen = ratio < 1 ? `, and from ${least} on the difference goes unseen` : '';
  const said = `At ${working(sized)} ${seenWords[seen]} reaches about ${given}; ${candelas(wanted_cd_per_m2)} are wanted${unseen}.`;
  if (ratio > over) return `${said} That is ${ratio.toFixed(1)} times as much.`;
  return ratio >= met || neededLevels.length > 0
    ? said
    : `${said} At full it reaches ${candelas(full_cd_per_m2)}.`;
}

/** A cover that spreads some of the light leaves brightness open, between the back behind it and an opal one. */
function openBrightness({ light, job }: Sized): string {
  if (light.seen !== 'back through the cover') return '';
  return ` The cover, ${job.section.cover}, does not spread light fully, so how bright the slot looks is not known: look at a sample, or take opal acrylic.`;
}

function brightness(sized: Sized): Check {
  const { light } = sized;
  const ratio = light.luminance_cd_per_m2 / light.wanted_cd_per_m2;
  const limit = met * light.wanted_cd_per_m2;
  const judged = light.luminance_cd_per_m2 < limit ? 'fails' : ratio > over ? 'watch' : 'passes';
  const open = openBrightness(sized);
  const status = judged === 'passes' && open !== '' ? 'watch' : judged;
  return reaching({
    id: 'brightness',
    question: 'light',
    status,
    place: { field: 'light.wanted_cd_per_m2' },
    title: 'Brightness of a slot at the working level',
    value: light.luminance_cd_per_m2,
    limit,
    unit: 'cd/m²',
    basis:
      'nine tenths of the wanted brightness in the job, which is that of the working level: a tenth less goes unseen (judgement); finishes and sheets vary by a third',
    sentence: `${reached(sized, ratio)}${open}`,
    remedies: judged === 'fails' ? tooDark(sized) : judged === 'watch' ? tooBright(sized, ratio) : [],
  });
}

/** Where the lamps themselves are in view no contrast of the lit back hides them: nothing passes. */
function lampsShow({ light }: Sized, judged: Check['status']): Check {
  return {
    id: 'dots',
    question: 'light',
    status: judged === 'fails' ? 'fails' : 'watch',
    place: { field: 'section.cover' },
    title: 'LEDs seen as hot spots',
    value: null,
    limit: null,
    margin: null,
    unit: '',
    basis: 'sight lines through the slot',
    sentence: `${light.dots} Cover the slot with opal acrylic, or put the strip where nobody can see it.`,
  };
}

function ripple(sized: Sized): Check {
  const { light, job, limits } = sized;
  const status =
    light.visibility < limits.dots.hidden
      ? 'passes'
      : light.visibility <= limits.dots.faint
        ? 'watch'
        : 'fails';
  if (light.bareLampsSeen.length > 0) return lampsShow(sized, status);
  return limited({
    id: 'dots',
    question: 'light',
    status,
    place: { field: 'section.cavity_mm' },
    title: 'LEDs seen as hot spots',
    value: light.ripple,
    limit: light.threshold,
    unit: 'ratio',
    basis: 'contrast threshold of a trained eye: Barten 2003, simplified form (secondary)',
    sentence: `At the working level, from ${mm(job.light.viewing_mm)} away: ${light.dots}`,
  });
}

function glare(sized: Sized): Check[] {
  const { light, limits } = sized;
  if (light.luminance_cd_per_m2 <= limits.glareFrom_cd_per_m2) return [];
  return [
    limited({
      id: 'glare',
      question: 'light',
      status: 'watch',
      place: { field: 'light.wanted_cd_per_m2' },
      title: 'Glare at the working level',
      value: light.luminance_cd_per_m2,
      limit: limits.glareFrom_cd_per_m2,
      unit: 'cd/m²',
      basis: 'judgement after IES Lighting Handbook (400 fL in the office) and UGR',
      sentence: `At ${working(sized)} a slot of about ${candelas(light.luminance_cd_per_m2)} in the line of sight glares: set a lower one, or choose strip with fewer lumens per metre.`,
    }),
  ];
}

/** The field that changes the frequency: the dimmer where one is chosen. */
const frequencyField = ({ products }: Sized): string =>
  products.dimmer ? 'dimming.dimmer.entry' : 'dimming.pwm_Hz';

function flicker(sized: Sized): Check[] {
  const { job, products, limits } = sized;
  const pwm_Hz = dimmingFrequency_Hz(job, products);
  const { levels } = job.dimming;
  if (pwm_Hz === null) return [];
  const dimmed = levels.some((level) => level < 1);
  const status =
    pwm_Hz > limits.fullModulationFrom_Hz.noEffect
      ? 'passes'
      : pwm_Hz > limits.fullModulationFrom_Hz.lowRisk
        ? 'watch'
        : 'fails';
  return [
    reaching({
      id: 'flicker',
      question: 'light',
      status,
      place: { field: frequencyField(sized) },
      title: 'Dimming frequency',
      value: pwm_Hz,
      limit: limits.fullModulationFrom_Hz.lowRisk,
      unit: 'Hz',
      basis:
        'IEEE 1789-2015 (memory): full-depth switching, low risk above 1,250 Hz, no observable effect above 3,000 Hz',
      sentence: `${dimmed ? 'The strip is dimmed' : 'When dimmed, the strip is switched'} at ${hertz(pwm_Hz)}.${status === 'passes' ? '' : ' A dimmer that switches faster than 3,000 Hz is the calm choice.'}`,
    }),
  ];
}

/** What the job asks of the dimmer at its lowest, in words. */
function askedAtLowest({ light }: Sized, lowest: number, upsideDown: boolean): string {
  const said = `${figures(100 * lowest)} %`;
  if (upsideDown) return `the lowest level of the job, ${said}, lies above its working level: set it lower`;
  if (lowest === 1) return 'the job asks for no level below full';
  return `the lowest level of the job is ${said}, about ${candelas(light.lowest_cd_per_m2!)}`;
}

interface Reach {
  readonly floor: number;
  readonly who: string;
  readonly basis: string;
  /** At what another one is to reach lower. */
  readonly where: string;
}

/** How low the chosen dimmer goes, or a common one of the frequency; null where nothing is known of what dims. */
function reachOf({ job, products: { dimmer }, limits }: Sized): Reach | null {
  if (dimmer)
    return {
      floor: dimmer.lowestLevel,
      who: 'The dimmer',
      basis: sheet(job.dimming.dimmer?.data ?? {}, 'lowestLevel', 'dimmer'),
      where: '',
    };
  const { pwm_Hz } = job.dimming;
  if (pwm_Hz === null) return null;
  return {
    floor: limits.lowestDimLevel(pwm_Hz),
    who: `At ${hertz(pwm_Hz)} a common dimmer`,
    basis: 'shortest clean pulse of a common dimmer, 5 µs (common practice); its data sheet comes first',
    where: ' at this frequency',
  };
}

/** Whether the lowest level of the job is one that its dimmer, or a common one of its frequency, reaches. */
function dimmingFloor(sized: Sized): Check[] {
  const { light } = sized;
  const { lowest } = light.levels;
  const reach = reachOf(sized);
  if (reach === null || lowest === null) return [];
  const { floor } = reach;
  const upsideDown = lowest > Math.max(...light.levels.working);
  const status = lowest < floor || upsideDown ? 'watch' : 'passes';
  return [
    reaching({
      id: 'dimming-floor',
      question: 'light',
      status,
      place: { field: 'dimming.lowest' },
      title: 'Lowest level',
      value: lowest,
      limit: floor,
      unit: 'ratio',
      basis: reach.basis,
      sentence: `${reach.who} goes down to about ${figures(100 * floor, 2)} % of full, which the eye takes for some ${percent(Math.sqrt(floor))}; ${askedAtLowest(sized, lowest, upsideDown)}.${lowest >= floor ? '' : ` Look for a dimmer that states so low a level${reach.where}, or choose strip with fewer lumens a metre.`}`,
    }),
  ];
}

function bareLamps({ light, job }: Sized): Check[] {
  if (light.bareLampsSeen.length === 0) return [];
  const { cover } = job.section;
  const through =
    cover === 'open' ? 'the open slot straight at' : `the ${cover}, which does not spread light fully, at`;
  return [
    {
      id: 'bare-lamps',
      question: 'light',
      status: 'watch',
      place: { field: 'section.strip' },
      title: 'LEDs themselves in view',
      value: null,
      limit: null,
      margin: null,
      unit: '',
      basis:
        'sight lines through the slot; LEDs above 500,000 cd/m² are to be shielded by 30° (EN 12464-1, memory)',
      sentence: `Somebody ${light.bareLampsSeen.join(' or ')} can look through ${through} the LEDs, which are far too bright to look at. Put the strip beside the slot on the inner face of the front, move it off the middle, or cover the slot with opal acrylic.`,
    },
  ];
}

/** Checks of light: brightness, dots, glare, lamps in view, dimming. */
export function lightFindings(sized: Sized): Check[] {
  return [
    brightness(sized),
    ripple(sized),
    ...glare(sized),
    ...bareLamps(sized),
    ...flicker(sized),
    ...dimmingFloor(sized),
  ];
}
