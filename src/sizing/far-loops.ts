import type { CableEnd } from '../answer/cables.ts';
import type { Run } from '../answer/set-out.ts';
import { resistanceAt } from '../circuit/copper.ts';
import type { Branch } from '../installation/plan.ts';
import type { WiredJob } from './circuit-of-job.ts';

/** Rails of a run from end to end and its joints, out and home, at 20 degC. */
function rails_ohm(run: Run, { products }: WiredJob): number {
  const { railPositive_mohm_per_m, railReturn_mohm_per_m } = products.strip;
  return (run.strip_mm / 1e6) * (railPositive_mohm_per_m + railReturn_mohm_per_m);
}

const joints_ohm = (run: Run, { job }: WiredJob): number =>
  (2 * run.jointLines.length * job.feeds.joint_mohm) / 1000;

/** The name by which the loop to an end of a branch is known. */
export const keyOf = (end: CableEnd): string => {
  if (end.kind === 'pad') return end.feedPoint ?? end.run;
  if (end.kind === 'dimmer') return `${end.id} ${end.side}`;
  return end.kind === 'block' && end.way !== null ? `${end.id} ${end.way}` : end.id;
};

/**
 * Everything there and back, warm, from the output to every end of a branch, and to the far end of the run of every feed
 * point: conductors on the way one after the other, connectors, fuses, dimmers, contacts at pads, the rails and
 * joints of the run and of those it is led through. A second way through a ring is left out, which finds the fault
 * current too low and so errs to the careful side. Branches are walked from the output outwards.
 */
export function farLoops_ohm(wired: WiredJob): ReadonlyMap<string, number> {
  const { job, runs, installation } = wired;
  const warm = (at20_ohm: number): number => resistanceAt(at20_ohm, job.cables.cable_degC);
  const rails = new Map(runs.map((run) => [run.id, warm(rails_ohm(run, wired)) + joints_ohm(run, wired)]));
  const loops = new Map<string, number>(wired.outputs.map((id) => [id, 0]));
  const add = ({ from, to, ...branch }: Branch): void => {
    const padCount = [from, to].filter((end) => end.kind === 'pad').length;
    const contacts_ohm = (padCount * 2 * job.feeds.terminal_mohm) / 1000;
    const copper_ohm = warm((2 * branch.conductor_ohm_per_km * branch.length_mm) / 1e6);
    const here_ohm =
      (loops.get(keyOf(from)) ?? 0) + copper_ohm + branch.positive_ohm + branch.return_ohm + contacts_ohm;
    if (to.kind !== 'pad') {
      if (!loops.has(keyOf(to))) loops.set(keyOf(to), here_ohm);
      return;
    }
    for (const key of [keyOf(to), to.run]) loops.set(key, here_ohm + rails.get(to.run)!);
  };
  outwards(installation.branches, wired.outputs).forEach(add);
  return loops;
}

/** Branches in an order in which what feeds one comes before it. */
function outwards(branches: readonly Branch[], outputs: readonly string[]): Branch[] {
  const reached = new Set(outputs);
  const ordered: Branch[] = [];
  let waiting = [...branches];
  while (waiting.length > 0) {
    const next = waiting.filter(({ from }) => reached.has(keyOf(from)));
    if (next.length === 0) throw new RangeError('a branch hangs on no output');
    for (const { to } of next) {
      reached.add(keyOf(to));
      if (to.kind === 'pad') reached.add(to.run);
    }
    ordered.push(...next);
    const done = new Set(next);
    waiting = waiting.filter((branch) => !done.has(branch));
  }
  return ordered;
}
