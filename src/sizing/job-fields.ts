import type { Issue } from '../outcome.ts';

/** The field of the job a maker changes when a question refuses in its own terms. */
const fieldOfCode: Readonly<Record<string, string>> = {
  'slot-wider-than-pitch': 'slots.width_mm',
  'slot-outside-section': 'slots.width_mm',
  'batten-meets-slot': 'section.batten_mm',
  'side-needs-batten': 'section.batten_mm',
  'side-mount-without-side': 'section.batten_mm',
  'strip-wider-than-cavity': 'section.stripOffset_mm',
  'strip-over-slot': 'section.stripOffset_mm',
  'strip-outside-face': 'section.stripOffset_mm',
  'strip-in-slot': 'section.stripOffset_mm',
  'carrier-narrower-than-strip': 'section.carrierWidth_mm',
  'carrier-fills-cavity': 'section.carrierThickness_mm',
  'sheet-thicker-than-front': 'section.coverThickness_mm',
  'profile-narrower-than-strip': 'section.profile.data.inside_mm',
  'profile-has-no-room': 'section.stripOffset_mm',
  'profile-too-high': 'section.cavity_mm',
  'profile-outside-section': 'section.cavity_mm',
  'slot-not-as-wide-as-profile': 'slots.width_mm',
  'section-does-not-settle': 'section.cavity_mm',
  'no-light-seen': 'section.strip',
  'pocket-has-no-way-out': 'drivers.places',
  'too-few-volts-for-lamps': 'strip.data',
  'runs-away': 'strip.entry',
  'no-operating-point': 'strip.entry',
  'no-capacity-known': 'cables.cable_degC',
};

/** Refusals with their places in the job document, so that a page can lead there; each sentence said once. */
export function placedInJob<I extends Issue>(issues: readonly I[]): I[] {
  const once = new Map(issues.toReversed().map((issue) => [issue.sentence, issue]));
  return issues
    .filter((issue) => once.get(issue.sentence) === issue)
    .map((issue) => {
      const field = fieldOfCode[issue.code];
      return field === undefined ? issue : { ...issue, place: { ...issue.place, field } };
    });
}
