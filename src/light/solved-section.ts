import { facetLength } from '../numeric/view-factors.ts';
import { bouncedLight } from './bounces.ts';
import { directMean } from './direct-light.ts';
import type { ExchangeTable } from './exchange-table.ts';
import { exchangeTable } from './facet-exchange.ts';
import { type PlacedProfile, placedProfile } from './profile.ts';
import { type LitSection, meetsSheet, slotEdges } from './section.ts';
import { type Probes, type SectionFacet, sectionFacets } from './section-facets.ts';

/** A section cut up and solved for its mean light, per lumen per metre of strip; its ripple is added by pitch. */
export interface SolvedSection {
  readonly section: LitSection;
  readonly facets: readonly SectionFacet[];
  readonly probes: Probes;
  readonly exchange: ExchangeTable;
  readonly direct: Float64Array;
  readonly light: Float64Array;
}

/** Solves the mean light of a section that keeps the rules; the whole answer is `cavityLight`. */
export function solveSection(section: LitSection, fineness = 1): SolvedSection {
  const { facets, probes } = sectionFacets(section, fineness);
  const exchange = exchangeTable(section, facets);
  const direct = directMean(section, facets, exchange);
  const light = bouncedLight({ facets, shared_m: exchange.shared_m, direct });
  return { section, facets, probes, exchange, direct, light };
}

/** Mean radiance, times pi, of the sheet's room side per lumen per metre: what it lets through and throws back. */
function sheetExitance(solved: SolvedSection): number {
  let flux = 0;
  for (const [i, facet] of solved.facets.entries()) {
    if (facet.face !== 'sheet-outside') continue;
    const through = facet.transmittance * solved.light[facet.partner]!;
    flux += (through + facet.reflectance * solved.light[i]!) * facetLength(facet);
  }
  return flux / solved.section.slotWidth_m;
}

/** Mean radiance, times pi, of the outside of a profile's cover or mouth: what passes, straight or not, and what is thrown back. */
function coverExitance({ facets, light }: SolvedSection, { profile }: PlacedProfile): number {
  let flux = 0;
  for (const [i, facet] of facets.entries()) {
    if (facet.face !== 'cover') continue;
    const inside = facets[facet.partner]!;
    const passed = (facet.transmittance + inside.straight) * light[facet.partner]!;
    flux += (passed + facet.reflectance * light[i]!) * facetLength(facet);
  }
  return flux / profile.inside_m;
}

/** The same of the cover as a luminance; for one that is clear an average, not what the eye sees. */
export const coverLuminance_cd_per_m2 = (solved: SolvedSection, placed: PlacedProfile): number =>
  (coverExitance(solved, placed) * solved.section.strip.flux_lm_per_m) / Math.PI;

/** Length of a facet of the cavity that an eye straight in front sees through the slot. */
function seenLength_m(facet: SectionFacet, section: LitSection, { outer }: PlacedProfile): number {
  const isTurnedAway =
    facet.zone !== 'cavity' || facet.probe || facet.x1 <= facet.x0 || facet.y0 !== facet.y1;
  if (isTurnedAway) return 0;
  const isUnder = facet.y0 === 0 && facet.x0 < outer.x1 && facet.x1 > outer.x0;
  if (isUnder && section.strip.mount === 'side') return 0;
  const { left_m, right_m } = slotEdges(section);
  return Math.max(0, Math.min(facet.x1, right_m) - Math.max(facet.x0, left_m));
}

/** Mean radiance, times pi, of what lies straight behind the slot where a profile stands there. */
function behindSlot(solved: SolvedSection, placed: PlacedProfile): number {
  const { section, facets, light } = solved;
  const cover = coverExitance(solved, placed);
  const sent = facets.map((facet, i) => (facet.face === 'cover' ? cover : facet.reflectance * light[i]!));
  const seen = facets.map((facet) => seenLength_m(facet, section, placed));
  const whole_m = seen.reduce((sum, length) => sum + length, 0);
  return whole_m === 0 ? cover : seen.reduce((sum, length, i) => sum + length * sent[i]!, 0) / whole_m;
}

/**
 * Luminance of what the eye meets straight in front: a sheet that spreads light, or else what lies behind the slot, the lit
 * back or the profile before it, dimmed by a sheet that only lets light through; of a profile in the slot its cover.
 */
export function seenLuminance_cd_per_m2(solved: SolvedSection): number {
  const { section, light, probes } = solved;
  const through = section.sheet?.transmittance ?? 1;
  const placed = placedProfile(section);
  const behind =
    placed === null ? section.reflectance.back * light[probes.seenBack]! : behindSlot(solved, placed);
  const exitance = meetsSheet(section) ? sheetExitance(solved) : through * behind;
  return (exitance * section.strip.flux_lm_per_m) / Math.PI;
}

/** Share of the strip's flux that leaves the room side of the slot. */
export function openingShare({ facets, light }: SolvedSection): number {
  const opening = facets.findIndex((facet) => facet.face === 'opening');
  return light[opening]! * facetLength(facets[opening]!);
}
