import { bestSet } from '../numeric/best-set.ts';
import { type CoverFill, type CoverPrices, coverPrices } from '../numeric/cover-prices.ts';
import type { Load } from './loads.ts';
import { leastBinCount } from './lower-bound.ts';
import { type Kind, roomOfDriver_W } from './share-kinds.ts';

/**
 * Something every choice of drivers has to reach: drivers of each kind that do carry all loads, `n_k` of them, have
 * `sum of n_k * gives_k >= need`.
 */
export interface Cut {
  readonly need: number;
  readonly gives: readonly number[];
  /** What each load is worth of it, so that a driver carries at most `gives_k` of; null where loads do not add up to it. */
  readonly worths: readonly number[] | null;
}

/** Loads of one zone that count as equal: all of them for as little as the least. */
interface LoadClass {
  readonly watts: number;
  readonly zone: string | null;
  readonly members: readonly number[];
}

/** More classes than these are joined, which lowers a bound and never raises it. */
const mostClasses = 90;

/** Equal loads of a zone, and where those would be too many, loads next to one another in size. */
export function classesOf(loads: readonly Load[]): LoadClass[] {
  const size = loads.length <= 130 ? 1 : Math.ceil(loads.length / mostClasses);
  const zones = [...new Set(loads.map(({ zone }) => zone))];
  return zones.flatMap((zone) => {
    const members = loads.flatMap((load, i) => (load.zone === zone ? [i] : []));
    members.sort((a, b) => loads[b]!.watts - loads[a]!.watts);
    const groups: number[][] = [];
    for (const i of members) {
      const last = groups.at(-1);
      const isEqual = last && loads[last[0]!]!.watts === loads[i]!.watts;
      if (last && (isEqual || last.length < size)) last.push(i);
      else groups.push([i]);
    }
    return groups.map((group) => ({ watts: loads[group.at(-1)!]!.watts, zone, members: group }));
  });
}

export interface Bounding {
  readonly loads: readonly Load[];
  readonly classes: readonly LoadClass[];
  readonly kinds: readonly Kind[];
  /** Drivers there are of each model; null for as many as it takes. */
  readonly stocks: readonly (number | null)[];
  /** Steps that are left for bounds, of which one takes a third at most, and those for the filling of one driver. */
  readonly budget: { work: number };
  readonly fillSteps: number;
}

/** What a bound is made for: fillings of whole drivers, or of each of their outputs by itself. */
type Of = 'driver' | 'output';

function fillOf({ classes, fillSteps }: Bounding, kind: Kind, of: Of, worths: readonly number[]) {
  const ofOutput_W = kind.output_W - kind.own_W;
  const room_W = of === 'driver' ? roomOfDriver_W(kind) : Math.min(roomOfDriver_W(kind), ofOutput_W);
  const zones =
    of === 'output' || kind.isOfOneZone ? [...new Set(classes.map(({ zone }) => zone))] : [undefined];
  let best: CoverFill = { counts: classes.map(() => 0), value: 0, most: 0 };
  let steps = 0;
  for (const zone of zones) {
    const goods = classes.map((each, i) => ({
      size: each.watts,
      value: worths[i]!,
      count: (zone !== undefined && each.zone !== zone) || each.watts > ofOutput_W ? 0 : each.members.length,
    }));
    const found = bestSet(goods, room_W, fillSteps);
    steps += goods.length * (1 + found.steps);
    const most = Math.max(best.most, found.most);
    best = found.value > best.value ? { ...found, most } : { ...best, most };
  }
  return { fill: best, steps };
}

/** The roomiest kind of each model in use, since all of a model cost as much. */
const roomiest = (kinds: readonly Kind[]): Kind[] =>
  kinds.filter((kind, i) => kinds.findIndex(({ model }) => model === kind.model) === i);

function cutBy(bounding: Bounding, of: Of, prices: CoverPrices): Cut {
  const { loads, classes, kinds } = bounding;
  const heads = roomiest(kinds);
  const worths = loads.map(() => 0);
  classes.forEach(({ members }, i) => {
    for (const load of members) worths[load] = prices.worths[i]!;
  });
  const gives = kinds.map((kind) => {
    const held = prices.holds[heads.findIndex(({ model }) => model === kind.model)]!;
    return of === 'output' ? held * kind.outputCount : held;
  });
  return { need: worths.reduce((a, b) => a + b, 0), gives, worths };
}

