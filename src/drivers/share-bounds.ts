import { bestSet } from '../numeric/best-set.ts';
import { type CoverFill, type CoverPrices, coverPrices } from '../numeric/cover-prices.ts';
import type { Load } from './loads.ts';
import { leastBinCount } from './lower-bound.ts';
import { type Kind, roomiest, roomOfDriver_W } from './share-kinds.ts';

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

/** At least one load, and kinds of drivers to carry them. */
interface Carried {
  readonly loads: readonly Load[];
  readonly kinds: readonly Kind[];
}

export interface Bounding extends Carried {
  readonly classes: readonly LoadClass[];
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

/** Watts of loads from the least on, of all together and zone by zone. */
interface Rows {
  readonly all: readonly number[];
  readonly byZone: readonly (readonly number[])[];
}

function rowsOf(loads: readonly Load[]): Rows {
  const zones = [...new Set(loads.map(({ zone }) => zone))];
  const sorted = (some: readonly Load[]) => some.map(({ watts }) => watts).sort((a, b) => a - b);
  return {
    all: sorted(loads),
    byZone: zones.map((zone) => sorted(loads.filter((load) => load.zone === zone))),
  };
}

/** How many loads of so many watts or more go onto a driver of a kind: as many of the least of them as it has room for. */
function mostLoads({ all, byZone }: Rows, kind: Kind, least_W: number): number {
  let most = 0;
  for (const row of kind.isOfOneZone ? byZone : [all]) {
    const from = firstFrom(row, least_W);
    let left_W = roomOfDriver_W(kind);
    let to = from;
    for (; to < row.length && row[to]! <= left_W; to++) left_W -= row[to]!;
    most = Math.max(most, to - from);
  }
  return most;
}

/** Where the first that is at least `least` stands in a rising row. */
function firstFrom(row: readonly number[], least: number): number {
  let [from, to] = [0, row.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (row[middle]! < least) from = middle + 1;
    else to = middle;
  }
  return from;
}

/** The number of loads, and the number of those from some size on: of each kind the size that asks for most drivers of it. */
function numberCuts({ loads, kinds }: Carried): Cut[] {
  const rows = rowsOf(loads);
  const { all } = rows;
  const hardest = kinds.map((kind) => {
    let [least_W, asked] = [all[0]!, 0];
    all.forEach((watts, i) => {
      if (i > 0 && watts === all[i - 1]) return;
      const gives = mostLoads(rows, kind, watts);
      if (gives > 0 && (all.length - i) / gives > asked) [least_W, asked] = [watts, (all.length - i) / gives];
    });
    return least_W;
  });
  const cutFrom = (least_W: number, worths: Cut['worths']): Cut => ({
    need: all.length - firstFrom(all, least_W),
    gives: kinds.map((kind) => mostLoads(rows, kind, least_W)),
    worths,
  });
  const sizes = new Set(hardest.filter((watts) => watts > all[0]!));
  return [
    cutFrom(
      all[0]!,
      loads.map(() => 1),
    ),
    ...[...sizes].map((watts) => cutFrom(watts, null)),
  ];
}

/** What is known without any search: the watts, how many loads go onto a driver, and the outputs it takes, zone by zone. */
export function firstCuts({ loads, kinds }: Carried): Cut[] {
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
    ...numberCuts({ loads, kinds }),
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
