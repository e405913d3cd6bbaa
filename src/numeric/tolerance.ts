/** Rounding of a few floating-point operations, far below what any meter or data sheet resolves. */
const slack = 1e-9;

/** Whether `value` keeps to `limit`, forgiving rounding: 30*0.85*0.8 is not below 20.4. */
export function keepsTo(value: number, limit: number): boolean {
  return value <= limit + slack * Math.abs(limit);
}

/** Whole times `part` goes into `whole`, forgiving rounding; both at least 0 and `part` above 0. */
export function wholeTimes(whole: number, part: number): number {
  return Math.floor((whole / part) * (1 + slack));
}

/** Least whole number of bins of `size` that hold `sum`, forgiving rounding; `size` above 0. */
export function leastBins(sum: number, size: number): number {
  return Math.ceil((sum / size) * (1 - slack));
}
