import { lampExponent } from '../../src/light/lamp-row.ts';
import { type LitSection, lampFrame, slotEdges } from '../../src/light/section.ts';

/** A repeatable stream of numbers from 0 to 1 (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export interface PhotonCount {
  readonly out: number;
  /** Standard error of `out`. */
  readonly outError: number;
  readonly slotPlane: number;
  readonly slotPlaneError: number;
  readonly back: number;
  readonly backError: number;
}

interface Ray {
  x: number;
  y: number;
  dx: number;
  dy: number;
}

/**
 * Follows single photons through the section: an independent way, with no facets and no direct exchange areas.
 * Directions are those seen in the section: `sin` of the angle is even between -1 and 1 for a matt face.
 */
export function countPhotons(section: LitSection, photonCount: number, seed: number): PhotonCount {
  const random = seeded(seed);
  const { width_m: w, depth_m: d, reveal, sheet, reflectance } = section;
  const { left_m: s0, right_m: s1 } = slotEdges(section);
  const top = d + reveal.depth_m;
  const exponent = lampExponent(section.strip.halfAngle_deg);
  const lamp = lampFrame(section);

  const matt = (ray: Ray, nx: number, ny: number): void => {
    const sine = 2 * random() - 1;
    const cosine = Math.sqrt(1 - sine * sine);
    ray.dx = nx * cosine + ny * sine;
    ray.dy = ny * cosine - nx * sine;
  };
  const fromLamp = (ray: Ray): void => {
    for (;;) {
      const angle = (random() - 0.5) * Math.PI;
      if (random() > Math.cos(angle) ** exponent) continue;
      ray.x = lamp.at.x;
      ray.y = lamp.at.y;
      ray.dx = lamp.facing.x * Math.cos(angle) + lamp.facing.y * Math.sin(angle);
      ray.dy = lamp.facing.y * Math.cos(angle) - lamp.facing.x * Math.sin(angle);
      return;
    }
  };

  /** One photon: how often it met the slot plane from behind, whether it ended in the back, whether it got out. */
  const follow = (): { out: number; plane: number; back: number } => {
    const ray: Ray = { x: 0, y: 0, dx: 0, dy: 0 };
    fromLamp(ray);
    let plane = 0;
    let inCavity = true;
    for (;;) {
      if (inCavity) {
        const toY =
          ray.dy > 0 ? (d - ray.y) / ray.dy : ray.dy < 0 ? -ray.y / ray.dy : Number.POSITIVE_INFINITY;
        const toX = section.endless
          ? Number.POSITIVE_INFINITY
          : ray.dx > 0
            ? (w - ray.x) / ray.dx
            : ray.dx < 0
              ? -ray.x / ray.dx
              : Number.POSITIVE_INFINITY;
        if (toX < toY) {
          ray.x = ray.dx > 0 ? w : 0;
          ray.y += toX * ray.dy;
          if (random() > reflectance.sides) return { out: 0, plane, back: 0 };
          matt(ray, ray.dx > 0 ? -1 : 1, 0);
          continue;
        }
        ray.x += toY * ray.dx;
        if (section.endless) ray.x -= w * Math.floor(ray.x / w);
        if (ray.dy < 0) {
          ray.y = 0;
          if (random() > reflectance.back) return { out: 0, plane, back: 1 };
          matt(ray, 0, 1);
          continue;
        }
        ray.y = d;
        if (ray.x <= s0 || ray.x >= s1) {
          if (random() > reflectance.front) return { out: 0, plane, back: 0 };
          matt(ray, 0, -1);
          continue;
        }
        plane += 1;
        if (!sheet) {
          inCavity = false;
          continue;
        }
        const fate = random();
        if (fate < sheet.transmittance) {
          inCavity = false;
          matt(ray, 0, 1);
        } else if (fate < sheet.transmittance + sheet.reflectance) matt(ray, 0, -1);
        else return { out: 0, plane, back: 0 };
        continue;
      }
      const toY = ray.dy > 0 ? (top - ray.y) / ray.dy : (d - ray.y) / ray.dy;
      const toX =
        ray.dx > 0 ? (s1 - ray.x) / ray.dx : ray.dx < 0 ? (s0 - ray.x) / ray.dx : Number.POSITIVE_INFINITY;
      if (toX < toY) {
        ray.x = ray.dx > 0 ? s1 : s0;
        ray.y += toX * ray.dy;
        if (random() > reveal.reflectance) return { out: 0, plane, back: 0 };
        matt(ray, ray.dx > 0 ? -1 : 1, 0);
        continue;
      }
      ray.x += toY * ray.dx;
      if (ray.dy > 0) return { out: 1, plane, back: 0 };
      ray.y = d;
      if (!sheet) {
        inCavity = true;
        continue;
      }
      const fate = random();
      if (fate < sheet.transmittance) {
        inCavity = true;
        matt(ray, 0, -1);
      } else if (fate < sheet.transmittance + sheet.reflectance) matt(ray, 0, 1);
      else return { out: 0, plane, back: 0 };
    }
  };

  const sums = { out: 0, plane: 0, plane2: 0, back: 0 };
  for (let i = 0; i < photonCount; i++) {
    const { out, plane, back } = follow();
    sums.out += out;
    sums.plane += plane;
    sums.plane2 += plane * plane;
    sums.back += back;
  }
  const mean = (sum: number): number => sum / photonCount;
  const error = (meanOfSquares: number, m: number): number =>
    Math.sqrt((meanOfSquares - m * m) / photonCount);
  const [out, slotPlane, back] = [mean(sums.out), mean(sums.plane), mean(sums.back)];
  return {
    ...{ out, outError: error(out, out), slotPlane, slotPlaneError: error(mean(sums.plane2), slotPlane) },
    ...{ back, backError: error(back, back) },
  };
}
