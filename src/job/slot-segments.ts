import type { Job } from './job.ts';
import { placedPanels } from './panels.ts';
import { mostSlots, type Segment, type Slots } from './slots.ts';

type Generated = Extract<Slots, { from: 'generator' }>;
type Listed = Extract<Slots, { from: 'lengths' }>;

/** Rounding slack in mm, far below anything a saw can do. */
export const slack_mm = 1e-6;

const upright = (x_mm: number, y0_mm: number, y1_mm: number): Segment => ({
  x0_mm: x_mm,
  y0_mm,
  x1_mm: x_mm,
  y1_mm,
});
const level = (y_mm: number, x0_mm: number, x1_mm: number): Segment => ({
  x0_mm,
  y0_mm: y_mm,
  x1_mm,
  y1_mm: y_mm,
});

/** A panel as the generator fills it. */
interface Bay {
  readonly left_mm: number;
  readonly right_mm: number;
  readonly bottom_mm: number;
  readonly top_mm: number;
  /** Instead of what the spacing gives; null for that. */
  readonly slotCount: number | null;
}

/** Centre lines between two margins: as many as the pitch allows, centred; or a count, with equal spaces. */
function centres(from_mm: number, to_mm: number, slots: Generated, own: Bay['slotCount']): number[] {
  const room_mm = to_mm - from_mm - slots.width_mm;
  if (room_mm < -slack_mm) return [];
  const spacing = own === null ? slots.spacing : ({ by: 'count', count: own } as const);
  const count =
    spacing.by === 'count' ? spacing.count : Math.floor(room_mm / spacing.pitch_mm + slack_mm) + 1;
  const pitch_mm = spacing.by === 'pitch' ? spacing.pitch_mm : count > 1 ? room_mm / (count - 1) : 0;
  const first_mm = (from_mm + to_mm) / 2 - (pitch_mm * (count - 1)) / 2;
  return Array.from({ length: Math.min(count, mostSlots + 1) }, (_, i) => first_mm + i * pitch_mm);
}

function fill({ left_mm, right_mm, bottom_mm, top_mm, slotCount }: Bay, slots: Generated): Segment[] {
  const [x0, x1] = [left_mm + slots.left_mm, right_mm - slots.right_mm];
  const [y0, y1] = [bottom_mm + slots.foot_mm, top_mm - slots.head_mm];
  return slots.axis === 'upright'
    ? centres(x0, x1, slots, slotCount).map((x) => upright(x, y0, y1))
    : centres(y0, y1, slots, slotCount).map((y) => level(y, x0, x1));
}

/** Panel by panel from left to right; a wall of no panels is one. */
function generate({ panel, panels }: Pick<Job, 'panel' | 'panels'>, slots: Generated): Segment[] {
  const whole: Bay = {
    ...{ left_mm: 0, right_mm: panel.width_mm, bottom_mm: 0, top_mm: panel.height_mm },
    slotCount: null,
  };
  return panels.length === 0
    ? fill(whole, slots)
    : placedPanels({ panels }).flatMap((each) => fill(each, slots));
}

const share = { foot: 0, middle: 0.5, head: 1 } as const;

function list(slots: Listed): Segment[] {
  return slots.lengths_mm.map((length_mm, i) => {
    const y0_mm = slots.level_mm - share[slots.align] * length_mm;
    return upright(slots.first_mm + i * slots.pitch_mm, y0_mm, y0_mm + length_mm);
  });
}

/**
 * Centre lines of the slots as they are given, before anybody asks whether they fit: from the generator, panel by panel, the
 * list of lengths or the drawing, in mm from the wall's lower left corner. Of a generator that asks for too many there is
 * one more of a panel than a job holds; margins that meet turn its slots inside out.
 */
export function slotSegments(job: Pick<Job, 'panel' | 'panels' | 'slots'>): readonly Segment[] {
  const { slots } = job;
  if (slots.from === 'generator') return generate(job, slots);
  return slots.from === 'lengths' ? list(slots) : slots.segments;
}
