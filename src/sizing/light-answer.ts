import { brightnessBand } from '../answer/brightness.ts';
import type { LightAnswer, LightZone } from '../answer/light.ts';
import type { SetOut } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import type { StripData } from '../job/strip.ts';
import { levelsOfZone } from '../job/zone-levels.ts';
import { cavityLight, type SlotLight } from '../light/cavity.ts';
import { hexColour, linearRgb, planckianChromaticity } from '../light/colour.ts';
import { dotVerdict } from '../light/dots.ts';
import type { LightIssue } from '../light/issues.ts';
import { relativeLight } from '../light/lamp-row.ts';
import { lightBand, type Ratios } from '../light/light-band.ts';
import { coverOf } from '../light/profile.ts';
import { looksOnProfile } from '../light/profile-light.ts';
import { type LitSection, meetsSheet } from '../light/section.ts';
import { bareLampSightLines } from '../light/sight-line.ts';
import { remembered } from '../numeric/remembered.ts';
import { found, type Outcome } from '../outcome.ts';
import { lowestLevel } from './dimming-of-job.ts';
import {
  fullFlux_lm_per_m,
  type LitProducts,
  levelShare,
  litSectionOfJob,
  nominal_W_per_m,
} from './light-of-job.ts';
import { type LevelledSlots, slotsByLevels } from './slots-by-levels.ts';

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

function absorbedShares({ absorbed_lm_per_m }: SlotLight, flux: number): LightAnswer['absorbed'] {
  const { back, sides, front, reveal, sheet, cover, profile } = absorbed_lm_per_m;
  return {
    back: back / flux,
    sides: sides / flux,
    front: front / flux,
    reveal: reveal / flux,
    sheet: sheet / flux,
    cover: cover / flux,
    profile: profile / flux,
  };
}

const lampsShow =
  'The LEDs themselves can be seen through the slot, and there they show one by one whatever the depth.';

function whatIsSeen(section: LitSection): LightAnswer['seen'] {
  if (meetsSheet(section)) return 'cover';
  const { profile, sheet } = section;
  if (sheet === null && profile !== undefined && looksOnProfile(section))
    return coverOf(profile).straight === 0 ? 'profile cover' : 'profile';
  return section.sheet === null ? 'back' : 'back through the cover';
}

/** What the profile gives by itself, at full. */
function profileAnswer({ profile }: SlotLight, fluxShare: number): LightAnswer['ofProfile'] {
  if (profile === null) return null;
  return {
    leavingShare: profile.leavingShare,
    cover_cd_per_m2: profile.cover_cd_per_m2 * fluxShare,
    ripple: profile.coverRipple?.michelson ?? null,
    cutOff_deg: profile.cutOff_deg,
  };
}

/** How far to either side of a slot people may stand (judgement: across a small room). */
const sideways_m = 2;

/** Who looks straight into bare lamps anywhere on the wall: standing, sitting, both or nobody. */
function bareLampsSeen(section: LitSection, job: Job, setOut: SetOut): LightAnswer['bareLampsSeen'] {
  const seen = setOut.slots.flatMap((slot) => {
    const room = {
      angle_deg: (Math.atan2(slot.y1_mm - slot.y0_mm, slot.x1_mm - slot.x0_mm) * 180) / Math.PI,
      height_m: ((slot.y0_mm + slot.y1_mm) / 2 + job.light.floor_mm) / 1000,
      viewingDistance_m: job.light.viewing_mm / 1000,
      sideways_m,
    };
    return bareLampSightLines(section, room).filter((line) => line.seen);
  });
  return (['standing', 'sitting'] as const).filter((posture) =>
    seen.some((line) => line.posture === posture),
  );
}

/** How warm a strip is at watts a metre, and what that leaves of its light. */
export type WarmStrip = (watts_per_m: number) => NonNullable<LightAnswer['warm']>;

export interface LightQuestion extends LitProducts {
  readonly job: Job;
  readonly setOut: SetOut;
  /** Left out, the light is that of the data sheet. */
  readonly warmAt?: WarmStrip;
}

/** A level as it is typed: rounded up to a tenth of a percent, a very small one to two figures. */
function typed(level: number): number {
  const digits = Math.max(3, 1 - Math.floor(Math.log10(level)));
  return Math.min(1, Number((Math.ceil(level * 10 ** digits - 1e-6) / 10 ** digits).toFixed(digits)));
}

/**
 * Working levels that give the wanted brightness: those of the job in proportion, so that the mix of colours stays,
 * or all alike where that would take a channel beyond full; none where full is not enough.
 */
function neededLevels(
  levels: readonly number[],
  at: Record<'seen' | 'full' | 'wanted', number>,
  mixingLimit: number | null,
): number[] {
  const needed = levelsFor(levels, at);
  const sum = needed.reduce((total, level) => total + level, 0);
  return mixingLimit !== null && sum > mixingLimit + 1e-9 ? [] : needed;
}

/** The same where nothing limits the mix. */
function levelsFor(levels: readonly number[], at: Record<'seen' | 'full' | 'wanted', number>): number[] {
  if (at.wanted > at.full) return [];
  const inProportion = levels.map((level) => (level * at.wanted) / at.seen);
  const kept = at.seen > 0 && Math.max(...inProportion) <= 1;
  return (kept ? inProportion : levels.map(() => at.wanted / at.full)).map((level) =>
    level > 0 ? typed(level) : 0,
  );
}

/** Light of the whole wall, and who sees lamps in it: what the light of a zone is read off. */
interface WallLight {
  readonly light: SlotLight;
  readonly seen: LightAnswer['seen'];
  readonly inView: LightAnswer['bareLampsSeen'];
  /** How far the luminance may be off either way. */
  readonly band: Ratios;
  /** Of the strip at full, over that on its data sheet. */
  readonly fluxShare: number;
}

