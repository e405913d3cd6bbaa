import type { Remedy } from '../answer/findings.ts';
import type { LightZone } from '../answer/light.ts';
import { apart, candelas, degrees, levelsOf, percent, wattsPerMetre } from '../words.ts';
import { type Check, reaching, remedy } from './context.ts';
import { brightnessWorking } from './light-workings.ts';
import { fieldsOf, idOf, type Lit, saidOf, sectionOf, titled, working, type Zone } from './lit-zone.ts';

/** Wanted brightness is met from this share of it (judgement: a tenth less goes unseen). */
const met = 0.9;

/** More than this times what was wanted is strip bought for nothing. */
const over = 1.5;

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
const seenWords: Readonly<Record<Lit['light']['seen'], string>> = {
  cover: 'a slot',
  back: 'the lit back seen through the open slot',
  'back through the cover': 'the lit back seen through the cover',
  'profile cover': 'the cover of the profile',
  profile: 'what shows of the profile',
};

/** What the warmth of the strip costs of its light, which is counted; nothing where its data sheet does not say. */
function lostToWarmth({ sized, lit }: Zone): string {
  const { warm } = sized.light;
  if (!warm || lit.fluxShare === undefined) return '';
  return ` Counted in it is that the warm strip gives ${percent(lit.fluxShare)} of the light on its data sheet at this level, and ${percent(warm.fluxShare)} at full, at about ${degrees(warm.strip_degC)}.`;
}

/** What a slot reaches beside what is wanted. */
function reached(zone: Zone, ratio: number): string {
  const { seen } = zone.sized.light;
  const { full_cd_per_m2 } = sectionOf(zone);
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
function openBrightness({ light, job, products: { profile } }: Lit): string {
  if (light.seen === 'profile')
    return ` ${profile?.cover ? `The ${profile.cover.kind} cover of the profile does not spread all of its light` : 'The profile has no cover that would spread its light'}, so how bright it looks is not known: look at a sample, or take an opal cover.`;
  if (light.seen !== 'back through the cover') return '';
  return ` The cover, ${job.section.cover}, does not spread light fully, so how bright the slot looks is not known: look at a sample, or take opal acrylic.`;
}

/** What a slot of a zone reaches at the working level, against nine tenths of what is wanted; a warning from half as much again. */
export function brightness(zone: Zone): Check {
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
    sentence: saidOf(zone, `${reached(zone, ratio)}${lostToWarmth(zone)}${open}`),
    remedies: judged === 'fails' ? tooDark(zone) : judged === 'watch' ? tooBright(zone) : [],
    working: brightnessWorking(zone, met),
  });
}
