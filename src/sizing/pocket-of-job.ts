import { freezing_K } from '../constants.ts';
import type { HeatIssue } from '../heat/issues.ts';
import { materials } from '../heat/materials.ts';
import { type PocketDescription, type PocketFace, solvePocket } from '../heat/pocket.ts';
import type { DriverPlace } from '../job/job.ts';
import { found, type Outcome } from '../outcome.ts';

/** Boards a driver place is built from where the job says nothing else: 18 mm particleboard (judgement). */
const board_m2K_per_W = 0.018 / materials['particleboard-600'].conductivity_W_per_mK;

/** Vents lie near the bottom and the top, not at the very edge (judgement). */
const ventRise = 0.8;

const m = (mm: number): number => mm / 1000;

/** Five faces of board to the room; the back stands against the building and is taken to let nothing through. */
function facesOf(place: DriverPlace): PocketFace[] {
  const [width, height, depth] = [m(place.width_mm), m(place.height_mm), m(place.depth_mm)];
  return [
    { name: 'front', area_m2: width * height, resistance_m2K_per_W: board_m2K_per_W },
    { name: 'sides', area_m2: 2 * depth * height, resistance_m2K_per_W: board_m2K_per_W },
    { name: 'top and bottom', area_m2: 2 * depth * width, resistance_m2K_per_W: board_m2K_per_W },
    { name: 'back', area_m2: width * height, resistance_m2K_per_W: null },
  ];
}

function ventsOf(place: DriverPlace): PocketDescription['vents'] {
  if (!place.vented || place.ventOpening_mm2 === 0) return null;
  const opening_m2 = place.ventOpening_mm2 / 1e6;
  return { low_m2: opening_m2, high_m2: opening_m2, rise_m: ventRise * m(place.height_mm) };
}

/** Air round the drivers of a place that lose `loss_W` together, degC. Refuses heat that has no way out. */
export function placeAir_degC(
  place: DriverPlace,
  loss_W: number,
  room_degC: number,
): Outcome<number, HeatIssue> {
  const balance = solvePocket({
    faces: facesOf(place),
    drivers: [{ name: place.name, loss_W, case_m2: 1 }],
    vents: ventsOf(place),
    room_K: room_degC + freezing_K,
  });
  return balance.ok ? found(balance.value.air_K - freezing_K) : balance;
}
