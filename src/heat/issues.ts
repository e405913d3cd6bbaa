import type { Issue, Place } from '../outcome.ts';

/** Every refusal of the heat engine. */
export type HeatIssue = Issue & {
  readonly code:
    | 'slot-wider-than-pitch'
    | 'batten-meets-slot'
    | 'strip-wider-than-cavity'
    | 'strip-over-slot'
    | 'side-needs-batten'
    | 'carrier-narrower-than-strip'
    | 'carrier-fills-cavity'
    | 'sheet-thicker-than-front'
    | 'profile-narrower-than-strip'
    | 'profile-has-no-room'
    | 'profile-too-high'
    | 'slot-not-as-wide-as-profile'
    | 'profile-not-there'
    | 'profile-closes-slot'
    | 'profile-and-carrier'
    | 'section-does-not-settle'
    | 'heat-not-known'
    | 'wall-bridged-too-much'
    | 'pocket-has-no-way-out'
    | 'vent-larger-than-place'
    | 'life-data-too-short'
    | 'life-outside-tested-temperatures';
};

/** One refusal: what, how much, and the sentence a maker reads. */
export function heatIssue(
  code: HeatIssue['code'],
  quantities: Readonly<Record<string, number>>,
  sentence: string,
  place: Place = {},
): HeatIssue {
  return { code, place, quantities, sentence };
}
