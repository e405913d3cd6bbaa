import type { Outcome } from '../../../src/outcome.ts';

/** The value of an outcome that has to be there. */
export function granted<Value>(outcome: Outcome<Value>): Value {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}
