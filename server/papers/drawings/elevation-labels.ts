import type { Cable, FeedPoint, Run, Sizing, SlotLine } from '../../../src/sizing.ts';
import { letterHeight, letterReach } from '../ink/legible.ts';
import { textWidth } from '../ink/lettering.ts';
import { lettering, type Mark } from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { squarePitch_mm } from './square-pitch.ts';

/** Lettering of the labels, and the least air between it and a slot, mm of the paper. */
const ems_mm = [2.5, 2.3, 2, 1.8] as const;
const air_mm = 0.25;
/** Air between a slot and its label, and between a feed point and its label, where there is room for it. */
const easy_mm = 0.7;
const dot_mm = 1.2;

/** The cable that lands at a feed point: the last on the way from the driver. */
export function landingCable(feedPoint: FeedPoint, cables: readonly Cable[]): Cable | undefined {
  return cables.findLast((cable) => cable.to.includes(feedPoint.id));
}

/** How feed points are labelled. */
export interface LabelPlan {
  readonly em_mm: number;
  /** Beside the slot where lettering fits between the slots, else beyond the end that is fed. */
  readonly where: 'beside' | 'beyond';
  /** Every how many slots; 1 for all. */
  readonly every: number;
  /** Whether the labels say x and y; all of them or none. */
  readonly coordinates: boolean;
}

/** Free width between the slots, mm of the piece. */
function free_mm(slots: readonly SlotLine[]): number {
  return squarePitch_mm(slots, Infinity) - Math.max(...slots.map((slot) => slot.width_mm));
}

const sign = { both: '', positive: ' (+)', return: ' (−)' } as const;

function shortText(feedPoint: FeedPoint, sizing: Sizing): string {
  const cable = landingCable(feedPoint, sizing.cables);
  return `${feedPoint.id}${sign[feedPoint.conductors]}${cable ? `  ${cable.id}` : ''}`;
}

const longText = (feedPoint: FeedPoint, sizing: Sizing): string =>
  `${shortText(feedPoint, sizing)}  x ${shown(feedPoint.x_mm, 0)}  y ${shown(feedPoint.y_mm, 0)}`;

/** Whether every slot is long enough for its labels with their coordinates. */
function haveCoordinates(sizing: Sizing, em: number): boolean {
  const { setOut } = sizing;
  return setOut.slots.every((slot) => {
    const shares = setOut.runs.filter((run) => run.slot === slot.id).flatMap((run) => run.feedPoints);
    const isBetween = shares.some(({ at }) => at === 'between');
    const room = slot.length_mm / (shares.length + (isBetween ? 1 : 0)) - 2 * em;
    return shares.every((each) => textWidth(longText(each, sizing), em) <= room);
  });
}

/** The largest lettering that fits between slots; where none does, every second, third, ... slot is labelled. */
export function labelPlan(sizing: Sizing, perPaper: number): LabelPlan {
  const { slots } = sizing.setOut;
  const room = free_mm(slots) / perPaper - 2 * air_mm;
  const em = ems_mm.find((each) => letterHeight * each <= room);
  if (em !== undefined) {
    const coordinates = haveCoordinates(sizing, em * perPaper);
    return { em_mm: em, where: 'beside', every: 1, coordinates };
  }
  const em_mm = ems_mm.at(-1)!;
  const every = Math.ceil(((letterHeight * em_mm + air_mm) * perPaper) / squarePitch_mm(slots, Infinity));
  return { em_mm, where: 'beyond', every, coordinates: false };
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
  const middle = Math.min(free_mm(sizing.setOut.slots) / 2, easy_mm * perPaper + (letterHeight / 2) * em);
  return slot.width_mm / 2 + middle + ((letterReach.above - letterReach.below) / 2) * em;
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
  const shift = (plan.where === 'beside' ? dot_mm : 2 * dot_mm) * perPaper * (runsOn ? 1 : -1);
  const away = away_mm(given);
  return [
    lettering({
      layer: 'CABLE_REFS',
      at: [feedPoint.x_mm + ty * away + tx * shift, feedPoint.y_mm - tx * away + ty * shift],
      text: plan.coordinates ? longText(feedPoint, sizing) : shortText(feedPoint, sizing),
      em,
      align: runsOn ? 'left' : 'right',
      angle_deg: (Math.atan2(ty, tx) * 180) / Math.PI,
    }),
  ];
}

/** References of the cables that no feed point's label names: trunks and their parts. */
export function trunkLabels(sizing: Sizing, runs: readonly Run[], em: number): Mark[] {
  const landing = new Set(
    runs.flatMap((run) => run.feedPoints.map((each) => landingCable(each, sizing.cables)?.id)),
  );
  return sizing.cables
    .filter((cable) => !landing.has(cable.id) && cable.route.length > 1)
    .map((cable) => {
      const spans = cable.route.slice(1).map((to, i) => ({ from: cable.route[i]!, to }));
      const length = ({ from, to }: (typeof spans)[number]): number =>
        Math.hypot(to.x_mm - from.x_mm, to.y_mm - from.y_mm);
      const { from, to } = spans.toSorted((a, b) => length(b) - length(a))[0]!;
      const level = Math.abs(to.x_mm - from.x_mm) > Math.abs(to.y_mm - from.y_mm);
      const fits = textWidth(cable.id, em) < length({ from, to });
      return lettering({
        layer: 'CABLE_REFS',
        at: [(from.x_mm + to.x_mm) / 2, (from.y_mm + to.y_mm) / 2 + 0.3 * em],
        text: cable.id,
        em,
        align: level && fits ? 'middle' : 'left',
        angle_deg: level && !fits ? 90 : 0,
      });
    });
}
