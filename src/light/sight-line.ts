import { coverOf, placedProfile } from './profile.ts';
import { type LitSection, lampFrame, meetsSheet, slotEdges } from './section.ts';

/** Where eyes are when people stand and sit (EN 12464-1 takes 1.6 m and 1.2 m; from memory). */
export const eyeHeights_m = { standing: 1.6, sitting: 1.2 } as const;

/** Where a slot is in the wall and where people may be. */
export interface SlotInRoom {
  /** Direction of the run: 90 for an upright slot, 0 for a level one. */
  readonly angle_deg: number;
  /** Height of the middle of the slot above the floor. */
  readonly height_m: number;
  /** From the face of the wall to the eye. */
  readonly viewingDistance_m: number;
  /** How far to the left and right of the slot people may stand or sit. */
  readonly sideways_m: number;
}

/** Range of eye positions across the slot, from its middle. */
export interface EyeRange {
  readonly from_m: number;
  readonly to_m: number;
}

/** Whether one kind of eye can look straight into the lamps. */
export interface SightLine {
  readonly posture: keyof typeof eyeHeights_m;
  readonly seen: boolean;
  /** Where along its own way across the slot the eye sees the lamps; null where it cannot. */
  readonly across: EyeRange | null;
}

/** What the walls of a profile leave open; `reach` is where a line past an edge so far before the lamps gets to. */
function mouthRange(section: LitSection, reach: (edge_m: number, before_m: number) => number): EyeRange {
  const placed = placedProfile(section);
  if (placed === null) return { from_m: Number.NEGATIVE_INFINITY, to_m: Number.POSITIVE_INFINITY };
  const { inner, profile } = placed;
  const { inside_m, wallHeight_m } = profile;
  if (section.strip.mount !== 'side')
    return { from_m: reach(inner.x0, wallHeight_m), to_m: reach(inner.x1, wallHeight_m) };
  // On the left side the mouth stands upright: the steepest line passes the rim nearer the front.
  return { from_m: reach(inner.x1, inside_m / 2), to_m: Number.POSITIVE_INFINITY };
}

/**
 * Eye positions, across the slot, from which the lamps themselves are in view through a slot that is open or has a sheet that
 * does not spread light: the sight line must pass between both edges at the rear and at the face of the front.
 *
 * @param section an answered section. @param viewingDistance_m from the face to the eye, above zero.
 * @returns distances from the middle of the slot, in the sense of the section's x; null when no eye can see them:
 *   a sheet that spreads light is in the way, the strip faces away, or the edges hide it.
 * Source: geometry. Check: `tests/light/sight-line.test.ts` (rays drawn from the lamp).
 */
export function bareLampRange(section: LitSection, viewingDistance_m: number): EyeRange | null {
  if (meetsSheet(section) || section.strip.mount === 'front') return null;
  const { profile } = section;
  if (profile !== undefined && coverOf(profile).straight === 0) return null;
  const lamp = lampFrame(section).at;
  const { left_m, right_m } = slotEdges(section);
  const middle = (left_m + right_m) / 2;
  const isRecessed = section.strip.mount === 'recessed';
  const rear = isRecessed ? profile!.wallHeight_m : section.depth_m - lamp.y;
  const face = rear + (isRecessed ? 0 : section.reveal.depth_m);
  const eye = face + viewingDistance_m;
  const reach = (edge: number, depth: number): number => lamp.x + ((edge - lamp.x) * eye) / depth - middle;
  const mouth = mouthRange(section, reach);
  const from_m = Math.max(reach(left_m, rear), reach(left_m, face), mouth.from_m);
  const to_m = Math.min(reach(right_m, rear), reach(right_m, face), mouth.to_m);
  return from_m < to_m ? { from_m, to_m } : null;
}

/** Whether an eye straight in front of the slot, this far from the face, looks into bare lamps. */
export function lampsStraightAhead(section: LitSection, viewingDistance_m: number): boolean {
  const range = bareLampRange(section, viewingDistance_m);
  return range !== null && range.from_m <= 0 && range.to_m >= 0;
}

/** Ways across the slot open to an eye at one height that may move sideways. */
function eyeWay(room: SlotInRoom, eyeHeight_m: number): EyeRange {
  const angle = (room.angle_deg * Math.PI) / 180;
  const fixed = -Math.cos(angle) * (eyeHeight_m - room.height_m);
  const free = Math.abs(Math.sin(angle)) * room.sideways_m;
  return { from_m: fixed - free, to_m: fixed + free };
}

/**
 * Whether a standing or a sitting eye can look straight into bare lamps through an open slot.
 *
 * @param section x runs to the right for an upright slot and downwards for a level one.
 * @param room the slot's direction and height, the viewing distance, and how far people may move sideways.
 * @returns one answer for each posture, with the stretch from which the lamps are seen.
 * Holds for a long slot: what hides beyond its ends is not looked at.
 * Source: geometry; eye heights EN 12464-1 (from memory). Check: `tests/light/sight-line.test.ts`.
 */
export function bareLampSightLines(section: LitSection, room: SlotInRoom): SightLine[] {
  const lit = bareLampRange(section, room.viewingDistance_m);
  return (['standing', 'sitting'] as const).map((posture) => {
    const way = eyeWay(room, eyeHeights_m[posture]);
    const from_m = lit ? Math.max(way.from_m, lit.from_m) : 0;
    const to_m = lit ? Math.min(way.to_m, lit.to_m) : 0;
    const seen = lit !== null && from_m <= to_m;
    return { posture, seen, across: seen ? { from_m, to_m } : null };
  });
}
