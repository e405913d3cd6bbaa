import type { LightAnswer } from '../answer/light.ts';
import { luminousEfficacyOfRadiation_lm_per_W, mostLuminousEfficacy_lm_per_W } from '../constants.ts';
import type { SectionLoads } from '../heat/section-description.ts';
import { doubtful_lm_per_W } from '../job/luminous-bound.ts';
import type { StripChannel, StripData } from '../job/strip.ts';
import { nominal_W_per_m } from './light-of-job.ts';

/**
 * Watts of light of a channel: its lumens over those of one watt of its light, 315 lm for white (`src/constants.ts`) and
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
 * does not leave the slot warms the face it falls on, as the light question shared it out; light that a warm strip no longer gives stays.
 */
export function loadsOfStrip(electrical_W_per_m: number, strip: StripData, light: LightAnswer): SectionLoads {
  const light_W_per_m = opticalShare(strip) * (light.warm?.fluxShare ?? 1) * electrical_W_per_m;
  const { back, sides, front, reveal, sheet, cover, profile } = light.absorbed;
  return {
    strip_W_per_m: electrical_W_per_m - light_W_per_m,
    facesAbsorbed_W_per_m: {
      backing: light_W_per_m * back,
      sides: light_W_per_m * sides,
      front: light_W_per_m * front,
      jambs: light_W_per_m * reveal,
      sheet: light_W_per_m * sheet,
      ...(cover > 0 && { cover: light_W_per_m * cover }),
      ...(profile > 0 && { profile: light_W_per_m * profile }),
    },
  };
}

/** Rise of one lamp's solder point over the strip: its own heat through its own few square millimetres. */
export function lampRise_K(strip: StripData, loads: SectionLoads): number {
  return (strip.solderRise_K_per_W * loads.strip_W_per_m) / strip.lampsPerMetre;
}
