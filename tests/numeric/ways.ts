/**
 * Shares sizes out over bins in every way, by brute force, and shows what is in each bin (pieces by index) until it is told
 * that this is enough; says whether it was.
 */
export function everyWay(
  sizes: readonly number[],
  bins: readonly number[],
  isEnough: (content: readonly (readonly number[])[]) => boolean,
): boolean {
  const content: number[][] = bins.map(() => []);
  const free = [...bins];
  const go = (i: number): boolean => {
    if (i === sizes.length) return isEnough(content);
    return bins.some((_, b) => {
      // Of empty bins of one size the first stands for all.
      const isLike = (k: number) => bins[k] === bins[b] && content[k]!.length === 0;
      if (free[b]! < sizes[i]! || (isLike(b) && bins.findIndex((__, k) => isLike(k)) < b)) return false;
      free[b]! -= sizes[i]!;
      content[b]!.push(i);
      const enough = go(i + 1);
      content[b]!.pop();
      free[b]! += sizes[i]!;
      return enough;
    });
  };
  return go(0);
}

/** Whether there is a way at all. */
export const anyWay = (sizes: readonly number[], bins: readonly number[]): boolean =>
  everyWay(
    sizes.toSorted((a, b) => b - a),
    bins,
    () => true,
  );
