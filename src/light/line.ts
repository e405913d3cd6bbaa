/**
 * The faces light falls on; `opening` is the room side of the slot, where light leaves for good. Of a profile: its inside, its
 * flanks and rims, and both sides of its cover or open mouth.
 */
export type Face =
  | 'back'
  | 'sides'
  | 'front'
  | 'sheet'
  | 'sheet-outside'
  | 'reveal'
  | 'opening'
  | 'lining'
  | 'flank'
  | 'cover'
  | 'cover-inside';

/** Behind the slot plane, in the thickness of the front, or inside a profile. */
export type Zone = 'cavity' | 'reveal' | 'inside';

/** A straight piece of a face. */
export interface Line {
  readonly face: Face;
  readonly zone: Zone;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly facetCount: number;
  readonly reflectance: number;
  readonly transmittance?: number;
  readonly straight?: number;
}

/** The same before it is known into how many facets it is cut. */
export type Drawn = Omit<Line, 'facetCount'> & Partial<Pick<Line, 'facetCount'>>;
