/**
 * The answer of every question the engine may have to refuse: a value with remarks, or the reasons why not.
 * An `Issue` is data: a code, the place, the quantities, and a sentence that says what to change. Broken
 * preconditions (a programming mistake, not a user's) throw `RangeError` instead.
 */
export type Outcome<Value, I extends Issue = Issue> =
  | { readonly ok: true; readonly value: Value; readonly notes: readonly string[] }
  | { readonly ok: false; readonly issues: readonly I[] };

/** Where in the piece a refusal or a finding belongs; a page can jump to it, a paper can print it. */
export interface Place {
  readonly slot?: string;
  readonly run?: string;
  readonly driver?: string;
  readonly cable?: string;
  readonly feedPoint?: string;
  /** Path into the job document, such as `strip.wattsPerMetre`. */
  readonly field?: string;
}

/** The shape every folder's closed union of refusals follows; folders narrow `code` and `quantities`. */
export interface Issue {
  readonly code: string;
  readonly place: Place;
  /** Names carry units, as everywhere. */
  readonly quantities: Readonly<Record<string, number>>;
  /** One or two sentences a maker understands, ending in what to change. */
  readonly sentence: string;
}

/** Wraps a value that was found, with remarks that belong beside it. */
export function found<Value>(value: Value, notes: readonly string[] = []): Outcome<Value, never> {
  return { ok: true, value, notes };
}

/** Wraps the reasons why there is no value; at least one is required. */
export function refused<I extends Issue>(...issues: readonly I[]): Outcome<never, I> {
  if (issues.length === 0) throw new RangeError('refused() needs at least one issue');
  return { ok: false, issues };
}
