import type { SlotLine } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import { slack_mm, slotSegments } from '../job/slot-segments.ts';
import { mostSlots, type Segment, type Slots } from '../job/slots.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { SetOutIssue } from './issues.ts';
import { besideOpenings } from './openings.ts';
import { overlapIssue } from './overlaps.ts';
import { inWallOrder } from './wall-order.ts';

type Panel = Job['panel'];
type SlotsGiven = Pick<Job, 'panel' | 'openings' | 'slots'>;

const slotId = (i: number): string => `S${String(i + 1).padStart(2, '0')}`;

const line = (segment: Segment, i: number, width_mm: number): SlotLine => ({
  id: slotId(i),
  number: i + 1,
  width_mm,
  length_mm: Math.hypot(segment.x1_mm - segment.x0_mm, segment.y1_mm - segment.y0_mm),
  ...segment,
});

function outsideIssue(panel: Panel, slot: SlotLine): SetOutIssue | undefined {
  const inX = (x: number): boolean => x >= -slack_mm && x <= panel.width_mm + slack_mm;
  const inY = (y: number): boolean => y >= -slack_mm && y <= panel.height_mm + slack_mm;
  if (inX(slot.x0_mm) && inX(slot.x1_mm) && inY(slot.y0_mm) && inY(slot.y1_mm)) return undefined;
  return {
    code: 'slot-outside-panel',
    place: { slot: slot.id, field: 'slots' },
    quantities: { panelWidth_mm: panel.width_mm, panelHeight_mm: panel.height_mm },
    sentence: `Slot ${slot.id} runs past the edge of the panel: shorten or move it, or make the panel larger.`,
  };
}

/** Margins that meet turn a generated slot inside out. */
function insideOut({ x0_mm, y0_mm, x1_mm, y1_mm }: Segment, { from }: Slots): boolean {
  const isPoint = Math.hypot(x1_mm - x0_mm, y1_mm - y0_mm) < slack_mm;
  return from === 'generator' && (x1_mm < x0_mm || y1_mm < y0_mm || isPoint);
}

const noSlot = (panel: Panel): SetOutIssue => ({
  code: 'no-slot-fits',
  place: { field: 'slots' },
  quantities: { panelWidth_mm: panel.width_mm, panelHeight_mm: panel.height_mm },
  sentence: 'The margins leave no room for a slot: make the margins smaller or the panel larger.',
});

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
 * listed and given in the order one meets them along the wall, each part that an opening leaves of one a slot of its own. Refuses a set-out without slots, with more than a job
 * holds, off the panel, or with slots that run into each other.
 */
export function slotLines({ panel, openings, slots }: SlotsGiven): Outcome<SlotLine[], SetOutIssue> {
  const given = slotSegments(panel, slots);
  if (given[0] === undefined || insideOut(given[0], slots)) return refused(noSlot(panel));
  const left = besideOpenings(given, openings, slots.width_mm);
  if (left.length === 0) return refused(noneLeft(openings));
  const lines = left.map((segment, i) => line(segment, i, slots.width_mm));
  if (lines.length > mostSlots) return refused(tooMany());
  const outside = lines.map((slot) => outsideIssue(panel, slot)).filter((x) => x !== undefined);
  if (outside.length > 0) return refused(...outside);
  const inOrder = inWallOrder(lines);
  const overlap = overlapIssue(inOrder);
  return overlap ? refused(overlap) : found(inOrder);
}
