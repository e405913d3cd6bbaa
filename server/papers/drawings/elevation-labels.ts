import type { Cable } from '../../../src/answer/cables.ts';
import type { FeedPoint, SlotLine } from '../../../src/answer/set-out.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';
import { letterHeight, letterReach } from '../ink/legible.ts';
import { leastEm_mm, textWidth } from '../ink/lettering.ts';
import { type Lettering, lettering, letteringCorners, type Mark, type Point } from '../ink/mark.ts';
import { overlap } from '../ink/overlap.ts';
import { shown } from '../shown.ts';
import { linesOnWall } from './cable-lines.ts';

/** Lettering of the labels, and the least air between it and a slot, mm of the paper. */
const label_mm = leastEm_mm;
const air_mm = 0.25;
/** Air between a slot and its label, and between a feed point and its label, where there is room for it. */
const easy_mm = 0.7;
const dot_mm = 1.2;

/** The cable that lands at a feed point: the last on the way from the driver. */
export function landingCable(feedPoint: FeedPoint, cables: readonly Cable[]): Cable | undefined {
  return cables.findLast((cable) => cable.serves.includes(feedPoint.id));
}

/** What a label says: the feed point, with it the cable that lands there, and with these the coordinates. */
type Says = 'reference' | 'cable' | 'coordinates';

/** How feed points are labelled, all of them alike. */
export interface LabelPlan {
  readonly em_mm: number;
  /** Beside the slot where lettering fits between the slots, else beyond the end that is fed. */
  readonly where: 'beside' | 'beyond';
  /** Every how many slots; 1 for all. */
  readonly every: number;
  readonly says: Says;
}

/** Free width between the slots, mm of the piece. */
function free_mm({ section, setOut }: Sizing): number {
  return section.pitch_mm - Math.max(...setOut.slots.map((slot) => slot.width_mm));
}

const sign = { both: '', positive: ' (+)', return: ' (−)' } as const;

function labelText(feedPoint: FeedPoint, sizing: Sizing, says: Says): string {
  const reference = `${feedPoint.id}${sign[feedPoint.conductors]}`;
  const cable = says === 'reference' ? undefined : landingCable(feedPoint, sizing.cables);
  const both = cable ? `${reference}  ${cable.id}` : reference;
  if (says !== 'coordinates') return both;
  return `${both}  x ${shown(feedPoint.x_mm, 0)}  y ${shown(feedPoint.y_mm, 0)}`;
}

/** Whether every slot is long enough for what its labels say. */
function fitsAlong(sizing: Sizing, em: number, says: Says): boolean {
  const { setOut } = sizing;
  return setOut.slots.every((slot) => {
    const shares = setOut.runs.filter((run) => run.slot === slot.id).flatMap((run) => run.feedPoints);
    const isBetween = shares.some(({ at }) => at === 'between');
    const room = slot.length_mm / (shares.length + (isBetween ? 1 : 0)) - em;
    return shares.every((each) => textWidth(labelText(each, sizing, says), em) <= room);
  });
}

/** From the most a label can say to the least. */
const ways: readonly Says[] = ['coordinates', 'cable', 'reference'];

/** As much as fits between slots; where nothing does, every second, third, ... slot is labelled. */
export function labelPlan(sizing: Sizing, perPaper: number): LabelPlan {
  const room = free_mm(sizing) / perPaper - 2 * air_mm;
  const em_mm = label_mm;
  const says = letterHeight * em_mm <= room && ways.find((each) => fitsAlong(sizing, em_mm * perPaper, each));
  if (says) return { em_mm, where: 'beside', every: 1, says };
  const every = Math.ceil(((letterHeight * em_mm + air_mm) * perPaper) / sizing.section.pitch_mm);
  return { em_mm, where: 'beyond', every: Math.max(1, every), says: 'cable' };
}

/** Along a slot as its label is read: from below or from the right, never upside down. */
interface Reading {
  readonly along: readonly [number, number];
  /** Whether the slot is read from its finish to its start. */
  readonly backwards: boolean;
}

function readingOf(slot: SlotLine): Reading {
  const x = (slot.x1_mm - slot.x0_mm) / slot.length_mm;
  const y = (slot.y1_mm - slot.y0_mm) / slot.length_mm;
  const backwards = x < -1e-9 || (Math.abs(x) <= 1e-9 && y < 0);
  return { along: backwards ? [-x, -y] : [x, y], backwards };
}

/** Taps further from a feed point than this, mm of the paper, lie beyond the end of its label. */
const tapNear_mm = 20;

/** What a label is made for. */
interface Labelled {
  readonly feedPoint: FeedPoint;
  readonly slot: SlotLine;
  readonly sizing: Sizing;
  readonly plan: LabelPlan;
  readonly perPaper: number;
}

/** How far the base line of a label lies from the middle of its slot: in the middle of a narrow gap. */
function away_mm({ slot, sizing, plan, perPaper }: Labelled): number {
  const em = plan.em_mm * perPaper;
  if (plan.where === 'beyond') return ((letterReach.above - letterReach.below) / 2) * em;
  const middle = Math.min(free_mm(sizing) / 2, easy_mm * perPaper + (letterHeight / 2) * em);
  return slot.width_mm / 2 + middle + ((letterReach.above - letterReach.below) / 2) * em;
}

