import type { Facet } from '../numeric/view-factors.ts';
import type { Segment, Side } from './conduction.ts';

/** A wall of the cavity: what faces what. */
export type CavityWall = 'backing' | 'front' | 'left' | 'right';

/** What a piece of the wall of cavity or profile is; a `profile face` is what of the profile faces across the cavity. */
export type FaceKind =
  | 'backing'
  | 'front'
  | 'sides'
  | 'sheet'
  | 'strip'
  | 'carrier'
  | 'opening'
  | 'flank'
  | 'profile face'
  | 'profile base'
  | 'profile wall'
  | 'cover inside';

/** A stretch of one wall of cavity or profile that is one thing. */
export interface CavityPiece {
  /** The wall it is, or is turned like. */
  readonly wall: CavityWall;
  readonly kind: FaceKind;
  readonly emissivity: number;
  /** Where it is, ascending. */
  readonly surface: Segment;
  /** Left out, on the near side of every slit. */
  readonly side?: Side;
  /** Part of a profile or in it, which takes its own share of the light. */
  readonly ofProfile?: boolean;
}

/** A part of a piece as the view factors see it: carriers are taken as flush with what carries them. */
export interface CavityFace extends Facet {
  readonly piece: CavityPiece;
  /** Where it begins and ends along its wall, ascending. */
  readonly from_m: number;
  readonly to_m: number;
}
