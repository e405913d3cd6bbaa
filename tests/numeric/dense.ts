/** Solves `A*x = b` by elimination with the largest pivot of each column, as textbooks do. @param rows of A */
export function solveDense(rows: readonly (readonly number[])[], b: readonly number[]): number[] {
  const a = rows.map((row, i) => [...row, b[i]!]);
  const size = a.length;
  for (let k = 0; k < size; k++) {
    const largest = a
      .slice(k)
      .reduce((best, row, i) => (Math.abs(row[k]!) > Math.abs(a[k + best]![k]!) ? i : best), 0);
    [a[k], a[k + largest]] = [a[k + largest]!, a[k]!];
    for (let i = k + 1; i < size; i++) {
      const ratio = a[i]![k]! / a[k]![k]!;
      for (let j = k; j <= size; j++) a[i]![j]! -= ratio * a[k]![j]!;
    }
  }
  const x = new Array<number>(size).fill(0);
  for (let i = size - 1; i >= 0; i--) {
    const known = x.reduce((sum, value, j) => (j > i ? sum + a[i]![j]! * value : sum), 0);
    x[i] = (a[i]![size]! - known) / a[i]![i]!;
  }
  return x;
}
