import { leastDegreeOrder } from '../numeric/elimination-order.ts';
import { IntList } from '../numeric/int-list.ts';
import {
  type FactorPlan,
  factorise,
  placeCount,
  placeOf,
  planFactor,
  solveFactored,
} from '../numeric/symmetric-factor.ts';
import type { Bank, Network } from './network.ts';
import { conductance_S, current_A } from './strip-law.ts';

/**
 * What depends on the shape of a network alone: the number of each node's unknown in the order of elimination,
 * the pattern of the factors, and the matrix place of each branch and load. Nodes that do not move have the
 * number after the last unknown, and matrix entries that do not exist have the place after the last place, so
 * that the loops need no questions.
 */
export interface NetworkPlan {
  readonly unknownOfNode: Int32Array;
  readonly factor: FactorPlan;
  readonly branch: Slots;
  readonly load: Slots;
}

/** For each element its two unknowns, and the places of their diagonals and of their common entry. */
interface Slots {
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly placeA: Int32Array;
  readonly placeB: Int32Array;
  readonly placeAB: Int32Array;
}

/** The solved state of a network and how it was reached. */
export interface OperatingPoint {
  /** Departure of each unknown from its base, V; a start for the next solution of the same shape. */
  readonly departure_V: Float64Array;
  readonly load_V: Float64Array;
  readonly load_A: Float64Array;
  /** Largest current unaccounted for at any node, A. */
  readonly residual_A: number;
  readonly steps: number;
}

/** Largest current that may remain unaccounted for, A. */
const allowedResidual_A = 1e-9;

/**
 * A whole step this small leaves an error of about its square over the lamps' slope, some 1e-9 V.
 */
const settledStep_V = 1e-5;

/** Plans the solution of every network of this shape. */
export function planNetwork(network: Network): NetworkPlan {
  const { unknownOfNode, count } = numberUnknowns(network);
  const branch = unknownEnds(unknownOfNode, network.branchFrom, network.branchTo);
  const load = unknownEnds(unknownOfNode, network.loadPlus, network.loadMinus);
  const couplingA = new IntList(branch.a.length + load.a.length);
  const couplingB = new IntList(branch.a.length + load.a.length);
  for (const { a, b } of [branch, load]) {
    for (let e = 0; e < a.length; e++) {
      if (!isCoupling(a[e]!, b[e]!, count)) continue;
      couplingA.push(a[e]!);
      couplingB.push(b[e]!);
    }
  }
  const factor = planFactor(count, couplingA.toArray(), couplingB.toArray());
  return { unknownOfNode, factor, branch: withPlaces(branch, factor), load: withPlaces(load, factor) };
}

type Ends = Pick<Slots, 'a' | 'b'>;

function isCoupling(a: number, b: number, count: number): boolean {
  return a < count && b < count && a !== b;
}

function unknownEnds(unknownOfNode: Int32Array, from: Int32Array, to: Int32Array): Ends {
  const a = new Int32Array(from.length);
  const b = new Int32Array(from.length);
  for (let e = 0; e < a.length; e++) {
    a[e] = unknownOfNode[from[e]!]!;
    b[e] = unknownOfNode[to[e]!]!;
  }
  return { a, b };
}

function withPlaces({ a, b }: Ends, factor: FactorPlan): Slots {
  const { count } = factor;
  const nowhere = placeCount(factor);
  const placeA = new Int32Array(a.length);
  const placeB = new Int32Array(a.length);
  const placeAB = new Int32Array(a.length);
  for (let e = 0; e < a.length; e++) {
    const i = a[e]!;
    const j = b[e]!;
    placeA[e] = i < count ? i : nowhere;
    placeB[e] = j < count ? j : nowhere;
    placeAB[e] = isCoupling(i, j, count) ? placeOf(factor, i, j) : nowhere;
  }
  return { a, b, placeA, placeB, placeAB };
}

/** Numbers the unknowns site by site in the order in which the sites are eliminated. */
function numberUnknowns(network: Network): { unknownOfNode: Int32Array; count: number } {
  const siteCount = network.siteNode.length - 1;
  const siteOfNode = new Int32Array(network.base_V.length);
  for (let site = 0; site < siteCount; site++) {
    const end = network.siteNode[site + 1]!;
    for (let node = network.siteNode[site]!; node < end; node++) siteOfNode[node] = site;
  }
  const sourceCount = network.isGrounded.length;
  const isFixed = (site: number): boolean => site < sourceCount && network.isGrounded[site] === 1;
  const from = new IntList(network.branchFrom.length);
  const to = new IntList(network.branchFrom.length);
  for (let e = 0; e < network.branchFrom.length; e++) {
    const a = siteOfNode[network.branchFrom[e]!]!;
    const b = siteOfNode[network.branchTo[e]!]!;
    if (isFixed(a) || isFixed(b)) continue;
    from.push(a);
    to.push(b);
  }
  const unknownOfNode = new Int32Array(network.base_V.length).fill(-1);
  let count = 0;
  for (const site of leastDegreeOrder(siteCount, from.toArray(), to.toArray())) {
    if (isFixed(site)) continue;
    const movesAsOne = site < sourceCount;
    for (let node = network.siteNode[site]!; node < network.siteNode[site + 1]!; node++) {
      unknownOfNode[node] = count;
      if (!movesAsOne) count++;
    }
    if (movesAsOne) count++;
  }
  for (let node = 0; node < unknownOfNode.length; node++) {
    if (unknownOfNode[node]! < 0) unknownOfNode[node] = count;
  }
  return { unknownOfNode, count };
}

