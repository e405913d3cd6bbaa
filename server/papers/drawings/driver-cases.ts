import type { Sizing } from '../../../src/answer/sizing.ts';
import type { DriverPlace, Job } from '../../../src/job/job.ts';
import { resolveProducts } from '../../../src/job/resolve.ts';
import { textWidth } from '../ink/lettering.ts';
import { corners, type Extents, filled, lettering, type Mark, outline } from '../ink/mark.ts';

/** A driver as it lies in its place, mm of the piece from the panel's lower left corner. */
export interface DriverCase {
  readonly id: string;
  readonly box: Extents;
}

/** What a place holds, and which of its drivers have no room in equal rows. */
export interface PlacedCases {
  readonly cases: readonly DriverCase[];
  readonly without: readonly string[];
}

interface Rows {
  readonly across_mm: number;
  readonly up_mm: number;
  readonly columnCount: number;
  readonly rowCount: number;
}

/** Equal rows on the back wall with the clearance round each case, in the six ways a case can lie. */
function waysToLie(job: Job, place: DriverPlace): { rows: Rows[]; clearance_mm: number } {
  const products = resolveProducts(job);
  if (!products.ok) return { rows: [], clearance_mm: 0 };
  const { length_mm: l, width_mm: w, height_mm: h, clearance_mm } = products.value.driver;
  const along = (room_mm: number, side_mm: number): number =>
    Math.max(0, Math.floor((room_mm - clearance_mm) / (side_mm + clearance_mm) + 1e-9));
  const sides = [
    [l, w, h],
    [w, l, h],
    [l, h, w],
    [h, l, w],
    [w, h, l],
    [h, w, l],
  ] as const;
  const rows = sides.map(([across_mm, up_mm, deep_mm]): Rows => {
    const isDeepEnough = deep_mm + clearance_mm <= place.depth_mm + 1e-9;
    const columnCount = isDeepEnough ? along(place.width_mm, across_mm) : 0;
    return { across_mm, up_mm, columnCount, rowCount: along(place.height_mm, up_mm) };
  });
  return { rows, clearance_mm };
}

const countIn = ({ columnCount, rowCount }: Rows): number => columnCount * rowCount;

/**
 * Where each driver lies in its place: equal rows from the lower left corner, the first way to lie that holds them
 * all, flat on the back before standing out, as the answer's note on the place has it; else the way that holds most.
 */
export function casesIn(place: DriverPlace, job: Job, sizing: Sizing): PlacedCases {
  const ids = sizing.drivers.drivers.filter((each) => each.place === place.name).map(({ id }) => id);
  const { rows, clearance_mm } = waysToLie(job, place);
  const most = rows.toSorted((a, b) => countIn(b) - countIn(a))[0];
  const chosen = rows.find((each) => countIn(each) >= Math.max(1, ids.length)) ?? most;
  const room = chosen ? countIn(chosen) : 0;
  const cases = ids.slice(0, room).map((id, i): DriverCase => {
    const { across_mm, up_mm, columnCount } = chosen!;
    const x0 = place.x_mm + clearance_mm + (i % columnCount) * (across_mm + clearance_mm);
    const y0 = place.y_mm + clearance_mm + Math.floor(i / columnCount) * (up_mm + clearance_mm);
    return { id, box: { x0, y0, x1: x0 + across_mm, y1: y0 + up_mm } };
  });
  return { cases, without: ids.slice(room) };
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
