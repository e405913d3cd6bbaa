import type { Issue, Place } from '../outcome.ts';

/** Every reason why readings cannot be judged. */
export type ReadingIssue =
  | ReadingIssueOf<'no-such-row', Record<string, never>>
  | ReadingIssueOf<'row-repeated', Record<string, never>>
  | ReadingIssueOf<'not-measured-there', Record<string, never>>
  | ReadingIssueOf<'reading-impossible', { value: number; from: number; to: number }>;

interface ReadingIssueOf<Code extends string, Quantities extends Readonly<Record<string, number>>>
  extends Issue {
  readonly code: Code;
  readonly place: Place;
  readonly quantities: Quantities;
}
