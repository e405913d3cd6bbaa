import type { BarCut } from '../answer/bars.ts';
import type { SetOut } from '../answer/set-out.ts';
import type { Products } from '../job/products.ts';
import type { Effort } from '../numeric/bin-packing.ts';
import { piecesOf } from '../numeric/bins.ts';
import { counted } from '../words.ts';
import { chooseReels } from './reel-choice.ts';

type Piece = BarCut['bars'][number]['pieces'][number];

/** What a chop saw takes with each cut in aluminium or acrylic (common practice: blades are 2 to 4 mm thick). */
const kerf_mm = 4;

const effort: Effort = { fillWork: 1e6, searchNodes: 50_000, priceWork: 1e7 };

/** A slot in as few pieces as go: whole bars, then the rest. */
function piecesOfSlot({ id, length_mm }: SetOut['slots'][number], bar_mm: number): Piece[] {
  const wholeCount = Math.floor(length_mm / bar_mm + 1e-9);
  const rest_mm = length_mm - wholeCount * bar_mm;
  const whole = Array.from({ length: wholeCount }, () => ({ slot: id, length_mm: bar_mm }));
  return rest_mm > 1e-6 * bar_mm ? [...whole, { slot: id, length_mm: rest_mm }] : whole;
}

interface Bought {
  readonly item: BarCut['item'];
  readonly name: string;
  readonly bar_mm: number;
}

/**
 * Cuts what is sold in bars to the lengths of slots, on the fewest bars: `pieces + kerf` into `bar + kerf`, each piece rounded up
 * to whole millimetres, a slot longer than a bar in whole bars and a rest. Equal pieces come off the bars in the order of the
 * wall.
 *
 * @param bought a bar is 200 mm to 10 m; @param slots as long as they are
 * @returns bars B1, B2 ...; `isLeast` where every smaller number was refuted
 * Source: the functions it joins; the kerf is common practice. Check: `tests/set-out/bars.test.ts` (by hand, and every way of
 * cutting).
 */
export function cutBars(slots: SetOut['slots'], bought: Bought): BarCut {
  const { bar_mm } = bought;
  const pieces = slots.flatMap((slot) => piecesOfSlot(slot, bar_mm));
  const unitsOf = ({ length_mm }: Piece): number => Math.ceil(length_mm - 1e-6) + kerf_mm;
  const sorted = piecesOf(pieces.map(unitsOf));
  const kind = { size: Math.ceil(bar_mm - 1e-6) + kerf_mm, cost: 1, count: null };
  const { filled, isLeast, leastCost } = chooseReels(sorted, [kind], effort);
  const waiting = sorted.sizes.map((size) => pieces.filter((piece) => unitsOf(piece) === size));
  const bars = filled.map(({ counts }, i) => {
    const cut = counts.flatMap((often, s) => waiting[s]!.splice(0, often));
    const used_mm = cut.reduce((sum, piece) => sum + piece.length_mm + kerf_mm, 0);
    return { id: `B${i + 1}`, pieces: cut, left_mm: Math.max(0, bar_mm - used_mm) };
  });
  const method = isLeast
    ? 'No fewer bars can serve these pieces.'
    : `Not shown to be the fewest: at least ${counted(leastCost, 'bar')} are needed, this uses ${bars.length}.`;
  return { ...bought, kerf_mm, bars, jointCount: pieces.length - slots.length, isLeast, method };
}

/**
 * The bars of the profile and of its cover, as far as each is sold in bars.
 *
 * @returns none for what is sold by the metre, or not there. Source: common practice. Check: `tests/set-out/bars.test.ts`.
 */
export function barsOf({ slots }: SetOut, { profile }: Pick<Products, 'profile'>): BarCut[] {
  if (profile === null || slots.length === 0) return [];
  const { name, bar_mm, cover } = profile;
  const ofCover =
    cover && cover.bar_mm !== null
      ? { name: cover.own ?? `${cover.kind} cover`, bar_mm: cover.bar_mm }
      : null;
  return [
    ...(bar_mm === null ? [] : [cutBars(slots, { item: 'profile', name, bar_mm })]),
    ...(ofCover === null ? [] : [cutBars(slots, { item: 'cover', ...ofCover })]),
  ];
}
