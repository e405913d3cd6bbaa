import type { Issue } from '../outcome.ts';

/** Why a set-out cannot be built as described. */
export type SetOutIssue = Issue & {
  readonly code:
    | 'no-slot-fits'
    | 'too-many-slots'
    | 'too-many-units'
    | 'slots-overlap'
    | 'slot-outside-panel'
    | 'slot-too-short'
    | 'unit-longer-than-reel'
    | 'no-cut-line-between'
    | 'no-such-cut-line'
    | 'no-such-slot'
    | 'slot-in-two-zones';
};
