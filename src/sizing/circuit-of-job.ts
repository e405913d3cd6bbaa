import type { CableEnd } from '../answer/cables.ts';
import type { Run } from '../answer/set-out.ts';
import { resistanceAt } from '../circuit/copper.ts';
import type {
  Cable,
  CircuitDescription,
  Run as CircuitRun,
  Conductor,
  Terminal,
} from '../circuit/description.ts';
import type { StripLaw } from '../circuit/strip-law.ts';
import type { Job } from '../job/job.ts';
import type { Products } from '../job/products.ts';
import { setVoltage_V } from '../job/resolve.ts';
import type { StripChannel, StripData } from '../job/strip.ts';
import { rememberedFor } from '../numeric/remembered.ts';
import type { LaidCable } from '../set-out/cable-ways.ts';
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

function circuitRun(run: Run, job: Job, strip: StripData, strip_degC: number): CircuitRun {
  const levels = electricalLevels(job, strip);
  const all_lm_per_m = fullFlux_lm_per_m(strip);
  return {
    id: run.id,
    unitCount: run.unitCount,
    unitLength_m: 1 / strip.unitsPerMetre,
    positiveRail_ohm_per_m: strip.railPositive_mohm_per_m / 1000,
    channels: strip.channels.map((channel, i) => ({
      id: channelId(i),
      returnRail_ohm_per_m: strip.railReturn_mohm_per_m / 1000,
      law: lawOf(strip, channel),
      level: levels[i]!,
      lightShare: channel.lumens_per_m / all_lm_per_m,
    })),
    strip_degC,
    joints: run.jointLines.map((cutLine) => ({ cutLine, contact_ohm: job.feeds.joint_mohm / 1000 })),
  };
}

function terminal(end: CableEnd): Terminal {
  if (end.kind === 'output') return { source: end.id };
  return end.kind === 'tap' ? { tap: end.id } : { run: end.run, cutLine: end.cutLine };
}

interface CrossedPair {
  readonly positive: LaidCable;
  readonly returns: LaidCable;
}

/** Cables to solve: pairs as laid, and the two single conductors of a crossed feed joined into one. */
function pairsOf(laid: readonly LaidCable[]): CrossedPair[] {
  const returnOf = new Map(
    laid.flatMap((cable) => (cable.conductors === 'return' ? [[runOf(cable), cable] as const] : [])),
  );
  return laid.flatMap((cable) => {
    if (cable.conductors === 'both') return [{ positive: cable, returns: cable }];
    return cable.conductors === 'positive' ? [{ positive: cable, returns: returnOf.get(runOf(cable))! }] : [];
  });
}

const runOf = (cable: LaidCable): string => (cable.to.kind === 'pad' ? cable.to.run : '');

function conductor(cable: LaidCable, job: Job, products: Products): Conductor {
  return {
    from: terminal(cable.from),
    to: terminal(cable.to),
    length_m: cable.length_mm / 1000,
    ohm_per_m: resistanceAt(products.cable.conductor_ohm_per_km / 1000, job.cables.cable_degC),
    contact_ohm: job.feeds.terminal_mohm / 1000,
  };
}

function circuitCable(pair: CrossedPair, job: Job, products: Products): Cable {
  return {
    id: pair.positive.id,
    positive: conductor(pair.positive, job, products),
    returns: products.strip.channels.map((_, i) => ({
      ...conductor(pair.returns, job, products),
      channel: channelId(i),
    })),
  };
}

/** What a circuit is made of: runs, cables as laid, and the outputs they hang on. */
export interface WiredJob {
  readonly job: Job;
  readonly products: Products;
  readonly runs: readonly Run[];
  readonly cables: readonly LaidCable[];
  readonly outputs: readonly string[];
}

/** The network of a job: every output a source at its set voltage, every cable and every run at its temperature. */
export function circuitOfJob(wired: WiredJob, strip_degC: (run: number) => number): CircuitDescription {
  const { job, products, runs, cables, outputs } = wired;
  const set_V = setVoltage_V(job, products);
  const taps = new Set(
    cables.flatMap((cable) => [cable.from, cable.to]).flatMap((end) => (end.kind === 'tap' ? [end.id] : [])),
  );
  return {
    sources: outputs.map((id) => ({ id, set_V })),
    taps: [...taps].map((id) => ({ id })),
    runs: runs.map((run, i) => circuitRun(run, job, products.strip, strip_degC(i))),
    cables: pairsOf(cables).map((pair) => circuitCable(pair, job, products)),
  };
}

/** The id under which a laid cable was solved: the two conductors of a crossed feed are solved as one cable. */
export function partnerOf(cableId: string, wired: WiredJob): string {
  return partners(wired).get(cableId)!;
}

/** Laid cables and the ids under which they were solved. */
const partners = rememberedFor(({ cables }: WiredJob): ReadonlyMap<string, string> => {
  const solvedAs = pairsOf(cables).flatMap(({ positive, returns }) => [
    [positive.id, positive.id] as const,
    [returns.id, positive.id] as const,
  ]);
  return new Map(solvedAs);
});
