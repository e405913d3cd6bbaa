import type { Remedy } from '../answer/findings.ts';
import type { LightZone } from '../answer/light.ts';
import { dimmingFrequency_Hz } from '../job/resolve.ts';
import { levelFields } from '../job/zone-levels.ts';
import { apart, candelas, figures, hertz, levelsOf, mm, percent, wattsPerMetre } from '../words.ts';
import { type Check, limited, reaching, remedy, type Sized, sheet, worst } from './context.ts';

/** Wanted brightness is met from this share of it (judgement: a tenth less goes unseen). */
const met = 0.9;

/** More than this times what was wanted is strip bought for nothing. */
const over = 1.5;

/** Slots dimmed alike, in the wall they are part of. */
interface Zone {
  readonly sized: Sized;
  readonly lit: LightZone;
}

/** Every group of slots that is dimmed alike; where there are several, a finding about one says which. */
const zonesOf = (sized: Sized): Zone[] => sized.light.zones.map((lit) => ({ sized, lit }));

const isOnly = ({ sized }: Zone): boolean => sized.light.zones.length === 1;

/** A title, with the zone where there are several. */
const titled = (title: string, zone: Zone): string => (isOnly(zone) ? title : `${title}, ${zone.lit.name}`);

/** A sentence that begins with its zone where there are several. */
function saidOf(zone: Zone, sentence: string): string {
  const { name } = zone.lit;
  return isOnly(zone) ? sentence : `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${sentence}`;
}

/** The name of a finding: of a zone with levels of its own, with the number of the zone in the job. */
function idOf(id: string, { sized, lit }: Zone): string {
  const number = sized.job.dimming.zones.findIndex(({ name }) => name === lit.zone) + 1;
  return number === 0 ? id : `${id}-${number}`;
}

const fieldsOf = ({ sized, lit }: Zone) => levelFields(sized.job, lit.zone);

/** The working levels of a zone in words: "the working level of 15 %". */
function working({ sized, lit }: Zone): string {
  const said = levelsOf(lit.levels.working, sized.products.strip.channels);
  return said.includes('(') ? `the working levels of ${said}` : `the working level of ${said}`;
}

/** The levels that give what is wanted, as they go into the field. */
function setLevels({ sized, lit }: Zone): string {
  const { channels } = sized.products.strip;
  const said = levelsOf(lit.neededLevels, channels);
  const several = channels.length > 1;
  const of = lit.zone === null ? '' : ` of ${lit.zone}`;
  return `the working level${several ? 's' : ''}${of} to ${said}${several && !said.includes('(') ? ' each' : ''}`;
}

/** What to do about a slot that is too dark: turn it up where that is enough, else more light. */
function tooDark(zone: Zone): Remedy[] {
  const { neededLevels, needed_W_per_m } = zone.lit;
  if (neededLevels.length > 0) return [remedy(fieldsOf(zone).levels, `Set ${setLevels(zone)}.`)];
  return [
    remedy('strip.entry', `Choose ${wattsPerMetre(needed_W_per_m)} of this kind of strip.`),
    remedy('section.backFinish', 'Give the cavity a whiter finish.'),
  ];
}

const ratioOf = ({ luminance_cd_per_m2, wanted_cd_per_m2 }: LightZone): number =>
  luminance_cd_per_m2 / wanted_cd_per_m2;

/** Less strip, both rated at full, as far as no zone of the wall falls short by it; none where one has just enough. */
function lessStrip({ sized }: Zone): Remedy[] {
  const spare = Math.min(...sized.light.zones.map(ratioOf));
  if (spare <= over) return [];
  const rated_W_per_m = sized.products.strip.channels.reduce((sum, { watts_per_m }) => sum + watts_per_m, 0);
  return [
    remedy(
      'strip.entry',
      `Choose a strip of ${wattsPerMetre(rated_W_per_m / spare)} instead of ${wattsPerMetre(rated_W_per_m)}: it gives this at the same level, with less heat, less drop and smaller drivers.`,
    ),
  ];
}

/** The two ways out of too much light. */
const tooBright = (zone: Zone): Remedy[] => [
  ...lessStrip(zone),
  remedy(fieldsOf(zone).levels, `Set ${setLevels(zone)}.`),
];

/** What reaches a brightness, since an open slot has none of its own. */
const seenWords: Readonly<Record<Sized['light']['seen'], string>> = {
  cover: 'a slot',
  back: 'the lit back seen through the open slot',
  'back through the cover': 'the lit back seen through the cover',
};

