import type { Sizing } from '../../../src/answer/sizing.ts';
import type { DriverPlace } from '../../../src/job/job.ts';
import { textWidth } from '../ink/lettering.ts';
import { corners, type Extents, filled, lettering, type Mark, outline } from '../ink/mark.ts';

/** A driver as it lies in its place, mm of the piece from the panel's lower left corner. */
export interface DriverCase {
  readonly id: string;
  readonly box: Extents;
}

/** What a place holds, and which of its drivers have no room. */
export interface PlacedCases {
  readonly cases: readonly DriverCase[];
  readonly without: readonly string[];
}

/** Where each driver lies in its place, as the answer has it. */
export function casesIn(place: DriverPlace, { drivers }: Sizing): PlacedCases {
  const held = drivers.places.find(({ name }) => name === place.name);
  const cases = (held?.cases ?? []).map(({ driver, x_mm, y_mm, across_mm, up_mm }) => ({
    id: driver,
    box: { x0: x_mm, y0: y_mm, x1: x_mm + across_mm, y1: y_mm + up_mm },
  }));
  return { cases, without: held?.without ?? [] };
}

const capital = 0.73;

/** A line of lettering in the middle of a box, along its longer side, at the largest em that fits; none if none does. */
function letteringIn(box: Extents, text: string, ems: readonly number[]): Mark[] {
  const [across, up] = [box.x1 - box.x0, box.y1 - box.y0];
  const isUpright = up > across;
  const em = ems.find(
    (each) =>
      textWidth(text, each) <= 0.94 * Math.max(across, up) && capital * each <= 0.9 * Math.min(across, up),
  );
  if (em === undefined) return [];
  const drop = (capital / 2) * em;
  const [x, y] = [(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2];
  return [
    lettering({
      layer: 'DRIVER_NAMES',
      at: isUpright ? [x + drop, y] : [x, y - drop],
      text,
      em,
      align: 'middle',
      angle_deg: isUpright ? 90 : 0,
    }),
  ];
}

/** Drivers of a place on bare paper, with their references where these can be read at the scale. */
export function caseMarks({ cases }: PlacedCases, perPaper: number): Mark[] {
  const ems = [2.5, 2.2, 2].map((em) => em * perPaper);
  return cases.flatMap(({ id, box }) => [
    filled('PAPER', ...corners(box)),
    outline('DRIVERS', ...corners(box)),
    ...letteringIn(box, id, ems),
  ]);
}
