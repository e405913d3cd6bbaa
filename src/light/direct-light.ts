import { facetLength } from '../numeric/view-factors.ts';
import { type ExchangeTable, repeatCount } from './exchange-table.ts';
import { harmonicAmplitude, lampExponent, shareBelow } from './lamp-row.ts';
import { coverOf, type Point } from './profile.ts';
import { type LitSection, lampFrame, slotEdges } from './section.ts';
import type { SectionFacet } from './section-facets.ts';

interface Lamp {
  readonly at: Point;
  readonly facing: Point;
  readonly exponent: number;
}

/** Signed angle of a point from the lamp's axis, in the section. */
function angleFromAxis(lamp: Lamp, x: number, y: number): number {
  const dx = x - lamp.at.x;
  const dy = y - lamp.at.y;
  return Math.atan2(lamp.facing.x * dy - lamp.facing.y * dx, lamp.facing.x * dx + lamp.facing.y * dy);
}

/** Share of the lamps' flux between two directions, where one may bound the other. */
function shareBetween(lamp: Lamp, a: number, b: number, bounds: readonly [number, number]): number {
  const low = Math.max(Math.min(a, b), bounds[0]);
  const high = Math.min(Math.max(a, b), bounds[1]);
  return low < high ? shareBelow(high, lamp.exponent) - shareBelow(low, lamp.exponent) : 0;
}

/** Directions in which light can reach a facet: all of them, or only those through the slot. */
function directionsTo(
  section: LitSection,
  facet: SectionFacet,
  lamp: Lamp,
): readonly [number, number] | null {
  const mouth = facet.zone === 'inside' ? null : mouthDirections(section);
  const cone = mouth ?? [-Math.PI / 2, Math.PI / 2];
  if (facet.zone !== 'reveal') return cone;
  if (section.sheet) return null;
  const { left_m, right_m } = slotEdges(section);
  const a = angleFromAxis(lamp, left_m, section.depth_m);
  const b = angleFromAxis(lamp, right_m, section.depth_m);
  return [Math.max(cone[0], Math.min(a, b)), Math.min(cone[1], Math.max(a, b))];
}

/** Straight light leaves a profile between its walls only, within `atan(a/(2*h))` of the lamps' axis. */
function mouthDirections({ profile }: LitSection): readonly [number, number] | null {
  if (profile === undefined) return null;
  const edge = Math.atan(profile.inside_m / (2 * profile.wallHeight_m));
  return [-edge, edge];
}

/** What of the lamps' light gets to a facet as their own: all of it inside a profile, what its cover passes straight outside. */
function passedTo({ zone }: SectionFacet, { profile }: LitSection): number {
  if (profile === undefined || zone === 'inside') return 1;
  const { transmittance, straight } = coverOf(profile);
  return transmittance * straight;
}

/** Share of the flux of one line of lamps that falls straight on a facet. */
function directShare(section: LitSection, facet: SectionFacet, lamp: Lamp): number {
  const bounds = directionsTo(section, facet, lamp);
  const height = (x: number, y: number): number =>
    (x - lamp.at.x) * lamp.facing.x + (y - lamp.at.y) * lamp.facing.y;
  const tiny = 1e-12 * section.width_m;
  if (
    facet.face === 'cover' ||
    !bounds ||
    (height(facet.x0, facet.y0) <= tiny && height(facet.x1, facet.y1) <= tiny)
  )
    return 0;
  const a = angleFromAxis(lamp, facet.x0, facet.y0);
  const b = angleFromAxis(lamp, facet.x1, facet.y1);
  return passedTo(facet, section) * shareBetween(lamp, a, b, bounds);
}

/** Lamps by the zone they light: those of the section itself and, in an endless cavity, those of the repeats at both sides. */
function lampsInReach(section: LitSection): (facet: SectionFacet) => readonly Lamp[] {
  const all = lampsOf(section, section.endless && section.strip.mount !== 'recessed' ? repeatCount : 0);
  const own = lampsOf(section, 0);
  return ({ zone }) => (zone === 'inside' ? own : all);
}

