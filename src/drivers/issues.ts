import type { Issue } from '../outcome.ts';

/** Every refusal of the drivers question. */
export type DriversIssue = Issue & {
  readonly code: 'load-larger-than-output' | 'driver-place-too-warm';
};
