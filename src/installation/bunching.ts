import { type RangeMaximum, rangeMaximum } from '../numeric/range-maximum.ts';
import type { LaidCable, Path } from './plan.ts';

/**
 * Cables further apart than this do not warm each other: two diameters of a cable of some 8 mm (IEC 60364-5-52, the note
 * on spacing to its grouping tables, from memory).
 */
const sideBySide_mm = 20;

/** A stretch of a straight way: `at` across, `low` to `high` along, and the circuits that lie in it. */
interface Line {
  readonly path: Path;
  readonly at_mm: number;
  readonly low_mm: number;
  readonly high_mm: number;
  readonly conductors: LaidCable['conductors'];
}

function line(path: Path, isUpright: boolean, conductors: Line['conductors']): Line {
  const [at_mm, a_mm, b_mm] = isUpright
    ? [path.from.x_mm, path.from.y_mm, path.to.y_mm]
    : [path.from.y_mm, path.from.x_mm, path.to.x_mm];
  return { path, at_mm, low_mm: Math.min(a_mm, b_mm), high_mm: Math.max(a_mm, b_mm), conductors };
}

/** Lines that lie side by side, each no further from the one before than that. */
function bundles(lines: readonly Line[]): Line[][] {
  const sorted = lines.toSorted((a, b) => a.at_mm - b.at_mm);
  const all: Line[][] = [];
  for (const [i, each] of sorted.entries()) {
    const before = sorted[i - 1];
    if (before && each.at_mm - before.at_mm <= sideBySide_mm) all.at(-1)!.push(each);
    else all.push([each]);
  }
  return all;
}

/** Lines of a bundle over each stretch between two neighbouring ends of any of them. */
function counts(lines: readonly Line[], place: ReadonlyMap<number, number>): number[] {
  const steps = Array<number>(place.size).fill(0);
  for (const { low_mm, high_mm } of lines) {
    steps[place.get(low_mm)!]! += 1;
    steps[place.get(high_mm)!]! -= 1;
  }
  let here = 0;
  return steps.map((step) => {
    here += step;
    return here;
  });
}

/**
 * Circuits over each such stretch, two loaded conductors to a circuit: the pluses there or the returns, whichever are
 * more, since those of a crossed feed part.
 */
function coverage(bundle: readonly Line[]): {
  readonly place: ReadonlyMap<number, number>;
  readonly most: RangeMaximum;
} {
  const ends = [...new Set(bundle.flatMap(({ low_mm, high_mm }) => [low_mm, high_mm]))].sort((a, b) => a - b);
  const place = new Map(ends.map((end, i) => [end, i]));
  const pluses = counts(
    bundle.filter(({ conductors }) => conductors !== 'return'),
    place,
  );
  const returns = counts(
    bundle.filter(({ conductors }) => conductors !== 'positive'),
    place,
  );
  return { place, most: rangeMaximum(pluses.map((count, i) => Math.max(count, returns[i]!))) };
}

function countBundle(bundle: readonly Line[], together: Map<Path, number>): void {
  const { place, most } = coverage(bundle);
  for (const { path, low_mm, high_mm } of bundle)
    together.set(path, most(place.get(low_mm)!, place.get(high_mm)! - 1));
}

/**
 * How many circuits lie side by side in every stretch of every cable outside the driver places: the most that any part of
 * the stretch passes, itself included. Counted on the wall as laid: what runs along the same line within 20 mm is one
 * bundle, and a chain of such neighbours counts as one, which is on the careful side.
 *
 * Check: `tests/installation/bunching.test.ts`, by hand and by looking at each pair.
 */
export function countTogether(cables: readonly LaidCable[]): ReadonlyMap<Path, number> {
  const drawn = cables.flatMap((cable) =>
    cable.legs
      .flatMap(({ paths }) => paths)
      .filter((path) => path.in !== 'remote' && path.in !== 'place')
      .map((path) => ({ path, conductors: cable.conductors })),
  );
  const isUpright = ({ path: { from, to } }: (typeof drawn)[number]): boolean => from.x_mm === to.x_mm;
  const together = new Map<Path, number>();
  for (const upright of [true, false]) {
    const lines = drawn
      .filter((each) => isUpright(each) === upright)
      .map(({ path, conductors }) => line(path, upright, conductors));
    for (const bundle of bundles(lines)) countBundle(bundle, together);
  }
  return together;
}

/** Circuits that leave an output's terminals: what begins or ends there, single conductors of a crossed feed once. */
export function leavingCount(cables: readonly LaidCable[]): number {
  return cables
    .filter(({ conductors }) => conductors !== 'return')
    .flatMap(({ legs }) => legs.flatMap(({ from, to }) => [from, to]))
    .filter(({ kind }) => kind === 'output').length;
}
