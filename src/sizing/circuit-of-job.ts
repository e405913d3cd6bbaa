import type { CableEnd } from '../answer/cables.ts';
import type { Run } from '../answer/set-out.ts';
import { resistanceAt } from '../circuit/copper.ts';
import {
  type Cable,
  type CircuitDescription,
  type Run as CircuitRun,
  type Conductor,
  conductorsOf,
  type Terminal,
} from '../circuit/description.ts';
import type { StripLaw } from '../circuit/strip-law.ts';
import type { Branch, Installation } from '../installation/plan.ts';
import type { Job } from '../job/job.ts';
import type { Products } from '../job/products.ts';
import { setVoltage_V } from '../job/resolve.ts';
import type { StripChannel, StripData } from '../job/strip.ts';
import { rememberedFor } from '../numeric/remembered.ts';
import { electricalLevels } from './dimming-of-job.ts';
import { fullFlux_lm_per_m } from './light-of-job.ts';

/** Strip law of one cut unit of one channel, from its data sheet. */
export function lawOf(strip: StripData, channel: StripChannel): StripLaw {
  const common = {
    nominal_V: strip.nominal_V,
    unit_W: channel.watts_per_m / strip.unitsPerMetre,
    lampsInSeries: channel.lampsInSeries,
    lampForward_V: channel.lampForward_V,
    slope_V: strip.slope_V,
  };
  return strip.law === 'resistor'
    ? { ...common, kind: 'resistor' }
    : { ...common, kind: 'regulated', dropout_V: strip.dropout_V };
}

const channelId = (i: number): string => `ch${i + 1}`;

/** The strip of a job, as all runs of a zone have it. */
function circuitStrip(
  { job, products }: WiredJob,
  zone: Run['zone'],
): Omit<CircuitRun, 'id' | 'unitCount' | 'joints' | 'strip_degC'> {
  const { strip } = products;
  const levels = electricalLevels(job, products, zone);
  const all_lm_per_m = fullFlux_lm_per_m(strip);
  return {
    unitLength_m: 1 / strip.unitsPerMetre,
    positiveRail_ohm_per_m: strip.railPositive_mohm_per_m / 1000,
    channels: strip.channels.map((channel, i) => ({
      id: channelId(i),
      returnRail_ohm_per_m: strip.railReturn_mohm_per_m / 1000,
      law: lawOf(strip, channel),
      level: levels[i]!,
      lightShare: channel.lumens_per_m / all_lm_per_m,
    })),
  };
}

/** Where a conductor ends in the circuit: what is neither an output nor a run is a junction by its name. */
function terminal(end: CableEnd): Terminal {
  switch (end.kind) {
    case 'output':
      return { source: end.id };
    case 'pad':
      return { run: end.run, cutLine: end.cutLine };
    case 'block':
      return { tap: end.way === null ? end.id : `${end.id} way ${end.way}` };
    case 'dimmer':
      return { tap: `${end.id} ${end.side}` };
    case 'tap':
      return { tap: end.id };
  }
}

interface CrossedPair {
  readonly positive: Branch;
  readonly returns: Branch;
}

const runOf = (branch: Branch): string => (branch.to.kind === 'pad' ? branch.to.run : '');

/** Branches to solve: pairs as they are, and the two single conductors of a crossed feed joined into one. */
function pairsOf(branches: readonly Branch[]): CrossedPair[] {
  const returnOf = new Map(
    branches.flatMap((branch) => (branch.conductors === 'return' ? [[runOf(branch), branch] as const] : [])),
  );
  return branches.flatMap((branch) => {
    if (branch.conductors === 'both') return [{ positive: branch, returns: branch }];
    return branch.conductors === 'positive'
      ? [{ positive: branch, returns: returnOf.get(runOf(branch))! }]
      : [];
  });
}

function conductor(branch: Branch, series_ohm: number, job: Job): Conductor {
  return {
    from: terminal(branch.from),
    to: terminal(branch.to),
    length_m: branch.length_mm / 1000,
    ohm_per_m: resistanceAt(branch.conductor_ohm_per_km / 1000, job.cables.cable_degC),
    contact_ohm: job.feeds.terminal_mohm / 1000,
    series_ohm,
  };
}

function circuitCable({ positive, returns }: CrossedPair, job: Job, products: Products): Cable {
  const channels = positive.hasOneMinus ? products.strip.channels.slice(0, 1) : products.strip.channels;
  return {
    id: positive.id,
    positive: conductor(positive, positive.positive_ohm, job),
    returns: channels.map((_, i) => ({
      ...conductor(returns, returns.return_ohm, job),
      channel: channelId(i),
    })),
  };
}

/** What a circuit is made of: runs, the wiring between, and the outputs it hangs on. */
export interface WiredJob {
  readonly job: Job;
  readonly products: Products;
  readonly runs: readonly Run[];
  readonly installation: Installation;
  readonly outputs: readonly string[];
}

/** The junctions that cables end at; where a branch with one minus ends, that junction has one too. */
function tapsOf(cables: readonly Cable[], branches: readonly Branch[]): CircuitDescription['taps'] {
  const taps = new Map<string, { id: string; hasOneMinus: boolean }>();
  for (const { from, to } of cables.flatMap(conductorsOf))
    for (const end of [from, to])
      if ('tap' in end && !taps.has(end.tap)) taps.set(end.tap, { id: end.tap, hasOneMinus: false });
  for (const { hasOneMinus, to } of branches) {
    const end = terminal(to);
    if (hasOneMinus && 'tap' in end) taps.get(end.tap)!.hasOneMinus = true;
  }
  return [...taps.values()];
}

/** The network of a job: every output a source at its set voltage, every cable at its temperature, every run at its own. */
export function circuitOfJob(wired: WiredJob, strip_degC: readonly number[]): CircuitDescription {
  const { job, products, runs, outputs } = wired;
  const set_V = setVoltage_V(job, products);
  const { branches } = wired.installation;
  const cables = pairsOf(branches).map((pair) => circuitCable(pair, job, products));
  const zones = [...new Set(runs.map(({ zone }) => zone))];
  const strips = new Map(zones.map((zone) => [zone, circuitStrip(wired, zone)]));
  const joint = (cutLine: number) => ({ cutLine, contact_ohm: job.feeds.joint_mohm / 1000 });
  return {
    sources: outputs.map((id) => ({ id, set_V })),
    taps: tapsOf(cables, branches),
    runs: runs.map(({ id, unitCount, zone, jointLines }, i) => ({
      id,
      unitCount,
      strip_degC: strip_degC[i]!,
      joints: jointLines.map(joint),
      ...strips.get(zone)!,
    })),
    cables,
  };
}

/** The id under which a branch was solved: the two conductors of a crossed feed are solved as one cable. */
export function partnerOf(branchId: string, wired: WiredJob): string {
  return partners(wired).get(branchId)!;
}

/** Branches and the ids under which they were solved. */
const partners = rememberedFor(({ installation }: WiredJob): ReadonlyMap<string, string> => {
  const solvedAs = pairsOf(installation.branches).flatMap(({ positive, returns }) => [
    [positive.id, positive.id] as const,
    [returns.id, positive.id] as const,
  ]);
  return new Map(solvedAs);
});
