import type { Job } from '../job/job.ts';
import type { StripData } from '../job/strip.ts';
import { brightnessBand } from '../light/brightness.ts';
import { cavityLight, type SlotLight } from '../light/cavity.ts';
import { hexColour, linearRgb, planckianChromaticity } from '../light/colour.ts';
import { dotVerdict } from '../light/dots.ts';
import type { LightIssue } from '../light/issues.ts';
import { relativeLight } from '../light/lamp-row.ts';
import { found, type Outcome } from '../outcome.ts';
import type { LightAnswer, SetOut } from '../sizing.ts';
import { flux_lm_per_m, litSectionOfJob, nominal_W_per_m } from './light-of-job.ts';

/** A slot this dark cannot be judged for dots. */
const least_cd_per_m2 = 0.01;

const profileStations = 48;

/** Colour of the strip's white channels by lumens, or a plain warm white where it has coloured channels only. */
function temperature_K(strip: StripData): number {
  const white = strip.channels.filter((channel) => channel.cct_K !== null);
  const flux = white.reduce((sum, channel) => sum + channel.lumens_per_m, 0);
  if (flux === 0) return 3000;
  const mired = white.reduce((sum, c) => sum + (c.lumens_per_m / flux) * (1e6 / c.cct_K!), 0);
  return 1e6 / mired;
}

/** Light along the slot over two lamp pitches, relative to its mean. */
function profileOf(light: SlotLight, strip: StripData): LightAnswer['profile'] {
  const pitch_mm = 1000 / strip.lampsPerMetre;
  return Array.from({ length: 2 * profileStations + 1 }, (_, i) => ({
    along_mm: (i / profileStations) * pitch_mm,
    relative: relativeLight(light.seenRipple.amplitudes, i / profileStations),
  }));
}

function absorbedShares(light: SlotLight, flux: number): Record<string, number> {
  return Object.fromEntries(Object.entries(light.absorbed_lm_per_m).map(([face, lm]) => [face, lm / flux]));
}

function answerOf(job: Job, strip: StripData, light: SlotLight): LightAnswer {
  const flux = flux_lm_per_m(strip, job.dimming.levels);
  const seen = light.seen_cd_per_m2;
  const dots = dotVerdict({
    michelson: light.seenRipple.michelson,
    lampPitch_m: 1 / strip.lampsPerMetre,
    viewingDistance_m: job.light.viewing_mm / 1000,
    luminance_cd_per_m2: Math.max(seen, least_cd_per_m2),
  });
  const needed = seen > 0 ? (flux * job.light.wanted_cd_per_m2) / seen : 0;
  const fullFlux = flux_lm_per_m(
    strip,
    strip.channels.map(() => 1),
  );
  return {
    luminance_cd_per_m2: seen,
    wanted_cd_per_m2: job.light.wanted_cd_per_m2,
    level: brightnessBand(seen).sentence,
    outFraction: light.outShare,
    ripple: light.seenRipple.michelson,
    visibility: dots.visibility,
    dots: dots.sentence,
    neededFlux_lm_per_m: needed,
    needed_W_per_m: (needed * nominal_W_per_m(strip)) / fullFlux,
    balance: light.balanceResidual,
    colourHex: hexColour(linearRgb(planckianChromaticity(temperature_K(strip)))),
    profile: profileOf(light, strip),
    threshold: dots.threshold,
    absorbed: absorbedShares(light, flux),
  };
}

/** The light of a slot at nominal current, seen from the viewing distance; a strip dimmed to nothing is dark. */
export function lightAnswer(job: Job, strip: StripData, setOut: SetOut): Outcome<LightAnswer, LightIssue> {
  const light = cavityLight(litSectionOfJob(job, strip, setOut));
  return light.ok ? found(answerOf(job, strip, light.value), light.notes) : light;
}
