import type { Cable, CableEnd } from '../answer/cables.ts';
import type { Run } from '../answer/set-out.ts';
import { resistanceAt } from '../circuit/copper.ts';
import type { CableSolution, CircuitSolution } from '../circuit/solution.ts';
import type { InstallationIssue } from '../installation/issues.ts';
import { setVoltage_V } from '../job/resolve.ts';
import { found, type Outcome } from '../outcome.ts';
import type { LaidCable } from '../set-out/cable-ways.ts';
import { protectionOf } from './cable-protection.ts';
import { partnerOf, type WiredJob } from './circuit-of-job.ts';

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

function conductorCount(cable: LaidCable, channelCount: number): number {
  if (cable.conductors === 'positive') return 1;
  return cable.conductors === 'return' ? channelCount : 1 + channelCount;
}

const at20_ohm = (cable: LaidCable, wired: WiredJob): number =>
  (wired.products.cable.conductor_ohm_per_km * cable.length_mm) / 1e6;

/** Rails of a run from end to end, out and home, at 20 degC. */
function rails_ohm(run: Run, wired: WiredJob): number {
  const { railPositive_mohm_per_m, railReturn_mohm_per_m } = wired.products.strip;
  return (run.strip_mm / 1e6) * (railPositive_mohm_per_m + railReturn_mohm_per_m);
}

const keyOf = (end: CableEnd): string => (end.kind === 'pad' ? (end.feedPoint ?? end.run) : end.id);

/**
 * Copper there and back, warm, from the output to every tap, and to the far end of the run of every feed point:
 * conductors on the way one after the other, contacts at pads, and the rails of the run and of those it is led
 * through. A second way through a ring is left out, which finds the fault current too low and so errs to the careful
 * side. Cables are laid from the output outwards, so that what feeds one comes before it.
 */
function loops_ohm(wired: WiredJob): ReadonlyMap<string, number> {
  const { job, runs, cables } = wired;
  const warm = (at20_ohm: number): number => resistanceAt(at20_ohm, job.cables.cable_degC);
  const rails = new Map(runs.map((run) => [run.id, warm(rails_ohm(run, wired))]));
  const loops = new Map<string, number>();
  for (const cable of cables) {
    const { from, to } = cable;
    const padCount = [from, to].filter((end) => end.kind === 'pad').length;
    const contacts_ohm = (padCount * 2 * job.feeds.terminal_mohm) / 1000;
    const here_ohm = (loops.get(keyOf(from)) ?? 0) + warm(2 * at20_ohm(cable, wired)) + contacts_ohm;
    if (to.kind === 'tap') loops.set(to.id, here_ohm);
    if (to.kind === 'pad')
      for (const key of [keyOf(to), to.run]) loops.set(key, here_ohm + rails.get(to.run)!);
  }
  return loops;
}

/** The name of a cable begins with its count of cores where it names one; one of another count says its own. */
const withCores = (name: string, coreCount: number): string => name.replace(/^\d+ ×(?= )/, `${coreCount} ×`);

function answer(
  cable: LaidCable,
  solved: CableSolution,
  { wired, loops }: { readonly wired: WiredJob; readonly loops: ReadonlyMap<string, number> },
): Outcome<Cable, InstallationIssue> {
  const { products, job } = wired;
  const design_A = current_A(cable, solved);
  const protection = protectionOf({
    area_mm2: products.cable.area_mm2,
    cable_degC: job.cables.cable_degC,
    circuitCount: job.cables.grouped,
    design_A,
    driver_A: products.driver.current_A,
    set_V: setVoltage_V(job, products),
    farLoop_ohm: Math.max(...cable.serves.map((feedPoint) => loops.get(feedPoint)!)),
  });
  if (!protection.ok) return protection;
  const coreCount = conductorCount(cable, products.strip.channels.length);
  return found({
    id: cable.id,
    name: withCores(products.cable.name, coreCount),
    from: cable.from,
    to: cable.to,
    conductors: cable.conductors,
    serves: [...cable.serves],
    route: cable.route.map((p) => ({ ...p })),
    way_mm: cable.way_mm,
    length_mm: cable.length_mm,
    conductorCount: coreCount,
    current_A: design_A,
    drop_V: drop_V(cable, solved),
    loss_W: loss_W(cable, solved),
    ...protection.value,
    loop_ohm: at20_ohm(cable, wired) * (cable.conductors === 'both' ? 2 : 1),
  });
}

/** The cables of the answer, in the order laid. Refuses cable that may carry nothing where it lies. */
export function cableAnswers(
  solution: CircuitSolution,
  wired: WiredJob,
): Outcome<Cable[], InstallationIssue> {
  const solved = new Map(solution.cables.map((cable) => [cable.id, cable]));
  const loops = loops_ohm(wired);
  const answers: Cable[] = [];
  for (const cable of wired.cables) {
    const one = answer(cable, solved.get(partnerOf(cable.id, wired))!, { wired, loops });
    if (!one.ok) return one;
    answers.push(one.value);
  }
  return found(answers);
}
