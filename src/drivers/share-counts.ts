import { heap } from '../numeric/heap.ts';
import type { Cut } from './share-bounds.ts';
import { type Cost, compareCosts, type Kind } from './share-kinds.ts';

/** How many drivers of each kind, and what they cost. */
export interface Counts {
  readonly counts: readonly number[];
  readonly cost: Cost;
  /** No choice that comes after this one costs less. */
  readonly atLeast: Cost;
}

interface Node extends Counts {
  readonly total: number;
  /** Only kinds from this one on are added, so that every choice is met once. */
  readonly from: number;
}

export interface CountsAsked {
  readonly kinds: readonly Kind[];
  /** Of each model; null for as many as it takes. */
  readonly stocks: readonly (number | null)[];
  /** Read anew at every step: what is learnt on the way counts from there on. */
  readonly cuts: readonly Cut[];
  readonly mostDrivers: number;
}

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

/** What costs are whole multiples of; 0 where they are not whole. */
const stepOf = (costs: readonly number[]): number =>
  costs.every(Number.isInteger) ? costs.reduce((a, b) => divisor(a, b), 0) : 0;

const upToStep = (cost: number, step: number): number =>
  step > 0 ? step * Math.ceil(cost / step - 1e-6) : cost;

function room({ stocks, mostDrivers, kinds }: CountsAsked, { counts, total }: Node, k: number): number {
  const { model } = kinds[k]!;
  const stock = stocks[model] ?? null;
  if (stock === null) return mostDrivers - total;
  const used = counts.reduce((sum, count, i) => sum + (kinds[i]!.model === model ? count : 0), 0);
  return Math.min(mostDrivers - total, stock - used);
}

/** Kinds that give something of a cut, by what it costs there, for each figure of the cost. */
type Orders = readonly [first: readonly number[], second: readonly number[]];

function ordersOf(kinds: readonly Kind[], { gives }: Cut): Orders {
  const by = (figure: 0 | 1): number[] =>
    kinds
      .map((_, k) => k)
      .filter((k) => gives[k]! > 0)
      .sort((a, b) => kinds[a]!.cost[figure] * gives[b]! - kinds[b]!.cost[figure] * gives[a]! || a - b);
  return [by(0), by(1)];
}

interface Missing {
  readonly asked: CountsAsked;
  readonly node: Node;
  readonly cut: Cut;
  readonly orders: Orders;
}

/** The least that parts of further drivers cost that give what a cut still needs; endless where they cannot. */
function missing({ asked, node, cut, orders }: Missing, figure: 0 | 1): number {
  const { kinds } = asked;
  let need = cut.need * (1 - 1e-7);
  for (let k = 0; k < kinds.length; k++) need -= node.counts[k]! * cut.gives[k]!;
  let cost = 0;
  for (const k of orders[figure]) {
    if (need <= 1e-9) return cost;
    if (k < node.from) continue;
    const often = Math.min(room(asked, node, k), need / cut.gives[k]!);
    cost += often * kinds[k]!.cost[figure];
    need -= often * cut.gives[k]!;
  }
  return need <= 1e-9 ? cost : Number.POSITIVE_INFINITY;
}

/**
 * Numbers of drivers of each kind that reach every cut and keep to stock, the cheapest first; of equal cost those with the
 * most of the first kinds first. Best first, by what parts of drivers would still have to cost.
 * Check: `tests/drivers/share-counts.test.ts`, against every choice there is.
 */
export function* countsInOrder(asked: CountsAsked): Generator<Counts> {
  const { kinds, cuts } = asked;
  const steps = [0, 1].map((figure) => stepOf(kinds.map(({ cost }) => cost[figure as 0 | 1])));
  const waiting = heap<Node>((a, b) => {
    const order = compareCosts(a.atLeast, b.atLeast);
    return order !== 0 ? order < 0 : a.total > b.total;
  });
  const known = new Map<Cut, Orders>();
  const orders = (cut: Cut): Orders => {
    const before = known.get(cut) ?? ordersOf(kinds, cut);
    known.set(cut, before);
    return before;
  };
  const bounded = (node: Node): Node => {
    const more = ([0, 1] as const).map((figure) => {
      const each = cuts.map((cut) => missing({ asked, node, cut, orders: orders(cut) }, figure));
      return upToStep(Math.max(0, ...each), steps[figure]!);
    });
    return { ...node, atLeast: [node.cost[0] + more[0]!, node.cost[1] + more[1]!] };
  };
  const isOpen = ({ atLeast }: Node): boolean => Number.isFinite(atLeast[0]) && Number.isFinite(atLeast[1]);
  const push = (node: Node): void => {
    const next = bounded(node);
    if (isOpen(next)) waiting.push(next);
  };
  push({ counts: kinds.map(() => 0), cost: [0, 0], atLeast: [0, 0], total: 0, from: 0 });
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const node = bounded(next);
    if (!isOpen(node)) continue;
    if (compareCosts(node.atLeast, next.atLeast) > 0) {
      waiting.push(node);
      continue;
    }
    yield node;
    kinds.forEach(({ cost }, k) => {
      if (k < node.from || room(asked, node, k) < 1) return;
      push({
        ...{ counts: node.counts.with(k, node.counts[k]! + 1), total: node.total + 1, from: k },
        ...{ cost: [node.cost[0] + cost[0], node.cost[1] + cost[1]], atLeast: node.cost },
      });
    });
  }
}
