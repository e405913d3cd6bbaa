import type { Cable, FeedPoint, Run } from '../answer/sizing.ts';
import type { HandOverInput } from './input.ts';
import { cablesTo } from './wiring.ts';

/** Where the two conductors of one measurement land on a run; the same feed point unless the feed is crossed. */
export interface Landing {
  readonly positive: FeedPoint;
  readonly return: FeedPoint;
}

/** Layouts in which the way from driver to feed point is one chain of cables, so that its ohms add up. */
export function chained(input: HandOverInput): boolean {
  return input.job.cables.layout === 'radial' || input.job.cables.layout === 'trunk';
}

/** One conductor of a cable at 20 degC, `R' * L`. */
function conductor_ohm(cable: Cable, input: HandOverInput): number {
  return (input.products.cable.conductor_ohm_per_km * cable.length_mm) / 1e6;
}

/** One conductor from the driver to the pad at a feed point, contact at the pad included, at 20 degC. */
export function lead_ohm(feedPoint: FeedPoint, input: HandOverInput): number {
  const cables = cablesTo(feedPoint, input);
  const copper_ohm = cables.reduce((sum, cable) => sum + conductor_ohm(cable, input), 0);
  return copper_ohm + input.job.feeds.terminal_mohm / 1000;
}

/** Joints passed in one rail from cut line a to b; a pad at a joint sits in its middle and passes half of it. */
function jointsPassed(run: Run, a: number, b: number): number {
  if (a === b) return 0;
  const [low, high] = a < b ? [a, b] : [b, a];
  const inside = run.jointLines.filter((line) => line > low && line < high).length;
  return inside + run.jointLines.filter((line) => line === low || line === high).length / 2;
}

function rail_ohm(run: Run, a: number, b: number, rail_mohm_per_m: number, input: HandOverInput): number {
  const length_m = (run.strip_mm / 1000) * (Math.abs(a - b) / run.unitCount);
  return (length_m * rail_mohm_per_m + jointsPassed(run, a, b) * input.job.feeds.joint_mohm) / 1000;
}

/**
 * What an ohmmeter shows at the driver end of a lead that is taken off the driver, with plus and one minus of the
 * strip linked at a cut line and every other lead of the run taken off: cable, contact, rail and joints out, and
 * the same back, all at 20 degC. Lamps do not conduct at an ohmmeter's voltage.
 *
 * @returns ohm; exact for radial and trunk layouts (see `chained`)
 * Source: R = R'L, IEC 60228 conductors, IEC 60364-6 continuity step. Check: `tests/hand-over/test-sheet.test.ts`.
 */
export function loop_ohm(landing: Landing, run: Run, cutLine: number, input: HandOverInput): number {
  const { railPositive_mohm_per_m, railReturn_mohm_per_m } = input.products.strip;
  return (
    lead_ohm(landing.positive, input) +
    rail_ohm(run, landing.positive.cutLine, cutLine, railPositive_mohm_per_m, input) +
    rail_ohm(run, landing.return.cutLine, cutLine, railReturn_mohm_per_m, input) +
    lead_ohm(landing.return, input)
  );
}