/** Whether lamps show at the working level of a zone. */
function dotsOf(seen_cd_per_m2: number, { light, seen, inView }: WallLight, { job, strip }: LightQuestion) {
  const { threshold, visibility, word, sentence } = dotVerdict({
    michelson: light.seenRipple.michelson,
    lampPitch_m: 1 / strip.lampsPerMetre,
    viewingDistance_m: job.light.viewing_mm / 1000,
    luminance_cd_per_m2: Math.max(seen_cd_per_m2, least_cd_per_m2),
    on: seen === 'profile cover' ? seen : 'slot',
  });
  const [dotsSeen, dots] = inView.length > 0 ? (['plain', lampsShow] as const) : ([word, sentence] as const);
  return { threshold, visibility, dotsSeen, dots };
}

/** Watts a metre of a strip with its channels at their levels. */
const wattsAt_W_per_m = (strip: StripData, levels: readonly number[]): number =>
  strip.channels.reduce((sum, { watts_per_m }, i) => sum + watts_per_m * levels[i]!, 0);

/** Brightness and dots of slots dimmed alike are those of their working levels; needs are asked of the strip at full. */
function zoneLight({ zone, name, slots }: LevelledSlots, wall: WallLight, asked: LightQuestion): LightZone {
  const { job, strip, warmAt } = asked;
  const sheet = wall.light.seen_cd_per_m2;
  const full = sheet * wall.fluxShare;
  const { levels, wanted_cd_per_m2, ...own } = levelsOfZone(job, zone);
  const warm = warmAt?.(wattsAt_W_per_m(strip, levels));
  const seenAt = (at: readonly number[]): number =>
    sheet * (warmAt?.(wattsAt_W_per_m(strip, at)).fluxShare ?? 1) * levelShare(strip, at);
  const seen = seenAt(levels);
  const lowest = lowestLevel({ levels, ...own });
  const neededShare = full > 0 ? wanted_cd_per_m2 / full : 0;
  const needed = (from: readonly number[], seen_cd_per_m2: number): number[] =>
    neededLevels(from, { seen: seen_cd_per_m2, full, wanted: wanted_cd_per_m2 }, job.dimming.mixingLimit);
  const first = needed(levels, seen);
  return {
    ...{ zone, name, slots: [...slots] },
    luminance_cd_per_m2: seen,
    lowest_cd_per_m2: lowest === null ? null : lowest * full,
    band_cd_per_m2: {
      least: seen * wall.band.least,
      greatest: seen * wall.band.greatest,
    },
    wanted_cd_per_m2,
    band: brightnessBand(seen).word,
    level: brightnessBand(seen).sentence,
    levels: { full: 1, working: [...levels], lowest },
    neededLevels: warmAt && first.length > 0 ? needed(first, seenAt(first)) : first,
    neededFlux_lm_per_m: neededShare * fullFlux_lm_per_m(strip),
    needed_W_per_m: neededShare * nominal_W_per_m(strip),
    ...(warm && { fluxShare: warm.fluxShare }),
    ...dotsOf(seen, wall, asked),
  };
}

/** Where light goes is asked of the strip at full: one dimmed to nothing still has a cavity. */
function answerOf(section: LitSection, light: SlotLight, asked: LightQuestion): LightAnswer {
  const { job, strip, setOut, warmAt } = asked;
  const warm = warmAt?.(nominal_W_per_m(strip));
  const fluxShare = warm?.fluxShare ?? 1;
  const inView = bareLampsSeen(section, job, setOut);
  const seen = whatIsSeen(section);
  const wall: WallLight = { light, seen, inView, band: lightBandOf(section).seen, fluxShare };
  return {
    seen,
    full_cd_per_m2: light.seen_cd_per_m2 * fluxShare,
    ...(warm && { warm }),
    zones: slotsByLevels(job, setOut.runs).map((slots) => zoneLight(slots, wall, asked)),
    views: light.views.map(({ luminance_cd_per_m2, ...view }) => ({
      ...view,
      full_cd_per_m2: luminance_cd_per_m2 * fluxShare,
    })),
    outFraction: light.outShare,
    ripple: light.seenRipple.michelson,
    balance: light.balanceResidual,
    colourHex: hexColour(linearRgb(planckianChromaticity(temperature_K(strip)))),
    profile: profileOf(light, strip),
    absorbed: absorbedShares(light, section.strip.flux_lm_per_m),
    ofProfile: profileAnswer(light, fluxShare),
    bareLampsSeen: inView,
  };
}

/** A session looks at a few sections in turn: what it edits, and what it compares that with. */
const rememberedCount = 16;

const lightOf = remembered(cavityLight, rememberedCount);

/** How far the light of a section may be off either way, as {@link lightBand}. */
export const lightBandOf = remembered(lightBand, rememberedCount);

/** Of the light on the middle of the slot the share that comes straight from the lamps; 0 where there is none. */
export function directShareOf(section: LitSection): number {
  const light = lightOf(section);
  if (!light.ok || light.value.slotPlane.centre_lx === 0) return 0;
  return light.value.slotPlane.centreDirect_lx / light.value.slotPlane.centre_lx;
}

/** The light of a slot at nominal current, seen from the viewing distance. Refuses a section that cannot be. */
export function lightAnswer(asked: LightQuestion): Outcome<LightAnswer, LightIssue> {
  const section = litSectionOfJob(asked.job, asked, asked.setOut);
  const light = lightOf(section);
  return light.ok ? found(answerOf(section, light.value, asked), light.notes) : light;
}
