import type { Run, SlotLine } from '../../../src/answer/set-out.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';
import type { DriverPlace, Job } from '../../../src/job/job.ts';
import { dimensions } from '../ink/dimension.ts';
import { legible, letterReach } from '../ink/legible.ts';
import { leastEm_mm, wrapped } from '../ink/lettering.ts';
import {
  circle,
  corners,
  type Extents,
  extentsOf,
  filled,
  type Lettering,
  lettering,
  letteringCorners,
  line,
  type Mark,
  outline,
  type Point,
} from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { linesInPlace, linesOnWall } from './cable-lines.ts';
import { caseMarks, casesIn } from './driver-cases.ts';
import { feedLabel, labelPlan, trunkLabels } from './elevation-labels.ts';
import { hungMarks } from './hung.ts';
import {
  type Chain,
  levelChain,
  openingChains,
  panelChain,
  panelMarks,
  uprightChain,
  withoutCrowding,
} from './panel-marks.ts';
import { panelOpeningMarks } from './panel-openings.ts';
import { remotePlaceMarks } from './remote-place.ts';
import type { Drawing } from './scale.ts';

interface Line {
  readonly x0_mm: number;
  readonly y0_mm: number;
  readonly x1_mm: number;
  readonly y1_mm: number;
}

/** The corners of a band along a line: start left, finish left, finish right, start right. */
function band({ x0_mm, y0_mm, x1_mm, y1_mm }: Line, width: number): [Point, Point, Point, Point] {
  const length = Math.hypot(x1_mm - x0_mm, y1_mm - y0_mm);
  const [nx, ny] = [(-(y1_mm - y0_mm) / length) * (width / 2), ((x1_mm - x0_mm) / length) * (width / 2)];
  return [
    [x0_mm + nx, y0_mm + ny],
    [x1_mm + nx, y1_mm + ny],
    [x1_mm - nx, y1_mm - ny],
    [x0_mm - nx, y0_mm - ny],
  ];
}

/** As wide as it is, but not so narrow that it would vanish between the edges of a slot at a small scale. */
function stripWidth_mm({ width_mm }: SlotLine, { products }: Sizing): number {
  return Math.min(Math.max(products.strip.width_mm, 0.6 * width_mm), 0.8 * width_mm);
}

function slotMarks(slot: SlotLine, runs: readonly Run[], strip_mm: number): Mark[] {
  return [
    filled('DARK_ENDS', ...band(slot, slot.width_mm)),
    line('SLOT_AXES', [slot.x0_mm, slot.y0_mm], [slot.x1_mm, slot.y1_mm]),
    ...runs.map((run) => filled('STRIP', ...band(run, strip_mm))),
    outline('SLOTS', ...band(slot, slot.width_mm)),
  ];
}

/** Height and half the width of the arrow at the start of a run, mm of the paper. */
const start_mm = { long: 1.8, half: 0.6 } as const;

/** An arrow at the start of each run, towards its finish. */
function startMarks({ setOut }: Sizing, perPaper: number): Mark[] {
  const [long, half] = [start_mm.long * perPaper, start_mm.half * perPaper];
  return setOut.runs.map(({ x0_mm, y0_mm, x1_mm, y1_mm }) => {
    const length = Math.hypot(x1_mm - x0_mm, y1_mm - y0_mm);
    const [tx, ty] = [(x1_mm - x0_mm) / length, (y1_mm - y0_mm) / length];
    return filled(
      'STARTS',
      [x0_mm - ty * half, y0_mm + tx * half],
      [x0_mm + ty * half, y0_mm - tx * half],
      [x0_mm + tx * long, y0_mm + ty * long],
    );
  });
}

function feedMarks(sizing: Sizing, perPaper: number): Mark[] {
  const plan = labelPlan(sizing, perPaper);
  return sizing.setOut.slots.flatMap((slot, number) => {
    const feedPoints = sizing.setOut.runs
      .filter((run) => run.slot === slot.id)
      .flatMap((run) => run.feedPoints);
    const dots = feedPoints.map(
      (f): Mark => ({
        ...circle('FEED_POINTS', [f.x_mm, f.y_mm], 0.7 * perPaper, true),
        stands: { block: 'FEED_POINT', ref: f.id },
      }),
    );
    if (number % plan.every !== 0) return dots;
    return [
      ...dots,
      ...feedPoints.flatMap((feedPoint) => feedLabel({ feedPoint, slot, sizing, plan, perPaper })),
    ];
  });
}

