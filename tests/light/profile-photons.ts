import { coverOf, type LitProfile } from '../../src/light/profile.ts';
import type { LitSection } from '../../src/light/section.ts';
import { seeded } from './photons.ts';

/** What a photon meets: a straight edge with the room it came from on either side. */
interface Edge {
  readonly name: 'back' | 'sides' | 'front' | 'profile' | 'cover' | 'sheet' | 'reveal' | 'out' | 'wrap';
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly reflectance: number;
}

/** The section as edges, from its measures alone. */
function edgesOf(
  section: LitSection,
  profile: LitProfile,
): { edges: Edge[]; lamp: [number, number]; facing: [number, number] } {
  const { width_m: w, depth_m: d, reveal, sheet, reflectance, strip } = section;
  const [a, b, h, H] = [profile.inside_m / 2, profile.width_m / 2, profile.wallHeight_m, profile.height_m];
  const edges: Edge[] = [];
  const add = (name: Edge['name'], x0: number, y0: number, x1: number, y1: number, rho: number): void => {
    edges.push({ name, x0, y0, x1, y1, reflectance: rho });
  };
  const isSide = strip.mount === 'side';
  const middle = isSide ? d / 2 + strip.offset_m : w / 2 + strip.offset_m;
  /** A point so far along the face that carries the profile from its middle, and so far off it. */
  const at = (along: number, off: number): [number, number] =>
    isSide ? [off, middle + along] : [middle + along, off];
  const line = (name: Edge['name'], p: [number, number], q: [number, number], rho: number): void =>
    add(name, p[0], p[1], q[0], q[1], rho);
  line('profile', at(-a, H - h), at(a, H - h), profile.baseReflectance);
  for (const side of [-1, 1]) {
    line('profile', at(side * a, H - h), at(side * a, H), profile.wallReflectance);
    line('profile', at(side * a, H), at(side * b, H), profile.outsideReflectance);
    line('profile', at(side * b, H), at(side * b, 0), profile.outsideReflectance);
  }
  line('cover', at(-a, H), at(a, H), 0);
  const [s0, s1] = [
    w / 2 + section.slotOffset_m - section.slotWidth_m / 2,
    w / 2 + section.slotOffset_m + section.slotWidth_m / 2,
  ];
  const top = d + reveal.depth_m;
  add('back', 0, 0, w, 0, reflectance.back);
  add('front', 0, d, s0, d, reflectance.front);
  add('front', s1, d, w, d, reflectance.front);
  add(section.endless ? 'wrap' : 'sides', 0, 0, 0, d, reflectance.sides);
  add(section.endless ? 'wrap' : 'sides', w, 0, w, d, reflectance.sides);
  if (sheet) add('sheet', s0, d, s1, d, 0);
  if (reveal.depth_m > 0) for (const x of [s0, s1]) add('reveal', x, d, x, top, reveal.reflectance);
  add('out', s0, top, s1, top, 0);
  return { edges, lamp: at(0, H - h), facing: isSide ? [1, 0] : [0, 1] };
}

/** The profile by itself, its cover the end of everything. */
function alone(profile: LitProfile): ReturnType<typeof edgesOf> {
  const [a, h] = [profile.inside_m / 2, profile.wallHeight_m];
  const wall = { name: 'profile', reflectance: profile.wallReflectance } as const;
  return {
    edges: [
      { name: 'profile', x0: -a, y0: 0, x1: a, y1: 0, reflectance: profile.baseReflectance },
      { ...wall, x0: -a, y0: 0, x1: -a, y1: h },
      { ...wall, x0: a, y0: 0, x1: a, y1: h },
      { name: 'cover', x0: -a, y0: h, x1: a, y1: h, reflectance: 0 },
      { name: 'out', x0: -1, y0: h + 1e-6, x1: 1, y1: h + 1e-6, reflectance: 0 },
    ],
    lamp: [0, 0],
    facing: [0, 1],
  };
}

type Vector = [number, number, number];

/** Counted shares, each with its standard error. */
export interface ProfileCount {
  readonly share: (name: Edge['name']) => { readonly value: number; readonly error: number };
  /** First harmonic along the run of what falls on the middle of the cover from inside. */
  readonly harmonic: { readonly value: number; readonly error: number };
}

/**
 * Follows single photons in three dimensions through a section with a profile, or through a profile alone: an independent
 * way, with no facets, no direct exchange areas and no harmonics.
 */