/** How far beyond an end a tap on the same line reaches, from the feed point on, where it is met before the lettering is clear of it. */
function pastTaps_mm(
  { feedPoint, sizing, plan, perPaper }: Labelled,
  [tx, ty]: readonly [number, number],
  sign: number,
): number {
  if (plan.where === 'beside') return 0;
  const room = plan.em_mm * perPaper;
  const reaches = sizing.installation.taps.flatMap((tap) => {
    const [dx, dy] = [tap.x_mm - feedPoint.x_mm, tap.y_mm - feedPoint.y_mm];
    const [ahead, aside] = [sign * (dx * tx + dy * ty), Math.abs(dy * tx - dx * ty)];
    return ahead > 0 && ahead < tapNear_mm * perPaper && aside < room ? [ahead + perPaper] : [];
  });
  return Math.max(0, ...reaches);
}

/** The label of a feed point, read along its slot; none for a feed point that has no end of a slot beyond it. */
export function feedLabel(given: Labelled): Mark[] {
  const { feedPoint, slot, sizing, plan, perPaper } = given;
  if (plan.where === 'beyond' && feedPoint.at === 'between') return [];
  const em = plan.em_mm * perPaper;
  const { along, backwards } = readingOf(slot);
  const [tx, ty] = along;
  const isFirst = feedPoint.at === 'between' || (feedPoint.at === 'start') !== backwards;
  const runsOn = plan.where === 'beside' ? isFirst : !isFirst;
  const sign = runsOn ? 1 : -1;
  const clear = (plan.where === 'beside' ? dot_mm : 2 * dot_mm) * perPaper;
  const shift = sign * (clear + pastTaps_mm(given, along, sign));
  const away = away_mm(given);
  return [
    lettering({
      layer: 'CABLE_REFS',
      at: [feedPoint.x_mm + ty * away + tx * shift, feedPoint.y_mm - tx * away + ty * shift],
      text: labelText(feedPoint, sizing, plan.says),
      em,
      align: runsOn ? 'left' : 'right',
      angle_deg: (Math.atan2(ty, tx) * 180) / Math.PI,
      leadsTo: `Feed-point schedule: ${feedPoint.id}`,
    }),
  ];
}

/** Cables between devices of one place are named in the drawing of that place. */
export const isNamedOnWall = ({ kind }: Cable): boolean => kind !== 'link';

/** Shares of a span at which its label is tried, the middle first. */
const tried = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];

interface Span {
  readonly from: Point;
  readonly to: Point;
}

const length_mm = ({ from, to }: Span): number => Math.hypot(to[0] - from[0], to[1] - from[1]);

/** Where the reference of a cable may stand on a span: above a level one, beside an upright one. */
function standsOn(span: Span, text: string, em: number): Lettering[] {
  const [[x0, y0], [x1, y1]] = [span.from, span.to];
  const level = Math.abs(x1 - x0) > Math.abs(y1 - y0);
  const fits = textWidth(text, em) < length_mm(span);
  return tried.map((share) =>
    lettering({
      layer: 'CABLE_REFS',
      at: [x0 + share * (x1 - x0) + (level ? 0 : 0.3 * em), y0 + share * (y1 - y0) + 0.3 * em],
      text,
      em,
      align: level && fits ? 'middle' : 'left',
      angle_deg: level && !fits ? 90 : 0,
    }),
  );
}

/** Where the reference of a cable may stand along its lines as they are drawn, the longest span first. */
function standsOf(lines: readonly (readonly Point[])[], text: string, em: number): Lettering[] {
  const spans = lines.flatMap((points) => points.slice(1).map((to, i): Span => ({ from: points[i]!, to })));
  return spans.toSorted((a, b) => length_mm(b) - length_mm(a)).flatMap((span) => standsOn(span, text, em));
}

/**
 * References of the cables that no feed point's label names: trunks and their parts. One that has no room beside
 * what stands there already is left out.
 *
 * @param remote names of the remote places
 * @param taken boxes that must stay free of lettering
 */
export function trunkLabels(
  sizing: Sizing,
  remote: ReadonlySet<string>,
  em: number,
  taken: readonly (readonly Point[])[],
): Mark[] {
  const landing = new Set(
    sizing.setOut.runs.flatMap((run) => run.feedPoints.map((each) => landingCable(each, sizing.cables)?.id)),
  );
  const boxes = [...taken];
  return sizing.cables
    .filter((cable) => isNamedOnWall(cable) && !landing.has(cable.id))
    .flatMap((cable) => {
      const isFree = (label: Lettering): boolean => {
        const box = letteringCorners(label, letterReach);
        return boxes.every((each) => !overlap(box, each));
      };
      const label = standsOf(linesOnWall(cable, remote, sizing), cable.id, em).find(isFree);
      if (label) boxes.push(letteringCorners(label, letterReach));
      return label ? [label] : [];
    });
}
