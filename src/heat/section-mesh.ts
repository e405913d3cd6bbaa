import { type Break, gradedLines } from './mesh.ts';
import { cableClearance_m } from './section-answers.ts';
import { overallDepth_m, type SectionDescription } from './section-description.ts';
import type { SectionGeometry } from './section-geometry.ts';

/** Cells beside the ends of the strip, where temperatures bend most, and beside every other edge. */
const finest_m = { strip: 0.0006, edge: 0.0025 };

const within = (breaks: readonly Break[], low: number, high: number): Break[] =>
  breaks.filter(({ at }) => at >= low - 1e-9 && at <= high + 1e-9);

/** The first mesh of a section: a line on every interface, fine at the strip, a few cells per layer. */
export function firstLines(
  section: SectionDescription,
  geometry: SectionGeometry,
): { readonly xs: Float64Array; readonly ys: Float64Array } {
  const { strip, carrier, rectangles, films } = geometry;
  const edges = (positions: readonly number[], length_m: number): Break[] =>
    positions.map((at) => ({ at, finest_m: length_m }));
  const boxes = [...rectangles, ...films];
  const held = carrier ?? strip;
  const clear = [-cableClearance_m, cableClearance_m];
  // A line through the middle of the strip, so that its peak is not read between two lines.
  const middle = (a: number, b: number): number => (a + b) / 2;
  const xs = [
    ...edges(
      boxes.flatMap((b) => [b.x0, b.x1]),
      finest_m.edge,
    ),
    ...edges([strip.x0, strip.x1, held.x0, held.x1], finest_m.strip),
    ...edges([held.x0 + clear[0]!, held.x1 + clear[1]!, middle(strip.x0, strip.x1)], finest_m.edge),
  ];
  const ys = [
    ...edges(
      boxes.flatMap((b) => [b.y0, b.y1]),
      finest_m.edge,
    ),
    ...edges([strip.y0, strip.y1, held.y0, held.y1], finest_m.strip),
    ...edges([held.y0 + clear[0]!, held.y1 + clear[1]!, middle(strip.y0, strip.y1)], finest_m.edge),
  ];
  const depth_m = overallDepth_m(section);
  return {
    xs: gradedLines(within(xs, geometry.x0, geometry.x1), { growth: 1.8, coarsest_m: section.pitch_m / 8 }),
    ys: gradedLines(within(ys, 0, depth_m), { growth: 1.8, coarsest_m: depth_m / 6 }),
  };
}
