import type { BandLayout } from '../numeric/bordered-band.ts';
import { minimumDegreeOrder } from '../numeric/elimination-order.ts';
import { IntList } from '../numeric/int-list.ts';
import { type FactorPlan, placeCount, placeOf, planFactor } from '../numeric/symmetric-factor.ts';
import { type CondensedLadder, eachPadPair, planCondensation } from './ladder-condensation.ts';
import type { Network } from './network.ts';

/**
 * What depends on the shape of a network alone. The unknowns are the nodes of the units, by their own numbers, then
 * those of the junctions in the order of their elimination; junctions that do not move have the number after the
 * last, and matrix entries that do not exist have the place after the last place, so that the loops need no questions.
 */
export interface NetworkPlan {
  readonly unknownOfJunction: Int32Array;
  readonly unknownCount: number;
  readonly condensed: readonly CondensedLadder[];
  /** Where in the junctions' matrix each pair of `eachPadPair` belongs. */
  readonly padPlaces: Int32Array;
  readonly layout: BandLayout;
  readonly factor: FactorPlan;
  readonly conductor: ConductorPlaces;
}

/** For each conductor its two unknowns, and the places of their diagonals and of their common entry. */
interface ConductorPlaces {
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly placeA: Int32Array;
  readonly placeB: Int32Array;
  readonly placeAB: Int32Array;
}

/** Plans the solution of every network of this shape. */
export function planNetwork(network: Network): NetworkPlan {
  const { unitNodeCount, conductorFrom, conductorTo } = network;
  const { unknownOfJunction, unknownCount } = numberJunctions(network);
  const { condensed, layout, pairCount } = planCondensation(
    network,
    (junction) => unknownOfJunction[junction]!,
  );
  const a = conductorFrom.map((junction) => unknownOfJunction[junction]!);
  const b = conductorTo.map((junction) => unknownOfJunction[junction]!);
  const joinedA = new IntList(pairCount + a.length);
  const joinedB = new IntList(pairCount + a.length);
  const join = (i: number, j: number): void => {
    if (i === j || i >= unknownCount || j >= unknownCount) return;
    joinedA.push(i - unitNodeCount);
    joinedB.push(j - unitNodeCount);
  };
  eachPadPair(condensed, join);
  for (let e = 0; e < a.length; e++) join(a[e]!, b[e]!);
  const factor = planFactor(unknownCount - unitNodeCount, joinedA.toArray(), joinedB.toArray());
  const nowhere = placeCount(factor);
  const place = (i: number, j: number): number =>
    i < unknownCount && j < unknownCount ? placeOf(factor, i - unitNodeCount, j - unitNodeCount) : nowhere;
  const placeA = a.map((i) => place(i, i));
  const placeB = b.map((i) => place(i, i));
  const placeAB = a.map((i, e) => (i === b[e] ? nowhere : place(i, b[e]!)));
  const padPlaces = new Int32Array(pairCount);
  let pair = 0;
  eachPadPair(condensed, (i, j) => {
    padPlaces[pair++] = place(i, j);
  });
  return {
    unknownOfJunction,
    unknownCount,
    condensed,
    padPlaces,
    layout,
    factor,
    conductor: { a, b, placeA, placeB, placeAB },
  };
}

/** Numbers the junctions site by site in the order in which the sites are eliminated. */
function numberJunctions(network: Network): { unknownOfJunction: Int32Array; unknownCount: number } {
  const { siteJunction, base_V, isGrounded, unitNodeCount } = network;
  const sourceCount = isGrounded.length;
  const isFixed = (site: number): boolean => site < sourceCount && isGrounded[site] === 1;
  const unknownOfJunction = new Int32Array(base_V.length).fill(-1);
  let unknownCount = unitNodeCount;
  for (const site of eliminationOrder(network, isFixed)) {
    if (isFixed(site)) continue;
    const movesAsOne = site < sourceCount;
    for (let junction = siteJunction[site]!; junction < siteJunction[site + 1]!; junction++) {
      unknownOfJunction[junction] = unknownCount;
      if (!movesAsOne) unknownCount++;
    }
    if (movesAsOne) unknownCount++;
  }
  return {
    unknownOfJunction: unknownOfJunction.map((unknown) => (unknown < 0 ? unknownCount : unknown)),
    unknownCount,
  };
}

function eliminationOrder(network: Network, isFixed: (site: number) => boolean): Int32Array {
  const { siteJunction, conductorFrom, conductorTo, ladders } = network;
  const siteCount = siteJunction.length - 1;
  const siteOf = new Int32Array(network.base_V.length);
  for (let site = 0; site < siteCount; site++)
    siteOf.fill(site, siteJunction[site]!, siteJunction[site + 1]!);
  const from = new IntList(conductorFrom.length + ladders.length);
  const to = new IntList(conductorFrom.length + ladders.length);
  const join = (a: number, b: number): void => {
    if (isFixed(siteOf[a]!) || isFixed(siteOf[b]!)) return;
    from.push(siteOf[a]!);
    to.push(siteOf[b]!);
  };
  conductorFrom.forEach((junction, e) => {
    join(junction, conductorTo[e]!);
  });
  for (const { padBefore, padAfter } of ladders)
    if (padBefore >= 0 && padAfter >= 0) join(padBefore, padAfter);
  return minimumDegreeOrder(siteCount, from.toArray(), to.toArray());
}
