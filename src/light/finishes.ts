/** How a value of a finish is known. */
type FinishBasis = 'table' | 'memory' | 'weak';

/** A face finish and how much of the light it sends back. */
export interface Finish {
  readonly id: string;
  readonly name: string;
  /** Diffuse reflectance for visible light, 0 to 1. */
  readonly reflectance: number;
  /** What to take when the piece itself is not measured. */
  readonly from: number;
  readonly to: number;
  readonly basis: FinishBasis;
}

/**
 * Reflectances of common finishes. `table` from lighting tables of reflectances (secondary copies), `memory` from
 * memory, `weak` where samples differ widely: measure those. Wood also warms the light it sends back.
 */
export const finishes: readonly Finish[] = [
  { id: 'white-paint', name: 'matt white paint', reflectance: 0.8, from: 0.75, to: 0.85, basis: 'table' },
  { id: 'white-plaster', name: 'white plaster', reflectance: 0.8, from: 0.75, to: 0.85, basis: 'table' },
  { id: 'white-tile', name: 'white tile', reflectance: 0.7, from: 0.65, to: 0.75, basis: 'table' },
  {
    id: 'aluminium',
    name: 'natural anodised aluminium',
    reflectance: 0.7,
    from: 0.65,
    to: 0.75,
    basis: 'memory',
  },
  { id: 'maple', name: 'maple or birch', reflectance: 0.6, from: 0.5, to: 0.6, basis: 'table' },
  { id: 'birch-ply', name: 'raw birch plywood', reflectance: 0.55, from: 0.5, to: 0.6, basis: 'weak' },
  { id: 'light-oak', name: 'light oak', reflectance: 0.4, from: 0.3, to: 0.45, basis: 'table' },
  { id: 'mdf', name: 'raw MDF', reflectance: 0.4, from: 0.35, to: 0.45, basis: 'weak' },
  { id: 'light-grey', name: 'light grey', reflectance: 0.4, from: 0.35, to: 0.45, basis: 'table' },
  { id: 'dark-oak', name: 'dark oak', reflectance: 0.2, from: 0.1, to: 0.25, basis: 'table' },
  { id: 'walnut', name: 'walnut', reflectance: 0.15, from: 0.1, to: 0.2, basis: 'weak' },
  { id: 'mid-grey', name: 'mid grey', reflectance: 0.2, from: 0.15, to: 0.25, basis: 'table' },
  { id: 'black-paint', name: 'matt black paint', reflectance: 0.05, from: 0.03, to: 0.1, basis: 'memory' },
  // Both mirror much of it; here it is spread.
  { id: 'bare-aluminium', name: 'bare aluminium', reflectance: 0.65, from: 0.55, to: 0.75, basis: 'memory' },
  { id: 'foil', name: 'bright aluminium foil', reflectance: 0.85, from: 0.75, to: 0.9, basis: 'memory' },
];

/** A sheet in front of the strip. */
export interface SheetFinish {
  readonly id: string;
  readonly name: string;
  /** For diffuse light, 0 to 1; the rest of both is absorbed. */
  readonly transmittance: number;
  readonly reflectance: number;
  /** Spreads light fully. Where not, single lamps show through and the ripple worked out is too kind. */
  readonly spreadsFully: boolean;
  readonly basis: FinishBasis;
}

/** Sheets by how they pass and spread light: tables and trade practice (secondary copies), opal 5 to 10 % absorbed. */
export const sheetFinishes: readonly SheetFinish[] = [
  {
    id: 'opal',
    name: 'opal acrylic',
    transmittance: 0.55,
    reflectance: 0.35,
    spreadsFully: true,
    basis: 'memory',
  },
  {
    id: 'light-opal',
    name: 'light opal acrylic',
    transmittance: 0.7,
    reflectance: 0.22,
    spreadsFully: true,
    basis: 'memory',
  },
  {
    id: 'satin',
    name: 'satin or frosted acrylic',
    transmittance: 0.82,
    reflectance: 0.1,
    spreadsFully: false,
    basis: 'memory',
  },
  {
    id: 'prismatic',
    name: 'prismatic sheet',
    transmittance: 0.8,
    reflectance: 0.12,
    spreadsFully: false,
    basis: 'table',
  },
  {
    id: 'clear',
    name: 'clear acrylic, 3 mm',
    transmittance: 0.85,
    reflectance: 0.08,
    spreadsFully: false,
    basis: 'table',
  },
];
