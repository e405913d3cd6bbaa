import type { Issue } from '../outcome.ts';

/** Why a document is not a job, or names something that is not there. */
export type JobIssue = Issue & {
  readonly code:
    | 'not-json'
    | 'not-a-job'
    | 'later-format'
    | 'unknown-key'
    | 'wrong-value'
    | 'unknown-entry'
    | 'channel-levels'
    | 'voltage-mismatch'
    | 'light-without-watts'
    | 'mixing-limit'
    | 'dimmer-missing'
    | 'dimmer-channels'
    | 'driver-not-dimmable'
    | 'cable-length-missing'
    | 'profile-missing'
    | 'profile-misplaced'
    | 'profile-and-flat'
    | 'profile-closes-slot'
    | 'cover-gains-light'
    | 'place-outside-room'
    | 'wall-missing'
    | 'conductivity-missing'
    | 'air-layer-too-thick'
    | 'outside-temperature-missing'
    | 'said-twice'
    | 'panels-and-wall-differ';
};
