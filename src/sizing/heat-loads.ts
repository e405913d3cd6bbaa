import type { LightAnswer } from '../answer/sizing.ts';
import {
  freezing_K,
  luminousEfficacyOfRadiation_lm_per_W,
  mostLuminousEfficacy_lm_per_W,
} from '../constants.ts';
import { solveHandSection } from '../heat/hand-method.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { SectionDescription, SectionLoads } from '../heat/section-description.ts';
import { doubtful_lm_per_W } from '../job/luminous-bound.ts';
import type { StripChannel, StripData } from '../job/strip.ts';
import { found, type Outcome } from '../outcome.ts';
import { nominal_W_per_m } from './light-of-job.ts';

/**
 * Watts of light of a channel: its lumens over those of one watt of its light, 315 lm for white (see `led-heat.ts`) and
 * the most there can be for a colour, which names no wavelength. No more lumens are believed than the best strips give:
 * light that is not there would cool the wall.
 */
function optical_W_per_m({ lumens_per_m, watts_per_m, cct_K }: StripChannel): number {
  const believed = Math.min(lumens_per_m, doubtful_lm_per_W * watts_per_m);
  return believed / (cct_K === null ? mostLuminousEfficacy_lm_per_W : luminousEfficacyOfRadiation_lm_per_W);
}

/** Share of the strip's watts that is light. */
function opticalShare(strip: StripData): number {
  const optical = strip.channels.reduce((sum, channel) => sum + optical_W_per_m(channel), 0);
  return optical / nominal_W_per_m(strip);
}

/**
 * Heat of a strip that draws `electrical` watts per metre: what is not light stays in the strip, and light that
 * does not leave the slot warms the face it falls on, as the light question shared it out.
 */
export function loadsOfStrip(electrical_W_per_m: number, strip: StripData, light: LightAnswer): SectionLoads {
  const light_W_per_m = opticalShare(strip) * electrical_W_per_m;
  const { back, sides, front, reveal, sheet } = light.absorbed;
  return {
    strip_W_per_m: electrical_W_per_m - light_W_per_m,
    facesAbsorbed_W_per_m: {
      backing: light_W_per_m * back,
      sides: light_W_per_m * sides,
      front: light_W_per_m * front,
      jambs: light_W_per_m * reveal,
      sheet: light_W_per_m * sheet,
    },
  };
}

/** Rise of one lamp's solder point over the strip: its own heat through its own few square millimetres. */
export function lampRise_K(strip: StripData, loads: SectionLoads): number {
  return (strip.solderRise_K_per_W * loads.strip_W_per_m) / strip.lampsPerMetre;
}

const knots = [0.5, 0.75, 1, 1.25, 1.5] as const;

/**
 * Strip temperature as a function of its watts per metre, by the hand method at five powers about nominal and
 * straight lines between and beyond. The rise is so nearly proportional that the lines are within 0.1 K of the
 * method itself (`tests/sizing/heat-loads.test.ts`), and a circuit warms hundreds of runs with it.
 */
export function stripWarmth(
  section: SectionDescription,
  strip: StripData,
  light: LightAnswer,
): Outcome<(watts_per_m: number) => number, HeatIssue> {
  const powers = knots.map((knot) => knot * nominal_W_per_m(strip));
  const temperatures: number[] = [];
  for (const power of powers) {
    const hand = solveHandSection(section, loadsOfStrip(power, strip, light));
    if (!hand.ok) return hand;
    temperatures.push(hand.value.strip_K - freezing_K);
  }
  return found((watts_per_m) => {
    const above = powers.findIndex((power) => power > watts_per_m);
    const i = Math.min(Math.max(above < 0 ? powers.length - 1 : above, 1), powers.length - 1);
    const slope = (temperatures[i]! - temperatures[i - 1]!) / (powers[i]! - powers[i - 1]!);
    return temperatures[i - 1]! + slope * (watts_per_m - powers[i - 1]!);
  });
}
