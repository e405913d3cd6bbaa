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
  readonly circuits: 0 | 1;
}

function line(path: Path, isUpright: boolean, circuits: 0 | 1): Line {
  const [at_mm, a_mm, b_mm] = isUpright
    ? [path.from.x_mm, path.from.y_mm, path.to.y_mm]
    : [path.from.y_mm, path.from.x_mm, path.to.x_mm];
  return { path, at_mm, low_mm: Math.min(a_mm, b_mm), high_mm: Math.max(a_mm, b_mm), circuits };
}

/** The single conductors of a crossed feed are one circuit, counted at its positive. */
const circuitsOf = ({ conductors }: LaidCable): 0 | 1 => (conductors === 'return' ? 0 : 1);

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

/** Circuits over each stretch between two neighbouring ends of the lines of a bundle. */
function coverage(bundle: readonly Line[]): {
  readonly place: ReadonlyMap<number, number>;
  readonly most: RangeMaximum;
} {
  const ends = [...new Set(bundle.flatMap(({ low_mm, high_mm }) => [low_mm, high_mm]))].sort((a, b) => a - b);
  const place = new Map(ends.map((end, i) => [end, i]));
  const steps = Array<number>(ends.length).fill(0);
  for (const { low_mm, high_mm, circuits } of bundle) {
    steps[place.get(low_mm)!]! += circuits;
    steps[place.get(high_mm)!]! -= circuits;
  }
  let here = 0;
  const counts = steps.map((step) => {
    here += step;
    return here;
  });
  return { place, most: rangeMaximum(counts) };
}

function countBundle(bundle: readonly Line[], together: Map<Path, number>): void {
  const { place, most } = coverage(bundle);
  for (const { path, low_mm, high_mm } of bundle)
    together.set(path, Math.max(1, most(place.get(low_mm)!, place.get(high_mm)! - 1)));
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
      .map((path) => ({ path, circuits: circuitsOf(cable) })),
  );
  const isUpright = ({ path: { from, to } }: (typeof drawn)[number]): boolean => from.x_mm === to.x_mm;
  const together = new Map<Path, number>();
  for (const upright of [true, false]) {
    const lines = drawn
      .filter((each) => isUpright(each) === upright)
      .map(({ path, circuits }) => line(path, upright, circuits));
    for (const bundle of bundles(lines)) countBundle(bundle, together);
  }
  return together;
}

/** Circuits that leave an output's terminals: what begins or ends there, single conductors of a crossed feed once. */
export function leavingCount(cables: readonly LaidCable[]): number {
  const ends = cables.flatMap((cable) =>
    cable.legs.flatMap(({ from, to }) =>
      [from, to].flatMap((end) => (end.kind === 'output' ? [circuitsOf(cable)] : [])),
    ),
  );
  return ends.reduce<number>((sum, circuits) => sum + circuits, 0);
}
