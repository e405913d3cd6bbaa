import { keepsTo } from '../numeric/tolerance.ts';
import {
  type Group,
  type Load,
  type LoadsToAllocate,
  outputLimit_W,
  type Scarce,
  standsOf,
} from './loads.ts';
import { type Cost, compareCosts, costOf, isPriced } from './share-kinds.ts';

/** Cable from every load to the place of its driver, m. */
export const cableOf = (groups: readonly Group[]): number =>
  groups.reduce(
    (sum, { place, outputs }) =>
      sum + outputs.flat().reduce((m, load) => m + load.placeDistances_m[place]!, 0),
    0,
  );

const wattsOf = (loads: readonly Load[], own_W: number): number =>
  loads.reduce((sum, { watts }) => sum + watts, own_W);

/** Whether a driver may carry what it is given where it stands. */
export function carries(given: LoadsToAllocate, group: Group): boolean {
  const { usable_W, outputCount, outputsDimTogether } = given.models[group.model]!;
  const own_W = given.outputOwn_W ?? 0;
  const limit_W = outputLimit_W(given, group);
  const zones = new Set(group.outputs.flat().map(({ zone }) => zone));
  return (
    group.outputs.length <= outputCount &&
    (zones.size <= 1 || !outputsDimTogether) &&
    group.outputs.every(
      (loads) => keepsTo(wattsOf(loads, own_W), limit_W) && new Set(loads.map(({ zone }) => zone)).size === 1,
    ) &&
    keepsTo(
      group.outputs.reduce((sum, loads) => sum + wattsOf(loads, own_W), 0),
      usable_W[group.place]!,
    )
  );
}

interface Asked {
  readonly given: LoadsToAllocate;
  readonly scarce: readonly Scarce[];
}

const withOutput = (group: Group, o: number, loads: readonly Load[]): Group => ({
  ...group,
  outputs: group.outputs.map((held, i) => (i === o ? loads : held)),
});

/** Groups while their loads and places change, with the watts of every output and driver. */
interface Changing {
  readonly given: LoadsToAllocate;
  readonly scarce: readonly Scarce[];
  readonly groups: Group[];
}

/** What the cable of a group would be longer at another place, m. */
const longer_m = ({ outputs, place }: Group, to: number): number =>
  outputs
    .flat()
    .reduce((sum, { placeDistances_m }) => sum + placeDistances_m[to]! - placeDistances_m[place]!, 0);

/** Puts changed groups in, if drivers and places allow it. */
function take({ given, scarce, groups }: Changing, changes: ReadonlyMap<number, Group>): boolean {
  if (![...changes.values()].every((group) => carries(given, group))) return false;
  const next = groups.map((group, g) => changes.get(g) ?? group);
  if (!scarce.every((one) => one.isEnough(next))) return false;
  for (const [g, group] of changes) groups[g] = group;
  return true;
}

/** Drivers to other places, or two of them to each other's, where that shortens the cable. */
function byPlaces(changing: Changing): boolean {
  const { given, groups } = changing;
  let helps = false;
  for (const [g] of groups.entries()) {
    for (const place of given.models[0]!.usable_W.keys())
      if (longer_m(groups[g]!, place) < -1e-9)
        helps = take(changing, new Map([[g, { ...groups[g]!, place }]])) || helps;
    for (let h = g + 1; h < groups.length; h++) {
      const [a, b] = [groups[g]!, groups[h]!];
      if (longer_m(a, b.place) + longer_m(b, a.place) >= -1e-9) continue;
      const changes = new Map([
        [g, { ...a, place: b.place }],
        [h, { ...b, place: a.place }],
      ]);
      helps = take(changing, changes) || helps;
    }
  }
  return helps;
}

