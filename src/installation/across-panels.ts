import type { Corner, PlacedPanel } from '../job/panels.ts';
import type { Path } from './plan.ts';

/** A corner of the wall, and what a cable takes more to get round it than the unfolded wall is long. */
export interface Turn {
  readonly x_mm: number;
  readonly more_mm: number;
}

/**
 * What cables take more at the corners of a wall. Behind an inner corner they go round the outside of the build-up: its
 * depth along either panel, `2 * depth`. Behind an outer corner the way is shorter than on the face; nothing is taken off.
 * @param depth_mm of the build-up, at most
 */
export const turnsOf = (corners: readonly Corner[], depth_mm: number): Turn[] =>
  corners.map(({ x_mm, joint }) => ({ x_mm, more_mm: joint === 'inner corner' ? 2 * depth_mm : 0 }));

/** Whether a path passes a line upright on the wall, from one side of it to the other. */
const passes = ({ from, to }: Path, x_mm: number): boolean =>
  Math.min(from.x_mm, to.x_mm) < x_mm && Math.max(from.x_mm, to.x_mm) > x_mm;

/**
 * A way with what the corners ask for: each path is longer by it for every corner it passes, and is drawn as it was.
 * Check: `tests/installation/across-panels.test.ts`, by hand and by its mirror image.
 */
export function roundCorners(paths: readonly Path[], turns: readonly Turn[]): readonly Path[] {
  if (turns.every(({ more_mm }) => more_mm === 0)) return paths;
  return paths.map((path) => {
    const more_mm = turns
      .filter(({ x_mm }) => passes(path, x_mm))
      .reduce((sum, turn) => sum + turn.more_mm, 0);
    return more_mm === 0 ? path : { ...path, length_mm: path.length_mm + more_mm };
  });
}

/** Inside a driver place, and on the way from one that is not drawn, no panel is passed. */
const isDrawn = ({ in: where }: Pick<Path, 'in'>): boolean => where !== 'place' && where !== 'remote';

type Drawn = Pick<Path, 'in' | 'from' | 'to'>;

/** Whether a path lies before a panel, whatever its height: more than at its edge. */
const isBefore = ({ from, to }: Drawn, { left_mm, right_mm }: PlacedPanel): boolean => {
  const [low, high] = [Math.min(from.x_mm, to.x_mm), Math.max(from.x_mm, to.x_mm)];
  return low === high ? left_mm <= low && low <= right_mm : low < right_mm && high > left_mm;
};

/** The panels a cable passes or ends in, from left to right; none of a wall without panels. */
export const panelsPassed = (stretches: readonly Drawn[], all: readonly PlacedPanel[]): string[] =>
  all
    .filter((panel) =>
      stretches.some((path) => isDrawn(path) && path.in !== 'riser' && isBefore(path, panel)),
    )
    .map(({ id }) => id);

/** Whether a path runs above or below a panel that it lies before: outside the piece. */
function leaves(path: Drawn, panel: PlacedPanel): boolean {
  const { from, to } = path;
  const [low, high] = [Math.min(from.y_mm, to.y_mm), Math.max(from.y_mm, to.y_mm)];
  return isBefore(path, panel) && (low < panel.bottom_mm - 1e-6 || high > panel.top_mm + 1e-6);
}

interface Laid {
  readonly id: string;
  readonly stretches: readonly Drawn[];
}

/**
 * The panels that cables run above or below, since one is lower or stands higher than the wall, each with those cables.
 * From a driver place to the way, where a cable may come from outside, is not looked at.
 */
export function besidePanels(
  all: readonly PlacedPanel[],
  cables: readonly Laid[],
): { panel: string; cables: string[] }[] {
  return all
    .map((panel) => ({
      panel: panel.id,
      cables: cables
        .filter(({ stretches }) =>
          stretches.some((path) => (path.in === 'way' || path.in === 'panel') && leaves(path, panel)),
        )
        .map(({ id }) => id),
    }))
    .filter(({ cables: found }) => found.length > 0);
}
