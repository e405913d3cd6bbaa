import { type Film, nodesAlong, type Segment, type Side } from './conduction.ts';
import { innerAirOf, innerRayleigh, meanAlong_K, meanOver_K } from './inner-air.ts';
import type { BalancedLevel, SectionLevel } from './section-balance.ts';
import { leastContact_m2K_per_W, meanAir_K, meanFaces_K } from './section-balance.ts';
import { mountedBox, type SectionGeometry } from './section-geometry.ts';

/** A temperature and where in the section it is; in a half section also at its mirror image. */
export interface Spot {
  readonly temperature_K: number;
  readonly x_m: number;
  readonly y_m: number;
}

/** A face by its mean and its hottest point. */
export interface FaceTemperatures {
  readonly mean_K: number;
  readonly peak: Spot;
}

/** Temperatures of a profile. */
export interface ProfileTemperatures {
  /** Of base and walls over their area. */
  readonly mean_K: number;
  /** The cover's inner face between the walls, and its outer one over its full width; null without a cover. */
  readonly coverInside: FaceTemperatures | null;
  readonly coverOutside: FaceTemperatures | null;
  /** Of the air between the walls. */
  readonly air_K: number;
  /** Of that air under a cover, over the height of the walls; null without a cover. */
  readonly rayleigh: number | null;
  /** Heat across the contact with timber, from the profile into it. */
  readonly contact_W_per_m: number;
}

/** Temperatures of a section by named place. */
export interface SectionTemperatures {
  readonly strip: FaceTemperatures;
  /** The strip's peak and the single lamp's own rise over it. */
  readonly solderPoint_K: number;
  /** Hottest point of front, backing and battens. */
  readonly hottestTimber: Spot;
  /** Hottest point of the joints between battens and front or backing; null without battens. */
  readonly glueLine: Spot | null;
  readonly backOfBacking: Spot;
  /** Hottest point of front and jambs that a hand can reach from the room. */
  readonly roomFace: Spot;
  /** Hottest point of the sheet's room side; null without a sheet. */
  readonly sheet: Spot | null;
  /** Null without a profile. */
  readonly profile: ProfileTemperatures | null;
  /** Hottest face of the cavity 10 mm or more clear of strip and carrier, where a cable may lie. */
  readonly cable: Spot;
  readonly cavityAir_K: number;
  readonly backingFaceMean_K: number;
  readonly frontFaceMean_K: number;
}

/** A cable is kept this far from the strip and its carrier (judgement: one cable's width). */
export const cableClearance_m = 0.01;

type Positioned = { readonly x_m: number; readonly y_m: number; readonly temperature_K: number };

function hottest(spots: readonly Positioned[]): Spot | null {
  return spots.reduce<Spot | null>(
    (best, spot) => (best === null || spot.temperature_K > best.temperature_K ? spot : best),
    null,
  );
}

function crossingSpot(level: SectionLevel, crossing: number, temperature_K: number): Spot {
  const { xs, ys } = level.network.mesh;
  return { temperature_K, x_m: xs[crossing % xs.length]!, y_m: ys[Math.floor(crossing / xs.length)]! };
}

function spotsAlong(solved: BalancedLevel, segment: Segment, side?: Side): Spot[] {
  const { level, temperature_K } = solved;
  return nodesAlong(level.network, segment, side).map(({ node, crossing }) =>
    crossingSpot(level, crossing, temperature_K[node]!),
  );
}

/**
 * Where the parabola through three points on a line is highest, from the middle one, which is the hottest: `-g/(2c)`,
 * by `-g^2/(4c)`, g its slope there and c half its bend. Between nodes a peak would hop from mesh to mesh.
 * @param left, right temperature less the middle one's, neither above 0; @param before_m, after_m how far off, above 0
 */
function crest(
  left: number,
  before_m: number,
  right: number,
  after_m: number,
): { at_m: number; by_K: number } {
  const [rising, falling] = [-left / before_m, right / after_m];
  const bend = (falling - rising) / (before_m + after_m);
  if (bend === 0) return { at_m: 0, by_K: 0 };
  const slope = (rising * after_m + falling * before_m) / (before_m + after_m);
  return { at_m: -slope / (2 * bend), by_K: -(slope ** 2) / (4 * bend) };
}