function driverNames(place: DriverPlace, sizing: Sizing): string {
  const ids = sizing.drivers.drivers.filter((each) => each.place === place.name).map((each) => each.id);
  if (ids.length === 0) return `${place.name}: no driver`;
  return `${place.name}: ${ids.length > 3 ? `${ids[0]} to ${ids.at(-1)}` : ids.join(', ')}`;
}

const place_em = 2.5;

interface Stand {
  readonly at: Point;
  readonly align: Lettering['align'];
  readonly angle_deg: number;
}

/** Where the lines of a place's lettering stand: beside a tall place, away from the panel, else below or above. */
function standOf(job: Job, place: DriverPlace, em: number, of: { index: number; count: number }): Stand {
  const { x_mm, y_mm, width_mm, height_mm } = place;
  const pitch = 1.3 * em;
  const middle = x_mm + width_mm / 2;
  const after = of.count - 1 - of.index;
  if (height_mm <= width_mm) {
    const isAbove = y_mm >= job.panel.height_mm;
    const y = isAbove ? y_mm + height_mm + (after + 0.4) * pitch : y_mm - (of.index + 1.1) * pitch;
    return { at: [middle, y], align: 'middle', angle_deg: 0 };
  }
  const isLeft = middle < job.panel.width_mm / 2;
  const x = isLeft ? x_mm - after * pitch - 0.7 * em : x_mm + width_mm + (of.index + 0.9) * pitch;
  return { at: [x, y_mm], align: 'left', angle_deg: 90 };
}

/** Longest line of a place's lettering, mm of the paper, where the place itself is shorter. */
const placeLine_mm = 44;

/** Name and corner of a driver place. */
function placeLettering(job: Job, place: DriverPlace, sizing: Sizing, perPaper: number): Mark[] {
  const em = place_em * perPaper;
  const width = Math.max(place.width_mm, place.height_mm, placeLine_mm * perPaper);
  const lines = [
    driverNames(place, sizing),
    `corner at x ${shown(place.x_mm, 0)}, y ${shown(place.y_mm, 0)}`,
  ].flatMap((text) => wrapped(text, width, { em }));
  return lines.map((text, index) =>
    lettering({
      layer: 'DRIVER_NAMES',
      text,
      em,
      ...standOf(job, place, em, { index, count: lines.length }),
    }),
  );
}

function placeMarks(job: Job, place: DriverPlace, sizing: Sizing, perPaper: number): Mark[] {
  const { x_mm, y_mm, width_mm, height_mm } = place;
  const box = { x0: x_mm, y0: y_mm, x1: x_mm + width_mm, y1: y_mm + height_mm };
  return [outline('DRIVER_PLACES', ...corners(box)), ...placeLettering(job, place, sizing, perPaper)];
}

const isRemote = ({ kind }: DriverPlace): boolean => kind === 'remote';

function placesMarks(job: Job, sizing: Sizing, perPaper: number): Mark[] {
  const { places } = job.drivers;
  return [
    ...places
      .filter((place) => !isRemote(place))
      .flatMap((place) => placeMarks(job, place, sizing, perPaper)),
    ...places
      .filter(isRemote)
      .flatMap((place, index) =>
        remotePlaceMarks(job, place, { names: driverNames(place, sizing), index, perPaper }),
      ),
  ];
}

const remoteNames = (job: Job): ReadonlySet<string> =>
  new Set(job.drivers.places.filter(isRemote).map(({ name }) => name));

/** Ways of the cables on the wall, from terminals to pads. */
function cableMarks(job: Job, sizing: Sizing): Mark[] {
  const remote = remoteNames(job);
  return sizing.cables.flatMap((cable) =>
    linesOnWall(cable, remote, sizing).map((points) => line('CABLES', ...points)),
  );
}

const tap_mm = 0.8;

const tapBoxes = ({ installation }: Sizing, perPaper: number): Point[][] => {
  const half = tap_mm * perPaper;
  return installation.taps.map(({ x_mm, y_mm }) =>
    corners({ x0: x_mm - half, y0: y_mm - half, x1: x_mm + half, y1: y_mm + half }),
  );
};

/** Taps on trunks as squares, and the holes cables leave a place by as circles. */
function tapAndExitMarks(job: Job, sizing: Sizing, perPaper: number): Mark[] {
  const boxes = job.drivers.places.filter((place) => !isRemote(place));
  return [
    ...tapBoxes(sizing, perPaper).map((box) => filled('TAPS', ...box)),
    ...boxes.flatMap(({ name }) =>
      linesInPlace(name, sizing).exits.map((exit) => circle('EXITS', exit, 0.9 * perPaper)),
    ),
  ];
}

