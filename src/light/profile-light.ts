import { coverOf, placedProfile } from './profile.ts';
import { type Ripple, rippleOf } from './ripple.ts';
import { type LitSection, meetsSheet, slotEdges } from './section.ts';
import {
  coverLuminance_cd_per_m2,
  openingShare,
  type SolvedSection,
  solveSection,
} from './solved-section.ts';

/** The light of a profile itself. */
export interface ProfileLight {
  /** Share of the strip's light that leaves the profile in black surroundings. */
  readonly leavingShare: number;
  /** Mean luminance of its cover or mouth where it is; of a clear cover an average, not what the eye sees. */
  readonly cover_cd_per_m2: number;
  /** Ripple along the middle of the cover in black surroundings; null where all that passes goes straight. */
  readonly coverRipple: Ripple | null;
  /** Straight light of the lamps leaves within this of the normal across the section; null where none goes straight. */
  readonly cutOff_deg: number | null;
}

/** The same profile in the slot, where nothing comes back: its light in black surroundings. */
const inBlackSurroundings = (section: LitSection): LitSection => ({
  ...section,
  sheet: null,
  strip: { ...section.strip, mount: 'recessed' },
});

/**
 * What a profile gives: the share that leaves it, `tau` times what arrives on its cover with all bounces; the flux off its
 * cover over `pi*a`; the ripple of what arrives along the middle of the cover; and the cut-off `atan(a/(2*h))`.
 * @returns null without a profile
 * Source: radiosity as for the cavity, `rippleOf` harmonic by harmonic. Check: closed forms for black walls and counted
 * photons in `tests/light/profile.test.ts`.
 */
export function profileLight(solved: SolvedSection): ProfileLight | null {
  const { section } = solved;
  const placed = placedProfile(section);
  if (placed === null) return null;
  const black = solveSection(inBlackSurroundings(section));
  const { straight } = coverOf(placed.profile);
  const { inside_m, wallHeight_m } = placed.profile;
  return {
    leavingShare: openingShare(black),
    cover_cd_per_m2: coverLuminance_cd_per_m2(solved, placed),
    coverRipple: straight === 1 ? null : rippleOf(black).slotCentre,
    cutOff_deg: straight === 0 ? null : (Math.atan(inside_m / (2 * wallHeight_m)) * 180) / Math.PI,
  };
}

/** Whether a profile lies straight behind the middle of the slot. */
export function looksOnProfile(section: LitSection): boolean {
  const placed = placedProfile(section);
  if (placed === null) return false;
  const { left_m, right_m } = slotEdges(section);
  const middle_m = (left_m + right_m) / 2;
  return middle_m >= placed.outer.x0 && middle_m <= placed.outer.x1;
}

/**
 * Ripple of what the eye meets straight behind the middle of the slot: of a sheet that spreads light, of the cover of a
 * profile there, as it would be in black surroundings, or of the back.
 * @param lampPitch_m of the strip unless given
 */
export function seenRipple(
  solved: SolvedSection,
  own: ReturnType<typeof rippleOf> | null,
  lampPitch_m = solved.section.strip.lampPitch_m,
): Ripple {
  const { section } = solved;
  const { profile } = section;
  const isSpread = profile !== undefined && coverOf(profile).straight < 1;
  if (isSpread && !meetsSheet(section) && looksOnProfile(section))
    return rippleOf(solveSection(inBlackSurroundings(section)), lampPitch_m).slotCentre;
  const { slotCentre, seenBackCentre } = own ?? rippleOf(solved, lampPitch_m);
  return meetsSheet(section) ? slotCentre : seenBackCentre;
}
