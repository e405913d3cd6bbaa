import { found, type Outcome, refused } from '../outcome.ts';
import { figures } from '../words.ts';
import type { CircuitIssue } from './issues.ts';

/**
 * How a cable is laid. Letters are the reference methods of IEC 60364-5-52 for two loaded PVC-insulated copper
 * conductors: A1 and A2 in an insulated wall, B1 and B2 in conduit or trunking (single cores, sheathed), C fixed
 * to a surface. `flexible` is a flexible cord in free air, the only one with sizes under 1.5 mm2.
 */
export type LayingMethod = 'A1' | 'A2' | 'B1' | 'B2' | 'C' | 'flexible';

/**
 * Current-carrying capacity at 30 degC, A.
 * Source: IEC 60364-5-52:2009 table B.52.2 (from memory; 6 and 10 mm2 too); flexible: DIN VDE 0298-4 table 11,
 * two- and three-core, the lower of its values (secondary). Check: `reference/circuit-protection.checks.ts`.
 */
const capacityAt30_A: Readonly<Record<LayingMethod, Readonly<Record<number, number>>>> = {
  A1: { 1.5: 14.5, 2.5: 19.5, 4: 26, 6: 34, 10: 46 },
  A2: { 1.5: 14, 2.5: 18.5, 4: 25, 6: 32, 10: 43 },
  B1: { 1.5: 17.5, 2.5: 24, 4: 32, 6: 41, 10: 57 },
  B2: { 1.5: 16.5, 2.5: 23, 4: 30, 6: 38, 10: 52 },
  C: { 1.5: 19.5, 2.5: 27, 4: 36, 6: 46, 10: 63 },
  flexible: { 0.5: 3, 0.75: 6, 1: 10, 1.5: 16, 2.5: 20, 4: 25 },
};

/**
 * Factor for circuits bunched together, by their count: IEC 60364-5-52:2009 table B.52.17, item 1 (from memory). Counts
 * between the table's take the next greater count's factor.
 */
const groupingFactors: readonly (readonly [number, number])[] = [
  [1, 1],
  [2, 0.8],
  [3, 0.7],
  [4, 0.65],
  [5, 0.6],
  [6, 0.57],
  [7, 0.54],
  [8, 0.52],
  [9, 0.5],
  [12, 0.45],
  [16, 0.41],
  [20, 0.38],
];

/** PVC insulation at full load, degC. */
const pvcLimit_degC = 70;

/** More than half a metre of cable wholly in thermal insulation: BS 7671:2018 regulation 523.9 (from memory). */
const inInsulationFactor = 0.5;

/**
 * Factor for ambient temperature, PVC insulation: `sqrt((70 - Ta)/(70 - 30))`, the law behind IEC 60364-5-52:2009
 * table B.52.14. Check: the table's printed values in `reference/circuit-protection.checks.ts`.
 * @param ambient_degC below 70
 */
export function ambientFactor(ambient_degC: number): number {
  return Math.sqrt((pvcLimit_degC - ambient_degC) / (pvcLimit_degC - 30));
}

/** Factor for a number of bunched circuits, 1 to 20. */
export function groupingFactor(circuitCount: number): number {
  const row = groupingFactors.find(([count]) => circuitCount <= count);
  if (row === undefined || circuitCount < 1)
    throw new RangeError(`no grouping factor for ${circuitCount} circuits`);
  return row[1];
}

export interface CableCapacity {
  readonly capacity_A: number;
  readonly at30_A: number;
  readonly ambientFactor: number;
  readonly groupingFactor: number;
  readonly insulationFactor: number;
}

/**
 * Current a cable may carry where it lies: the table's value times the factors for ambient, grouping and thermal
 * insulation.
 * @param of.circuitCount circuits bunched together, itself included, 1 to 20
 * Refusals: `no-capacity-known` for a size the method has no value for, or an ambient of 70 degC and more.
 */
export function cableCapacity(of: {
  readonly area_mm2: number;
  readonly method: LayingMethod;
  readonly ambient_degC: number;
  readonly circuitCount: number;
  readonly isInThermalInsulation: boolean;
}): Outcome<CableCapacity, CircuitIssue> {
  const at30_A = capacityAt30_A[of.method][of.area_mm2];
  if (at30_A === undefined || !(of.ambient_degC < pvcLimit_degC)) {
    const { area_mm2, ambient_degC } = of;
    const sentence =
      at30_A === undefined
        ? `There is no current rating for ${area_mm2} mm² laid by method ${of.method}. Choose 1.5 mm² or more, or a flexible cord.`
        : `At ${figures(ambient_degC)} °C around it a PVC cable may carry nothing. Move the cable to a cooler place, or use one with heat-resistant insulation and its maker's rating.`;
    return refused({
      code: 'no-capacity-known',
      place: {},
      quantities: { area_mm2, ambient_degC },
      sentence,
    });
  }
  const factors = {
    ambientFactor: ambientFactor(of.ambient_degC),
    groupingFactor: groupingFactor(of.circuitCount),
    insulationFactor: of.isInThermalInsulation ? inInsulationFactor : 1,
  };
  const capacity_A = at30_A * factors.ambientFactor * factors.groupingFactor * factors.insulationFactor;
  return found({ capacity_A, at30_A, ...factors });
}

