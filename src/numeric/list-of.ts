/** The numbers of a typed array as a list; `Array.from` steps through them one object at a time. */
export function listOf(values: Float64Array): number[] {
  const list: number[] = [];
  for (let i = 0; i < values.length; i++) list.push(values[i]!);
  return list;
}