function originMarks(perPaper: number): Mark[] {
  const reach = 2 * perPaper;
  return [
    circle('DIMENSIONS', [0, 0], perPaper),
    line('DIMENSIONS', [-reach, 0], [reach, 0]),
    line('DIMENSIONS', [0, -reach], [0, reach]),
    lettering({
      layer: 'DIMENSIONS',
      at: [-1.2 * perPaper, -3 * perPaper],
      text: '0, 0',
      em: 2.5 * perPaper,
      align: 'right',
    }),
  ];
}

const figure = (value: number): string => shown(value, Math.abs(value - Math.round(value)) < 0.05 ? 0 : 1);

/** The lower edge of driver places and their names below the panel, so that no extension line runs through them. */
function pastPlaces(places: readonly Extents[], room: number): (stop: number) => number | null {
  return (stop) => {
    const here = places.filter(({ x0, x1, y0 }) => y0 < 0 && stop > x0 - room && stop < x1 + room);
    return here.length === 0 ? null : Math.min(...here.map(({ y0 }) => y0));
  };
}

function dimensionMarks(
  job: Job,
  sizing: Sizing,
  { drawn, places }: { readonly drawn: Extents; readonly places: readonly Extents[] },
  perPaper: number,
): Mark[] {
  const { slots } = sizing.setOut;
  const { width_mm, height_mm } = job.panel;
  const beside = openingChains(job);
  const whole = (length: number): Chain => ({ stops: [0, length], texts: [figure(length)] });
  const isThere = (chain: Chain | null): chain is Chain => chain !== null;
  const level = [levelChain(job, slots), panelChain(job), beside.level, whole(width_mm)].filter(isThere);
  const upright = [uprightChain(job, slots), beside.upright, whole(height_mm)].filter(isThere);
  const common = { perPaper, from: 0 };
  const past = pastPlaces(places, 2 * perPaper);
  // The first chain 8 mm of the paper from all that is drawn, each further one 6 mm beyond.
  const step = (i: number): number => (8 + 6 * i) * perPaper;
  return [
    ...level.flatMap((chain, i) =>
      dimensions({
        ...common,
        ...withoutCrowding(chain, perPaper),
        past,
        axis: 'level',
        at: drawn.y0 - step(i),
      }),
    ),
    ...upright.flatMap((chain, i) =>
      dimensions({ ...common, ...withoutCrowding(chain, perPaper), axis: 'upright', at: drawn.x0 - step(i) }),
    ),
  ];
}

/**
 * The elevation as seen from the room, in millimetres of the piece from the panel's lower left corner, with its
 * lettering sized for one scale: panel, slots with strip and dark ends, feed points with their cables and
 * coordinates, cables from terminals to pads, taps, driver places with what stands in them and the holes cables leave by,
 * remote places as boxes beside it, dimensions.
 *
 * @param perPaper millimetres of the piece to one of the paper, such as 20 for 1:20
 */
export function elevation(job: Job, sizing: Sizing, perPaper: number): Drawing {
  const { setOut } = sizing;
  const labelled = feedMarks(sizing, perPaper);
  const placed = placesMarks(job, sizing, perPaper);
  const faces = panelMarks(job, extentsOf([...labelled, ...placed]).y1, perPaper);
  const taken = [
    ...setOut.slots.map((slot) => band(slot, slot.width_mm)),
    ...tapBoxes(sizing, perPaper),
    ...[...labelled, ...placed, ...faces].flatMap((mark) =>
      mark.kind === 'text' ? [letteringCorners(mark, letterReach)] : [],
    ),
  ];
  const piece: Mark[] = [
    ...cableMarks(job, sizing),
    ...tapAndExitMarks(job, sizing, perPaper),
    ...setOut.slots.flatMap((slot) =>
      slotMarks(
        slot,
        setOut.runs.filter((run) => run.slot === slot.id),
        stripWidth_mm(slot, sizing),
      ),
    ),
    ...startMarks(sizing, perPaper),
    ...faces,
    ...panelOpeningMarks(job, perPaper),
    ...hungMarks(sizing, perPaper),
    ...placed,
    ...labelled,
    ...trunkLabels(sizing, remoteNames(job), leastEm_mm * perPaper, taken),
    ...originMarks(perPaper),
  ];
  const places = piece
    .filter(({ layer }) => layer === 'DRIVER_PLACES' || layer === 'DRIVER_NAMES')
    .map((mark) => extentsOf([mark]));
  const measured = dimensionMarks(job, sizing, { drawn: extentsOf(piece), places }, perPaper);
  const drivers = job.drivers.places
    .filter((place) => !isRemote(place))
    .flatMap((place) => caseMarks(casesIn(place, sizing), perPaper));
  return { marks: [...legible([...piece, ...measured]), ...drivers], perPaper };
}
