import type { CircuitDescription } from '../../src/circuit/description.ts';
import type { CircuitIssue } from '../../src/circuit/issues.ts';
import { buildNetwork, type Network, type PadPlace } from '../../src/circuit/network.ts';
import { type NetworkPlan, planNetwork } from '../../src/circuit/network-plan.ts';
import { newState, solveLinearised } from '../../src/circuit/operating-point.ts';
import { checkCircuit } from '../../src/circuit/rules.ts';
import { found, type Outcome } from '../../src/outcome.ts';

/**
 * Resistance of all copper, there and back, between a place on a run and the drivers that feed it, ohm: what one
 * ampere pushed through the place would drop with every lamp dark and every driver a short circuit. For a single
 * cable and a single run it is `2 R' L` plus contacts; for rings and several feeds the parallel ways count too.
 *
 * It is what an ohmmeter shows at the driver's end of a single lead with the far end bridged, and what limits the
 * current of a short there: `V / loop`.
 * @param place cut line and channel of a run in the description; another throws `RangeError`
 * Refusals: as `checkCircuit`. Check: `tests/circuit/loop-resistance.test.ts`.
 */
export function loopResistance_ohm(
  description: CircuitDescription,
  place: PadPlace & { readonly channel: string },
): Outcome<number, CircuitIssue> {
  const checked = checkCircuit(description);
  if (!checked.ok) return checked;
  const r = description.runs.findIndex(({ id }) => id === place.run);
  const c = description.runs[r]?.channels.findIndex(({ id }) => id === place.channel) ?? -1;
  const network = buildNetwork(description, checked.value, place);
  const pad = network.runs[r]?.pads.get(place.cutLine);
  if (pad === undefined || c < 0) throw new RangeError('no such run, cut line or channel');
  const plan = planNetwork(network);
  const { unknownOfJunction } = plan;
  return found(copperBetween_ohm(network, plan, unknownOfJunction[pad]!, unknownOfJunction[pad + 1 + c]!));
}

/**
 * Volts that one ampere pushed into one unknown and drawn from another would put between them, with every lamp
 * dark and every driver a short circuit: the resistance of all copper between the two, ohm.
 */
function copperBetween_ohm(network: Network, plan: NetworkPlan, plus: number, minus: number): number {
  const state = newState(network, plan);
  state.imbalance_A[plus] = 1;
  state.imbalance_A[minus] = -1;
  if (!solveLinearised(network, plan, state))
    throw new RangeError('copper that reaches a driver always factorises');
  return state.step_V[plus]! - state.step_V[minus]!;
}
