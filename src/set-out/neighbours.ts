import type { Neighbour, SlotLine } from '../answer/set-out.ts';

/** Slots at more than 45 degrees to one another do not lie side by side (judgement); at 45 they do, whatever rounding says. */
const leastCosine = Math.SQRT1_2 * (1 - 1e-9);

/** Slots that overlap in length by less than this, in mm, lie one after the other and not side by side. */
const leastOverlap_mm = 1;

/** A stretch of a slot, from its start, over which another lies square across at a distance that changes evenly. */
interface Sight {
  readonly beside: SlotLine;
  readonly side: Neighbour['side'];
  readonly from_mm: number;
  readonly to_mm: number;
  readonly fromDistance_mm: number;
  readonly toDistance_mm: number;
}

const lengthOf = (sight: Sight): number => sight.to_mm - sight.from_mm;
const least_mm = (sight: Sight): number => Math.min(sight.fromDistance_mm, sight.toDistance_mm);
const most_mm = (sight: Sight): number => Math.max(sight.fromDistance_mm, sight.toDistance_mm);

function distanceAt_mm(sight: Sight, at_mm: number): number {
  const share = (at_mm - sight.from_mm) / lengthOf(sight);
  return sight.fromDistance_mm + share * (sight.toDistance_mm - sight.fromDistance_mm);
}

function cut(sight: Sight, from_mm: number, to_mm: number): Sight {
  return {
    ...sight,
    ...{ from_mm, to_mm },
    fromDistance_mm: distanceAt_mm(sight, from_mm),
    toDistance_mm: distanceAt_mm(sight, to_mm),
  };
}

/** A slot as those beside it are measured from it. */
interface Stand {
  readonly slot: SlotLine;
  readonly ux: number;
  readonly uy: number;
}

function standOf(slot: SlotLine): Stand {
  const { x0_mm, y0_mm, x1_mm, y1_mm, length_mm } = slot;
  return { slot, ux: (x1_mm - x0_mm) / length_mm, uy: (y1_mm - y0_mm) / length_mm };
}

/** On each side how far off the nearest slot that runs past the whole length is at most: nothing wholly behind it is seen. */
type Nearest_mm = Record<Neighbour['side'], number>;

/** Another slot seen square across from a slot, as though nothing stood between them but what hides it whole. */
function sightOf(
  { slot, ux, uy }: Stand,
  beside: SlotLine,
  nearest_mm: Readonly<Nearest_mm>,
): Sight | undefined {
  const [x0, y0] = [beside.x0_mm - slot.x0_mm, beside.y0_mm - slot.y0_mm];
  const [x1, y1] = [beside.x1_mm - slot.x0_mm, beside.y1_mm - slot.y0_mm];
  const [s0, s1] = [x0 * ux + y0 * uy, x1 * ux + y1 * uy];
  const from_mm = Math.max(0, Math.min(s0, s1));
  const to_mm = Math.min(slot.length_mm, Math.max(s0, s1));
  if (to_mm - from_mm < leastOverlap_mm || Math.abs(s1 - s0) < leastCosine * beside.length_mm)
    return undefined;
  const [left0, left1] = [y0 * ux - x0 * uy, y1 * ux - x1 * uy];
  const slope = (left1 - left0) / (s1 - s0);
  const [fromLeft, toLeft] = [left0 + (from_mm - s0) * slope, left0 + (to_mm - s0) * slope];
  const side = fromLeft + toLeft > 0 ? 'left' : 'right';
  const [fromDistance_mm, toDistance_mm] = [Math.abs(fromLeft), Math.abs(toLeft)];
  if (Math.min(fromDistance_mm, toDistance_mm) > nearest_mm[side]) return undefined;
  return { beside, side, from_mm, to_mm, fromDistance_mm, toDistance_mm };
}