/**
 * Finds the one state in which no node gains or loses current.
 *
 * The currents are the slope of a strictly convex function of the potentials (the co-content of the network), so
 * there is one answer, and Newton's method with steps that do not overshoot along their own direction always
 * reaches it. Whole steps are quicker and nearly always enough, so the ladder is: whole steps from the given
 * start, whole steps from no drop anywhere, shortened steps from no drop.
 *
 * @returns the state, or the last attempt's residual and steps where the last rung failed too
 */
export function findOperatingPoint(
  network: Network,
  plan: NetworkPlan,
  start?: Float64Array,
): { readonly ok: boolean; readonly point: OperatingPoint } {
  const state = newState(network, plan);
  const noDrop = new Float64Array(plan.factor.count);
  const attempts: readonly Attempt[] = [
    ...(start === undefined ? [] : [{ start, maxSteps: 12, isShortened: false }]),
    { start: noDrop, maxSteps: 20, isShortened: false },
    { start: noDrop, maxSteps: 400, isShortened: true },
  ];
  let steps = 0;
  let ok = false;
  for (const attempt of attempts) {
    const tried = iterate(network, plan, state, attempt);
    steps += tried.steps;
    ok = tried.ok;
    if (ok) break;
  }
  const point = {
    departure_V: state.departure_V.slice(0, plan.factor.count),
    load_V: state.load_V,
    load_A: state.load_A,
    residual_A: state.residual_A,
    steps,
  };
  return { ok, point };
}

interface Attempt {
  readonly start: Float64Array;
  readonly maxSteps: number;
  readonly isShortened: boolean;
}

/** Work space of one solution. Arrays over unknowns have one place more, for what does not move. */
interface State {
  readonly branch_S: Float64Array;
  readonly branchBase_V: Float64Array;
  readonly loadBase_V: Float64Array;
  readonly linear: Float64Array;
  readonly factors: Float64Array;
  readonly departure_V: Float64Array;
  readonly step_V: Float64Array;
  readonly gain_A: Float64Array;
  readonly load_V: Float64Array;
  readonly load_A: Float64Array;
  residual_A: number;
}

function newState(network: Network, plan: NetworkPlan): State {
  const { count } = plan.factor;
  const { base_V, branchFrom, branchTo, loadPlus, loadMinus } = network;
  const branch_S = conductances_S(network);
  return {
    branch_S,
    branchBase_V: baseDifference_V(base_V, branchFrom, branchTo),
    loadBase_V: baseDifference_V(base_V, loadPlus, loadMinus),
    linear: linearPart(plan, branch_S),
    factors: new Float64Array(placeCount(plan.factor) + 1),
    departure_V: new Float64Array(count + 1),
    step_V: new Float64Array(count + 1),
    gain_A: new Float64Array(count + 1),
    load_V: new Float64Array(loadPlus.length),
    load_A: new Float64Array(loadPlus.length),
    residual_A: Number.POSITIVE_INFINITY,
  };
}

/** Conductance of each branch, S. */
export function conductances_S(network: Network): Float64Array {
  const branch_S = new Float64Array(network.branch_ohm.length);
  for (let e = 0; e < branch_S.length; e++) branch_S[e] = 1 / network.branch_ohm[e]!;
  return branch_S;
}

function baseDifference_V(base_V: Float64Array, from: Int32Array, to: Int32Array): Float64Array {
  const difference_V = new Float64Array(from.length);
  for (let e = 0; e < from.length; e++) difference_V[e] = base_V[from[e]!]! - base_V[to[e]!]!;
  return difference_V;
}

/** The part of the matrix that comes from copper and stays through all steps. */
export function linearPart(plan: NetworkPlan, branch_S: Float64Array): Float64Array {
  const { placeA, placeB, placeAB } = plan.branch;
  const linear = new Float64Array(placeCount(plan.factor) + 1);
  for (let e = 0; e < branch_S.length; e++) {
    const s = branch_S[e]!;
    linear[placeA[e]!]! += s;
    linear[placeB[e]!]! += s;
    linear[placeAB[e]!]! -= s;
  }
  return linear;
}

