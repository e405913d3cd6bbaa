import type { BandValues } from '../numeric/bordered-band.ts';
import { factorise, placeCount, solveFactored } from '../numeric/symmetric-factor.ts';
import { condenseLadder, recoverLadder } from './ladder-condensation.ts';
import { carryAlong } from './ladder-links.ts';
import type { Bank, Network } from './network.ts';
import type { NetworkPlan } from './network-plan.ts';
import { conductance_S, current_A } from './strip-law.ts';

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

/** When a state is near enough: the largest current that may remain unaccounted for, and the largest last step. */
interface Enough {
  readonly residual_A: number;
  readonly step_V: number;
}

/** A whole step of 1e-5 V leaves an error of about its square over the lamps' slope, some 1e-9 V. */
const exact: Enough = { residual_A: 1e-9, step_V: 1e-5 };

/** For what is only on the way: a ten-thousandth of what the smallest units draw. */
const near: Enough = { residual_A: 1e-6, step_V: Number.POSITIVE_INFINITY };

/** From where a state is looked for, in which space, and how near it has to come. */
export interface Search {
  /** `departure_V` of a solution of the same shape, from which fewer steps may be needed. */
  readonly start?: Float64Array | undefined;
  /**
   * Work space of a network with the same plan and conductors, which is written over: the loads of points that were found
   * in it are then those of this one.
   */
  readonly state?: State;
  /** A state on the way to another: to 1 uA, where it is to 1 nA otherwise. */
  readonly isRough?: boolean;
}

/**
 * Finds the one state in which no node gains or loses current.
 *
 * The currents are the slope of a strictly convex function of the potentials (the co-content of the network), so
 * there is one answer, and Newton's method with steps that do not overshoot along their own direction always
 * reaches it. Whole steps are quicker and nearly always enough, so the ladder is: whole steps from the given
 * start, whole steps from no drop anywhere, damped steps from no drop.
 *
 * @returns the state, or the last attempt's residual and steps where the last rung failed too
 */
