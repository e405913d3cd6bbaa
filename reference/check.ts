/** One published number set beside the engine's own. */
export interface Check {
  /** Short and unique, such as `iec60228-class5-1.5mm2`. */
  readonly id: string;
  /** Which question it belongs to. */
  readonly topic: 'set-out' | 'circuit' | 'drivers' | 'heat' | 'light' | 'hand-over';
  readonly quantity: string;
  /** Body or author, title, edition, table, equation or example. */
  readonly source: string;
  /**
   * How the printed value reached us: `read` in the original, `secondary` from a copy or a quotation,
   * `memory` recalled and not re-read, `derived` worked out by hand from the stated closed form.
   */
  readonly standing: 'read' | 'secondary' | 'memory' | 'derived';
  readonly unit: string;
  readonly printed: number;
  readonly computed: number;
  /** Allowed difference: absolute in `unit`, or relative to the printed value. */
  readonly tolerance: { readonly absolute: number } | { readonly relative: number };
}

/** Difference between computed and printed, in the check's unit. */
export function difference(check: Check): number {
  return check.computed - check.printed;
}

/** Allowed difference in the check's unit. */
export function allowance(check: Check): number {
  return 'absolute' in check.tolerance
    ? check.tolerance.absolute
    : Math.abs(check.printed) * check.tolerance.relative;
}

/** Whether the engine agrees with the print; a computed NaN never agrees. */
export function agrees(check: Check): boolean {
  return Math.abs(difference(check)) <= allowance(check);
}
