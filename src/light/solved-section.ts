import { bouncedLight } from './bounces.ts';
import { directMean } from './direct-light.ts';
import { type ExchangeTable, exchangeTable } from './facet-exchange.ts';
import type { LitSection } from './section.ts';
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
