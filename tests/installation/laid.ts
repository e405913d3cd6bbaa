import type { CableEnd } from '../../src/answer/cables.ts';
import type { LaidCable, Path, Point } from '../../src/installation/plan.ts';

const isUpright = (from: Point, to: Point): boolean => from.x_mm === to.x_mm;

/** A straight stretch between two points. */
export const path = (from: readonly [number, number], to: readonly [number, number]): Path => {
  const [a, b] = [from, to].map(([x_mm, y_mm]) => ({ x_mm, y_mm }));
  const length_mm = Math.hypot(b!.x_mm - a!.x_mm, b!.y_mm - a!.y_mm);
  return { in: isUpright(a!, b!) ? 'panel' : 'way', from: a!, to: b!, length_mm };
};

/** A cable of one leg from an output to a pad, with some stretches. */
export function laid(
  id: string,
  paths: readonly Path[],
  change: Partial<LaidCable> & { readonly from?: CableEnd; readonly to?: CableEnd } = {},
): LaidCable {
  const { from, to, ...rest } = change;
  const leg = {
    ...{ id, serves: [`${id}-F`], paths, tailCount: 2 },
    from: from ?? ({ kind: 'output', id: 'D1.1' } as const),
    to: to ?? ({ kind: 'pad', run: id, cutLine: 0, feedPoint: `${id}-F` } as const),
  };
  return { id, kind: 'feed', output: 'D1.1', conductors: 'both', legs: [leg], ...rest };
}
