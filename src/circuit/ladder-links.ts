import type { FoldedLadder } from './ladder-folding.ts';

/** Adds the current of a ladder's links to what each unknown gains. @param u_V departures of all unknowns */
export function carryAlong(
  folded: FoldedLadder,
  link_S: Float64Array,
  u_V: Float64Array,
  gain_A: Float64Array,
): void {
  const { firstNode, endNode, railCount, linkShift } = folded.ladder;
  const carry = (link: number, a: number, b: number): void => {
    const amps = link_S[link]! * (u_V[a]! - u_V[b]!);
    gain_A[a]! -= amps;
    gain_A[b]! += amps;
  };
  for (let node = firstNode + railCount; node < endNode; node++)
    carry(node + linkShift, node - railCount, node);
  for (let rail = 0; rail < railCount; rail++) {
    if (folded.before >= 0) carry(firstNode + linkShift + rail, folded.before + rail, firstNode + rail);
    if (folded.after >= 0) carry(endNode + linkShift + rail, endNode - railCount + rail, folded.after + rail);
  }
}

/** Watts lost in a ladder's links. @param u_V departures of all unknowns */
export function linkLoss_W(folded: FoldedLadder, link_S: Float64Array, u_V: Float64Array): number {
  const { firstNode, endNode, railCount, linkShift } = folded.ladder;
  const loss_W = (link: number, a: number, b: number): number => link_S[link]! * (u_V[a]! - u_V[b]!) ** 2;
  let sum_W = 0;
  for (let node = firstNode + railCount; node < endNode; node++) {
    sum_W += loss_W(node + linkShift, node - railCount, node);
  }
  for (let rail = 0; rail < railCount; rail++) {
    if (folded.before >= 0)
      sum_W += loss_W(firstNode + linkShift + rail, folded.before + rail, firstNode + rail);
    if (folded.after >= 0) {
      sum_W += loss_W(endNode + linkShift + rail, endNode - railCount + rail, folded.after + rail);
    }
  }
  return sum_W;
}