export function countInProfile(section: LitSection, photonCount: number, seed: number): ProfileCount {
  const random = seeded(seed);
  const profile = section.profile!;
  const { transmittance, reflectance, straight } = coverOf(profile);
  const { edges, lamp, facing } =
    section.strip.mount === 'recessed' ? alone(profile) : edgesOf(section, profile);
  const exponent = -Math.LN2 / Math.log(Math.cos((section.strip.halfAngle_deg * Math.PI) / 180));
  const cover = edges.find(({ name }) => name === 'cover')!;
  const band_m = profile.inside_m / 16;
  const counts = new Map<string, number>();
  const harmonic = { hits: 0, sum: 0, squares: 0 };

  /** A direction about a normal in the section, `cosine^(power)` of it by intensity. */
  const about = ([nx, ny]: readonly [number, number], power: number): Vector => {
    const cosine = random() ** (1 / (power + 1));
    const sine = Math.sqrt(1 - cosine * cosine);
    const turn = 2 * Math.PI * random();
    const [u, v] = [sine * Math.cos(turn), sine * Math.sin(turn)];
    return [nx * cosine - ny * u, ny * cosine + nx * u, v];
  };

  const follow = (): string => {
    let [x, y] = lamp;
    let z = 0;
    let direction = about(facing, exponent);
    let last: Edge | null = null;
    for (;;) {
      const [dx, dy] = direction;
      let nearest = Number.POSITIVE_INFINITY;
      let met: Edge | null = null;
      for (const edge of edges) {
        if (edge === last) continue;
        const [ex, ey] = [edge.x1 - edge.x0, edge.y1 - edge.y0];
        const across = dx * ey - dy * ex;
        if (across === 0) continue;
        const t: number = ((edge.x0 - x) * ey - (edge.y0 - y) * ex) / across;
        const s = ((edge.x0 - x) * dy - (edge.y0 - y) * dx) / across;
        if (t > 1e-13 && s >= 0 && s <= 1 && t < nearest) [nearest, met] = [t, edge];
      }
      if (met === null) return 'lost';
      x += nearest * dx;
      y += nearest * dy;
      z += nearest * direction[2];
      last = met;
      if (met.name === 'out') return 'out';
      if (met.name === 'wrap') {
        x = met.x0 === 0 ? section.width_m : 0;
        last = edges.find(({ name, x0 }) => name === 'wrap' && x0 === x)!;
        continue;
      }
      const [ex, ey] = [met.x1 - met.x0, met.y1 - met.y0];
      const length = Math.hypot(ex, ey);
      // The normal towards where the photon came from.
      const side = dx * -ey + dy * ex > 0 ? -1 : 1;
      const normal: [number, number] = [(side * -ey) / length, (side * ex) / length];
      if (met === cover && dx * facing[0] + dy * facing[1] > 0) {
        const off = Math.hypot(x - (cover.x0 + cover.x1) / 2, y - (cover.y0 + cover.y1) / 2);
        if (off < band_m) {
          const wave = 2 * Math.cos((2 * Math.PI * z) / section.strip.lampPitch_m);
          harmonic.hits++;
          harmonic.sum += wave;
          harmonic.squares += wave * wave;
        }
      }
      const sheet = met.name === 'cover' ? { transmittance, reflectance, straight } : null;
      const other = met.name === 'sheet' ? { ...section.sheet!, straight: 0 } : sheet;
      const fate = random();
      if (other === null) {
        if (fate > met.reflectance) return met.name;
        direction = about(normal, 1);
      } else if (fate < other.transmittance * other.straight) continue;
      else if (fate < other.transmittance) direction = about([-normal[0], -normal[1]], 1);
      else if (fate < other.transmittance + other.reflectance) direction = about(normal, 1);
      else return met.name;
    }
  };

  for (let i = 0; i < photonCount; i++) {
    const end = follow();
    counts.set(end, (counts.get(end) ?? 0) + 1);
  }
  const mean = harmonic.sum / harmonic.hits;
  return {
    share: (name) => {
      const value = (counts.get(name) ?? 0) / photonCount;
      return { value, error: Math.sqrt((value * (1 - value)) / photonCount) };
    },
    harmonic: {
      value: mean,
      error: Math.sqrt((harmonic.squares / harmonic.hits - mean * mean) / harmonic.hits),
    },
  };
}
