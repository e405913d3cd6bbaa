import type { Segment } from './conduction.ts';
import { type Break, gradedLines } from './mesh.ts';
import { cableClearance_m } from './section-answers.ts';
import { overallDepth_m, type SectionDescription } from './section-description.ts';
import type { SectionGeometry } from './section-geometry.ts';

/**
 * Cells beside the ends of the strip and the inner corners of the slot, where temperatures bend most, at a sheet, and
 * beside every other edge.
 */
const finest_m = { strip: 0.0008, slot: 0.0008, sheet: 0.0015, edge: 0.004 };

/** How much longer each cell is than the one before. */
const growth = 2.2;

/** Along the panel no first cell is longer: timber carries heat about this far before it has left by the face. */
const longestCell_m = 0.012;

/** Start and end of something along one axis. */
type Extent = readonly [number, number];

/** Breaks along one axis: every edge, finer at sheet, slot, strip and carrier, and where a cable may begin. */
function breaksAlong(
  geometry: SectionGeometry,
  extent: (box: Segment) => Extent,
  low: number,
  high: number,
): Break[] {
  const { strip, carrier, slot, rectangles, films } = geometry;
  const edges = (boxes: readonly Segment[], length_m: number): Break[] =>
    boxes.flatMap(extent).map((at) => ({ at, finest_m: length_m }));
  const [start, end] = extent(strip);
  const [heldFrom, heldTo] = extent(carrier ?? strip);
  // A line through the middle of the strip, so that its peak is not read between two lines.
  const others = [heldFrom - cableClearance_m, heldTo + cableClearance_m, (start + end) / 2];
  const breaks = [
    ...edges([...rectangles, ...films], finest_m.edge),
    ...edges(
      rectangles.filter((r) => r.name === 'sheet'),
      finest_m.sheet,
    ),
    ...edges(slot === null ? [] : [slot], finest_m.slot),
    ...edges(carrier === null ? [strip] : [strip, carrier], finest_m.strip),
    ...others.map((at) => ({ at, finest_m: finest_m.edge })),
  ];
  return breaks.filter(({ at }) => at >= low - 1e-9 && at <= high + 1e-9);
}

/** The first mesh of a section: a line on every interface, fine at the strip, a few cells per layer. */
export function firstLines(
  section: SectionDescription,
  geometry: SectionGeometry,
): { readonly xs: Float64Array; readonly ys: Float64Array } {
  const depth_m = overallDepth_m(section);
  const xs = breaksAlong(geometry, (box) => [box.x0, box.x1], geometry.x0, geometry.x1);
  const ys = breaksAlong(geometry, (box) => [box.y0, box.y1], 0, depth_m);
  return {
    xs: gradedLines(xs, { growth, coarsest_m: longestCell_m }),
    ys: gradedLines(ys, { growth, coarsest_m: depth_m / 6 }),
  };
}
