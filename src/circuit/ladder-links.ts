import type { CondensedLadder } from './ladder-condensation.ts';

/** Adds the current of a ladder's links to the nodal imbalance of each unknown. @param u_V departures of all unknowns */
export function carryAlong(
  condensed: CondensedLadder,
  link_S: Float64Array,
  u_V: Float64Array,
  imbalance_A: Float64Array,
): void {
  const { firstNode, endNode, railCount, linkShift } = condensed.ladder;
  const carry = (link: number, a: number, b: number): void => {
    const amps = link_S[link]! * (u_V[a]! - u_V[b]!);
    imbalance_A[a]! -= amps;
    imbalance_A[b]! += amps;
  };
  for (let node = firstNode + railCount; node < endNode; node++)
    carry(node + linkShift, node - railCount, node);
  for (let rail = 0; rail < railCount; rail++) {
    if (condensed.before >= 0) carry(firstNode + linkShift + rail, condensed.before + rail, firstNode + rail);
    if (condensed.after >= 0)
      carry(endNode + linkShift + rail, endNode - railCount + rail, condensed.after + rail);
  }
}

/** Watts lost in a ladder's links. @param u_V departures of all unknowns */
export function linkLoss_W(condensed: CondensedLadder, link_S: Float64Array, u_V: Float64Array): number {
  const { firstNode, endNode, railCount, linkShift } = condensed.ladder;
  const loss_W = (link: number, a: number, b: number): number => link_S[link]! * (u_V[a]! - u_V[b]!) ** 2;
  let sum_W = 0;
  for (let node = firstNode + railCount; node < endNode; node++) {
    sum_W += loss_W(node + linkShift, node - railCount, node);
  }
  for (let rail = 0; rail < railCount; rail++) {
    if (condensed.before >= 0)
      sum_W += loss_W(firstNode + linkShift + rail, condensed.before + rail, firstNode + rail);
    if (condensed.after >= 0) {
      sum_W += loss_W(endNode + linkShift + rail, endNode - railCount + rail, condensed.after + rail);
    }
  }
  return sum_W;
}
