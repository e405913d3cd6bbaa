import type { SlotLine } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import { type PlacedPanel, placedPanels } from '../job/panels.ts';
import { slack_mm, slotSegments } from '../job/slot-segments.ts';
import { mostSlots, type Segment, type Slots } from '../job/slots.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { naming } from '../words.ts';
import type { SetOutIssue } from './issues.ts';
import { besideOpenings } from './openings.ts';
import { overlapIssue } from './overlaps.ts';
import { inWallOrder } from './wall-order.ts';

type SlotsGiven = Pick<Job, 'panel' | 'panels' | 'openings' | 'slots'>;

const slotId = (i: number): string => `S${String(i + 1).padStart(2, '0')}`;

/** The edges that a slot has to keep within. */
interface Edges {
  readonly left_mm: number;
  readonly right_mm: number;
  readonly bottom_mm: number;
  readonly top_mm: number;
}

const isInside = ({ x0_mm, y0_mm, x1_mm, y1_mm }: Segment, edges: Edges): boolean => {
  const inX = (x: number): boolean => x >= edges.left_mm - slack_mm && x <= edges.right_mm + slack_mm;
  const inY = (y: number): boolean => y >= edges.bottom_mm - slack_mm && y <= edges.top_mm + slack_mm;
  return inX(x0_mm) && inX(x1_mm) && inY(y0_mm) && inY(y1_mm);
};

/** The panel a slot lies in, as a whole; null where it lies in none. */
const homeOf = (segment: Segment, all: readonly PlacedPanel[]): string | null =>
  all.find((panel) => isInside(segment, panel))?.id ?? null;

function line(
  { width_mm: own_mm, ...ends }: Segment,
  i: number,
  { width_mm, all }: { readonly width_mm: number; readonly all: readonly PlacedPanel[] },
): SlotLine {
  return {
    id: slotId(i),
    number: i + 1,
    panel: homeOf(ends, all),
    width_mm: own_mm ?? width_mm,
    length_mm: Math.hypot(ends.x1_mm - ends.x0_mm, ends.y1_mm - ends.y0_mm),
    ...ends,
  };
}

const wholeWall = ({ panel }: Pick<Job, 'panel'>): Edges => ({
  ...{ left_mm: 0, bottom_mm: 0 },
  ...{ right_mm: panel.width_mm, top_mm: panel.height_mm },
});

/** What a slot off its panel does: it runs past an edge, or from one panel to the next. */
function outsideSentence(slot: SlotLine, all: readonly PlacedPanel[]): string {
  const [from_mm, to_mm] = [Math.min(slot.x0_mm, slot.x1_mm), Math.max(slot.x0_mm, slot.x1_mm)];
  const met = all.filter(({ left_mm, right_mm }) => from_mm < right_mm && to_mm > left_mm);
  if (met.length > 1)
    return `Slot ${slot.id} runs from panel ${met[0]!.id} to panel ${met.at(-1)!.id}: end it before the gap, and let another begin beyond it.`;
  if (met.length === 0 && all.length > 0)
    return `Slot ${slot.id} lies in no panel but in a gap between two, or beside them: move it, or move the panels.`;
  const which = met[0] ? `panel ${met[0].id}` : 'the panel';
  return `Slot ${slot.id} runs past the edge of ${which}: shorten or move it, or make the panel larger.`;
}

function outsideIssue({ panel, panels }: SlotsGiven, slot: SlotLine): SetOutIssue | undefined {
  if (panels.length === 0 ? isInside(slot, wholeWall({ panel })) : slot.panel !== null) return undefined;
  return {
    code: 'slot-outside-panel',
    place: { slot: slot.id, field: 'slots' },
    quantities: { panelWidth_mm: panel.width_mm, panelHeight_mm: panel.height_mm },
    sentence: outsideSentence(slot, placedPanels({ panels })),
  };
}

/** Margins that meet turn a generated slot inside out. */
function insideOut({ x0_mm, y0_mm, x1_mm, y1_mm }: Segment, { from }: Slots): boolean {
  const isPoint = Math.hypot(x1_mm - x0_mm, y1_mm - y0_mm) < slack_mm;
  return from === 'generator' && (x1_mm < x0_mm || y1_mm < y0_mm || isPoint);
}

/** The panels whose margins leave no room for a slot; a plain one needs none. Null where there are no panels. */
function withoutRoom(given: SlotsGiven): string[] | null {
  if (given.slots.from !== 'generator' || given.panels.length === 0) return null;
  return given.panels
    .filter((panel) => {
      const alone = slotSegments({ panel, panels: [], slots: given.slots });
      return panel.slotCount !== 0 && (alone[0] === undefined || insideOut(alone[0], given.slots));
    })
    .map(({ id }) => id);
}

function noSlot({ panel }: SlotsGiven, narrow: readonly string[] | null): SetOutIssue {
  const remedy = 'make the margins smaller or the panel larger';
  return {
    code: 'no-slot-fits',
    place: { field: 'slots' },
    quantities: { panelWidth_mm: panel.width_mm, panelHeight_mm: panel.height_mm },
    sentence:
      narrow === null
        ? `The margins leave no room for a slot: ${remedy}.`
        : narrow.length === 0
          ? 'No panel is to have a slot: give at least one of them some.'
          : `The margins leave no room for a slot in ${naming('panel', narrow)}: ${remedy}, or give it no slots.`,
  };
}

const noneLeft = (openings: Job['openings']): SetOutIssue => ({
  code: 'no-slot-fits',
  place: { field: 'openings' },
  quantities: { openingCount: openings.length },
  sentence:
    'The openings leave no slot whole: move them, make them smaller, or give the slots another place.',
});

const tooMany = (): SetOutIssue => ({
  code: 'too-many-slots',
  place: { field: 'slots.spacing' },
  quantities: { mostSlots },
  sentence: `This pitch gives more than ${mostSlots} slots: widen the pitch, or split the wall into several jobs.`,
});

/**
 * Where the slots are: centre lines from the generator, the list of lengths or the drawing, numbered from S01 as
 * listed and given in the order one meets them along the wall, each part that an opening leaves of one a slot of its own.
 * Refuses a set-out without slots, with more than a job holds, off the panel or across a gap of two, or with slots that run
 * into each other.
 */
export function slotLines(job: SlotsGiven): Outcome<SlotLine[], SetOutIssue> {
  const { openings, slots } = job;
  const given = slotSegments(job);
  const narrow = withoutRoom(job);
  if (given[0] === undefined || narrow?.length || (narrow === null && insideOut(given[0], slots)))
    return refused(noSlot(job, narrow));
  const left = besideOpenings(given, openings, slots.width_mm);
  if (left.length === 0) return refused(noneLeft(openings));
  const all = placedPanels(job);
  const lines = left.map((segment, i) => line(segment, i, { width_mm: slots.width_mm, all }));
  if (lines.length > mostSlots) return refused(tooMany());
  const outside = lines.map((slot) => outsideIssue(job, slot)).filter((x) => x !== undefined);
  if (outside.length > 0) return refused(...outside);
  const inOrder = inWallOrder(lines);
  const overlap = overlapIssue(inOrder);
  return overlap ? refused(overlap) : found(inOrder);
}
