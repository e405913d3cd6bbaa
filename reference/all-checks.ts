import type { Check } from './check.ts';

/** Every check of the project, in the order of the table in the README. */
export const allChecks: readonly Check[] = [];
