import type { SlotLine } from '../answer/set-out.ts';
import { figures } from '../words.ts';
import type { SetOutIssue } from './issues.ts';

/** Rounding slack in mm, far below anything a saw can do. */
const slack_mm = 1e-6;

/** Ends this near to each other, in mm, are one corner of a bent slot, as drawings leave them. */
const corner_mm = 0.5;

interface Vector {
  readonly x: number;
  readonly y: number;
}

const dot = (a: Vector, b: Vector): number => a.x * b.x + a.y * b.y;
const across = (a: Vector): Vector => ({ x: -a.y, y: a.x });

/** A slot as the opening it is: a rectangle about its centre line. */
interface Opening {
  readonly slot: SlotLine;
  readonly middle: Vector;
  readonly along: Vector;
  readonly half_mm: number;
}

function openingOf(slot: SlotLine): Opening {
  const { x0_mm, y0_mm, x1_mm, y1_mm, length_mm } = slot;
  return {
    slot,
    middle: { x: (x0_mm + x1_mm) / 2, y: (y0_mm + y1_mm) / 2 },
    along: { x: (x1_mm - x0_mm) / length_mm, y: (y1_mm - y0_mm) / length_mm },
    half_mm: length_mm / 2,
  };
}

const reach_mm = ({ along, half_mm, slot }: Opening, axis: Vector): number =>
  half_mm * Math.abs(dot(along, axis)) + (slot.width_mm / 2) * Math.abs(dot(across(along), axis));

/** Room between two openings along an axis; negative where their shadows on it overlap. */
function gap_mm(a: Opening, b: Opening, axis: Vector): number {
  const apart = { x: b.middle.x - a.middle.x, y: b.middle.y - a.middle.y };
  return Math.abs(dot(apart, axis)) - reach_mm(a, axis) - reach_mm(b, axis);
}

/** Openings may touch end to end, but not side to side: no board would be left between them. */
const isClear = (a: Opening, b: Opening): boolean =>
  [a, b].some(({ along }) => gap_mm(a, b, along) > -slack_mm || gap_mm(a, b, across(along)) > slack_mm);

const endsOf = ({ slot }: Opening): readonly [Vector, Vector] => [
  { x: slot.x0_mm, y: slot.y0_mm },
  { x: slot.x1_mm, y: slot.y1_mm },
];

/** Whether two slots are parts of one bent slot: an end of each at one corner, of 90 degrees or more. */
function isCorner(a: Opening, b: Opening): boolean {
  const bend = dot(a.along, b.along);
  return endsOf(a).some((p, i) =>
    endsOf(b).some(
      (q, j) => Math.hypot(p.x - q.x, p.y - q.y) <= corner_mm && (i === j ? bend : -bend) <= slack_mm,
    ),
  );
}

/** Pairs of openings whose shadows on the ground overlap, found in one walk from left to right. */
function* pairs(openings: readonly Opening[]): Generator<readonly [Opening, Opening]> {
  const ground = { x: 1, y: 0 };
  const boxes = openings
    .map((opening) => ({ opening, x: opening.middle.x, reach: reach_mm(opening, ground) }))
    .sort((a, b) => a.x - a.reach - (b.x - b.reach));
  for (const [i, a] of boxes.entries()) {
    for (let j = i + 1; j < boxes.length && boxes[j]!.x - boxes[j]!.reach <= a.x + a.reach + slack_mm; j++) {
      yield [a.opening, boxes[j]!.opening];
    }
  }
}

const side = (of: Opening, p: Vector): number =>
  dot(across(of.along), { x: p.x - of.middle.x, y: p.y - of.middle.y });

/** Whether the ends of one lie on both sides of the other's centre line. */
const straddles = (a: Opening, b: Opening): boolean => {
  const [p, q] = endsOf(b);
  return side(a, p) * side(a, q) < 0;
};

function wordsOf(a: Opening, b: Opening): string {
  const both = `Slots ${a.slot.id} and ${b.slot.id}`;
  if (straddles(a, b) && straddles(b, a)) return `${both} cross: move one, or let it end before the other.`;
  const distance_mm = Math.abs(side(a, b.middle));
  const isParallel = Math.abs(dot(a.along, across(b.along))) < 1e-3;
  if (!isParallel)
    return `${both} run into each other where they meet: move one, or let it end before the other.`;
  if (distance_mm < corner_mm) return `${both} lie one on the other: remove one, or move it.`;
  const widths = [...new Set([a, b].map(({ slot }) => `${figures(slot.width_mm)} mm`))].join(' and ');
  return `${both} lie ${figures(distance_mm)} mm apart and are ${widths} wide, so no board is left between them: move them apart, use fewer slots, or narrow them.`;
}

/**
 * The refusal of slots that run into each other, whichever two they are and however they lie: naming the first such
 * pair in the order of the slots and how many more there are. Undefined where all are clear. Two slots that meet at
 * their ends, straight on or at a corner of 90 degrees or more, are parts of one bent slot and taken as drawn.
 *
 * Source: two rectangles are apart where a line square to a side of one parts them (separating axes, textbook).
 * Check: `tests/set-out/overlaps.test.ts`, beside sampled points of both.
 */
export function overlapIssue(slots: readonly SlotLine[]): SetOutIssue | undefined {
  const rank = new Map(slots.map((slot, i) => [slot, i]));
  const met = [...pairs(slots.map(openingOf))]
    .filter(([a, b]) => !isClear(a, b) && !isCorner(a, b))
    .map((pair) => pair.toSorted((a, b) => rank.get(a.slot)! - rank.get(b.slot)!) as [Opening, Opening])
    .sort(
      (p, q) => rank.get(p[0].slot)! - rank.get(q[0].slot)! || rank.get(p[1].slot)! - rank.get(q[1].slot)!,
    );
  const first = met[0];
  if (!first) return undefined;
  const [a, b] = first;
  const more =
    met.length === 1 ? '' : ` ${met.length - 1} more ${met.length === 2 ? 'pair does' : 'pairs do'} so too.`;
  return {
    code: 'slots-overlap',
    place: { slot: b.slot.id, field: 'slots' },
    quantities: {
      distance_mm: Math.abs(side(a, b.middle)),
      slotWidth_mm: a.slot.width_mm,
      pairCount: met.length,
    },
    sentence: `${wordsOf(a, b)}${more}`,
  };
}
