import type { Job } from './job.ts';
import { mostSlots, type Segment, type Slots } from './slots.ts';

type Panel = Job['panel'];
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

/** Centre lines between two margins: as many as the pitch allows, centred; or a count, with equal spaces. */
function centres(from_mm: number, to_mm: number, slots: Generated): number[] {
  const room_mm = to_mm - from_mm - slots.width_mm;
  if (room_mm < -slack_mm) return [];
  const { spacing } = slots;
  const count =
    spacing.by === 'count' ? spacing.count : Math.floor(room_mm / spacing.pitch_mm + slack_mm) + 1;
  const pitch_mm = spacing.by === 'pitch' ? spacing.pitch_mm : count > 1 ? room_mm / (count - 1) : 0;
  const first_mm = (from_mm + to_mm) / 2 - (pitch_mm * (count - 1)) / 2;
  return Array.from({ length: Math.min(count, mostSlots + 1) }, (_, i) => first_mm + i * pitch_mm);
}

function generate(panel: Panel, slots: Generated): Segment[] {
  const [x0, x1] = [slots.left_mm, panel.width_mm - slots.right_mm];
  const [y0, y1] = [slots.foot_mm, panel.height_mm - slots.head_mm];
  return slots.axis === 'upright'
    ? centres(x0, x1, slots).map((x) => upright(x, y0, y1))
    : centres(y0, y1, slots).map((y) => level(y, x0, x1));
}

const share = { foot: 0, middle: 0.5, head: 1 } as const;

function list(slots: Listed): Segment[] {
  return slots.lengths_mm.map((length_mm, i) => {
    const y0_mm = slots.level_mm - share[slots.align] * length_mm;
    return upright(slots.first_mm + i * slots.pitch_mm, y0_mm, y0_mm + length_mm);
  });
}

/**
 * Centre lines of the slots as they are given, before anybody asks whether they fit: from the generator, the list of
 * lengths or the drawing, in mm from the panel's lower left corner. Of a generator that asks for too many there is
 * one more than a job holds; margins that meet turn its slots inside out.
 */
export function slotSegments(panel: Panel, slots: Slots): readonly Segment[] {
  if (slots.from === 'generator') return generate(panel, slots);
  return slots.from === 'lengths' ? list(slots) : slots.segments;
}
