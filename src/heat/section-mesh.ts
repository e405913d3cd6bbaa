import type { Segment } from './conduction.ts';
import { type Break, gradedLines, type MeshLines } from './mesh.ts';
import { cableClearance_m } from './section-answers.ts';
import { mountedBox, type SectionGeometry } from './section-geometry.ts';

/**
 * Cells beside the ends of the strip and the inner corners of the slot, where temperatures bend most, at a sheet, at the
 * edges of a profile, and beside every other edge.
 */
const finest_m = { strip: 0.0008, slot: 0.0008, sheet: 0.0015, profile: 0.001, edge: 0.004 };

/** How much longer each cell is than the one before. */
const growth = 2.2;

/** Along the panel no first cell is longer: timber carries heat about this far before it has left by the face. */
const longestCell_m = 0.012;

/** Start and end of something along one axis. */
type Extent = (box: Segment) => readonly [number, number];

const across: Extent = (box) => [box.x0, box.x1];
const inwards: Extent = (box) => [box.y0, box.y1];

/**
 * Where along one axis a cable may begin to lie on the cavity's walls, `sqrt(clearance^2 - gap^2)` from the ends of strip
 * or carrier: between two lines the warmest place for it would move with every mesh.
 */
function cableEnds(geometry: SectionGeometry, along: Extent): number[] {
  const { cavity, battenLeft, battenRight } = geometry;
  const box = mountedBox(geometry);
  const sides = [...(battenLeft ? [cavity.x0] : []), ...(battenRight ? [cavity.x1] : [])];
  const [walls, other] = along === across ? [[cavity.y0, cavity.y1], inwards] : [sides, across];
  const [low, high] = other(box);
  const [from, to] = along(box);
  return walls.flatMap((wall) => {
    const gap = Math.max(0, low - wall, wall - high);
    const reach = Math.sqrt(Math.max(0, cableClearance_m ** 2 - gap ** 2));
    return reach === 0 ? [] : [from - reach, to + reach];
  });
}

/** Breaks along one axis: every edge, finer at sheet, slot, strip and carrier, and where a cable may begin. */
function breaksAlong(geometry: SectionGeometry, extent: Extent, low: number, high: number): Break[] {
  const { strip, carrier, slot, rectangles, films } = geometry;
  const edges = (boxes: readonly Segment[], length_m: number): Break[] =>
    boxes.flatMap(extent).map((at) => ({ at, finest_m: length_m }));
  const [start, end] = extent(strip);
  // A line through the middle of the strip, so that its peak is not read between two lines.
  const others = [...cableEnds(geometry, extent), (start + end) / 2];
  const breaks = [
    ...edges([...rectangles, ...films], finest_m.edge),
    ...edges(
      rectangles.filter((r) => r.name === 'sheet'),
      finest_m.sheet,
    ),
    ...edges(
      rectangles.filter((r) => r.isBody === true),
      finest_m.profile,
    ),
    ...edges(slot === null ? [] : [slot], finest_m.slot),
    ...edges(carrier === null ? [strip] : [strip, carrier], finest_m.strip),
    ...others.map((at) => ({ at, finest_m: finest_m.edge })),
  ];
  return breaks.filter(({ at }) => at >= low - 1e-9 && at <= high + 1e-9);
}

/** The first mesh of a section: a line on every interface, fine at the strip, a few cells per layer. */
export function firstLines(geometry: SectionGeometry): MeshLines {
  const depth_m = Math.max(...geometry.rectangles.map(({ y1 }) => y1));
  const xs = breaksAlong(geometry, across, geometry.x0, geometry.x1);
  const ys = breaksAlong(geometry, inwards, 0, depth_m);
  return {
    xs: gradedLines(xs, { growth, coarsest_m: longestCell_m }),
    ys: gradedLines(ys, { growth, coarsest_m: depth_m / 6 }),
  };
}
