import { type Film, nodesAlong, type Segment } from './conduction.ts';
import type { BalancedLevel, SectionLevel } from './section-balance.ts';
import { meanAir_K, meanFaces_K } from './section-balance.ts';
import type { SectionGeometry } from './section-geometry.ts';

/** A temperature and where in the section it is; in a half section also at its mirror image. */
export interface Spot {
  readonly temperature_K: number;
  readonly x_m: number;
  readonly y_m: number;
}

/** Temperatures of a section by named place. */
export interface SectionTemperatures {
  readonly strip: { readonly mean_K: number; readonly peak: Spot };
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

function spotsAlong(solved: BalancedLevel, segment: Segment, onStrip = false): Spot[] {
  const { level, temperature_K } = solved;
  return nodesAlong(level.network, segment, onStrip).map(({ node, crossing }) =>
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
function peakAlong(solved: BalancedLevel, segment: Segment, onStrip = false): Spot {
  const spots = spotsAlong(solved, segment, onStrip);
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

function stripTemperatures(solved: BalancedLevel): SectionTemperatures['strip'] {
  const along = nodesAlong(solved.level.network, solved.level.geometry.strip, true);
  const length = along.reduce((sum, n) => sum + n.length_m, 0);
  const weighted = along.reduce((sum, n) => sum + n.length_m * solved.temperature_K[n.node]!, 0);
  return { mean_K: weighted / length, peak: peakAlong(solved, solved.level.geometry.strip, true) };
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
  return hottest(films.filter((film) => names.includes(film.name)).map((film) => peakAlong(solved, film)));
}

/** Whether a point is clear of strip and carrier by what a cable is kept away. */
function clearOfStrip(geometry: SectionGeometry, x: number, y: number): boolean {
  const box = geometry.carrier ?? geometry.strip;
  const gap = (at: number, a: number, b: number): number =>
    Math.max(0, Math.min(a, b) - at, at - Math.max(a, b));
  return Math.hypot(gap(x, box.x0, box.x1), gap(y, box.y0, box.y1)) >= cableClearance_m - 1e-6;
}

function cableSpot(solved: BalancedLevel, otherwise: Spot): Spot {
  const { level } = solved;
  const spots = level.radiation.pieces
    .filter(({ kind }) => kind !== 'strip' && kind !== 'opening')
    .flatMap(({ surface }) => spotsAlong(solved, surface));
  return hottest(spots.filter((spot) => clearOfStrip(level.geometry, spot.x_m, spot.y_m))) ?? otherwise;
}

/** Reads the named places off a balanced level. @param lampRise_K the single lamp's rise over the strip */
export function temperaturesOf(solved: BalancedLevel, lampRise_K: number): SectionTemperatures {
  const { level, temperature_K } = solved;
  const { geometry, network } = level;
  const strip = stripTemperatures(solved);
  const bottom = network.mesh.ys.at(-1)!;
  const back: Segment = { x0: geometry.x0, x1: geometry.x1, y0: bottom, y1: bottom };
  const faces = meanFaces_K(level.radiation, temperature_K, level.section.room_K);
  return {
    strip,
    solderPoint_K: strip.peak.temperature_K + lampRise_K,
    hottestTimber: timberPeak(solved),
    glueLine: hottest(geometry.glueLines.map((line) => peakAlong(solved, line))),
    backOfBacking: peakAlong(solved, back),
    roomFace: filmPeak(solved, ['front', 'jambs'])!,
    sheet: filmPeak(solved, ['sheet']),
    cable: cableSpot(solved, strip.peak),
    cavityAir_K: meanAir_K(network, temperature_K),
    backingFaceMean_K: faces.backing_K,
    frontFaceMean_K: faces.front_K,
  };
}
