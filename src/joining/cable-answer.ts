import type { CableSolution, CircuitSolution } from '../circuit/solution.ts';
import type { LaidCable } from '../set-out/cable-ways.ts';
import type { Cable } from '../sizing.ts';
import { partnerOf, type WiredJob } from './circuit-of-job.ts';
import { protect } from './interim.ts';

/** Volts lost on the conductors of a laid cable, out and home. */
function drop_V(cable: LaidCable, solved: CableSolution): number {
  const out = solved.positive.from_V - solved.positive.to_V;
  const home = Math.max(...solved.returns.map((r) => r.to_V - r.from_V));
  if (cable.conductors === 'both') return out + home;
  return cable.conductors === 'positive' ? out : home;
}

function current_A(cable: LaidCable, solved: CableSolution): number {
  if (cable.conductors !== 'return') return Math.abs(solved.positive.current_A);
  return Math.abs(solved.returns.reduce((sum, r) => sum + r.current_A, 0));
}

function loss_W(cable: LaidCable, solved: CableSolution): number {
  const home = solved.returns.reduce((sum, r) => sum + r.lost_W, 0);
  if (cable.conductors === 'both') return solved.lost_W;
  return cable.conductors === 'positive' ? solved.positive.lost_W : home;
}

const endName = (cable: LaidCable): string => (cable.from.kind === 'pad' ? cable.from.run : cable.from.id);

function conductorCount(cable: LaidCable, channelCount: number): number {
  if (cable.conductors === 'positive') return 1;
  return cable.conductors === 'return' ? channelCount : 1 + channelCount;
}

function answer(cable: LaidCable, solved: CableSolution, wired: WiredJob): Cable {
  const { products, job } = wired;
  const count = conductorCount(cable, products.strip.channels.length);
  const carried_A = current_A(cable, solved);
  const at20_ohm = (products.cable.conductor_ohm_per_km * cable.length_mm) / 1e6;
  return {
    id: cable.id,
    name: products.cable.name,
    from: endName(cable),
    to: [...cable.serves],
    route: cable.route.map((p) => ({ ...p })),
    way_mm: cable.way_mm,
    length_mm: cable.length_mm,
    conductorCount: count,
    current_A: carried_A,
    drop_V: drop_V(cable, solved),
    loss_W: loss_W(cable, solved),
    ...protect(products.cable.area_mm2, job.cables.cable_degC, job.cables.grouped, carried_A),
    loop_ohm: at20_ohm * (cable.conductors === 'both' ? 2 : 1),
  };
}

/** The cables of the answer, in the order laid. */
export function cableAnswers(solution: CircuitSolution, wired: WiredJob): Cable[] {
  const solved = new Map(solution.cables.map((cable) => [cable.id, cable]));
  return wired.cables.map((cable) => answer(cable, solved.get(partnerOf(cable.id, wired))!, wired));
}
