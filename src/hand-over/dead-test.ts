import type { Cable } from '../answer/cables.ts';
import type { FeedPoint, Run } from '../answer/set-out.ts';
import { rememberedFor } from '../numeric/remembered.ts';
import type { HandOverInput } from './input.ts';
import { type LegOfCable, legsTo, runOf, solvedRun } from './wiring.ts';

type Rail = 'positive' | 'return';

/** From which feed points the two conductors of a measurement set out; null for one that is not measured. */
export type Landing = { readonly [Key in Rail]: FeedPoint | null };

/** What a dead measurement passes, one after the other, at 20 degC. */
export interface LoopPath {
  readonly leads: readonly {
    readonly leg: string;
    readonly rail: Rail;
    readonly copper_ohm: number;
    /** At pads and taps. */
    readonly contact_ohm: number;
  }[];
  readonly joints: readonly {
    readonly run: string;
    readonly cutLine: number;
    readonly rail: Rail;
    /** Half of a joint in whose middle the measurement begins or ends. */
    readonly ohm: number;
  }[];
  readonly strip_ohm: number;
}

/** A trunk whose two ends meet the same output. */
const isLoop = ({ kind, to }: Cable): boolean => kind === 'trunk' && to.kind !== 'tap';

/** Outputs from which some way to a feed point is no single chain of cables, so that its ohms do not add up. */
const unchainedOutputs = rememberedFor(
  ({ cables }: HandOverInput) => new Set(cables.filter(isLoop).map(({ output }) => output)),
);

/** Whether the way to a feed point is known and one chain of cables, so that its ohms add up. */
export function chained(feedPoint: FeedPoint, input: HandOverInput): boolean {
  return (
    legsTo(feedPoint, input).length > 0 &&
    !unchainedOutputs(input).has(solvedRun(feedPoint.run, input).output)
  );
}

/** One conductor of a part of a cable at 20 degC. */
const conductor_ohm = ({ cable, leg }: LegOfCable): number =>
  cable.conductors === 'both' ? leg.loop_ohm / 2 : leg.loop_ohm;

/** Parts of cables that a dead measurement passes: the lead comes off where the way begins, so links are left out. */
export function measuredLegs(feedPoint: FeedPoint, input: HandOverInput): LegOfCable[] {
  return legsTo(feedPoint, input).filter(({ cable }) => cable.kind !== 'link');
}

/** Connections passed: a pad at either end, the tap a branch leaves, and the tap at which a trunk ends; it passes others uncut. */
function contacts_ohm({ cable, leg: { id, from, to } }: LegOfCable, input: HandOverInput): number {
  const isLast = cable.legs.at(-1)!.id === id;
  const pads = [from.kind === 'pad', to.kind === 'pad'];
  const at = [...pads, to.kind === 'tap' && isLast, from.kind === 'tap' && cable.kind !== 'trunk'];
  return (at.filter(Boolean).length * input.job.feeds.terminal_mohm) / 1000;
}

function leads(feedPoint: FeedPoint, rail: Rail, input: HandOverInput): LoopPath['leads'] {
  return measuredLegs(feedPoint, input)
    .filter(({ cable: { conductors } }) => conductors === 'both' || conductors === rail)
    .map((each) => ({
      leg: each.leg.id,
      rail,
      copper_ohm: conductor_ohm(each),
      contact_ohm: contacts_ohm(each, input),
    }));
}

/** Joints passed in one rail between two cut lines; a pad at a joint sits in its middle and passes half of it. */
function joints(
  run: Run,
  [a, b]: readonly [number, number],
  rail: Rail,
  joint_ohm: number,
): LoopPath['joints'] {
  const [low, high] = a < b ? [a, b] : [b, a];
  if (low === high) return [];
  return run.jointLines
    .filter((line) => line >= low && line <= high)
    .map((cutLine) => ({
      ...{ run: run.id, cutLine, rail },
      ohm: cutLine === low || cutLine === high ? joint_ohm / 2 : joint_ohm,
    }));
}

/** A part of a run that is passed from one cut line to another. */
interface Passed {
  readonly run: Run;
  readonly lines: readonly [from: number, to: number];
}

/** Runs that the way to a feed point leads through: in at the feed point of each, out where a cable goes on. */
function passedBefore(feedPoint: FeedPoint, input: HandOverInput): Passed[] {
  return measuredLegs(feedPoint, input).flatMap(({ leg: { from } }) => {
    if (from.kind !== 'pad') return [];
    const run = runOf(from.run, input);
    return [{ run, lines: [run.feedPoints[0]!.cutLine, from.cutLine] }];
  });
}

function rail_ohm({ run, lines: [from, to] }: Passed, rail: Rail, { products }: HandOverInput): number {
  const { railPositive_mohm_per_m, railReturn_mohm_per_m } = products.strip;
  const rail_mohm_per_m = rail === 'positive' ? railPositive_mohm_per_m : railReturn_mohm_per_m;
  const length_m = (run.strip_mm / 1000) * (Math.abs(from - to) / run.unitCount);
  return (length_m * rail_mohm_per_m) / 1000;
}

function half(
  from: FeedPoint | null,
  run: Run,
  cutLine: number,
  of: { rail: Rail; input: HandOverInput },
): LoopPath[] {
  if (!from) return [];
  const { rail, input } = of;
  const passed: Passed[] = [...passedBefore(from, input), { run, lines: [from.cutLine, cutLine] }];
  const joint_ohm = input.job.feeds.joint_mohm / 1000;
  return [
    {
      leads: leads(from, rail, input),
      joints: passed.flatMap((each) => joints(each.run, each.lines, rail, joint_ohm)),
      strip_ohm: passed.reduce((sum, each) => sum + rail_ohm(each, rail, input), 0),
    },
  ];
}

/**
 * What an ohmmeter measures along at the near end of a lead that is taken off its block, or off the driver where there is
 * none, with plus and one minus of the strip linked at a cut line and every other lead of the run taken off: cable,
 * contacts, rail and joints out, and the same back, all at 20 degC. Lamps do not conduct at an ohmmeter's voltage.
 *
 * From run to run it leads through the rails of the runs before, fed at one end each. Exact for all but rings (see `chained`).
 */
export function loopPath(landing: Landing, run: Run, cutLine: number, input: HandOverInput): LoopPath {
  const halves = (['positive', 'return'] as const).flatMap((rail) =>
    half(landing[rail], run, cutLine, { rail, input }),
  );
  return {
    leads: halves.flatMap((each) => each.leads),
    joints: halves.flatMap((each) => each.joints),
    strip_ohm: halves.reduce((sum, each) => sum + each.strip_ohm, 0),
  };
}

/**
 * Ohms of everything a dead measurement passes, one after the other.
 *
 * Source: R = R'L, IEC 60228 conductors, IEC 60364-6 continuity step. Check: `tests/hand-over/test-sheet.test.ts`.
 */
export function loop_ohm({ leads, joints, strip_ohm }: LoopPath): number {
  const led = leads.reduce((sum, { copper_ohm, contact_ohm }) => sum + copper_ohm + contact_ohm, 0);
  return joints.reduce((sum, { ohm }) => sum + ohm, led + strip_ohm);
}