/** Blade fuse ratings, A: ISO 8820-3:2015 (from memory). 32 V type up to 24 V circuits, 58 V type for 48 V. */
const bladeFuses_A: readonly number[] = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30];

/** A fuse carries its rated current, but warm and for ever no more than this part of it (common practice: 1/1.25). */
const fuseReserve = 1.25;

/** At twice its rating a blade fuse opens within five seconds (ISO 8820-3:2015, from memory). */
const fuseOpensAt = 2;

/** Whether so much current opens a blade fuse within five seconds: twice its rating. */
export const opensFuse = (fuse_A: number, current_A: number): boolean => current_A >= fuseOpensAt * fuse_A;

export type Protection =
  | { readonly by: 'source'; readonly sourceLimit_A: number }
  | { readonly by: 'fuse'; readonly fuse_A: number };

/**
 * What protects a cable: the driver itself where it cannot deliver more than the cable may carry (IEC 60364-4-43
 * clause 436), otherwise the smallest fuse with `1.25 Ib <= In <= Iz` (clause 433.1; `I2 <= 1.45 Iz` follows, since a
 * blade fuse opens at 1.35 In).
 * @param of.design_A current the cable carries, Ib
 * @param of.capacity_A current it may carry after all factors, Iz
 * @param of.sourceLimit_A the most the driver delivers before it limits or stops
 * Refusals: `no-fuse-fits`.
 * Source: IEC 60364-4-43:2008 (secondary). Check: `tests/circuit/protection.test.ts`.
 */
export function protectCable(of: {
  readonly design_A: number;
  readonly capacity_A: number;
  readonly sourceLimit_A: number;
}): Outcome<Protection, CircuitIssue> {
  const { design_A, capacity_A, sourceLimit_A } = of;
  if (design_A <= capacity_A && sourceLimit_A <= capacity_A) return found({ by: 'source', sourceLimit_A });
  const fuse_A = bladeFuses_A.find((rating) => rating >= fuseReserve * design_A && rating <= capacity_A);
  if (fuse_A !== undefined) return found({ by: 'fuse', fuse_A });
  const sentence = `This cable carries ${design_A.toFixed(1)} A and may carry ${capacity_A.toFixed(1)} A; no fuse lies between with a margin. Use a thicker cable, or feed less through it.`;
  return refused({ code: 'no-fuse-fits', place: {}, quantities: { design_A, capacity_A }, sentence });
}

export interface ShortCircuit {
  /** What the copper alone would let through, A. */
  readonly prospective_A: number;
  /** What flows: the copper's current or the driver's limit, whichever is less. */
  readonly fault_A: number;
  /** Heat in the faulted copper, W. */
  readonly fault_W: number;
  /** The driver reaches its limit, so the light goes out or the driver stops. */
  readonly reachesLimit: boolean;
  readonly opensFuse: boolean;
  /** Neither happens: the fault could sit there, warm and unnoticed. */
  readonly couldSitUnnoticed: boolean;
}

/**
 * What a short at the far end does: `I = V / loop`, held against the driver's limit and the fuse.
 * @param of.loop_ohm all copper there and back, `loopResistance_ohm`
 * @param of.sourceLimit_A the current at which the driver limits; take the most it may be, to be sure
 * @param of.fuse_A the fuse in the way, if there is one
 * Source: IEC 60364-4-43 clause 434 asks that a fault be cleared; Ohm's law. Fuses: twice the rating, within 5 s.
 */
export function shortAtFarEnd(of: {
  readonly set_V: number;
  readonly loop_ohm: number;
  readonly sourceLimit_A: number;
  readonly fuse_A?: number;
}): ShortCircuit {
  const prospective_A = of.set_V / of.loop_ohm;
  const reachesLimit = prospective_A >= of.sourceLimit_A;
  const fault_A = Math.min(prospective_A, of.sourceLimit_A);
  const opens = of.fuse_A !== undefined && opensFuse(of.fuse_A, fault_A);
  return {
    prospective_A,
    fault_A,
    fault_W: fault_A ** 2 * of.loop_ohm,
    reachesLimit,
    opensFuse: opens,
    couldSitUnnoticed: !reachesLimit && !opens,
  };
}
