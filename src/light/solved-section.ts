import { facetLength } from '../numeric/view-factors.ts';
import { bouncedLight } from './bounces.ts';
import { directMean } from './direct-light.ts';
import { type ExchangeTable, exchangeTable } from './facet-exchange.ts';
import { type LitSection, meetsSheet } from './section.ts';
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

/**
 * Luminance of what the eye meets straight in front: a sheet that spreads light, or else the lit back behind the slot,
 * dimmed by a sheet that only lets light through.
 */
export function seenLuminance_cd_per_m2(solved: SolvedSection): number {
  const { section, light, probes } = solved;
  const through = section.sheet?.transmittance ?? 1;
  const exitance = meetsSheet(section)
    ? sheetExitance(solved)
    : through * section.reflectance.back * light[probes.seenBack]!;
  return (exitance * section.strip.flux_lm_per_m) / Math.PI;
}

/** Share of the strip's flux that leaves the room side of the slot. */
export function openingShare({ facets, light }: SolvedSection): number {
  const opening = facets.findIndex((facet) => facet.face === 'opening');
  return light[opening]! * facetLength(facets[opening]!);
}
