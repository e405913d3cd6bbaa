import { mostSlots, type Segment } from '../../src/job/slots.ts';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import { type DrawingIssue, drawingIssue } from './issues.ts';

/** Something that did not become a slot. */
export interface Ignored {
  readonly what: string;
  readonly layer: string;
  readonly why: string;
  readonly count: number;
}

/** A layer of a drawing and what is on it. */
export interface LayerRead {
  readonly name: string;
  readonly lineCount: number;
  readonly polylineCount: number;
  readonly otherCount: number;
}

/** Slots read from a drawing or a table, and everything that was left out. */
export interface SlotsRead {
  /** Null until a layer is chosen, and for a table. */
  readonly layer: string | null;
  readonly layers: readonly LayerRead[];
  /** What a unit of the drawing is, in words. */
  readonly unit: string;
  readonly segments: readonly Segment[];
  /** The width of the rectangles, where all have the same. */
  readonly width_mm: number | null;
  readonly ignored: readonly Ignored[];
  readonly notes: readonly string[];
}

/** Coordinates a job takes, mm from the panel's lower left corner. */
const range_mm = { least: 0, most: 30_000 } as const;

const names = ['x0_mm', 'y0_mm', 'x1_mm', 'y1_mm'] as const;

/** Nothing that is built lies further than this from the origin of its drawing, mm. */
const furthest_mm = 1e9;

const isAbsurd = (segment: Segment): boolean =>
  names.some((name) => !(Math.abs(segment[name]) <= furthest_mm));

/** Whole millionths of a millimetre: what units and halves of rectangles leave beyond them is no part of a drawing. */
const settled = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;

function settledSegment({ x0_mm, y0_mm, x1_mm, y1_mm, ...width }: Segment): Segment {
  return {
    ...width,
    x0_mm: settled(x0_mm),
    y0_mm: settled(y0_mm),
    x1_mm: settled(x1_mm),
    y1_mm: settled(y1_mm),
  };
}

const outside = (segment: Segment): boolean =>
  names.some((name) => segment[name] < range_mm.least || segment[name] > range_mm.most);

/** The segments, if a job can hold them all. Refuses too many, and any that lie left of or below the corner. */
export function holdable(segments: readonly Segment[]): Outcome<Segment[], DrawingIssue> {
  const slots = segments.map(settledSegment);
  if (slots.length > mostSlots) {
    const sentence = `There are ${slots.length} slots; a job holds at most ${mostSlots}: choose another layer, or split the wall into several jobs.`;
    return refused(drawingIssue('too-many-slots', sentence, { slotCount: slots.length, mostSlots }));
  }
  const absurdCount = slots.filter(isAbsurd).length;
  if (absurdCount > 0) {
    const sentence = `${absurdCount} of ${slots.length} slots lie more than 1,000 km from the panel: the file is damaged, or in another unit; save the drawing again and look at it.`;
    return refused(drawingIssue('broken-file', sentence, { absurdCount }));
  }
  const wrong = slots.filter(outside);
  if (wrong.length === 0) return found(slots);
  const least = (a: 'x0_mm' | 'y0_mm', b: 'x1_mm' | 'y1_mm'): number =>
    Math.min(...slots.flatMap((segment) => [segment[a], segment[b]]));
  const [x_mm, y_mm] = [least('x0_mm', 'x1_mm'), least('y0_mm', 'y1_mm')];
  const sentence = `${wrong.length} of ${slots.length} slots lie outside 0 to 30,000 mm from the panel's lower left corner (the lowest are at x ${x_mm.toFixed(1)}, y ${y_mm.toFixed(1)} mm): move the drawing so that the corner lies at 0, 0, or say where the corner is.`;
  return refused(drawingIssue('outside-range', sentence, { outsideCount: wrong.length, x_mm, y_mm }));
}
