import { coverOf, type LitProfile } from './profile.ts';
import type { LitSection, Sheet } from './section.ts';
import { openingShare, seenLuminance_cd_per_m2, solveSection } from './solved-section.ts';

/** Ratios to the figure itself. */
export interface Ratios {
  readonly least: number;
  readonly greatest: number;
}

/**
 * Strip gives its printed lumens within 10 % (common practice of data sheets, from memory); a finish is known to 0.05 of
 * reflectance, as the tables of finishes have it; sheets and covers pass within a tenth of what they are taken to (judgement:
 * opal goes by pigment and thickness).
 */
export const lightTolerances = { flux: 0.1, reflectance: 0.05, transmittance: 0.1 } as const;

const within = (share: number, most = 1): number => Math.min(most, Math.max(0, share));

/** A sheet or a cover that passes more or less, and sends back no more than is left. */
function passing<Pane extends Pick<Sheet, 'transmittance' | 'reflectance'>>(pane: Pane, way: 1 | -1): Pane {
  const transmittance = within(pane.transmittance * (1 + way * lightTolerances.transmittance));
  return { ...pane, transmittance, reflectance: within(pane.reflectance, 1 - transmittance) };
}

function profileAt(profile: LitProfile, finish: (share: number) => number, way: 1 | -1): LitProfile {
  return {
    ...profile,
    baseReflectance: finish(profile.baseReflectance),
    wallReflectance: finish(profile.wallReflectance),
    outsideReflectance: finish(profile.outsideReflectance),
    cover: profile.cover && passing(coverOf(profile), way),
  };
}

/** The section with every finish and sheet at one end of its tolerance. A face as bright as this is lit by nothing else. */
function atEnd(section: LitSection, way: 1 | -1): LitSection {
  const finish = (share: number): number => within(share + way * lightTolerances.reflectance, 0.98);
  const { reflectance, reveal, sheet, profile } = section;
  return {
    ...section,
    reflectance: {
      back: finish(reflectance.back),
      sides: finish(reflectance.sides),
      front: finish(reflectance.front),
    },
    reveal: { ...reveal, reflectance: finish(reveal.reflectance) },
    sheet: sheet && passing(sheet, way),
    ...(profile && { profile: profileAt(profile, finish, way) }),
  };
}

/** Facets enough for a ratio of two alike sections: 0.4 % off the full number at most where that was tried. */
const coarse = 0.5;

/**
 * How far the light of a section may be off either way: light that leaves the slot and what the eye meets, over their
 * figures, with the strip, every finish and every sheet at the same end of its tolerance at once.
 *
 * @param section a section that keeps the rules and lets some light out. @returns ratios about 1.
 * Source: {@link lightTolerances}. Check: `tests/light/light-band.test.ts`.
 */
export function lightBand(section: LitSection): { readonly leaving: Ratios; readonly seen: Ratios } {
  const [dark, usual, bright] = ([-1, 0, 1] as const).map((way) => {
    const solved = solveSection(way === 0 ? section : atEnd(section, way), coarse);
    const flux = 1 + way * lightTolerances.flux;
    return { leaving: flux * openingShare(solved), seen: flux * seenLuminance_cd_per_m2(solved) };
  }) as [Solved, Solved, Solved];
  return { leaving: ratios(dark, usual, bright, 'leaving'), seen: ratios(dark, usual, bright, 'seen') };
}

type Solved = Record<'leaving' | 'seen', number>;

/** Where there is no light at all there is no band about it. */
function ratios(dark: Solved, usual: Solved, bright: Solved, of: keyof Solved): Ratios {
  if (!(usual[of] > 0)) return { least: 1, greatest: 1 };
  return { least: dark[of] / usual[of], greatest: bright[of] / usual[of] };
}