function pricesOf(
  bounding: Bounding,
  of: Of,
  bins: readonly { readonly cost: number; readonly count: number | null }[],
  leftOut: number,
): CoverPrices {
  const heads = roomiest(bounding.kinds);
  const work = bounding.budget.work / 3;
  const prices = coverPrices({
    counts: bounding.classes.map(({ members }) => members.length),
    bins: bins.map(({ cost, count }, b) => {
      const outputs = of === 'output' ? heads[b]!.outputCount : 1;
      return { cost: cost / outputs, count: count === null ? null : count * outputs };
    }),
    leftOut: bounding.classes.map(() => leftOut),
    fill: (worths) => {
      const each = heads.map((kind) => fillOf(bounding, kind, of, worths));
      return { fills: each.map(({ fill }) => fill), steps: each.reduce((sum, { steps }) => sum + steps, 0) };
    },
    work,
  });
  bounding.budget.work -= prices.steps;
  return prices;
}

/** Whether outputs by themselves may bind harder than drivers do. */
const questionsOf = ({ kinds, classes }: Bounding): Of[] => {
  const several = new Set(classes.map(({ zone }) => zone)).size > 1;
  const binds = kinds.some(
    (kind) => kind.outputCount > 1 && (several || kind.output_W - kind.own_W < roomOfDriver_W(kind)),
  );
  return binds ? ['driver', 'output'] : ['driver'];
};

/** How many of the smallest loads of one zone, or of all, go onto a driver of a kind. */
function mostLoads({ loads }: Bounding, kind: Kind): number {
  const zones = kind.isOfOneZone ? [...new Set(loads.map(({ zone }) => zone))] : [undefined];
  const counts = zones.map((zone) => {
    let left_W = roomOfDriver_W(kind);
    const watts = loads.filter((load) => zone === undefined || load.zone === zone).map((load) => load.watts);
    watts.sort((a, b) => a - b);
    let count = 0;
    for (; count < watts.length && watts[count]! <= left_W; count++) left_W -= watts[count]!;
    return count;
  });
  return Math.max(...counts);
}

/** What is known without any search: the watts, how many loads go onto a driver, and the outputs it takes, zone by zone. */
export function firstCuts(bounding: Bounding): Cut[] {
  const { loads, kinds } = bounding;
  const zones = [...new Set(loads.map(({ zone }) => zone))];
  const output_W = Math.max(...kinds.map((kind) => kind.output_W - kind.own_W));
  const driver_W = Math.max(...kinds.map(roomOfDriver_W));
  const wattsIn = (zone: string | null) =>
    loads.filter((load) => load.zone === zone).map(({ watts }) => watts);
  const outputs = zones.reduce((sum, zone) => sum + leastBinCount(wattsIn(zone), output_W), 0);
  const watts = loads.map((load) => load.watts);
  const whole = leastBinCount(watts, driver_W);
  return [
    { need: watts.reduce((a, b) => a + b, 0), gives: kinds.map(roomOfDriver_W), worths: watts },
    {
      need: loads.length,
      gives: kinds.map((kind) => mostLoads(bounding, kind)),
      worths: loads.map(() => 1),
    },
    { need: outputs, gives: kinds.map(({ outputCount }) => outputCount), worths: null },
    { need: whole, gives: kinds.map(() => 1), worths: null },
  ];
}

/** Cuts from the prices of the relaxed problem, where parts of drivers may be taken: whole drivers, and their outputs. */
export function relaxedCuts(bounding: Bounding): Cut[] {
  const heads = roomiest(bounding.kinds);
  const isFree = heads.every(({ cost }) => cost[0] === 0);
  const bins = heads.map(({ model, cost }) => {
    const each = cost[isFree ? 1 : 0];
    return { cost: each, count: bounding.stocks[model] ?? (each > 0 ? null : bounding.loads.length) };
  });
  const dear = 10 * Math.max(...bins.map(({ cost }) => cost));
  return questionsOf(bounding).map((of) => cutBy(bounding, of, pricesOf(bounding, of, bins, dear)));
}

/** A cut that some numbers of drivers of each kind do not reach, or undefined where none was found: they may do. */
export function refutation(bounding: Bounding, counts: readonly number[]): Cut | undefined {
  const { kinds } = bounding;
  const heads = roomiest(kinds);
  const bins = heads.map(({ model }) => ({
    cost: 0,
    count: counts.reduce((sum, count, k) => sum + (kinds[k]!.model === model ? count : 0), 0),
  }));
  return questionsOf(bounding)
    .map((of) => cutBy(bounding, of, pricesOf(bounding, of, bins, 1)))
    .find((cut) => !reaches(cut, counts));
}

/** Whether numbers of drivers reach a cut, forgiving rounding. */
export const reaches = ({ need, gives }: Cut, counts: readonly number[]): boolean =>
  counts.reduce((sum, count, k) => sum + count * gives[k]!, 0) >= need * (1 - 1e-7) - 1e-9;
