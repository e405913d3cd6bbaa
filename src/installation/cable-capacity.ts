import { found, type Outcome, refused } from '../outcome.ts';
import { figures } from '../words.ts';
import { ambientFactor, beyondGroupingTable, groupingFactor } from './capacity-factors.ts';
import type { InstallationIssue } from './issues.ts';

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

/** More than half a metre of cable wholly in thermal insulation: BS 7671:2018 regulation 523.9 (from memory). */
const inInsulationFactor = 0.5;

export interface CableCapacity {
  readonly capacity_A: number;
  readonly at30_A: number;
  readonly ambientFactor: number;
  readonly groupingFactor: number;
  readonly insulationFactor: number;
}

export interface CableWhereItLies {
  readonly area_mm2: number;
  readonly method: LayingMethod;
  readonly ambient_degC: number;
  readonly circuitCount: number;
  readonly isInThermalInsulation: boolean;
  readonly limit_degC: number;
}

/**
 * Current a cable may carry where it lies: the table's value times the factors for ambient, grouping and thermal
 * insulation. The table is that of PVC; insulation that stands more heat only loses less of it where it is hot, which
 * stays on the careful side.
 * @param of.ambient_degC air where it lies, and `of.circuitCount` the circuits bunched there, itself included: those of
 *   `worstStretch`
 * @param of.limit_degC what its insulation stands for ever, 70 degC of PVC or more
 * Notes: more than 20 circuits are beyond the table.
 * Refusals: `no-capacity-known` for a size the method has no value for, or an ambient at the limit and above.
 * Source: IEC 60364-5-52, clause 523 (from memory). Check: `reference/circuit-protection.checks.ts`.
 */
export function cableCapacity(of: CableWhereItLies): Outcome<CableCapacity, InstallationIssue> {
  const at30_A = capacityAt30_A[of.method][of.area_mm2];
  if (at30_A === undefined || !(of.ambient_degC < of.limit_degC)) {
    const { area_mm2, ambient_degC } = of;
    const sentence = at30_A === undefined ? unrated(of) : tooHot(of);
    return refused({
      code: 'no-capacity-known',
      place: {},
      quantities: { area_mm2, ambient_degC },
      sentence,
    });
  }
  const factors = {
    ambientFactor: ambientFactor(of.ambient_degC, of.limit_degC),
    groupingFactor: groupingFactor(of.circuitCount),
    insulationFactor: of.isInThermalInsulation ? inInsulationFactor : 1,
  };
  const capacity_A = at30_A * factors.ambientFactor * factors.groupingFactor * factors.insulationFactor;
  const beyond = beyondGroupingTable(of.circuitCount);
  return found({ capacity_A, at30_A, ...factors }, beyond === null ? [] : [beyond]);
}

const unrated = ({ area_mm2, method }: CableWhereItLies): string =>
  `There is no current rating for ${area_mm2} mm² laid by method ${method}. Choose 1.5 mm² or more, or a flexible cord.`;

const tooHot = ({ ambient_degC, limit_degC }: CableWhereItLies): string =>
  `At ${figures(ambient_degC)} °C around it a cable with insulation for ${figures(limit_degC)} °C may carry nothing. Move the cable to a cooler place, or use one with insulation that stands more heat.`;
