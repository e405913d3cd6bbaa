import type { Cable } from '../answer/cables.ts';
import type { FeedPoint, Run } from '../answer/set-out.ts';
import type { HandOverInput } from './input.ts';
import { cablesTo } from './wiring.ts';

type Rail = 'positive' | 'return';

/** From which feed points the two conductors of a measurement set out; null for one that is not measured. */
export type Landing = { readonly [Key in Rail]: FeedPoint | null };

/** What a dead measurement passes, one after the other, at 20 degC. */
export interface LoopPath {
  readonly leads: readonly {
    readonly cable: string;
    readonly rail: Rail;
    readonly copper_ohm: number;
    /** At the pad; a tap has none. */
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

/** Layouts in which the way from driver to feed point is one chain of cables, so that its ohms add up. */
export function chained(input: HandOverInput): boolean {
  return input.job.cables.layout === 'radial' || input.job.cables.layout === 'trunk';
}

/** One conductor of a cable at 20 degC. */
const conductor_ohm = ({ conductors, loop_ohm }: Cable): number =>
  conductors === 'both' ? loop_ohm / 2 : loop_ohm;

function leads(feedPoint: FeedPoint, rail: Rail, input: HandOverInput): LoopPath['leads'] {
  const carries = ({ conductors }: Cable) => conductors === 'both' || conductors === rail;
  return cablesTo(feedPoint, input)
    .filter(carries)
    .map((cable) => ({
      cable: cable.id,
      rail,
      copper_ohm: conductor_ohm(cable),
      contact_ohm: cable.to.kind === 'pad' ? input.job.feeds.terminal_mohm / 1000 : 0,
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

function half(
  from: FeedPoint | null,
  run: Run,
  cutLine: number,
  of: { rail: Rail; input: HandOverInput },
): LoopPath[] {
  if (!from) return [];
  const { rail, input } = of;
  const { railPositive_mohm_per_m, railReturn_mohm_per_m } = input.products.strip;
  const rail_mohm_per_m = rail === 'positive' ? railPositive_mohm_per_m : railReturn_mohm_per_m;
  const length_m = (run.strip_mm / 1000) * (Math.abs(from.cutLine - cutLine) / run.unitCount);
  return [
    {
      leads: leads(from, rail, input),
      joints: joints(run, [from.cutLine, cutLine], rail, input.job.feeds.joint_mohm / 1000),
      strip_ohm: (length_m * rail_mohm_per_m) / 1000,
    },
  ];
}

/**
 * What an ohmmeter measures along at the driver end of a lead that is taken off the driver, with plus and one minus of
 * the strip linked at a cut line and every other lead of the run taken off: cable, contact, rail and joints out, and
 * the same back, all at 20 degC. Lamps do not conduct at an ohmmeter's voltage.
 *
 * Exact for radial and trunk layouts (see `chained`).
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