/** Hottest point of a segment, between its nodes if need be. */
function peakAlong(solved: BalancedLevel, segment: Segment, side?: Side): Spot {
  const spots = spotsAlong(solved, segment, side);
  const top = hottest(spots)!;
  const k = spots.indexOf(top);
  const [before, after] = [spots[k - 1], spots[k + 1]];
  if (before === undefined || after === undefined) return top;
  const gap = (a: Spot, b: Spot): number => b.x_m - a.x_m + b.y_m - a.y_m;
  const { at_m, by_K } = crest(
    before.temperature_K - top.temperature_K,
    gap(before, top),
    after.temperature_K - top.temperature_K,
    gap(top, after),
  );
  const level = segment.y0 === segment.y1;
  return {
    temperature_K: top.temperature_K + by_K,
    x_m: top.x_m + (level ? at_m : 0),
    y_m: top.y_m + (level ? 0 : at_m),
  };
}

/** Mean and peak along a face. */
function faceTemperatures(solved: BalancedLevel, segment: Segment, side?: Side): FaceTemperatures {
  const along = nodesAlong(solved.level.network, segment, side);
  return { mean_K: meanAlong_K(along, solved.temperature_K), peak: peakAlong(solved, segment, side) };
}

/** Area of base and walls round each node. */
function metalArea_m2({ network }: SectionLevel): Float64Array {
  const { mesh, from, to } = network;
  const area_m2 = new Float64Array(network.nodeCount);
  const isMetal = mesh.rectangles.map(({ name }) => name === 'profile base' || name === 'profile wall');
  const across = mesh.xs.length - 1;
  const cells = [...mesh.owner.entries()].filter(([, index]) => index >= 0);
  for (const [k, [cell, index]] of cells.entries()) {
    if (!isMetal[index]) continue;
    const [i, j] = [cell % across, Math.floor(cell / across)];
    const area = (mesh.xs[i + 1]! - mesh.xs[i]!) * (mesh.ys[j + 1]! - mesh.ys[j]!);
    // The first two edges of a cell are its two level ones: between them all four corners.
    for (const node of [from[4 * k]!, to[4 * k]!, from[4 * k + 1]!, to[4 * k + 1]!])
      area_m2[node]! += area / 4;
  }
  return area_m2;
}

function contact_W_per_m({ level, temperature_K }: BalancedLevel): number {
  const { network, geometry, section } = level;
  const flows = geometry.profile!.contacts.flatMap((line) =>
    nodesAlong(network, line).map(({ node, crossing, length_m }) => {
      const far = network.slitNode[crossing]!;
      return length_m * (temperature_K[far]! - temperature_K[node]!);
    }),
  );
  const sum = flows.reduce((total, flow) => total + flow, 0);
  return (
    ((geometry.half ? 2 : 1) * sum) /
    Math.max(section.strip.profile!.contact_m2K_per_W, leastContact_m2K_per_W)
  );
}

/** The cover's outer face, of a profile in the slot or in the cavity. */
function coverOutside({ geometry, radiation }: SectionLevel): Segment | undefined {
  const film = geometry.films.find(({ name }) => name === 'cover');
  return film ?? radiation.pieces.find(({ kind }) => kind === 'profile face')?.surface;
}

function profileTemperatures(solved: BalancedLevel): ProfileTemperatures | null {
  const { level, temperature_K } = solved;
  const { geometry, network, inside, section } = level;
  if (geometry.profile === null) return null;
  const { profile } = section.strip;
  const within = inside?.pieces.find(({ kind }) => kind === 'cover inside')?.surface;
  const inner = innerAirOf(level, temperature_K)!;
  const { strip_K, far_K } = inner;
  return {
    mean_K: meanOver_K(metalArea_m2(level), temperature_K),
    coverInside: within ? faceTemperatures(solved, within) : null,
    coverOutside: within ? faceTemperatures(solved, coverOutside(level)!, 'far') : null,
    air_K: meanOver_K(network.innerArea_m2, temperature_K),
    rayleigh: within && far_K !== null ? innerRayleigh({ strip_K, far_K }, profile!.wallHeight_m) : null,
    contact_W_per_m: contact_W_per_m(solved),
  };
}

const timberParts = new Set(['front', 'backing', 'batten']);

