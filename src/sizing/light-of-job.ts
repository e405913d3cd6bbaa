import type { SetOut } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import type { Products } from '../job/products.ts';
import { type ProfileProduct, profileHeight_mm, profileWidth_mm } from '../job/profile.ts';
import type { StripData } from '../job/strip.ts';
import type { LitProfile } from '../light/profile.ts';
import type { LitSection } from '../light/section.ts';
import { sectionPitch_mm } from '../set-out/pitch.ts';
import { reflectanceOf, sheetOf } from './light-finishes.ts';

/** Light of all channels at their levels as a share of all fully on, 0 to 1. */
export function levelShare(strip: StripData, levels: readonly number[]): number {
  const lit = strip.channels.reduce((sum, channel, i) => sum + channel.lumens_per_m * levels[i]!, 0);
  return lit / fullFlux_lm_per_m(strip);
}

/** Lumens per metre of all channels fully on. */
export function fullFlux_lm_per_m(strip: StripData): number {
  return strip.channels.reduce((sum, channel) => sum + channel.lumens_per_m, 0);
}

/** Watts per metre of all channels at nominal, fully on. */
export function nominal_W_per_m(strip: StripData): number {
  return strip.channels.reduce((sum, channel) => sum + channel.watts_per_m, 0);
}

const mounts = { backing: 'back', front: 'front', side: 'side', recessed: 'recessed' } as const;

/** The profile as light sees it. */
function litProfile(profile: ProfileProduct): LitProfile {
  const { cover } = profile;
  return {
    inside_m: profile.inside_mm / 1000,
    width_m: profileWidth_mm(profile) / 1000,
    wallHeight_m: profile.height_mm / 1000,
    height_m: profileHeight_mm(profile) / 1000,
    baseReflectance: profile.baseReflectance,
    wallReflectance: profile.wallReflectance,
    outsideReflectance: profile.outsideReflectance,
    cover: cover && {
      transmittance: cover.transmittance,
      reflectance: cover.reflectance,
      straight: cover.straight,
    },
  };
}

/** Depth of the slot in front of its cover, none where the cover is as thick as the front. */
function revealDepth_mm({ cover, coverThickness_mm, front }: Job['section']): number {
  return cover === 'open' ? front.thickness_mm : Math.max(0, front.thickness_mm - coverThickness_mm);
}

/** The products light depends on. */
export type LitProducts = Pick<Products, 'strip' | 'profile'>;

/** The section the light question is asked of, for a run at nominal current, all channels fully on. */
export function litSectionOfJob(job: Job, { strip, profile }: LitProducts, setOut: SetOut): LitSection {
  const { section } = job;
  const { faces, revealFinish } = section;
  const front = faces.front.reflectance ?? reflectanceOf(section.frontFinish);
  return {
    width_m: (sectionPitch_mm(setOut, job) - section.batten_mm) / 1000,
    endless: section.batten_mm === 0,
    depth_m: section.cavity_mm / 1000,
    slotWidth_m: job.slots.width_mm / 1000,
    slotOffset_m: 0,
    strip: {
      mount: mounts[section.strip],
      offset_m: section.stripOffset_mm / 1000,
      flux_lm_per_m: fullFlux_lm_per_m(strip),
      lampPitch_m: 1 / strip.lampsPerMetre,
      halfAngle_deg: strip.halfAngle_deg,
    },
    ...(profile && { profile: litProfile(profile) }),
    reflectance: {
      back: faces.back.reflectance ?? reflectanceOf(section.backFinish),
      sides: faces.side.reflectance ?? reflectanceOf(section.sideFinish),
      front,
    },
    sheet: sheetOf(section.cover),
    reveal: {
      depth_m: revealDepth_mm(section) / 1000,
      reflectance: faces.reveal.reflectance ?? (revealFinish === null ? front : reflectanceOf(revealFinish)),
    },
  };
}
