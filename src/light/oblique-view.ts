import { coverOf, placedProfile } from './profile.ts';
import { type LitSection, lampFrame, meetsSheet, slotEdges } from './section.ts';
import type { SectionFacet } from './section-facets.ts';
import { coverLuminance_cd_per_m2, type SolvedSection } from './solved-section.ts';

/** What an eye far off meets across a slot, straight before it or to one side. */
export interface ObliqueView {
  /** From the normal of the face, positive where the eye is on the side of the section's x. */
  readonly angle_deg: number;
  /** Mean over the width of the slot in its face. */
  readonly luminance_cd_per_m2: number;
  /** Share of that width in which the eye looks past the sides of the slot. */
  readonly pastReveal: number;
  /** Whether lamps themselves lie in one of the lines of sight. */
  readonly showsLamps: boolean;
}

/** Straight ahead, a little and far to either side. */
export const viewAngles_deg = [-60, -30, 0, 30, 60] as const;

const rayCount = 60;

/** Rays begin this share of the slot's width before its face, so that a sheet in the face itself is met. */
const before = 1e-6;

/** Where a ray from a point meets a facet, as its way there; infinite where it does not. */
function wayTo(facet: SectionFacet, moved_m: number, from: Ray): number {
  const [ex, ey] = [facet.x1 - facet.x0, facet.y1 - facet.y0];
  const across = from.dx * ey - from.dy * ex;
  if (Math.abs(across) < 1e-15) return Number.POSITIVE_INFINITY;
  const [px, py] = [facet.x0 + moved_m - from.x, facet.y0 - from.y];
  const way = (px * ey - py * ex) / across;
  const along = (px * from.dy - py * from.dx) / across;
  return way > 1e-12 && along >= -1e-9 && along <= 1 + 1e-9 ? way : Number.POSITIVE_INFINITY;
}

interface Ray {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

/** Radiance, times pi, that a facet sends to the eye per lumen per metre of strip, diffusely. */
function sentBy({ facets, light }: SolvedSection, i: number): number {
  const facet = facets[i]!;
  const own = facet.reflectance * light[i]!;
  if (facet.partner < 0) return own;
  const straight = facet.face === 'cover' ? facets[facet.partner]!.straight : 0;
  return own + (facet.transmittance + straight) * light[facet.partner]!;
}

/** What the first facet of a zone sends back along a ray; repeats of an endless section are looked at as far as the ray may go. */
function met(solved: SolvedSection, zone: 'cavity' | 'reveal', from: Ray): number {
  const { section, facets } = solved;
  const reach_m = Math.abs(from.dx / from.dy) * section.depth_m;
  const repeats = zone === 'cavity' && section.endless ? 1 + Math.ceil(reach_m / section.width_m) : 0;
  let nearest = Number.POSITIVE_INFINITY;
  let sent = 0;
  for (let k = 0; k <= repeats; k++) {
    const moved_m = Math.sign(from.dx) * k * section.width_m;
    for (const [i, facet] of facets.entries()) {
      if (facet.zone !== zone || facet.probe || facet.face === 'opening') continue;
      const way = wayTo(facet, moved_m, from);
      if (way >= nearest) continue;
      nearest = way;
      sent = sentBy(solved, i);
    }
  }
  return sent;
}

/** Whether the eye looks along a line from some lamp, its own or that of a repeat, out through mouth and slot. */
function showsLamps(section: LitSection, slope: number): boolean {
  const { strip, profile, depth_m, reveal } = section;
  if (meetsSheet(section) || strip.mount === 'front') return false;
  if (profile !== undefined && coverOf(profile).straight === 0) return false;
  const { at, facing } = lampFrame(section);
  const isOut = facing.y > 0 || slope > 0;
  if (profile !== undefined) {
    const fromAxis = facing.y > 0 ? Math.abs(slope) : 1 / Math.max(slope, 1e-9);
    if (fromAxis > profile.inside_m / (2 * profile.wallHeight_m)) return false;
  }
  if (strip.mount === 'recessed') return true;
  const { left_m, right_m } = slotEdges(section);
  const passes = (x: number, y: number): boolean => {
    const across = x + slope * (y - at.y);
    return across > left_m && across < right_m;
  };
  const repeats = section.endless ? Math.ceil((Math.abs(slope) * depth_m) / section.width_m) + 1 : 0;
  return Array.from({ length: 2 * repeats + 1 }, (_, k) => at.x + (k - repeats) * section.width_m).some(
    (x) => isOut && passes(x, depth_m) && passes(x, depth_m + reveal.depth_m),
  );
}

/**
 * What an eye meets that looks across the slot from one side: rays cast back through the width of the slot in its face,
 * each to the sheet, the side of the slot or the face of the cavity it ends on, and their radiances averaged.
 *
 * @param solved a solved section. @param angle_deg from the normal of the face, above -90 and below 90.
 * @returns luminance at full, how much of the width looks past the sides of the slot, and whether lamps show.
 * Holds for an eye many slot widths away and a long slot. Lamps in view are brighter than any figure here; through a sheet that
 * does not spread light what lies behind is dimmed by its transmittance, as straight ahead.
 * Source: geometry; radiances of the section's radiosity. Check: `tests/light/oblique-view.test.ts` (straight ahead as
 * `seenLuminance_cd_per_m2`; all angles together carry the flux that leaves; mirrors).
 */
export function obliqueView(solved: SolvedSection, angle_deg: number): ObliqueView {
  const { section } = solved;
  const slope = Math.tan((angle_deg * Math.PI) / 180);
  const placed = placedProfile(section);
  const isShowing = showsLamps(section, slope);
  if (placed !== null && section.strip.mount === 'recessed')
    return {
      ...{ angle_deg, luminance_cd_per_m2: coverLuminance_cd_per_m2(solved, placed), pastReveal: 1 },
      showsLamps: isShowing,
    };
  const { left_m, right_m } = slotEdges(section);
  const { depth_m, reveal, sheet } = section;
  const spreads = meetsSheet(section);
  const dimmed = sheet === null || spreads ? 1 : sheet.transmittance;
  let [sent, past] = [0, 0];
  for (let n = 0; n < rayCount; n++) {
    const x = left_m + ((n + 0.5) / rayCount) * (right_m - left_m);
    const off_m = before * section.slotWidth_m;
    const y = depth_m + reveal.depth_m;
    const face: Ray = { x: x + slope * off_m, y: y + off_m, dx: -slope, dy: -1 };
    const rear: Ray = { ...face, x: x - slope * reveal.depth_m, y: depth_m };
    const isPast = rear.x > left_m && rear.x < right_m;
    if (isPast) past += 1;
    if (!isPast || spreads) sent += met(solved, 'reveal', face);
    else sent += dimmed * met(solved, 'cavity', rear);
  }
  const luminance_cd_per_m2 = ((sent / rayCount) * section.strip.flux_lm_per_m) / Math.PI;
  return { angle_deg, luminance_cd_per_m2, pastReveal: past / rayCount, showsLamps: isShowing };
}
