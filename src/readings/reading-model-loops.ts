import type { Run } from '../answer/sizing.ts';
import type { LaidCable } from '../set-out/cable-ways.ts';
import { partnerOf, type WiredJob } from '../sizing/circuit-of-job.ts';
import { jointAt, partingLines } from './reading-model-circuit.ts';

/** From which feed points the conductors of a dead measurement set out, and the cut line of the run they meet at. */
export interface LoopWay {
  readonly run: string;
  readonly cutLine: number;
  readonly positive: string | null;
  readonly return: string | null;
}

export type Rail = 'plus' | 'minus';

/** One conductor or joint on the way, at 20 degC. */
interface Stretch {
  /** Cable of the output's circuit that it is. */
  readonly cable: string;
  readonly rail: Rail;
  readonly copper_ohm: number;
  readonly contact_ohm: number;
}

/** What an ohmmeter measures along: conductors and joints one after the other, and copper of the strip. */
export interface Loop {
  readonly stretches: readonly Stretch[];
  readonly strip_ohm: number;
  /** Joints at feed points, which have no cable of their own. */
  readonly contact_ohm: number;
}

const railOf = { positive: 'plus', return: 'minus' } as const;

function lead(feedPoint: string, end: 'positive' | 'return', wired: WiredJob): Stretch[] {
  const { job, products, cables } = wired;
  const carries = (cable: LaidCable) => cable.conductors === 'both' || cable.conductors === end;
  const way = cables.filter((cable) => cable.serves.includes(feedPoint) && carries(cable));
  return way.map((cable) => ({
    cable: partnerOf(cable.id, wired),
    rail: railOf[end],
    copper_ohm: (products.cable.conductor_ohm_per_km * cable.length_mm) / 1e6,
    contact_ohm: cable.to.kind === 'pad' ? job.feeds.terminal_mohm / 1000 : 0,
  }));
}

/** One rail between two cut lines. A feed point at a joint lies in its middle and has half of it on each side. */
function alongRail(run: Run, ends: readonly [number, number], rail: Rail, wired: WiredJob): Loop {
  const { job, products } = wired;
  const [low, high] = ends[0] < ends[1] ? ends : [ends[1], ends[0]];
  const parting = partingLines(run.id, wired);
  const passed = run.jointLines.filter((line) => low < high && line >= low && line <= high);
  const joint_ohm = job.feeds.joint_mohm / 1000;
  const { railPositive_mohm_per_m, railReturn_mohm_per_m } = products.strip;
  const rail_mohm_per_m = rail === 'plus' ? railPositive_mohm_per_m : railReturn_mohm_per_m;
  return {
    stretches: passed
      .filter((line) => parting.includes(line))
      .map((line) => ({ cable: jointAt(run.id, line), rail, copper_ohm: 0, contact_ohm: joint_ohm })),
    strip_ohm: ((high - low) / products.strip.unitsPerMetre) * (rail_mohm_per_m / 1000),
    contact_ohm: passed
      .filter((line) => !parting.includes(line))
      .reduce((sum, line) => sum + (line === low || line === high ? joint_ohm / 2 : joint_ohm), 0),
  };
}

/** Everything a dead measurement passes, for layouts in which the way from driver to feed point is one chain. */
export function loopAlong(way: LoopWay, wired: WiredJob): Loop {
  const run = wired.runs.find(({ id }) => id === way.run)!;
  const halves = (['positive', 'return'] as const).flatMap((end): Loop[] => {
    const from = way[end];
    if (from === null) return [];
    const { cutLine } = run.feedPoints.find(({ id }) => id === from)!;
    const strip = alongRail(run, [cutLine, way.cutLine], railOf[end], wired);
    return [{ ...strip, stretches: [...lead(from, end, wired), ...strip.stretches] }];
  });
  return {
    stretches: halves.flatMap((half) => half.stretches),
    strip_ohm: halves.reduce((sum, half) => sum + half.strip_ohm, 0),
    contact_ohm: halves.reduce((sum, half) => sum + half.contact_ohm, 0),
  };
}
