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

/** Puts `a.c`, `b.c`, `a.d` and `b.d` into `sums`, each of the four being so long a piece of `values`, by its start. */
export function fourInnerProducts(
  values: Float64Array,
  { a, b, c, d }: { readonly a: number; readonly b: number; readonly c: number; readonly d: number },
  length: number,
  sums: Float64Array,
): void {
  let ac = 0;
  let bc = 0;
  let ad = 0;
  let bd = 0;
  for (let k = 0; k < length; k++) {
    const x = values[a + k]!;
    const y = values[b + k]!;
    const z = values[c + k]!;
    const w = values[d + k]!;
    ac += x * z;
    bc += y * z;
    ad += x * w;
    bd += y * w;
  }
  sums[0] = ac;
  sums[1] = bc;
  sums[2] = ad;
  sums[3] = bd;
}
