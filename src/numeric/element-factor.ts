/** A point of space, or a direction in it. */
export type Vector3 = readonly [number, number, number];

/** A small plane face: where it is and the way it looks, a vector of length 1. */
export interface PlaneElement {
  readonly at: Vector3;
  readonly normal: Vector3;
}

const minus = (a: Vector3, b: Vector3): Vector3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Vector3, b: Vector3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector3, b: Vector3): Vector3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const between = (a: Vector3, b: Vector3, share: number): Vector3 => [
  a[0] + share * (b[0] - a[0]),
  a[1] + share * (b[1] - a[1]),
  a[2] + share * (b[2] - a[2]),
];

/** What of a polygon lies before the face, corners as seen from it. */
function aboveHorizon(corners: readonly Vector3[], normal: Vector3): Vector3[] {
  return corners.flatMap((corner, i) => {
    const next = corners[(i + 1) % corners.length]!;
    const [here, there] = [dot(corner, normal), dot(next, normal)];
    const crossing = here * there < 0 ? [between(corner, next, here / (here - there))] : [];
    return here >= 0 ? [corner, ...crossing] : crossing;
  });
}

/**
 * Configuration factor from a plane element to a flat polygon, `F = sum angle_i*(n . u_i)/(2*pi)`: `angle_i` the angle an
 * edge subtends at the element, `u_i` the unit normal of the plane through both. What lies behind the element's plane is cut off.
 *
 * @param element its place off the polygon's plane; its normal of length 1. @param corners in order round the polygon, at least
 *   three, in one plane.
 * @returns 0 to 1: light on the element over `pi*L` of the polygon, an evenly bright Lambertian face.
 * Source: Lambert's contour formula (Siegel and Howell, Thermal Radiation Heat Transfer; from memory).
 * Check: `element-factor-*` in `reference/light-room.checks.ts`; `tests/numeric/element-factor.test.ts`.
 */
export function elementFactor({ at, normal }: PlaneElement, corners: readonly Vector3[]): number {
  const seen = aboveHorizon(
    corners.map((corner) => minus(corner, at)),
    normal,
  );
  const sum = seen.reduce((total, corner, i) => {
    const next = seen[(i + 1) % seen.length]!;
    const across = cross(corner, next);
    const sine = Math.sqrt(dot(across, across));
    return sine === 0 ? total : total + (Math.atan2(sine, dot(corner, next)) * dot(normal, across)) / sine;
  }, 0);
  return Math.abs(sum) / (2 * Math.PI);
}
