import type { Fault, ReadingModel } from '../../src/readings/fault-fit.ts';

/**
 * A wall of resistors, made only to try the fault finding: `runCount` runs on their own cables from one 24 V output.
 * A run is a chain: cable, terminal, two lengths of strip with a joint between; each length feeds four loads.
 * Readings: volts and amps at each feed point, volts at each far end, dead loops to both, and the output's amps.
 */
const cable_ohm = 0.08;
const section_ohm = 0.02;
const loadsPerHalf = 4;

/** What the model takes as given and a site may have otherwise. */
export interface Site {
  readonly source_V: number;
  readonly load_ohm: number;
}

export const plannedSite: Site = { source_V: 24, load_ohm: 240 };

interface Chain {
  readonly terminal_ohm: number;
  readonly joint_ohm: number;
  readonly open: boolean;
}

/** Series ohms before each load of a chain, the joint in the middle. */
function sections(chain: Chain): number[] {
  const plain = Array<number>(2 * loadsPerHalf).fill(section_ohm);
  return plain.map((ohm, i) => (i === loadsPerHalf ? ohm + chain.joint_ohm : ohm));
}

/** Input resistance of a ladder from its far end up, then volts down from the source: exact, no matrix. */
function solveChain(
  chain: Chain,
  { source_V, load_ohm }: Site,
): { feed_V: number; feed_A: number; end_V: number } {
  if (chain.open) return { feed_V: source_V, feed_A: 0, end_V: source_V };
  const series = sections(chain);
  const inputs: number[] = [];
  let beyond = Number.POSITIVE_INFINITY;
  for (let i = series.length - 1; i >= 0; i--) {
    const here = 1 / (1 / load_ohm + 1 / beyond);
    inputs[i] = here;
    beyond = series[i]! + here;
  }
  const lead_ohm = cable_ohm + chain.terminal_ohm;
  const feed_A = source_V / (lead_ohm + beyond);
  const feed_V = source_V - feed_A * lead_ohm;
  let volts = feed_V;
  for (const [i, ohm] of series.entries()) volts *= inputs[i]! / (ohm + inputs[i]!);
  return { feed_V, feed_A, end_V: volts };
}

/** Readings of the wall with any extra ohms at terminals and joints. */
export function readingsOfWall(chains: readonly Chain[], site: Site = plannedSite): number[] {
  const solved = chains.map((chain) => solveChain(chain, site));
  const rows = chains.flatMap((chain, i) => {
    const { feed_V, end_V, feed_A } = solved[i]!;
    const loop = cable_ohm + chain.terminal_ohm;
    const end = loop + sections(chain).reduce((sum, x) => sum + x, 0);
    return [feed_V, end_V, feed_A, loop, end];
  });
  return [...rows, solved.reduce((sum, chain) => sum + chain.feed_A, 0)];
}

export const soundChain: Chain = { terminal_ohm: 0.01, joint_ohm: 0.004, open: false };

function withFault(chains: readonly Chain[], fault: Fault): Chain[] {
  return chains.map((chain, i) => {
    if (fault.kind === 'resistance' && fault.place === `terminal ${i}`)
      return { ...chain, terminal_ohm: chain.terminal_ohm + fault.ohm };
    if (fault.kind === 'resistance' && fault.place === `joint ${i}`)
      return { ...chain, joint_ohm: chain.joint_ohm + fault.ohm };
    return fault.kind === 'missing run' && fault.place === `run ${i}` ? { ...chain, open: true } : chain;
  });
}

/** The wall as a model for the fault finding. */
export function wallModel(runCount: number, site: Site = plannedSite): ReadingModel {
  const sound = Array<Chain>(runCount).fill(soundChain);
  const each = (what: string) => sound.map((_, i) => `${what} ${i}`);
  return {
    predict: (fault) => readingsOfWall(withFault(sound, fault), site),
    resistancePlaces: [...each('terminal'), ...each('joint')],
    runs: each('run'),
  };
}

/** Spread of a meter for each reading: 10 mV, 10 mohm, 20 mA. */
export function wallSpread(runCount: number): number[] {
  return [...Array.from({ length: runCount }, () => [0.01, 0.01, 0.02, 0.01, 0.01]).flat(), 0.02];
}

/** Seeded random numbers from 0 to 1 (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Normal deviates (Box and Muller). */
export function normal(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