/** The first two loads of one zone on two drivers that are nearer to each other's place, and fit there. */
function firstSwap({ given, groups }: Changing, g: number, h: number): Map<number, Group> | undefined {
  const [a, b] = [groups[g]!, groups[h]!];
  const gain_m = ({ placeDistances_m: m }: Load): number => m[a.place]! - m[b.place]!;
  for (const [o, ofA] of a.outputs.entries())
    for (const [p, ofB] of b.outputs.entries()) {
      if (ofA[0]!.zone !== ofB[0]!.zone) continue;
      for (const x of ofA)
        for (const y of ofB) {
          if (gain_m(x) - gain_m(y) <= 1e-9) continue;
          const changes = new Map([
            [
              g,
              withOutput(
                a,
                o,
                ofA.map((each) => (each === x ? y : each)),
              ),
            ],
            [
              h,
              withOutput(
                b,
                p,
                ofB.map((each) => (each === y ? x : each)),
              ),
            ],
          ]);
          if ([...changes.values()].every((group) => carries(given, group))) return changes;
        }
    }
  return undefined;
}

/** Loads of two drivers in each other's place, where that shortens the cable. */
function byLoads(changing: Changing): boolean {
  const { groups } = changing;
  let helps = false;
  for (const [g] of groups.entries())
    for (let h = g + 1; h < groups.length; h++) {
      if (groups[g]!.place === groups[h]!.place) continue;
      const changes = firstSwap(changing, g, h);
      if (changes) helps = take(changing, changes) || helps;
    }
  return helps;
}

/** Times all drivers are gone through. */
const mostRounds = 12;

/** Shortens the cable by other places, and by loads that change drivers, as long as that helps. */
function byChanges(known: readonly Group[], { given, scarce }: Asked): readonly Group[] {
  const changing = { given, scarce, groups: [...known] };
  for (let round = 0; round < mostRounds; round++) {
    const helps = [byPlaces(changing), byLoads(changing)];
    if (!helps.includes(true)) break;
  }
  return changing.groups;
}

/** Loads up to which every way is tried, and the steps after which it is let go. */
const mostTried = 9;
const mostSteps = 100_000;

/** The least cable of all ways at a cost, from one that is known; undefined where that took too many steps. */
function byTrying(
  known: readonly Group[],
  cost: Cost,
  { given, scarce }: Asked,
): readonly Group[] | undefined {
  const priced = isPriced(given);
  const loads = given.loads.toSorted((a, b) => b.watts - a.watts);
  const nearest_m = loads.map(({ placeDistances_m }) => Math.min(...placeDistances_m));
  let best = known;
  let steps = 0;
  const go = (at: number, groups: readonly Group[], spent: Cost): void => {
    if (++steps > mostSteps || compareCosts(spent, cost) > 0) return;
    const rest_m = nearest_m.slice(at).reduce((a, b) => a + b, 0);
    if (cableOf(groups) + rest_m >= cableOf(best) - 1e-9) return;
    const load = loads[at];
    if (load === undefined) {
      if (scarce.every((one) => one.isEnough(groups))) best = groups;
      return;
    }
    const next = (changes: readonly Group[], cents: Cost): void => go(at + 1, changes, cents);
    for (const [g, group] of groups.entries()) {
      const ways = [
        ...group.outputs.map((held, o) => withOutput(group, o, [...held, load])),
        { ...group, outputs: [...group.outputs, [load]] },
      ];
      for (const way of ways) if (carries(given, way)) next(groups.with(g, way), spent);
    }
    for (const stand of standsOf(given)) {
      const fresh = { ...stand, outputs: [[load]] };
      const each = costOf(given.models[stand.model]!, priced);
      if (carries(given, fresh)) next([...groups, fresh], [spent[0] + each[0], spent[1] + each[1]]);
    }
  };
  go(0, [], [0, 0]);
  return steps > mostSteps ? undefined : best;
}

/**
 * Shortens the cable of loads shared out, at no more cost: of few loads by trying every way, of more by changing places and
 * loads while that helps, which proves nothing.
 * Check: `tests/drivers/share-out.test.ts`.
 */
export function shortenCable(groups: readonly Group[], cost: Cost, asked: Asked): readonly Group[] {
  if (asked.given.models[0]!.usable_W.length === 1) return groups;
  const shorter = byChanges(groups, asked);
  if (asked.given.loads.length > mostTried) return shorter;
  return byTrying(shorter, cost, asked) ?? shorter;
}
