import { facetLength } from '../numeric/view-factors.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { LightIssue } from './issues.ts';
import type { Face } from './line.ts';
import { type ObliqueView, obliqueView, viewAngles_deg } from './oblique-view.ts';
import { type ProfileLight, profileLight, seenRipple } from './profile-light.ts';
import { type Ripple, rippleOf } from './ripple.ts';
import type { LitSection } from './section.ts';
import type { SectionFacet } from './section-facets.ts';
import { sectionIssues } from './section-rules.ts';
import { lampsStraightAhead } from './sight-line.ts';
import { openingShare, type SolvedSection, seenLuminance_cd_per_m2, solveSection } from './solved-section.ts';

/** One facet of the answer: where it lies and how much light falls on it. */
export interface LitFacet {
  readonly face: Face;
  readonly x0_m: number;
  readonly y0_m: number;
  readonly x1_m: number;
  readonly y1_m: number;
  readonly illuminance_lx: number;
  readonly direct_lx: number;
}

/** Light on the slot plane, the rear face of the front, from behind. */
export interface SlotPlaneLight {
  readonly mean_lx: number;
  readonly direct_lx: number;
  readonly reflected_lx: number;
  readonly centre_lx: number;
  readonly centreDirect_lx: number;
  readonly ripple: Ripple;
}

/** The light of one section, all along a long run fed as its flux says. */
export interface SlotLight {
  readonly facets: readonly LitFacet[];
  readonly slotPlane: SlotPlaneLight;
  /** Flux into the room, per metre of run and as a share of the strip's. */
  readonly out_lm_per_m: number;
  readonly outShare: number;
  /** Flux that ends as heat, face by face; the sheet counts with both its sides. */
  readonly absorbed_lm_per_m: Readonly<Record<keyof typeof absorbers, number>>;
  /** Flux neither absorbed nor let out, as a share of the strip's: the proof of the balance. */
  readonly balanceResidual: number;
  /** A Lambertian slot that sends out as much: `out/(pi*w)`. */
  readonly leaving_cd_per_m2: number;
  /** What the eye meets straight in front: a sheet that spreads light, else the lit back. */
  readonly seen_cd_per_m2: number;
  /** The same from either side, across the slot. */
  readonly views: readonly ObliqueView[];
  /** Ripple of what the eye meets, on the centre line. */
  readonly seenRipple: Ripple;
  /** Null without a profile. */
  readonly profile: ProfileLight | null;
}

const absorbers = {
  back: ['back'],
  sides: ['sides'],
  front: ['front'],
  reveal: ['reveal'],
  sheet: ['sheet', 'sheet-outside'],
  cover: ['cover', 'cover-inside'],
  profile: ['lining', 'flank'],
} as const satisfies Record<string, readonly Face[]>;

/** What passes a facet straight; both sides of a cover are alike, and its inside says what does. */
const straightOf = (facets: readonly SectionFacet[], { face, partner, straight }: SectionFacet): number =>
  face === 'cover' ? facets[partner]!.straight : straight;

/** Flux kept by some faces, per lumen per metre of strip. */
function absorbedShare(solved: SolvedSection, faces: readonly Face[]): number {
  return solved.facets.reduce((sum, facet, i) => {
    if (facet.probe || !faces.includes(facet.face)) return sum;
    const kept = 1 - facet.reflectance - facet.transmittance - straightOf(solved.facets, facet);
    return sum + kept * solved.light[i]! * facetLength(facet);
  }, 0);
}

function litFacets(solved: SolvedSection): LitFacet[] {
  const flux = solved.section.strip.flux_lm_per_m;
  return solved.facets.flatMap((facet, i) => {
    if (facet.probe) return [];
    const { face, x0: x0_m, y0: y0_m, x1: x1_m, y1: y1_m } = facet;
    const illuminance_lx = solved.light[i]! * flux;
    return [{ face, x0_m, y0_m, x1_m, y1_m, illuminance_lx, direct_lx: solved.direct[i]! * flux }];
  });
}

