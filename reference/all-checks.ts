import type { Check } from './check.ts';
import { circuitChecks } from './circuit.checks.ts';
import { circuitProtectionChecks } from './circuit-protection.checks.ts';
import { circuitWorkedChecks } from './circuit-worked.checks.ts';
import { driversChecks } from './drivers.checks.ts';
import { sharingChecks } from './drivers-sharing.checks.ts';
import { handOverChecks } from './hand-over.checks.ts';
import { heatCavityChecks } from './heat-cavity.checks.ts';
import { heatConductionChecks } from './heat-conduction.checks.ts';
import { heatLifeChecks } from './heat-life.checks.ts';
import { heatWallChecks } from './heat-wall.checks.ts';
import { lightChecks } from './light.checks.ts';
import { lightRoomChecks } from './light-room.checks.ts';
import { lightSeenChecks } from './light-seen.checks.ts';
import { setOutChecks } from './set-out.checks.ts';
import { viewFactorChecks } from './view-factors.checks.ts';

/** Every check of the project, in the order of the table in the README. */
export const allChecks: readonly Check[] = [
  ...setOutChecks,
  ...circuitChecks,
  ...circuitProtectionChecks,
  ...circuitWorkedChecks,
  ...driversChecks,
  ...sharingChecks,
  ...handOverChecks,
  ...heatConductionChecks,
  ...heatCavityChecks,
  ...heatWallChecks,
  ...heatLifeChecks,
  ...viewFactorChecks,
  ...lightChecks,
  ...lightSeenChecks,
  ...lightRoomChecks,
];
