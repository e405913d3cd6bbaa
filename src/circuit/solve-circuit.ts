import { found, type Outcome, refused } from '../outcome.ts';
import type { CircuitDescription } from './description.ts';
import type { CircuitIssue } from './issues.ts';
import { buildNetwork, type Ladder, type Network } from './network.ts';
import { type NetworkPlan, planNetwork } from './network-plan.ts';
import { findOperatingPoint, type OperatingPoint, type Search } from './operating-point.ts';
import type { Reach } from './reach.ts';
import { checkCircuit, findEntryIssues } from './rules.ts';
import { type CircuitSolution, readSolution } from './solution.ts';

/** Everything about a circuit that stays when only its numbers change; see `planCircuit`. */
export interface CircuitPlan {
  readonly plan: NetworkPlan;
  readonly reach: Reach;
  /** Names of all drivers, taps, runs and channels, in order: what `reach` goes by. */
  readonly names: string;
  /** The network of the circuit that was planned; its ladders and ends of conductors tell a circuit of another shape. */
  readonly network: Network;
}

/**
 * Volts and amps everywhere: the exact operating point of the two-rail network with its nonlinear loads.
 *
 * Rails, cables and contacts are resistances, each unit follows its strip law at its run's temperature, each
 * driver holds its set volts between its own plus and minus and is isolated from the others.
 *
 * Refusals: whatever `checkCircuit` finds, and `no-operating-point` should the solver ever fail. Notes: a
 * driver that would be fed backwards (real ones block, so the state would be another), units outside the light law.
 * Source: Kirchhoff's laws, Newton's method. Checks: `tests/circuit/simulator.test.ts` (a general circuit simulator, 0.1 mV
 * and 1e-6 of current at every unit), `reference/circuit.checks.ts` (published feeders).
 */
export function solveCircuit(description: CircuitDescription): Outcome<CircuitSolution, CircuitIssue> {
  const checked = checkCircuit(description);
  if (!checked.ok) return checked;
  const network = buildNetwork(description, checked.value);
  return solveNetwork(description, network, planNetwork(network));
}

/** Checks a circuit and plans the solution of all circuits of its shape. Refusals: as `checkCircuit`. */
export function planCircuit(description: CircuitDescription): Outcome<CircuitPlan, CircuitIssue> {
  const checked = checkCircuit(description);
  if (!checked.ok) return checked;
  const network = buildNetwork(description, checked.value);
  return found({
    plan: planNetwork(network),
    reach: checked.value,
    names: namesOf(description),
    network,
  });
}

/**
 * Solves a circuit that has the shape of the planned one: the same names, units, channels and cable ends,
 * with any volts, lengths, resistances, laws, levels and temperatures.
 * @param start `departure_V` of a solution of the same shape, from which fewer steps may be needed
 * Precondition, `RangeError`: names and shape are the planned ones.
 */
export function solvePlanned(
  plan: CircuitPlan,
  description: CircuitDescription,
  start?: Float64Array,
): Outcome<CircuitSolution, CircuitIssue> {
  const issues = findEntryIssues(description);
  if (issues.length > 0) return refused(...issues);
  if (namesOf(description) !== plan.names)
    throw new RangeError('the circuit does not have the planned names');
  const network = buildNetwork(description, plan.reach);
  if (!hasShape(network, plan.network)) throw new RangeError('the circuit does not have the planned shape');
  return solveNetwork(description, network, plan.plan, start);
}

function solveNetwork(
  description: CircuitDescription,
  network: Network,
  plan: NetworkPlan,
  start?: Float64Array,
): Outcome<CircuitSolution, CircuitIssue> {
  const point = operatingPointOf(network, plan, { start });
  if (!point.ok) return point;
  const solution = readSolution(description, network, plan, point.value);
  return found(solution, remarksOn(solution));
}

/** The operating point of a network, or why there is none. */
export function operatingPointOf(
  network: Network,
  plan: NetworkPlan,
  search: Search,
): Outcome<OperatingPoint, CircuitIssue> {
  const { ok, point } = findOperatingPoint(network, plan, search);
  return ok ? found(point) : refused(noOperatingPoint(point.residual_A, point.steps));
}

function namesOf({ sources, taps, runs }: CircuitDescription): string {
  const ids = (places: readonly { readonly id: string }[]): string[] => places.map(({ id }) => id);
  return JSON.stringify([ids(sources), ids(taps), runs.map(({ id, channels }) => [id, ids(channels)])]);
}

function hasShape(network: Network, shape: Network): boolean {
  const parts = ['conductorFrom', 'conductorTo'] as const;
  return (
    parts.every((part) => sameNumbers(network[part], shape[part])) &&
    network.ladders.length === shape.ladders.length &&
    network.ladders.every((ladder, l) => sameLadder(ladder, shape.ladders[l]!))
  );
}

function sameLadder(a: Ladder, b: Ladder): boolean {
  return (
    a.firstNode === b.firstNode &&
    a.endNode === b.endNode &&
    a.linkShift === b.linkShift &&
    a.padBefore === b.padBefore &&
    a.padAfter === b.padAfter
  );
}

function sameNumbers(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

function noOperatingPoint(residual_A: number, steps: number): CircuitIssue {
  return {
    code: 'no-operating-point',
    place: {},
    quantities: { residual_A, steps },
    sentence:
      'The volts of this circuit could not be worked out. Look for a resistance or a number of watts that is far from anything real, and correct it.',
  };
}

/** What a reader has to know of a solution besides its figures. */
export function remarksOn(solution: CircuitSolution): string[] {
  const backwards = solution.sources
    .filter(({ current_A }) => current_A < -1e-6)
    .map(
      ({ id }) =>
        `Driver ${id} would be fed backwards by the others, which real drivers do not take: set drivers that share a run to the same volts.`,
    );
  const outside = solution.runs
    .filter(({ channels }) => channels.some((channel) => channel.unitsOutsideLightLawCount > 0))
    .map(({ id }) => id);
  if (outside.length === 0) return backwards;
  return [
    ...backwards,
    `Some units of run ${outside.join(', ')} draw less than 25 % or more than 130 % of their nominal current; their light is an extrapolation.`,
  ];
}
