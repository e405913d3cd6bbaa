import type { Check } from './check.ts';
import { circuitChecks } from './circuit.checks.ts';
import { driversChecks } from './drivers.checks.ts';
import { handOverChecks } from './hand-over.checks.ts';
import { lightChecks } from './light.checks.ts';
import { lightSeenChecks } from './light-seen.checks.ts';

/** Every check of the project, in the order of the table in the README. */
export const allChecks: readonly Check[] = [
  ...circuitChecks,
  ...driversChecks,
  ...handOverChecks,
  ...lightChecks,
  ...lightSeenChecks,
];
