import { candelas, mm } from '../words.ts';
import { brightness } from './brightness-finding.ts';
import { type Check, limited, worst } from './context.ts';
import { dimmingFloor, flicker } from './dimming-findings.ts';
import { glareWorking, rippleWorking } from './light-workings.ts';
import {
  fieldsOf,
  idOf,
  type Lit,
  saidOf,
  sectionOf,
  titled,
  working,
  type Zone,
  zonesOf,
} from './lit-zone.ts';
import { workedOut } from './working.ts';

/** How a contrast looks that is so many times what the eye can just see. */
function dotsStatus(visibility: number, { dots }: Lit['limits']): Check['status'] {
  if (visibility < dots.hidden) return 'passes';
  return visibility <= dots.faint ? 'watch' : 'fails';
}

/** Where the lamps themselves are in view no contrast of the lit back hides them, in any zone: nothing passes. */
function lampsShow({ light, limits, products }: Lit): Check {
  const most = worst(light.zones, ({ visibility }) => visibility);
  return {
    id: 'dots',
    question: 'light',
    status: dotsStatus(most.visibility, limits) === 'fails' ? 'fails' : 'watch',
    place: { field: products.profile ? 'section.profile.cover.entry' : 'section.cover' },
    title: 'LEDs seen as hot spots',
    value: null,
    limit: null,
    margin: null,
    unit: '',
    basis: 'sight lines through the slot',
    sentence: `${most.dots} ${products.profile ? 'Give the profile an opal cover' : 'Cover the slot with opal acrylic'}, or put the strip where nobody can see it.`,
  };
}

function ripple(zone: Zone): Check {
  const { sized, lit } = zone;
  const { light, job, limits } = sized;
  return limited({
    id: idOf('dots', zone),
    question: 'light',
    status: dotsStatus(lit.visibility, limits),
    place: { field: light.seen === 'profile cover' ? 'section.profile.entry' : 'section.cavity_mm' },
    title: titled('LEDs seen as hot spots', zone),
    value: sectionOf(zone).ripple,
    limit: lit.threshold,
    unit: 'ratio',
    basis: 'contrast threshold of a trained eye: Barten 2003, simplified form (secondary)',
    sentence: saidOf(zone, `At the working level, from ${mm(job.light.viewing_mm)} away: ${lit.dots}`),
    ...workedOut(rippleWorking(zone)),
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
      working: glareWorking(zone, limits.glareFrom_cd_per_m2),
    }),
  ];
}

/** What lamps are looked at through. */
function seenThrough({ job, products: { profile } }: Lit): string {
  const { cover, strip } = job.section;
  const slot =
    strip === 'recessed'
      ? ''
      : cover === 'open'
        ? 'the open slot '
        : `the ${cover}, which does not spread light fully, `;
  if (profile === null) return cover === 'open' ? `${slot}straight at` : `${slot}at`;
  return `${slot}${slot === '' ? '' : 'and '}the ${profile.cover ? `${profile.cover.kind} cover` : 'open mouth'} of the profile at`;
}

function bareLamps(sized: Lit): Check[] {
  const { light, products } = sized;
  if (light.bareLampsSeen.length === 0) return [];
  const through = seenThrough(sized);
  const how =
    products.profile === null
      ? 'Put the strip beside the slot on the inner face of the front, move it off the middle, or cover the slot with opal acrylic.'
      : 'Give the profile an opal cover, or turn it away from where people are.';
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
      sentence: `Somebody ${light.bareLampsSeen.join(' or ')} can look through ${through} the LEDs, which are far too bright to look at. ${how}`,
    },
  ];
}

/** Checks of light: brightness, dots, glare, dimming of each zone, and lamps in view. */
export function lightFindings(sized: Lit): Check[] {
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