/** What is left of a stretch where another hides it: nothing between, or both ends beyond the nearer one. */
function besides(sight: Sight, nearer: Sight): Sight[] {
  const [from_mm, to_mm] = [Math.max(sight.from_mm, nearer.from_mm), Math.min(sight.to_mm, nearer.to_mm)];
  const middle_mm = (from_mm + to_mm) / 2;
  if (from_mm >= to_mm || distanceAt_mm(nearer, middle_mm) > distanceAt_mm(sight, middle_mm)) return [sight];
  return [cut(sight, sight.from_mm, from_mm), cut(sight, to_mm, sight.to_mm)].filter((s) => lengthOf(s) > 0);
}

/** Whether two slots can be seen together: on one face of the wall. */
type Together = (a: SlotLine, b: SlotLine) => boolean;

/**
 * What may be seen from the slot at an index, in the order of the list, without what lies wholly behind a slot that runs past the
 * whole length of this one. Looked for from the slot outwards both ways, since the next in the list mostly lies nearest.
 */
function sightsFrom(at: number, slots: readonly SlotLine[], together: Together): Sight[] {
  const stand = standOf(slots[at]!);
  const { length_mm } = stand.slot;
  const nearest_mm: Nearest_mm = { left: Number.POSITIVE_INFINITY, right: Number.POSITIVE_INFINITY };
  const look = (from: number, step: 1 | -1): Sight[] => {
    const seen: Sight[] = [];
    for (let i = from; i >= 0 && i < slots.length; i += step) {
      const beside = slots[i]!;
      const sight = together(stand.slot, beside) ? sightOf(stand, beside, nearest_mm) : undefined;
      if (sight === undefined) continue;
      seen.push(sight);
      if (lengthOf(sight) >= length_mm - leastOverlap_mm)
        nearest_mm[sight.side] = Math.min(nearest_mm[sight.side], most_mm(sight));
    }
    return seen;
  };
  const after = look(at + 1, 1);
  const all = [...look(at - 1, -1).reverse(), ...after];
  return all.filter((sight) => least_mm(sight) <= nearest_mm[sight.side]);
}

/** The next slot on one side, stretch by stretch. Slots do not cross, so that one which is nearer once is so throughout. */
function nextOn(slot: SlotLine, sights: readonly Sight[]): Sight[] {
  let next: Sight[] = [];
  for (const sight of sights.toSorted((a, b) => least_mm(a) - least_mm(b))) {
    const seen_mm = next.reduce((sum, seen) => sum + lengthOf(seen), 0);
    if (seen_mm >= slot.length_mm - leastOverlap_mm && next.every((seen) => most_mm(seen) < least_mm(sight)))
      break;
    const shown = next.reduce((parts, seen) => parts.flatMap((part) => besides(part, seen)), [sight]);
    if (shown.length > 0) next = [...next.flatMap((seen) => besides(seen, sight)), ...shown];
  }
  return next.filter((seen) => lengthOf(seen) >= leastOverlap_mm);
}

function neighboursOf(at: number, slots: readonly SlotLine[], together: Together): Neighbour[] {
  const slot = slots[at]!;
  const sights = sightsFrom(at, slots, together);
  return (['left', 'right'] as const)
    .flatMap((side) =>
      nextOn(
        slot,
        sights.filter((sight) => sight.side === side),
      ),
    )
    .sort((a, b) => a.from_mm - b.from_mm || Number(a.side > b.side) - Number(a.side < b.side))
    .map((sight) => ({ slot: slot.id, ...sight, beside: sight.beside.id }));
}

/**
 * Who lies beside whom: for every slot, stretch by stretch along it, the next slot square across on its left and on
 * its right, and how far off. Slots lie side by side where they overlap in length at 45 degrees or less; slots in one
 * line, or one above the other, do not. Every pair stands there twice, once seen from each slot.
 *
 * @param slots that do not run into each other, in any order; the stretches come slot by slot in that order
 * @param together false of two slots with a corner of the wall between them, which nobody sees side by side
 * Source: plane geometry. Check: `tests/set-out/neighbours.test.ts`.
 */
export function neighbours(slots: readonly SlotLine[], together: Together = () => true): Neighbour[] {
  return slots.flatMap((_, at) => neighboursOf(at, slots, together));
}
