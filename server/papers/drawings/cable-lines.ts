import type { Cable } from '../../../src/answer/cables.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';
import type { Point } from '../ink/mark.ts';

type At = Cable['route'][number];

const pointOf = ({ x_mm, y_mm }: At): Point => [x_mm, y_mm];

const isSame = ([ax, ay]: Point, [bx, by]: Point): boolean => ax === bx && ay === by;

/** Corners of stretches that follow one another. */
function cornersOf(stretches: Cable['stretches']): Point[] {
  const first = stretches[0];
  if (!first) return [];
  const all = [pointOf(first.from), ...stretches.map(({ to }) => pointOf(to))];
  return all.filter((point, i) => i === 0 || !isSame(point, all[i - 1]!));
}

const whole = (points: Point[]): Point[][] => (points.length > 1 ? [points] : []);

/** Stretches in one surrounding or not, in pieces that follow one another. */
function pieces(cable: Cable, belongs: (where: Cable['stretches'][number]['in']) => boolean): Point[][] {
  const found: Cable['stretches'][] = [[]];
  for (const stretch of cable.stretches) {
    if (belongs(stretch.in)) found.at(-1)!.push(stretch);
    else if (found.at(-1)!.length > 0) found.push([]);
  }
  return found.flatMap((each) => whole(cornersOf(each)));
}

const isFromAfar = ({ stretches }: Cable): boolean => stretches.some((stretch) => stretch.in === 'remote');

/** The place a cable's driver is in. */
const placeOf = (cable: Cable, { drivers }: Sizing): string | undefined =>
  drivers.drivers.find(({ outputs }) => outputs.some(({ id }) => id === cable.output))?.place;

/** Lines of a cable on the wall: from the terminals it begins at; from the panel's edge where its place is remote. */
export const linesOnWall = (cable: Cable, remote: ReadonlySet<string>, sizing: Sizing): Point[][] => {
  if (isFromAfar(cable)) return pieces(cable, (where) => where !== 'place' && where !== 'remote');
  const isAway = remote.has(placeOf(cable, sizing) ?? '');
  return isAway ? pieces(cable, (where) => where !== 'place') : whole(cable.route.map(pointOf));
};

/** Lines of the cables inside a place, and the holes they leave it by. */
export function linesInPlace(
  name: string,
  sizing: Sizing,
): {
  readonly lines: readonly { readonly cable: Cable; readonly points: readonly Point[] }[];
  readonly exits: Point[];
} {
  const here = sizing.cables.filter((cable) => placeOf(cable, sizing) === name);
  const lines = here.flatMap((cable) =>
    pieces(cable, (where) => where === 'place').map((points) => ({ cable, points })),
  );
  const ends = here.flatMap(({ stretches }) =>
    stretches.flatMap((stretch, i) =>
      stretch.in === 'place' && stretches[i + 1] && stretches[i + 1]!.in !== 'place'
        ? [pointOf(stretch.to)]
        : [],
    ),
  );
  const exits = ends.filter((end, i) => ends.findIndex((other) => isSame(other, end)) === i);
  return { lines, exits };
}