/** Newton steps until both the last step and the residual are negligible. */
function iterate(
  network: Network,
  plan: NetworkPlan,
  state: State,
  attempt: Attempt,
): { ok: boolean; steps: number } {
  state.departure_V.set(attempt.start);
  evaluate(network, plan, state);
  for (let steps = 1; steps <= attempt.maxSteps; steps++) {
    if (!newtonStep(network, plan, state)) return { ok: false, steps };
    const share = attempt.isShortened ? shortened(network, plan, state) : 1;
    if (!attempt.isShortened) {
      move(state, 1);
      evaluate(network, plan, state);
    }
    if (!(state.residual_A < Number.POSITIVE_INFINITY)) return { ok: false, steps };
    const settled = largest(state.step_V) * share < settledStep_V;
    if (settled && state.residual_A < allowedResidual_A) return { ok: true, steps };
  }
  return { ok: false, steps: attempt.maxSteps };
}

/** Works out volts and amps of the loads and what each unknown gains or loses. */
function evaluate(network: Network, plan: NetworkPlan, state: State): void {
  const { departure_V: u, gain_A, branch_S, branchBase_V } = state;
  gain_A.fill(0);
  const { a: from, b: to } = plan.branch;
  for (let e = 0; e < from.length; e++) {
    const a = from[e]!;
    const b = to[e]!;
    const amps = branch_S[e]! * (u[a]! - u[b]! + branchBase_V[e]!);
    gain_A[a]! -= amps;
    gain_A[b]! += amps;
  }
  for (const bank of network.banks) evaluateBank(bank, plan.load, state);
  gain_A[plan.factor.count] = 0;
  state.residual_A = largest(gain_A);
}

function evaluateBank(bank: Bank, load: Slots, state: State): void {
  const { departure_V: u, gain_A, loadBase_V, load_V, load_A } = state;
  const { law, level } = bank;
  const end = bank.firstLoad + bank.unitCount;
  for (let e = bank.firstLoad; e < end; e++) {
    const a = load.a[e]!;
    const b = load.b[e]!;
    const volts = u[a]! - u[b]! + loadBase_V[e]!;
    const amps = level * current_A(law, volts);
    load_V[e] = volts;
    load_A[e] = amps;
    gain_A[a]! -= amps;
    gain_A[b]! += amps;
  }
}

/** Puts the Newton step into `step_V`; false where the matrix will not factorise. */
function newtonStep(network: Network, plan: NetworkPlan, state: State): boolean {
  const { factors, load_V, load_A } = state;
  const { placeA, placeB, placeAB } = plan.load;
  factors.set(state.linear);
  for (const { law, level, firstLoad, unitCount } of network.banks) {
    if (level === 0) continue;
    for (let e = firstLoad; e < firstLoad + unitCount; e++) {
      const s = level * conductance_S(law, load_V[e]!, load_A[e]! / level);
      factors[placeA[e]!]! += s;
      factors[placeB[e]!]! += s;
      factors[placeAB[e]!]! -= s;
    }
  }
  if (!factorise(plan.factor, factors)) return false;
  state.step_V.set(state.gain_A);
  solveFactored(plan.factor, factors, state.step_V);
  state.step_V[plan.factor.count] = 0;
  return true;
}

function move(state: State, share: number): void {
  for (let i = 0; i < state.step_V.length; i++) state.departure_V[i]! += share * state.step_V[i]!;
}

/**
 * Goes along the step until its slope has fallen to half or less, never past the point where it turns; the slope
 * of the co-content along the step is the product of step and residual, and only falls. Returns the share gone.
 */
function shortened(network: Network, plan: NetworkPlan, state: State): number {
  const slope = (): number => state.step_V.reduce((sum, v, i) => sum + v * state.gain_A[i]!, 0);
  const enough = Math.abs(slope()) / 2;
  let [from, to] = [0, 1];
  let share = 1;
  move(state, 1);
  evaluate(network, plan, state);
  for (let tries = 0; tries < 60; tries++) {
    const now = slope();
    if (Math.abs(now) <= enough || (now > 0 && share === 1)) break;
    if (now > 0) from = share;
    else to = share;
    const next = (from + to) / 2;
    move(state, next - share);
    share = next;
    evaluate(network, plan, state);
  }
  return share;
}

function largest(values: Float64Array): number {
  let worst = 0;
  for (let i = 0; i < values.length; i++) {
    const size = Math.abs(values[i]!);
    if (size > worst) worst = size;
    else if (Number.isNaN(size)) return Number.POSITIVE_INFINITY;
  }
  return worst;
}