function slotPlaneLight(solved: SolvedSection, ripple: Ripple): SlotPlaneLight {
  const flux = solved.section.strip.flux_lm_per_m;
  const { slotPlane, slotCentre } = solved.probes;
  const mean_lx = solved.light[slotPlane]! * flux;
  const direct_lx = solved.direct[slotPlane]! * flux;
  return {
    mean_lx,
    direct_lx,
    reflected_lx: mean_lx - direct_lx,
    centre_lx: solved.light[slotCentre]! * flux,
    centreDirect_lx: solved.direct[slotCentre]! * flux,
    ripple,
  };
}

/** Turns a solved section into the answer in the units of the question. */
export function slotLightOf(solved: SolvedSection): SlotLight {
  const { section } = solved;
  const flux = section.strip.flux_lm_per_m;
  const outShare = openingShare(solved);
  const kept = (face: keyof typeof absorbers): number => absorbedShare(solved, absorbers[face]);
  const shares = { back: kept('back'), sides: kept('sides'), front: kept('front') };
  const rest = { reveal: kept('reveal'), sheet: kept('sheet') };
  const profiled = { cover: kept('cover'), profile: kept('profile') };
  const faces = [...Object.values(shares), ...Object.values(rest), ...Object.values(profiled)];
  const total = faces.reduce((sum, share) => sum + share, outShare);
  const seen_cd_per_m2 = seenLuminance_cd_per_m2(solved);
  const ripple = rippleOf(solved);
  return {
    facets: litFacets(solved),
    slotPlane: slotPlaneLight(solved, ripple.slotCentre),
    out_lm_per_m: outShare * flux,
    outShare,
    absorbed_lm_per_m: {
      back: shares.back * flux,
      sides: shares.sides * flux,
      front: shares.front * flux,
      reveal: rest.reveal * flux,
      sheet: rest.sheet * flux,
      cover: profiled.cover * flux,
      profile: profiled.profile * flux,
    },
    balanceResidual: Math.abs(1 - total),
    leaving_cd_per_m2: (outShare * flux) / (Math.PI * section.slotWidth_m),
    seen_cd_per_m2,
    views: viewAngles_deg.map((angle_deg) => obliqueView(solved, angle_deg)),
    seenRipple: seenRipple(solved, ripple),
    profile: profileLight(solved),
  };
}

/** Where an eye stands for the remark about bare lamps; the sight line asks for the real distance. */
const usualViewing_m = 2;

/** What has to stand beside the numbers. */
function notesOn(section: LitSection): string[] {
  if (!lampsStraightAhead(section, usualViewing_m)) return [];
  return [
    'An eye straight in front looks through the slot into the bare LEDs. Brightness and ripple given here are those of the lit back; the LEDs themselves glare and show as hot spots whatever these say.',
  ];
}

/**
 * Light of one cavity section: direct from the lamps plus what the faces reflect, in two dimensions, for ever.
 * `G_i = direct_i + sum_j F_ij*(rho_j*G_j + ...)`; what leaves the room side of the slot is out, the rest is heat.
 *
 * @param section lengths in metres, reflectances and transmittance 0 to 1, flux in lumen per metre of strip.
 * @returns luminances, where the flux goes, ripple along the run; `balanceResidual` is its own proof (below 1e-6).
 * Refuses: slot-outside-section, strip-outside-face, strip-in-slot, side-mount-without-side, sheet-gains-light.
 * @throws RangeError for lengths that are not positive or reflectances outside 0 to 1.
 * Holds for runs much longer than the cavity is wide (2 m by 60 mm: 1 % high), matt faces, and a strip that
 * reflects like the face it sits on and stands in nobody's way. Through a sheet that does not spread light the eye is
 * given the back as if the sheet were clear: what a satin or a prismatic one makes of it lies between that and the sheet.
 * Source: textbook radiosity with Hottel's crossed strings; the ripple by the derivation in {@link rippleOf}.
 * Check: `cavity-*` in `reference/light.checks.ts`; `tests/light/photons.test.ts` counts photons instead.
 */
export function cavityLight(section: LitSection): Outcome<SlotLight, LightIssue> {
  const issues = sectionIssues(section);
  return issues.length > 0 ? refused(...issues) : found(slotLightOf(solveSection(section)), notesOn(section));
}
