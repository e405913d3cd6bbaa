import { figures } from '../words.ts';
import { wholeTimes } from './tolerance.ts';

/** A box, sides along x (across), y (up) and z (deep). */
export interface Box {
  readonly across_mm: number;
  readonly up_mm: number;
  readonly deep_mm: number;
}

/** Length, width and height of a case, and the free air its maker asks for round it. */
export interface DriverCase {
  readonly length_mm: number;
  readonly width_mm: number;
  readonly height_mm: number;
  readonly clearance_mm: number;
}

/** Where a case stands: its lower left corner from that of the place, and how it lies. */
export interface Spot extends Box {
  readonly x_mm: number;
  readonly y_mm: number;
}

export interface Fit {
  readonly fits: boolean;
  /** Of as many cases as there is room for, row by row from the lower left corner. */
  readonly spots: readonly Spot[];
  /** Most cases in equal rows in the best orientation; 0 where not even one goes in. */
  readonly mostCount: number;
  readonly note: string;
}

interface Layout {
  readonly box: Box;
  readonly columnCount: number;
  readonly rowCount: number;
}

function orientations(of: DriverCase): Box[] {
  const { length_mm: l, width_mm: w, height_mm: h } = of;
  // Flat on the back first, so that equal counts leave a driver lying as it usually does.
  const sides = [
    [l, w, h],
    [w, l, h],
    [l, h, w],
    [h, l, w],
    [w, h, l],
    [h, w, l],
  ] as const;
  return sides.map(([across_mm, up_mm, deep_mm]) => ({ across_mm, up_mm, deep_mm }));
}

function layoutIn(place: Box, box: Box, clearance_mm: number): Layout {
  const along = (room_mm: number, side_mm: number) =>
    Math.max(0, wholeTimes(Math.max(0, room_mm - clearance_mm), side_mm + clearance_mm));
  const deepEnough = wholeTimes(place.deep_mm, box.deep_mm + clearance_mm) >= 1;
  return {
    box,
    columnCount: deepEnough ? along(place.across_mm, box.across_mm) : 0,
    rowCount: deepEnough ? along(place.up_mm, box.up_mm) : 0,
  };
}

const boxText = ({ across_mm, up_mm, deep_mm }: Box): string =>
  `${[across_mm, up_mm, deep_mm].map((side) => figures(side)).join(' × ')} mm`;

const countIn = (layout: Layout): number => layout.columnCount * layout.rowCount;

/** Lying flat on its back. */
const flat = (of: DriverCase): Box => orientations(of)[0]!;

function noteOf(layout: Layout, caseCount: number, driverCase: DriverCase): string {
  const mostCount = countIn(layout);
  const air = `${figures(driverCase.clearance_mm)} mm of air round each`;
  if (mostCount === 0)
    return `Not even one case of ${boxText(flat(driverCase))} goes in with ${air}: enlarge the place or choose a smaller driver.`;
  const how = `${layout.columnCount} across and ${layout.rowCount} up, each ${boxText(layout.box)} (across × up × deep) with ${air}`;
  if (caseCount <= mostCount) return `Room for ${mostCount} in equal rows: ${how}.`;
  return `Room for ${mostCount} in equal rows, ${caseCount} are needed: ${how}. Enlarge the place or share the drivers out over more places.`;
}

/** Corners of the cases of a layout, row by row, the clearance between them and to the sides of the place. */
function spotsOf({ box, columnCount }: Layout, count: number, clearance_mm: number): Spot[] {
  return Array.from({ length: count }, (_, i) => ({
    ...box,
    x_mm: clearance_mm + (i % columnCount) * (box.across_mm + clearance_mm),
    y_mm: clearance_mm + Math.floor(i / columnCount) * (box.up_mm + clearance_mm),
  }));
}

/**
 * Whether `caseCount` cases go into a place in one layer of equal rows on its back wall, trying all six
 * orientations: `n*side + (n+1)*clearance <= room` across and up, `side + clearance <= room` in depth (a case lies
 * against its back wall and shares the gap to its neighbour).
 *
 * @param place inside measures, mm; a case and its clearance, mm; caseCount whole, 0 or more
 * @returns whether they fit, the most that do in equal rows, where each lies, and a note in words on the first
 *   orientation that holds them, flat on the back before standing out
 * Rows of mixed orientation might hold one more: this does not look for them, so "no" is on the careful side.
 * Source: geometry; one layer is a choice. Check: `tests/drivers/fit.test.ts`, laid out box by box.
 */
export function fitCases(place: Box, driverCase: DriverCase, caseCount: number): Fit {
  const layouts = orientations(driverCase).map((box) => layoutIn(place, box, driverCase.clearance_mm));
  const best = layouts.reduce((a, b) => (countIn(b) > countIn(a) ? b : a));
  const usual = layouts.find((layout) => countIn(layout) >= Math.max(1, caseCount)) ?? best;
  const mostCount = countIn(best);
  return {
    fits: caseCount <= mostCount,
    mostCount,
    spots: spotsOf(usual, Math.min(caseCount, mostCount), driverCase.clearance_mm),
    note: noteOf(usual, caseCount, driverCase),
  };
}
