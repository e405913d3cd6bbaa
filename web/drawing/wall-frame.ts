import type { Cable } from '../../src/answer/cables.ts';
import type { Job } from '../../src/job/job.ts';

/** The piece as far as its frame goes; a wall without an answer has no cables. */
export interface FramedWall {
  readonly job: Job;
  readonly cables: readonly Cable[];
}

/** Places the piece on the drawing: millimetres from the panel's lower left corner become drawing units. */
export interface WallFrame {
  readonly width: number;
  readonly height: number;
  /** Drawing units for one millimetre. */
  readonly scale: number;
  /** Left edge of everything that is drawn to scale, in drawing units. */
  readonly left: number;
  readonly x: (x_mm: number) => number;
  readonly y: (y_mm: number) => number;
}

interface Extent {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

/** Room round the piece for dimensions and numbers, in drawing units. */
const edge = { left: 58, right: 22, top: 46, bottom: 58 };

/** One row of dimensions more, for the panels. */
const panelsRow = 22;

/** What has to be on the drawing: the panel, the driver places and every cable. */
function extentOf({ job, cables }: FramedWall): Extent {
  const places = job.drivers.places;
  const points = cables.flatMap((cable) => cable.route);
  const xs = [0, job.panel.width_mm, ...points.map((point) => point.x_mm)];
  const ys = [0, job.panel.height_mm, ...points.map((point) => point.y_mm)];
  return {
    left: Math.min(...xs, ...places.map((place) => place.x_mm)),
    right: Math.max(...xs, ...places.map((place) => place.x_mm + place.width_mm)),
    low: Math.min(...ys, ...places.map((place) => place.y_mm)),
    high: Math.max(...ys, ...places.map((place) => place.y_mm + place.height_mm)),
  };
}

interface Paper {
  readonly width: number;
  readonly highest: number;
}

/** The largest frame that shows the whole piece to scale on this much paper. */
export function wallFrame(wall: FramedWall, paper: Paper): WallFrame {
  const extent = extentOf(wall);
  const across_mm = extent.right - extent.left;
  const up_mm = extent.high - extent.low;
  const bottom = edge.bottom + (wall.job.panels.length > 0 ? panelsRow : 0);
  const across = Math.max(80, paper.width - edge.left - edge.right);
  const scale = Math.min(across / across_mm, Math.max(80, paper.highest - edge.top - bottom) / up_mm);
  const inset = edge.left + (across - across_mm * scale) / 2;
  return {
    width: paper.width,
    height: up_mm * scale + edge.top + bottom,
    scale,
    left: inset,
    x: (x_mm) => inset + (x_mm - extent.left) * scale,
    y: (y_mm) => edge.top + (extent.high - y_mm) * scale,
  };
}