/** Crossings that are on timber. */
function timberCrossings({ network }: SectionLevel): Set<number> {
  const { xs, owner, rectangles } = network.mesh;
  const nx = xs.length;
  const crossings = new Set<number>();
  for (const [cell, index] of owner.entries()) {
    if (index < 0 || !timberParts.has(rectangles[index]!.name)) continue;
    const at = Math.floor(cell / (nx - 1)) * nx + (cell % (nx - 1));
    for (const crossing of [at, at + 1, at + nx, at + nx + 1]) crossings.add(crossing);
  }
  return crossings;
}

/** Hottest point of the timber, between its crossings on either axis if need be. */
function timberPeak({ level, temperature_K }: BalancedLevel): Spot {
  const timber = timberCrossings(level);
  const { xs, ys } = level.network.mesh;
  const nodeAt = (crossing: number): number => temperature_K[level.network.node[crossing]!]!;
  let top = -1;
  for (const crossing of timber) if (top < 0 || nodeAt(crossing) > nodeAt(top)) top = crossing;
  const along = (lines: Float64Array, line: number, step: number): { at_m: number; by_K: number } => {
    const inside = line > 0 && line < lines.length - 1 && timber.has(top - step) && timber.has(top + step);
    if (!inside) return { at_m: 0, by_K: 0 };
    const [left, right] = [nodeAt(top - step) - nodeAt(top), nodeAt(top + step) - nodeAt(top)];
    return crest(left, lines[line]! - lines[line - 1]!, right, lines[line + 1]! - lines[line]!);
  };
  const [i, j] = [top % xs.length, Math.floor(top / xs.length)];
  const [x, y] = [along(xs, i, 1), along(ys, j, xs.length)];
  return { temperature_K: nodeAt(top) + x.by_K + y.by_K, x_m: xs[i]! + x.at_m, y_m: ys[j]! + y.at_m };
}

function filmPeak(solved: BalancedLevel, names: readonly string[]): Spot | null {
  const films: readonly Film[] = solved.level.geometry.films;
  return hottest(
    films.filter((film) => names.includes(film.name)).map((film) => peakAlong(solved, film, film.side)),
  );
}

/** Whether a point is clear of strip and carrier by what a cable is kept away. */
function clearOfStrip(geometry: SectionGeometry, x: number, y: number): boolean {
  const box = mountedBox(geometry);
  const gap = (at: number, a: number, b: number): number =>
    Math.max(0, Math.min(a, b) - at, at - Math.max(a, b));
  return Math.hypot(gap(x, box.x0, box.x1), gap(y, box.y0, box.y1)) >= cableClearance_m - 1e-6;
}

function cableSpot(solved: BalancedLevel, otherwise: Spot): Spot {
  const { level } = solved;
  const spots = level.radiation.pieces
    .filter(({ kind }) => kind !== 'strip' && kind !== 'opening')
    .flatMap(({ surface, side }) => spotsAlong(solved, surface, side));
  return hottest(spots.filter((spot) => clearOfStrip(level.geometry, spot.x_m, spot.y_m))) ?? otherwise;
}

/** Reads the named places off a balanced level. @param lampRise_K the single lamp's rise over the strip */
export function temperaturesOf(solved: BalancedLevel, lampRise_K: number): SectionTemperatures {
  const { level, temperature_K } = solved;
  const { geometry, network } = level;
  const strip = faceTemperatures(solved, geometry.strip, 'far');
  const bottom = network.mesh.ys.at(-1)!;
  const back: Segment = { x0: geometry.x0, x1: geometry.x1, y0: bottom, y1: bottom };
  const faces = meanFaces_K(level.radiation, temperature_K, level.section.room_K);
  return {
    strip,
    solderPoint_K: strip.peak.temperature_K + lampRise_K,
    hottestTimber: timberPeak(solved),
    glueLine: hottest(geometry.glueLines.map((line) => peakAlong(solved, line))),
    backOfBacking: peakAlong(solved, back),
    roomFace: filmPeak(solved, ['front', 'jambs', 'cover', 'profile'])!,
    sheet: filmPeak(solved, ['sheet']),
    profile: profileTemperatures(solved),
    cable: cableSpot(solved, strip.peak),
    cavityAir_K: meanAir_K(level, temperature_K),
    backingFaceMean_K: faces.backing_K,
    frontFaceMean_K: faces.front_K,
  };
}
