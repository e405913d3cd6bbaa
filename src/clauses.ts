/** Rules a job is cited by, as `site.rules` names them. */
type Rules = 'IEC' | 'BS 7671' | 'NEC';

/** Clauses on the protection of cables, as findings, schedule and cautions cite them, with how they reached us. */
export interface Clauses {
  /** What a cable may carry, with its factors. */
  readonly capacity: string;
  /** Overload: `Ib <= In <= Iz` and `I2 <= 1.45 Iz`. */
  readonly overload: string;
  /** A short has to be cleared. */
  readonly shortCircuit: string;
  /** A source that cannot give more than the cable may carry. */
  readonly limitedSource: string;
  /** Extra-low-voltage lighting as a whole. */
  readonly lighting: string;
  /** What has to stay within reach. */
  readonly access: string;
}

const iec: Clauses = {
  capacity: 'IEC 60364-5-52, clause 523 (from memory)',
  overload: 'IEC 60364-4-43, clause 433 (secondary)',
  shortCircuit: 'IEC 60364-4-43, clause 434 (secondary)',
  limitedSource: 'IEC 60364-4-43, clause 436 (secondary)',
  lighting: 'IEC 60364-7-715 (secondary)',
  access: 'IEC 60364, clause 715.530.3 (secondary)',
};

/** BS 7671 keeps the numbers of IEC 60364 without the number of its part. */
const bs7671: Clauses = {
  capacity: 'BS 7671, section 523 and appendix 4 (from memory)',
  overload: 'BS 7671, section 433 (from memory)',
  shortCircuit: 'BS 7671, section 434 (from memory)',
  limitedSource: 'BS 7671, section 436 (from memory)',
  lighting: 'BS 7671, section 715 (secondary)',
  access: 'BS 7671, regulation 715.530.3 (from memory)',
};

/** The sums are those of IEC 60364 under every rules; the code's own tables are for the electrician to hold against. */
const nec: Clauses = {
  capacity:
    'worked out by IEC 60364-5-52, clause 523; to be held against NEC, tables 400.5 and 402.5 (from memory)',
  overload: 'worked out by IEC 60364-4-43, clause 433; to be held against NEC, Article 240 (from memory)',
  shortCircuit: 'worked out by IEC 60364-4-43, clause 434; to be held against NEC, Article 240 (from memory)',
  limitedSource: 'NEC, Article 725 and chapter 9, table 11: Class 2 sources (from memory)',
  lighting: 'NEC, Article 411 (from memory)',
  access: 'NEC, 240.24 on overcurrent devices (from memory)',
};

const all: Readonly<Record<Rules, Clauses>> = { IEC: iec, 'BS 7671': bs7671, NEC: nec };

/** The clauses a job is cited by. They say where to look, not that anything conforms. */
export function clausesOf(rules: Rules): Clauses {
  return all[rules];
}

const breakers: Readonly<Record<Rules, string>> = {
  IEC: 'to IEC 60898-1',
  'BS 7671': 'to BS EN 60898-1',
  NEC: 'worked out as one to IEC 60898-1; to be held against the curve of the breaker in the panelboard',
};

/** What a breaker of the mains side is made to, after its name. */
export function breakerStandardOf(rules: Rules): string {
  return breakers[rules];
}

/**
 * Most that one output of a driver gives as a Class 2 source, `min(100, 5 V)` watts at so many volts; null where the rules
 * know no such class. NEC, chapter 9, tables 11(A) and 11(B), nameplate of sources to 60 V d.c. (from memory): 5 A up to
 * 20 V, 100 VA above. Check: `tests/clauses.test.ts`.
 */
export const class2_W = (rules: Rules, volts_V: number): number | null =>
  rules === 'NEC' ? Math.min(100, 5 * volts_V) : null;
