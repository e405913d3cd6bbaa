import type { Cable } from '../answer/cables.ts';
import { cableCapacity } from '../installation/cable-capacity.ts';
import { pvcLimit_degC } from '../installation/capacity-factors.ts';
import { shortAtFarEnd } from '../installation/far-short.ts';
import { type Fuse, opensFuse } from '../installation/fuse-families.ts';
import type { InstallationIssue } from '../installation/issues.ts';
import { protectCable } from '../installation/protection.ts';
import { found, type Outcome } from '../outcome.ts';

/** Flexible cord sizes with a tabled rating, mm2. */
const ratedAreas_mm2 = [0.5, 0.75, 1, 1.5, 2.5, 4] as const;

/** A driver limits somewhere between 105 and 150 % of its rating (memory); the most it may be. */
const limitOverRating = 1.5;

export interface CableToProtect {
  readonly area_mm2: number;
  readonly cable_degC: number;
  readonly circuitCount: number;
  readonly design_A: number;
  readonly driver_A: number;
  readonly set_V: number;
  /** All copper there and back to the far end of what the cable feeds. */
  readonly farLoop_ohm: number;
}

/**
 * Rating of a flexible cord of any area: that of the next tabled size below, and below 0.5 mm2 in proportion to
 * the area, both on the careful side.
 */
function capacity_A(cable: CableToProtect): Outcome<number, InstallationIssue> {
  const tabled = ratedAreas_mm2.findLast((area) => area <= cable.area_mm2 + 1e-9) ?? ratedAreas_mm2[0];
  const capacity = cableCapacity({
    area_mm2: tabled,
    method: 'flexible',
    ambient_degC: cable.cable_degC,
    circuitCount: cable.circuitCount,
    isInThermalInsulation: false,
    limit_degC: pvcLimit_degC,
  });
  if (!capacity.ok) return capacity;
  return found(capacity.value.capacity_A * Math.min(1, cable.area_mm2 / tabled));
}

type Protected = Pick<
  Cable,
  'capacity_A' | 'fuse_A' | 'fuseOpens' | 'protectedBy' | 'farShort_A' | 'farShortNoticed'
>;

/**
 * What a cable may carry where it lies, its fuse, and whether a short at its far end is noticed. Each cable gets
 * a fuse of its own where one fits; where none does, the driver's own limit may protect it.
 */
export function protectionOf(cable: CableToProtect): Outcome<Protected, InstallationIssue> {
  const capacity = capacity_A(cable);
  if (!capacity.ok) return capacity;
  const sourceLimit_A = limitOverRating * cable.driver_A;
  const given = { design_A: cable.design_A, capacity_A: capacity.value };
  const byFuse = protectCable({ ...given, sourceLimit_A: Number.POSITIVE_INFINITY, fuses: 'blade' });
  const fuse: Fuse | null = byFuse.ok && byFuse.value.by === 'fuse' ? byFuse.value.fuse : null;
  const byDriver = cable.design_A <= capacity.value && sourceLimit_A <= capacity.value;
  const short = shortAtFarEnd({
    set_V: cable.set_V,
    loop_ohm: cable.farLoop_ohm,
    sourceLimit_A,
    ...(fuse === null ? {} : { fuse }),
  });
  return found({
    capacity_A: capacity.value,
    fuse_A: fuse?.rating_A ?? null,
    fuseOpens: fuse !== null && opensFuse(fuse, cable.driver_A),
    protectedBy: fuse !== null ? 'fuse' : byDriver ? 'driver' : 'nothing',
    farShort_A: short.fault_A,
    farShortNoticed: !short.couldSitUnnoticed,
  });
}