export function findOperatingPoint(
  network: Network,
  plan: NetworkPlan,
  { start, state = newState(network, plan), isRough = false }: Search = {},
): { readonly ok: boolean; readonly point: OperatingPoint } {
  const noDrop = new Float64Array(plan.unknownCount);
  const attempts: readonly Attempt[] = [
    ...(start === undefined ? [] : [{ start, maxSteps: 12, isDamped: false }]),
    { start: noDrop, maxSteps: 20, isDamped: false },
    { start: noDrop, maxSteps: 400, isDamped: true },
  ];
  let steps = 0;
  let ok = false;
  for (const attempt of attempts) {
    const tried = iterate(network, plan, state, { ...attempt, enough: isRough ? near : exact });
    steps += tried.steps;
    ok = tried.ok;
    if (ok) break;
  }
  const point = {
    departure_V: state.departure_V.slice(0, plan.unknownCount),
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
  readonly isDamped: boolean;
}

/** Work space of one solution. Arrays over unknowns have one place more, for what does not move. */
export interface State {
  readonly conductorBase_V: Float64Array;
  readonly copper: Float64Array;
  readonly matrix: Float64Array;
  readonly values: BandValues;
  readonly departure_V: Float64Array;
  readonly step_V: Float64Array;
  /** Nodal imbalance: current that each unknown gains, which Kirchhoff's law wants to be 0. */
  readonly imbalance_A: Float64Array;
  readonly unitLoad_S: Float64Array;
  readonly load_V: Float64Array;
  readonly load_A: Float64Array;
  residual_A: number;
}

/** Work space at no drop anywhere, with the copper of the network in it. */
export function newState(network: Network, plan: NetworkPlan): State {
  const loadCount = network.banks.reduce((sum, { unitCount }) => sum + unitCount, 0);
  const unknowns = (): Float64Array => new Float64Array(plan.unknownCount + 1);
  return {
    conductorBase_V: conductorBase_V(network),
    copper: conductorPart(network, plan),
    matrix: new Float64Array(placeCount(plan.factor) + 1),
    values: plan.layout.emptyValues(),
    departure_V: unknowns(),
    step_V: unknowns(),
    imbalance_A: unknowns(),
    unitLoad_S: new Float64Array(network.unitNodeCount),
    load_V: new Float64Array(loadCount),
    load_A: new Float64Array(loadCount),
    residual_A: Number.POSITIVE_INFINITY,
  };
}

/** Volts along each conductor when nothing departs from its base. */
export function conductorBase_V({ base_V, conductorFrom, conductorTo }: Network): Float64Array {
  const along_V = new Float64Array(conductorFrom.length);
  for (let e = 0; e < along_V.length; e++) along_V[e] = base_V[conductorFrom[e]!]! - base_V[conductorTo[e]!]!;
  return along_V;
}

/** The part of the junctions' matrix that comes from cables and stays through all steps. */
function conductorPart({ conductor_S }: Network, plan: NetworkPlan): Float64Array {
  const { placeA, placeB, placeAB } = plan.conductor;
  const copper = new Float64Array(placeCount(plan.factor) + 1);
  for (let e = 0; e < conductor_S.length; e++) {
    const s = conductor_S[e]!;
    copper[placeA[e]!]! += s;
    copper[placeB[e]!]! += s;
    copper[placeAB[e]!]! -= s;
  }
  return copper;
}

/** Newton steps until both the last step and the residual are small enough. */
function iterate(
  network: Network,
  plan: NetworkPlan,
  state: State,
  attempt: Attempt & { readonly enough: Enough },
): { ok: boolean; steps: number } {
  state.departure_V.set(attempt.start);
  evaluate(network, plan, state);
  for (let steps = 1; steps <= attempt.maxSteps; steps++) {
    if (!newtonStep(network, plan, state)) return { ok: false, steps };
    const share = attempt.isDamped ? dampedStep(network, plan, state) : 1;
    if (!attempt.isDamped) {
      move(state, 1);
      evaluate(network, plan, state);
    }
    if (!(state.residual_A < Number.POSITIVE_INFINITY)) return { ok: false, steps };
    const settled = largest(state.step_V) * share < attempt.enough.step_V;
    if (settled && state.residual_A < attempt.enough.residual_A) return { ok: true, steps };
  }
  return { ok: false, steps: attempt.maxSteps };
}

/** Works out volts and amps of the loads and the nodal imbalance of each unknown. */
function evaluate(network: Network, plan: NetworkPlan, state: State): void {
  const { departure_V: u, imbalance_A, conductorBase_V: base_V } = state;
  const { a: from, b: to } = plan.conductor;
  imbalance_A.fill(0);
  for (let e = 0; e < from.length; e++) {
    const a = from[e]!;
    const b = to[e]!;
    const amps = network.conductor_S[e]! * (u[a]! - u[b]! + base_V[e]!);
    imbalance_A[a]! -= amps;
    imbalance_A[b]! += amps;
  }
  for (const condensed of plan.condensed) carryAlong(condensed, network.link_S, u, imbalance_A);
  for (const bank of network.banks) evaluateBank(bank, state);
  imbalance_A[plan.unknownCount] = 0;
  state.residual_A = largest(imbalance_A);
}

function evaluateBank(bank: Bank, state: State): void {
  const { departure_V: u, imbalance_A, load_V, load_A } = state;
  const { law, level, base_V, railCount } = bank;
  let { plus: a, minus: b } = bank;
  // Without any drop, as at the start, all units of a run meet the same volts.
  let [same_V, amps] = [Number.NaN, 0];
  const end = bank.firstLoad + bank.unitCount;
  for (let e = bank.firstLoad; e < end; e++, a += railCount, b += railCount) {
    const volts = u[a]! - u[b]! + base_V;
    if (volts !== same_V) amps = level * current_A(law, volts);
    same_V = volts;
    load_V[e] = volts;
    load_A[e] = amps;
    imbalance_A[a]! -= amps;
    imbalance_A[b]! += amps;
  }
}

/** Puts the Newton step into `step_V`; false where the matrix will not factorise. */
function newtonStep(network: Network, plan: NetworkPlan, state: State): boolean {
  state.unitLoad_S.fill(0);
  for (const bank of network.banks) if (bank.level > 0) addSlopes(bank, state);
  return solveLinearised(network, plan, state);
}

function addSlopes({ law, level, railCount, ...bank }: Bank, { unitLoad_S, load_V, load_A }: State): void {
  let { plus: a, minus: b } = bank;
  for (let e = bank.firstLoad; e < bank.firstLoad + bank.unitCount; e++, a += railCount, b += railCount) {
    const s = level * conductance_S(law, load_V[e]!, load_A[e]! / level);
    unitLoad_S[a]! += s;
    unitLoad_S[b]! += s;
  }
}

/** Solves for the potentials `step_V` that would carry off what the unknowns gain, the loads being straight lines. */
export function solveLinearised(network: Network, plan: NetworkPlan, state: State): boolean {
  const { matrix, values, imbalance_A, step_V } = state;
  const { unitNodeCount, link_S } = network;
  matrix.set(state.copper);
  step_V.set(imbalance_A);
  const units = { link_S, load_S: state.unitLoad_S, imbalance_A };
  const junctions = { matrix, places: plan.padPlaces, right: step_V };
  for (const condensed of plan.condensed)
    if (!condenseLadder(condensed, values, units, junctions)) return false;
  if (!factorise(plan.factor, matrix)) return false;
  solveFactored(plan.factor, matrix, step_V.subarray(unitNodeCount));
  step_V[plan.unknownCount] = 0;
  for (const condensed of plan.condensed) recoverLadder(condensed, values, step_V);
  return true;
}

function move(state: State, share: number): void {
  for (let i = 0; i < state.step_V.length; i++) state.departure_V[i]! += share * state.step_V[i]!;
}

/**
 * Goes along the step until its slope has fallen to half or less, never past the point where it turns; the slope
 * of the co-content along the step is the product of step and residual, and only falls. Returns the share gone.
 */
function dampedStep(network: Network, plan: NetworkPlan, state: State): number {
  const slope = (): number => state.step_V.reduce((sum, v, i) => sum + v * state.imbalance_A[i]!, 0);
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
