import { candelas, figures, hertz, mm, percent, wattsPerMetre } from '../words.ts';
import { type Check, limited, reaching, type Sized } from './context.ts';

/** Asked-for brightness is met from here (judgement: a tenth less goes unseen). */
const met = 0.9;

/** More than this times what was wanted is strip bought for nothing. */
const over = 1.5;

/** What to do about a slot that is too dark: turn it up where that is enough, else more light. */
function tooDark({ full_cd_per_m2, wanted_cd_per_m2, needed_W_per_m }: Sized['light']): string {
  return full_cd_per_m2 >= wanted_cd_per_m2
    ? `Turn the dimmer up to ${percent(wanted_cd_per_m2 / full_cd_per_m2)} of full.`
    : `That needs ${wattsPerMetre(needed_W_per_m)} of this kind of strip, or a whiter cavity.`;
}

/** What strip that is too bright costs, and the two ways out. */
function tooBright({ light, heat }: Sized, ratio: number): string {
  return `That is ${ratio.toFixed(1)} times as much: ${wattsPerMetre(light.needed_W_per_m)} would do instead of ${wattsPerMetre(heat.strip_W_per_m)}, with less heat, less drop and smaller drivers. Or dim it to ${percent(1 / ratio)} of what it gives now.`;
}

/** What reaches a brightness, since an open slot has none of its own. */
const seenWords: Readonly<Record<Sized['light']['seen'], string>> = {
  cover: 'A slot',
  back: 'The lit back seen through the open slot',
  'back through the cover': 'The lit back seen through the cover',
};

/** A cover that spreads some of the light leaves brightness open, between the back behind it and an opal one. */
function openBrightness({ light, job }: Sized): string {
  if (light.seen !== 'back through the cover') return '';
  return ` The cover, ${job.section.cover}, does not spread light fully, so how bright the slot looks is not known: look at a sample, or take opal acrylic.`;
}

function brightness(sized: Sized): Check {
  const { light } = sized;
  const ratio = light.luminance_cd_per_m2 / light.wanted_cd_per_m2;
  const judged = ratio < met ? 'fails' : ratio > over ? 'watch' : 'passes';
  const remedy =
    judged === 'fails' ? ` ${tooDark(light)}` : judged === 'watch' ? ` ${tooBright(sized, ratio)}` : '';
  const open = openBrightness(sized);
  const status = judged === 'passes' && open !== '' ? 'watch' : judged;
  return reaching({
    id: 'brightness',
    question: 'light',
    status,
    place: { field: 'light.wanted_cd_per_m2' },
    title: 'Brightness of a slot',
    value: light.luminance_cd_per_m2,
    limit: light.wanted_cd_per_m2,
    unit: 'cd/m²',
    basis: 'the wanted brightness in the job; finishes and sheets vary by a third',
    sentence: `${seenWords[light.seen]} reaches about ${candelas(light.luminance_cd_per_m2)}; ${candelas(light.wanted_cd_per_m2)} are wanted.${remedy}${open}`,
  });
}

/** Where the lamps themselves are in view no contrast of the lit back hides them: nothing passes. */
function lampsShow({ light }: Sized, judged: Check['status']): Check {
  return {
    id: 'dots',
    question: 'light',
    status: judged === 'fails' ? 'fails' : 'watch',
    place: { field: 'section.cover' },
    title: 'Lamps seen as dots',
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
      : light.visibility < limits.dots.faint
        ? 'watch'
        : 'fails';
  if (light.bareLampsSeen.length > 0) return lampsShow(sized, status);
  return limited({
    id: 'dots',
    question: 'light',
    status,
    place: { field: 'section.cavity_mm' },
    title: 'Lamps seen as dots',
    value: light.ripple,
    limit: light.threshold,
    unit: 'ratio',
    basis: 'contrast threshold of a trained eye: Barten 2003, simplified form (secondary)',
    sentence: `From ${mm(job.light.viewing_mm)} away: ${light.dots}`,
  });
}

function glare({ light, limits }: Sized): Check[] {
  if (light.luminance_cd_per_m2 <= limits.glareFrom_cd_per_m2) return [];
  return [
    limited({
      id: 'glare',
      question: 'light',
      status: 'watch',
      place: { field: 'light.wanted_cd_per_m2' },
      title: 'Glare',
      value: light.luminance_cd_per_m2,
      limit: limits.glareFrom_cd_per_m2,
      unit: 'cd/m²',
      basis: 'judgement after IES Lighting Handbook (400 fL in the office) and UGR',
      sentence: `At ${candelas(light.luminance_cd_per_m2)} a slot in the line of sight glares: dim it, or choose strip with fewer lumens per metre.`,
    }),
  ];
}

function flicker({ job, limits }: Sized): Check[] {
  const { pwm_Hz, levels } = job.dimming;
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
      place: { field: 'dimming.pwm_Hz' },
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

/** Whether the lowest level of the job is one that a dimmer of its frequency reaches. */
function dimmingFloor({ job, limits }: Sized): Check[] {
  const { pwm_Hz, levels } = job.dimming;
  const lit = levels.filter((level) => level > 0);
  if (pwm_Hz === null || lit.length === 0) return [];
  const lowest = Math.min(...lit);
  const floor = limits.lowestDimLevel(pwm_Hz);
  const status = lowest < floor ? 'watch' : 'passes';
  return [
    reaching({
      id: 'dimming-floor',
      question: 'light',
      status,
      place: { field: 'dimming.levels' },
      title: 'Lowest dimming',
      value: lowest,
      limit: floor,
      unit: 'ratio',
      basis: 'shortest clean pulse of a common dimmer, 5 µs (common practice); its data sheet comes first',
      sentence: `At ${hertz(pwm_Hz)} a common dimmer goes down to about ${figures(100 * floor, 2)} % of full, which the eye takes for some ${percent(Math.sqrt(floor))}; ${lowest < 1 ? `the job dims to ${percent(lowest)}` : 'the job asks for no level below full'}.${status === 'passes' ? '' : ' Look for a dimmer that states so low a level at this frequency, or choose strip with fewer lumens a metre.'}`,
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
      title: 'Lamps themselves in view',
      value: null,
      limit: null,
      margin: null,
      unit: '',
      basis:
        'sight lines through the slot; lamps above 500,000 cd/m² are to be shielded by 30° (EN 12464-1, memory)',
      sentence: `Somebody ${light.bareLampsSeen.join(' or ')} can look through ${through} the lamps, which are far too bright to look at. Put the strip beside the slot on the inner face of the front, move it off the middle, or cover the slot with opal acrylic.`,
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
