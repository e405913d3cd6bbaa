import type { CaseAt } from '../../../src/answer/cases.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';
import type { DriverPlace } from '../../../src/job/job.ts';
import { leastEm_mm, textWidth } from '../ink/lettering.ts';
import { corners, type Extents, filled, lettering, type Mark, outline, type Point } from '../ink/mark.ts';

/** A driver, dimmer or block as it lies in its place, mm of the piece from the panel's lower left corner. */
export interface DeviceCase {
  readonly id: string;
  readonly box: Extents;
  /** Middle of the side the outgoing terminals are on; of the case where they face out of the wall. */
  readonly out: Point;
}

/** What a place holds, and what of it has no room. */
export interface PlacedCases {
  readonly cases: readonly DeviceCase[];
  readonly without: readonly string[];
}

const caseOf = (id: string, { x_mm, y_mm, across_mm, up_mm, ...out }: CaseAt): DeviceCase => ({
  id,
  box: { x0: x_mm, y0: y_mm, x1: x_mm + across_mm, y1: y_mm + up_mm },
  out: [out.out_x_mm, out.out_y_mm],
});

/** Where each driver, dimmer and block lies in its place, as the answer has it. */
export function casesIn(place: Pick<DriverPlace, 'name'>, { drivers, installation }: Sizing): PlacedCases {
  const held = drivers.places.find(({ name }) => name === place.name);
  const devices = [...installation.dimmers, ...installation.blocks].flatMap(({ id, standing }) =>
    standing?.place === place.name ? [caseOf(id, standing)] : [],
  );
  return {
    cases: [...(held?.cases ?? []).map(({ driver, ...at }) => caseOf(driver, at)), ...devices],
    without: held?.without ?? [],
  };
}

const capital = 0.73;

/** A line of lettering in the middle of a box, along its longer side, at the largest em that fits; none if none does. */
function letteringIn(box: Extents, text: string, ems: readonly number[]): Mark[] {
  const [across, up] = [box.x1 - box.x0, box.y1 - box.y0];
  const isUpright = up > across;
  const em = ems.find(
    (each) =>
      textWidth(text, each) <= 0.8 * Math.max(across, up) && capital * each <= 0.9 * Math.min(across, up),
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

/** A bar along the side the outgoing terminals are on; none where they face out of the wall. */
function terminalBar({ box, out: [x, y] }: DeviceCase, perPaper: number): Mark[] {
  const thick = Math.min(0.8 * perPaper, 0.1 * Math.max(box.x1 - box.x0, box.y1 - box.y0));
  const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;
  const bars: readonly (readonly [boolean, Extents])[] = [
    [near(x, box.x0), { ...box, x1: box.x0 + thick }],
    [near(x, box.x1), { ...box, x0: box.x1 - thick }],
    [near(y, box.y0), { ...box, y1: box.y0 + thick }],
    [near(y, box.y1), { ...box, y0: box.y1 - thick }],
  ];
  return bars.filter(([is]) => is).map(([, bar]) => filled('DRIVERS', ...corners(bar)));
}

/** What a place holds on bare paper, with references where these can be read at the scale. */
export function caseMarks({ cases }: PlacedCases, perPaper: number): Mark[] {
  const ems = [leastEm_mm * perPaper];
  return cases.flatMap((each) => [
    filled('PAPER', ...corners(each.box)),
    { ...outline('DRIVERS', ...corners(each.box)), stands: { block: 'DEVICE', ref: each.id } },
    ...terminalBar(each, perPaper),
    ...letteringIn(each.box, each.id, ems),
  ]);
}
