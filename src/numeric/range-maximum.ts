/** The largest of `values[from..to]`, both included; `from <= to`, both within the values. */
export type RangeMaximum = (from: number, to: number) => number;

/**
 * Answers for the largest value of any stretch of a row in constant time, from a table of the largest of every stretch of
 * 1, 2, 4, 8... values (sparse table). Check: `tests/numeric/range-maximum.test.ts`, against looking at each.
 */
export function rangeMaximum(values: readonly number[]): RangeMaximum {
  const table: (readonly number[])[] = [values];
  for (let width = 1; 2 * width <= values.length; width *= 2) {
    const before = table.at(-1)!;
    const count = values.length - 2 * width + 1;
    table.push(Array.from({ length: count }, (_, i) => Math.max(before[i]!, before[i + width]!)));
  }
  return (from, to) => {
    const level = Math.floor(Math.log2(to - from + 1));
    const row = table[level]!;
    return Math.max(row[from]!, row[to - 2 ** level + 1]!);
  };
}