/** What a slot reaches beside what is wanted. */
function reached(zone: Zone, ratio: number): string {
  const { seen, full_cd_per_m2 } = zone.sized.light;
  const { luminance_cd_per_m2, wanted_cd_per_m2, neededLevels } = zone.lit;
  const [given, least] = apart(candelas, luminance_cd_per_m2, met * wanted_cd_per_m2);
  const unseen = ratio < 1 ? `, and from ${least} on the difference goes unseen` : '';
  const said = `At ${working(zone)} ${seenWords[seen]} reaches about ${given}; ${candelas(wanted_cd_per_m2)} are wanted${unseen}.`;
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

function brightness(zone: Zone): Check {
  const { lit } = zone;
  const ratio = ratioOf(lit);
  const limit = met * lit.wanted_cd_per_m2;
  const judged = lit.luminance_cd_per_m2 < limit ? 'fails' : ratio > over ? 'watch' : 'passes';
  const open = openBrightness(zone.sized);
  const status = judged === 'passes' && open !== '' ? 'watch' : judged;
  return reaching({
    id: idOf('brightness', zone),
    question: 'light',
    status,
    place: { field: fieldsOf(zone).wanted },
    title: titled('Brightness of a slot at the working level', zone),
    value: lit.luminance_cd_per_m2,
    limit,
    unit: 'cd/m²',
    basis:
      'nine tenths of the wanted brightness in the job, which is that of the working level: a tenth less goes unseen (judgement); finishes and sheets vary by a third',
    sentence: saidOf(zone, `${reached(zone, ratio)}${open}`),
    remedies: judged === 'fails' ? tooDark(zone) : judged === 'watch' ? tooBright(zone) : [],
  });
}

/** How a contrast looks that is so many times what the eye can just see. */
function dotsStatus(visibility: number, { dots }: Sized['limits']): Check['status'] {
  if (visibility < dots.hidden) return 'passes';
  return visibility <= dots.faint ? 'watch' : 'fails';
}

/** Where the lamps themselves are in view no contrast of the lit back hides them, in any zone: nothing passes. */
function lampsShow({ light, limits }: Sized): Check {
  const most = worst(light.zones, ({ visibility }) => visibility);
  return {
    id: 'dots',
    question: 'light',
    status: dotsStatus(most.visibility, limits) === 'fails' ? 'fails' : 'watch',
    place: { field: 'section.cover' },
    title: 'LEDs seen as hot spots',
    value: null,
    limit: null,
    margin: null,
    unit: '',
    basis: 'sight lines through the slot',
    sentence: `${most.dots} Cover the slot with opal acrylic, or put the strip where nobody can see it.`,
  };
}

function ripple(zone: Zone): Check {
  const { sized, lit } = zone;
  const { light, job, limits } = sized;
  return limited({
    id: idOf('dots', zone),
    question: 'light',
    status: dotsStatus(lit.visibility, limits),
    place: { field: 'section.cavity_mm' },
    title: titled('LEDs seen as hot spots', zone),
    value: light.ripple,
    limit: lit.threshold,
    unit: 'ratio',
    basis: 'contrast threshold of a trained eye: Barten 2003, simplified form (secondary)',
    sentence: saidOf(zone, `At the working level, from ${mm(job.light.viewing_mm)} away: ${lit.dots}`),
  });
}

function glare(zone: Zone): Check[] {
  const { luminance_cd_per_m2 } = zone.lit;
  const { limits } = zone.sized;
  if (luminance_cd_per_m2 <= limits.glareFrom_cd_per_m2) return [];
  return [
    limited({
      id: idOf('glare', zone),
      question: 'light',
      status: 'watch',
      place: { field: fieldsOf(zone).wanted },
      title: titled('Glare at the working level', zone),
      value: luminance_cd_per_m2,
      limit: limits.glareFrom_cd_per_m2,
      unit: 'cd/m²',
      basis: 'judgement after IES Lighting Handbook (400 fL in the office) and UGR',
      sentence: saidOf(
        zone,
        `At ${working(zone)} a slot of about ${candelas(luminance_cd_per_m2)} in the line of sight glares: set a lower one, or choose strip with fewer lumens per metre.`,
      ),
    }),
  ];
}

/** The field that changes the frequency: the dimmer where one is chosen. */
const frequencyField = ({ products }: Sized): string =>
  products.dimmer ? 'dimming.dimmer.entry' : 'dimming.pwm_Hz';

function flicker(sized: Sized): Check[] {
  const { job, products, limits, light } = sized;
  const pwm_Hz = dimmingFrequency_Hz(job, products);
  if (pwm_Hz === null) return [];
  const dimmed = light.zones.some(({ levels }) => levels.working.some((level) => level < 1));
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

/** What a zone asks of the dimmer at its lowest, in words. */
function askedAtLowest(zone: Zone, lowest: number, upsideDown: boolean): string {
  const said = `${figures(100 * lowest)} %`;
  const whose = isOnly(zone) ? 'the job' : zone.lit.name;
  if (upsideDown) return `the lowest level of ${whose}, ${said}, lies above its working level: set it lower`;
  if (lowest === 1) return `${whose} asks for no level below full`;
  return `the lowest level of ${whose} is ${said}, about ${candelas(zone.lit.lowest_cd_per_m2!)}`;
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

/** Whether the lowest level of a zone is one that its dimmer, or a common one of its frequency, reaches. */
function dimmingFloor(zone: Zone): Check[] {
  const { lowest, working: levels } = zone.lit.levels;
  const reach = reachOf(zone.sized);
  if (reach === null || lowest === null) return [];
  const { floor } = reach;
  const upsideDown = lowest > Math.max(...levels);
  const status = lowest < floor || upsideDown ? 'watch' : 'passes';
  return [
    reaching({
      id: idOf('dimming-floor', zone),
      question: 'light',
      status,
      place: { field: fieldsOf(zone).lowest },
      title: titled('Lowest level', zone),
      value: lowest,
      limit: floor,
      unit: 'ratio',
      basis: reach.basis,
      sentence: `${reach.who} goes down to about ${figures(100 * floor, 2)} % of full, which the eye takes for some ${percent(Math.sqrt(floor))}; ${askedAtLowest(zone, lowest, upsideDown)}.${lowest >= floor ? '' : ` Look for a dimmer that states so low a level${reach.where}, or choose strip with fewer lumens a metre.`}`,
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

/** Checks of light: brightness, dots, glare, dimming of each zone, and lamps in view. */
export function lightFindings(sized: Sized): Check[] {
  const zones = zonesOf(sized);
  return [
    ...zones.map(brightness),
    ...(sized.light.bareLampsSeen.length > 0 ? [lampsShow(sized)] : zones.map(ripple)),
    ...zones.flatMap(glare),
    ...bareLamps(sized),
    ...flicker(sized),
    ...zones.flatMap(dimmingFloor),
  ];
}
