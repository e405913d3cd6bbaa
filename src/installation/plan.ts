import type { Cable, CableEnd, Stretch } from '../answer/cables.ts';
import type { CableData } from '../job/cable.ts';
import type { Fuse } from './fuse-families.ts';
import type { PlaceLayout } from './place-layout.ts';

export interface Point {
  readonly x_mm: number;
  readonly y_mm: number;
}

/** A piece of the way of a cable: what it lies in, and from where to where. */
export interface Path {
  readonly in: Stretch['in'];
  readonly from: Point;
  readonly to: Point;
  readonly length_mm: number;
}

/** Part of a cable between two things it is connected to; a cable without taps is one leg. */
export interface Leg {
  readonly id: string;
  readonly from: CableEnd;
  readonly to: CableEnd;
  /** Feed points that draw through this leg. */
  readonly serves: readonly string[];
  readonly paths: readonly Path[];
  /** Ends of the cable in this leg, each with a tail. */
  readonly tailCount: number;
}

/** A cable as it is laid, cut once: before anything electrical is known of it. */
export interface LaidCable {
  readonly id: string;
  /** It joins devices of one place, feeds a run, passes taps, leaves a tap, or goes on to the next run. */
  readonly kind: 'link' | 'feed' | 'trunk' | 'branch' | 'run to run';
  /** The driver output it hangs on. */
  readonly output: string;
  readonly conductors: 'both' | 'positive' | 'return';
  readonly legs: readonly Leg[];
}

/** A cable chosen by size. */
export type CableProduct = CableData & { readonly id: string };

/** A stretch of way with what decides how warm a cable gets in it. */
export interface CountedPath extends Path {
  readonly togetherCount: number;
  readonly air_degC: number;
}

/** A fuse on a way of a block. */
export interface PlannedFuse extends Fuse {
  readonly id: string;
  readonly resistance_ohm: number;
  /** It carries, should any other leg, run or feed be dead. */
  readonly design_A: number;
  /** What the thinnest cable behind it may carry. */
  readonly least_A: number;
}

export interface PlannedWay {
  readonly number: number;
  readonly fuse: PlannedFuse | null;
  readonly cables: readonly string[];
}

export interface PlannedBlock {
  readonly id: string;
  readonly output: string;
  readonly ways: readonly PlannedWay[];
}

export interface PlannedDimmer {
  readonly id: string;
  readonly output: string;
}

/** A cable with its size, its lengths, what it may carry and what protects it. */
export interface PlannedCable extends LaidCable {
  readonly product: CableProduct;
  readonly stretches: readonly CountedPath[];
  /** What the output it hangs on is rated to give. */
  readonly source_A: number;
  readonly way_mm: number;
  readonly tails_mm: number;
  readonly length_mm: number;
  /** In its busiest leg, should any other leg, run or feed of the same output be dead. */
  readonly design_A: number;
  readonly capacity_A: number;
  /** What the capacity is the product of. */
  readonly rating: Cable['rating'];
  /** Index of the stretch that decides what it may carry. */
  readonly worstStretch: number;
  readonly capacityNote: string | null;
  readonly fuse: PlannedFuse | null;
  readonly protectedBy: 'fuse' | 'driver' | 'nothing';
}

/** One element of the circuit between two ends: a leg of a cable, a fuse that several ends share, or a dimmer. */
export interface Branch {
  readonly id: string;
  readonly cable: string | null;
  readonly from: CableEnd;
  readonly to: CableEnd;
  readonly conductors: LaidCable['conductors'];
  /** Whether all channels come home by one minus. */
  readonly hasOneMinus: boolean;
  readonly serves: readonly string[];
  readonly length_mm: number;
  /** Of one conductor at 20 degC. */
  readonly conductor_ohm_per_km: number;
  /** Of each conductor: its connections at blocks and taps; those at pads are not in it. */
  readonly connectors_ohm: number;
  /** Besides its copper: these, a fuse, a dimmer. */
  readonly positive_ohm: number;
  readonly return_ohm: number;
}

export interface PlannedTap extends Point {
  readonly id: string;
  readonly cable: string;
}

/** The wiring of a job: what stands where, and every cable between. */
export interface Installation {
  readonly cables: readonly PlannedCable[];
  readonly blocks: readonly PlannedBlock[];
  readonly dimmers: readonly PlannedDimmer[];
  readonly taps: readonly PlannedTap[];
  readonly branches: readonly Branch[];
  /** Where drivers, dimmers and blocks stand, place by place. */
  readonly layouts: readonly PlaceLayout[];
}

/** Whether all channels come home through one minus of a cable: that of an output, which has no other, to its first device. */
export const hasOneMinus = ({ kind, legs }: Pick<LaidCable, 'kind' | 'legs'>): boolean =>
  kind === 'link' && legs[0]!.from.kind === 'output';

/** Feed points that draw through any part of a cable. */
export const servedBy = ({ legs }: Pick<LaidCable, 'legs'>): readonly string[] => legs[0]!.serves;
