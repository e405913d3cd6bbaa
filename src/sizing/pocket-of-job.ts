import { freezing_K } from '../constants.ts';
import { type HeatIssue, heatIssue } from '../heat/issues.ts';
import { materials } from '../heat/materials.ts';
import { hottestPocket_K, type PocketDescription, type PocketFace, solvePocket } from '../heat/pocket.ts';
import type { DriverPlace } from '../job/job.ts';
import { figures } from '../words.ts';

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

/**
 * Air round the drivers of a place that lose `loss_W` together, degC. Where heat has no way out it stops at the hottest
 * that is calculated, far above what any driver stands, so that the finding about the place can say so.
 */
export function placeAir_degC(place: DriverPlace, loss_W: number, room_degC: number): number {
  const balance = solvePocket({
    faces: facesOf(place),
    drivers: [{ name: place.name, loss_W, case_m2: 1 }],
    vents: ventsOf(place),
    room_K: room_degC + freezing_K,
  });
  return (balance.ok ? balance.value.air_K : hottestPocket_K) - freezing_K;
}

/** The largest opening there is room for at the bottom and at the top: across half the front, or all of a narrow face. */
function largestVent_mm2({ width_mm, height_mm, depth_mm }: DriverPlace): number {
  return Math.max((width_mm * height_mm) / 2, width_mm * depth_mm, (depth_mm * height_mm) / 2);
}

/** Vents that no face of their place has room for. */
export function ventIssues(places: readonly DriverPlace[]): HeatIssue[] {
  return places.flatMap((place, i) => {
    const { name, vented, ventOpening_mm2 } = place;
    const largest_mm2 = largestVent_mm2(place);
    if (!vented || ventOpening_mm2 <= largest_mm2) return [];
    return [
      heatIssue(
        'vent-larger-than-place',
        { ventOpening_mm2, largest_mm2 },
        `Each vent of ${name} is to have ${figures(ventOpening_mm2, 7)} mm² free, and its faces have room for ${figures(largest_mm2, 7)} mm² at most, once low and once high. Make the vents smaller or the place larger.`,
        { field: `drivers.places[${i + 1}].ventOpening_mm2` },
      ),
    ];
  });
}
