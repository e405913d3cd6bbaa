import type { Issue, Place } from '../outcome.ts';

/** Every reason why a question about the circuit has no answer. */
export type CircuitIssue =
  | CircuitIssueOf<'number-missing', Record<string, never>>
  | CircuitIssueOf<'number-outside', { value: number; from: number; to: number }>
  | CircuitIssueOf<'name-repeated', Record<string, never>>
  | CircuitIssueOf<'nothing-called-so', Record<string, never>>
  | CircuitIssueOf<'no-channel', Record<string, never>>
  | CircuitIssueOf<'channel-missing', Record<string, never>>
  | CircuitIssueOf<'cut-line-outside', { cutLine: number; unitCount: number }>
  | CircuitIssueOf<'cable-goes-nowhere', Record<string, never>>
  | CircuitIssueOf<'unfed-cable', Record<string, never>>
  | CircuitIssueOf<'unfed-run', Record<string, never>>
  | CircuitIssueOf<'too-few-volts-for-lamps', { nominal_V: number; needed_V: number }>
  | CircuitIssueOf<'lamps-do-not-divide', { lamps: number; parts: number }>
  | CircuitIssueOf<'no-operating-point', { residual_A: number; steps: number }>
  | CircuitIssueOf<'runs-away', { strip_degC: number; growth: number }>
  | CircuitIssueOf<'nothing-is-enough', { limit: number; reached: number }>
  | CircuitIssueOf<'volts-out-of-reach', { wanted_V: number; from_V: number; to_V: number }>
  | CircuitIssueOf<'does-not-fit', { given: number; possible: number }>;

interface CircuitIssueOf<Code extends string, Quantities extends Readonly<Record<string, number>>>
  extends Issue {
  readonly code: Code;
  readonly place: Place;
  readonly quantities: Quantities;
}
