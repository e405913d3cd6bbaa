import { bestSet } from '../numeric/best-set.ts';
import { hasOneOutput } from './driver-fills.ts';
import type { Load } from './loads.ts';
import { type Kind, roomOfDriver_W } from './share-kinds.ts';
import type { Budget, FilledDriver } from './share-search.ts';

/** Equal loads of a zone. */
interface Same {
  readonly watts: number;
  readonly zone: string | null;
  readonly members: readonly number[];
}

function sameLoads(loads: readonly Load[]): Same[] {
  const groups = new Map<string, number[]>();
  loads.forEach(({ watts, zone }, i) => {
    const key = `${watts} ${zone}`;
    groups.set(key, [...(groups.get(key) ?? []), i]);
  });
  return [...groups.values()].map((members) => ({ ...loads[members[0]!]!, members }));
}

/** Larger loads are worth a little more than their watts, since they are harder to place. */
const exponent = 1.03;

/** Steps for the filling of one driver. */
const mostSteps = 300;

interface Filling {
  readonly same: readonly Same[];
  readonly kinds: readonly Kind[];
  readonly worths: number[];
  readonly left: number[];
  readonly empty: number[];
  readonly budget: Budget;
}

interface Fill {
  readonly kind: number;
  readonly counts: readonly number[];
  readonly density: number;
}

/** The driver that is filled best with what is left of some zone. */
function bestFill({ same, kinds, worths, left, empty, budget }: Filling): Fill | undefined {
  const zones = [...new Set(same.filter((_, s) => left[s]! > 0).map(({ zone }) => zone))];
  let best: Fill | undefined;
  for (const zone of zones) {
    const goods = same.map((each, s) => ({
      ...{ size: each.watts, value: worths[s]!, count: each.zone === zone ? left[s]! : 0 },
    }));
    for (const [k, kind] of kinds.entries()) {
      if (empty[k] === 0) continue;
      const room_W = roomOfDriver_W(kind);
      const { counts, value, steps } = bestSet(goods, room_W, mostSteps);
      budget.steps -= steps + same.length / 4;
      const density = value / room_W;
      if (counts.some((count) => count > 0) && density > (best?.density ?? -1))
        best = { kind: k, counts, density };
    }
  }
  return best;
}

/** Raises what loads are worth that were placed with much waste. */
function correct({ same, kinds, worths }: Filling, { kind, counts }: Fill): void {
  const used_W = counts.reduce((sum, count, s) => sum + count * same[s]!.watts, 0);
  const room_W = roomOfDriver_W(kinds[kind]!);
  counts.forEach((count, s) => {
    if (count > 0 && used_W > 0)
      worths[s] = (worths[s]! + (same[s]!.watts ** exponent * room_W) / used_W) / 2;
  });
}

/** One pass: driver after driver, until nothing is left or nothing goes on. */
function pass(filling: Filling): Fill[] {
  const fills: Fill[] = [];
  while (filling.left.some((count) => count > 0)) {
    const fill = bestFill(filling);
    if (!fill) break;
    fills.push(fill);
    filling.empty[fill.kind]!--;
    fill.counts.forEach((count, s) => {
      filling.left[s]! -= count;
    });
    correct(filling, fill);
  }
  return fills;
}

function withLoads(fills: readonly Fill[], { same, kinds }: Filling): FilledDriver[] {
  const waiting = same.map(({ members }) => [...members]);
  return fills.map(({ kind, counts }) => {
    const held = counts.flatMap((count, s) => waiting[s]!.splice(0, count));
    const watts = counts.reduce((sum, count, s) => sum + count * same[s]!.watts, kinds[kind]!.own_W);
    return { kind, outputs: [held], watts };
  });
}

/**
 * Fills drivers of given numbers one after the other, each as best it can be by what loads are worth, and then again with
 * loads worth more that were badly placed (sequential value correction). Only where each driver is as good as one output.
 *
 * @returns the drivers when all loads went on, else undefined, which proves nothing
 * Source: as `numeric/bin-filling.ts`, here for sizes that are not whole. Check: `tests/drivers/share-out.test.ts`.
 */
export function fillSharing(
  loads: readonly Load[],
  kinds: readonly Kind[],
  { counts, budget }: { readonly counts: readonly number[]; readonly budget: Budget },
): FilledDriver[] | undefined {
  if (!kinds.every((kind, k) => counts[k] === 0 || hasOneOutput(kind))) return undefined;
  const same = sameLoads(loads);
  const worths = same.map(({ watts }) => watts ** exponent);
  while (budget.steps > 0) {
    const filling = {
      ...{ same, kinds, worths, budget, empty: [...counts] },
      left: same.map(({ members }) => members.length),
    };
    const fills = pass(filling);
    if (filling.left.every((count) => count === 0)) return withLoads(fills, filling);
    // Where nothing goes on anything, it will not the next time.
    if (fills.length === 0) return undefined;
  }
  return undefined;
}
