import { elementFactor, type PlaneElement, type Vector3 } from '../numeric/element-factor.ts';

/** A lit slot as the room meets it: corners in order, in the plane of the wall, and the light it sends out. */
export interface LitOpening {
  readonly corners: readonly Vector3[];
  readonly area_m2: number;
  readonly flux_lm: number;
}

/** The room, as far as light that bounces in it goes. */
export interface RoomFaces {
  /** All faces together: walls, floor and ceiling. */
  readonly area_m2: number;
  /** Their mean diffuse reflectance, 0 up to but not 1. */
  readonly reflectance: number;
}

/**
 * Light straight from lit slots on a small plane face: `E = sum Phi_i/A_i*F_i`, each slot an evenly bright Lambertian face.
 *
 * @param element in metres, before the wall. @param openings areas and fluxes not negative.
 * @returns lux. Nothing stands in the way; nothing is reflected.
 * Holds where slots send light out as a matt face does: behind a sheet that spreads light, or a cavity without lamps in view.
 * Source: textbook (configuration factor of a plane element). Check: `room-*` in `reference/light-room.checks.ts`;
 * `tests/light/room-light.test.ts` (an endless strip, far away, all the light of a wall met by the faces of a room).
 */
export function directLight_lx(element: PlaneElement, openings: readonly LitOpening[]): number {
  return openings.reduce(
    (sum, { corners, area_m2, flux_lm }) => sum + (flux_lm / area_m2) * elementFactor(element, corners),
    0,
  );
}

/**
 * Light that has bounced, as even over all faces of a room as in an integrating sphere: `E = Phi*rho/(A*(1 - rho))`.
 *
 * @param flux_lm light sent into the room. @param room area above zero, reflectance from 0 to below 1.
 * @returns lux on every face alike. In a real room it is more near the lit wall and less in corners.
 * @throws RangeError outside those ranges
 * Source: Sumpner's law of the integrating sphere, W. E. Sumpner, The diffusion of light, Phil. Mag. 35 (1893) (from memory).
 * Check: `room-bounced-*` in `reference/light-room.checks.ts`.
 */
export function bouncedLight_lx(flux_lm: number, { area_m2, reflectance }: RoomFaces): number {
  if (!(area_m2 > 0 && reflectance >= 0 && reflectance < 1))
    throw new RangeError('a room needs an area above zero and a reflectance from 0 to below 1');
  return (flux_lm * reflectance) / (area_m2 * (1 - reflectance));
}