function lampsOf(section: LitSection, reach: number): Lamp[] {
  const { at, facing } = lampFrame(section);
  const exponent = lampExponent(section.strip.halfAngle_deg);
  return Array.from({ length: 2 * reach + 1 }, (_, i) => {
    return { at: { x: at.x + (i - reach) * section.width_m, y: at.y }, facing, exponent };
  });
}

/**
 * Mean light straight from the lamps on every facet, per lumen per metre of strip [1/m]: the share of the flux
 * sent between the directions of the facet's two ends, over its length.
 *
 * In an endless section the repeats' lamps are followed as far as the exchange table goes, and the remaining
 * grazing light is spread over the lit side as the table spreads its own remainder: the sum is one.
 *
 * Check: `row-*` and `cavity-direct-share` in `reference/light.checks.ts`.
 */
export function directMean(
  section: LitSection,
  facets: readonly SectionFacet[],
  exchange: ExchangeTable,
): Float64Array {
  const lamps = lampsInReach(section);
  const share = facets.map((facet) =>
    lamps(facet).reduce((sum, lamp) => sum + directShare(section, facet, lamp), 0),
  );
  if (section.endless && section.strip.mount !== 'recessed') addGrazing(section, facets, exchange, share);
  return Float64Array.from(facets, (facet, i) => share[i]! / facetLength(facet));
}

/** Faces of a profile that none of its straight light meets. */
const notBefore: readonly string[] = ['flank', 'cover'];

/** Share of the lamps' light that crosses the section as their own: all of it, or what leaves a profile straight. */
function leavingShare(section: LitSection): number {
  const { profile } = section;
  if (profile === undefined) return 1;
  const { transmittance, straight } = coverOf(profile);
  const [low, high] = mouthDirections(section)!;
  const exponent = lampExponent(section.strip.halfAngle_deg);
  return transmittance * straight * (shareBelow(high, exponent) - shareBelow(low, exponent));
}

/** Spreads the grazing light of far repeats over the side that faces the lamps. */
function addGrazing(
  section: LitSection,
  facets: readonly SectionFacet[],
  exchange: ExchangeTable,
  share: number[],
): void {
  const lit = (facet: SectionFacet): boolean =>
    facet.zone !== 'inside' &&
    !notBefore.includes(facet.face) &&
    (facet.face === 'back') === (section.strip.mount === 'front');
  let missing = leavingShare(section);
  let total = 0;
  for (const [i, facet] of facets.entries()) {
    if (facet.probe || !lit(facet)) continue;
    missing -= share[i]!;
    total += exchange.remainder_m[i]!;
  }
  for (const [i, facet] of facets.entries()) {
    if (lit(facet)) share[i]! += (missing * exchange.remainder_m[i]!) / total;
  }
}

/**
 * Amplitude along the run of one harmonic of the light straight from the lamps, per lumen per metre [1/m]:
 * the mean of each facet times the row's relative amplitude at the facet's distance from the row.
 *
 * @param waveNumber_per_m `k = 2*pi*n/pitch`. Neighbouring strips are taken in step, lamp beside lamp.
 * Source: {@link harmonicAmplitude}. Check: `tests/light/ripple.test.ts` against lamps counted one by one.
 */
export function directHarmonic(
  section: LitSection,
  facets: readonly SectionFacet[],
  waveNumber_per_m: number,
): Float64Array {
  const lamps = lampsInReach(section);
  return Float64Array.from(facets, (facet) => {
    let sum = 0;
    for (const lamp of lamps(facet)) {
      const x = (facet.x0 + facet.x1) / 2 - lamp.at.x;
      const y = (facet.y0 + facet.y1) / 2 - lamp.at.y;
      const q = waveNumber_per_m * Math.hypot(x, y);
      if (q < 40) sum += directShare(section, facet, lamp) * harmonicAmplitude(lamp.exponent, q);
    }
    return sum / facetLength(facet);
  });
}
