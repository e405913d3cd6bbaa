import type { Sizing } from '../../../src/answer/sizing.ts';
import type { DriverPlace } from '../../../src/job/job.ts';
import { dimensions } from '../ink/dimension.ts';
import { legible } from '../ink/legible.ts';
import { wrapped } from '../ink/lettering.ts';
import { circle, corners, extentsOf, lettering, line, type Mark, outline, placed } from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { linesInPlace } from './cable-lines.ts';
import { caseMarks, casesIn } from './driver-cases.ts';
import { awayText } from './remote-place.ts';
import type { Drawing } from './scale.ts';

const em_mm = 2.5;

const figure = (value: number): string => shown(value, Math.abs(value - Math.round(value)) < 0.05 ? 0 : 1);

/** Least room for the lettering of a place, and the air between two places, mm of the paper. */
const lettering_mm = 44;
const between_mm = 16;

/** Lines of lettering above a place; so many of them are its name. */
interface Above {
  readonly lines: readonly string[];
  readonly nameCount: number;
}

function above(place: DriverPlace, without: readonly string[], perPaper: number): Above {
  const width = Math.max(place.width_mm, lettering_mm * perPaper);
  const face = { em: em_mm * perPaper };
  const name = wrapped(place.name, width, { ...face, bold: true });
  const further = [
    place.kind === 'remote'
      ? `remote: ${awayText(place)}; ${figure(place.depth_mm)} deep`
      : `corner at x ${figure(place.x_mm)}, y ${figure(place.y_mm)}; ${figure(place.depth_mm)} deep`,
    ...(without.length > 0 ? [`no room for ${without.join(', ')}`] : []),
  ];
  return {
    lines: [...name, ...further.flatMap((text) => wrapped(text, width, face))],
    nameCount: name.length,
  };
}

/** Cables inside a place from terminals to terminals, and to the holes they leave by. */
function insideMarks(place: DriverPlace, sizing: Sizing, perPaper: number): Mark[] {
  const { lines, exits } = linesInPlace(place.name, sizing);
  return [
    ...lines.map(({ points }) => line('CABLES', ...points)),
    ...exits.map((exit) => circle('EXITS', exit, 0.9 * perPaper)),
  ];
}

/** Width and height of a place, from its own lower left corner. */
const sizeMarks = ({ width_mm, height_mm }: DriverPlace, perPaper: number): Mark[] =>
  (
    [
      ['level', width_mm],
      ['upright', height_mm],
    ] as const
  ).flatMap(([axis, size_mm]) =>
    dimensions({
      axis,
      stops: [0, size_mm],
      texts: [figure(size_mm)],
      at: -7 * perPaper,
      from: 0,
      perPaper,
    }),
  );

/** A place with what stands in it, from its own lower left corner. */
function placeMarks(place: DriverPlace, sizing: Sizing, perPaper: number): Mark[] {
  const held = casesIn(place, sizing);
  const em = em_mm * perPaper;
  const { width_mm, height_mm } = place;
  const { lines, nameCount } = above(place, held.without, perPaper);
  return [
    outline('DRIVER_PLACES', ...corners({ x0: 0, y0: 0, x1: width_mm, y1: height_mm })),
    ...placed([...insideMarks(place, sizing, perPaper), ...caseMarks(held, perPaper)], 1, [
      -place.x_mm,
      -place.y_mm,
    ]),
    ...legible(sizeMarks(place, perPaper)),
    ...lines.map((text, i) =>
      lettering({
        layer: 'DRIVER_NAMES',
        at: [0, height_mm + (lines.length - i - 0.5) * 1.35 * em],
        text,
        em,
        bold: i < nameCount,
      }),
    ),
  ];
}

/**
 * Driver places one beside the other in rows, each driver in its place where it is to be fixed; in millimetres, with
 * lettering sized for one scale. Only the places themselves are to scale, not what lies between.
 *
 * @param perPaper millimetres of the piece to one of the paper, such as 10 for 1:10
 * @param width_mm of the paper, beyond which a row does not go on
 */
export function driverPlaces(
  given: { readonly sizing: Sizing; readonly places: readonly DriverPlace[] },
  perPaper: number,
  width_mm: number,
): Drawing {
  const marks: Mark[] = [];
  let [x, top, lowest] = [0, 0, 0];
  for (const place of given.places) {
    const drawn = placeMarks(place, given.sizing, perPaper);
    const { x0, y0, x1, y1 } = extentsOf(drawn);
    if (x > 0 && (x + x1 - x0) / perPaper > width_mm) [x, top] = [0, lowest - 6 * perPaper];
    marks.push(...placed(drawn, 1, [x - x0, top - y1]));
    lowest = Math.min(lowest, top - (y1 - y0));
    x += x1 - x0 + between_mm * perPaper;
  }
  return { marks, perPaper };
}
