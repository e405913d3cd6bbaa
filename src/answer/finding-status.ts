/** How a check comes out. */
export const statuses = ['fails', 'watch', 'passes', 'note'] as const;

export type FindingStatus = (typeof statuses)[number];

/** Whether a finding is a warning for nothing but a condition it rests on, which is a finding of its own. */
export const isOnCondition = ({
  passesUnder = [],
}: {
  readonly passesUnder?: readonly unknown[] | undefined;
}): boolean => passesUnder.length > 0;
