/**
 * Inner product of a piece of `a` and a piece of `b`, each given by its start. Four running sums, because one
 * would make every multiplication wait for the addition before it; this is where a factorisation spends its time.
 */
export function innerProduct(
  a: Float64Array,
  startA: number,
  b: Float64Array,
  startB: number,
  length: number,
): number {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  let k = 0;
  for (; k + 3 < length; k += 4) {
    s0 += a[startA + k]! * b[startB + k]!;
    s1 += a[startA + k + 1]! * b[startB + k + 1]!;
    s2 += a[startA + k + 2]! * b[startB + k + 2]!;
    s3 += a[startA + k + 3]! * b[startB + k + 3]!;
  }
  for (; k < length; k++) s0 += a[startA + k]! * b[startB + k]!;
  return s0 + s1 + (s2 + s3);
}
