import { type Extents, extentsOf, type Mark, type Point, placed } from '../ink/mark.ts';

/** A drawing in millimetres of the piece, made for one scale: its lettering is sized for the paper. */
export interface Drawing {
  readonly marks: readonly Mark[];
  /** Millimetres of the piece to one of the paper. */
  readonly perPaper: number;
}

/**
 * Scales as millimetres of the piece to one of the paper, largest drawing first: those ISO 5455 prefers, and between
 * 1:10 and 1:50 those common on joiners' drawings, which it allows where the preferred leave a sheet half empty
 * (from memory).
 */
export const scales = [0.2, 0.5, 1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 100, 200, 500] as const;

/** Such as 1:20, or 2:1 for an enlargement. */
export function scaleText(perPaper: number): string {
  return perPaper < 1 ? `${1 / perPaper}:1` : `1:${perPaper}`;
}

const size = ({ x0, y0, x1, y1 }: Extents): { width: number; height: number } => ({
  width: x1 - x0,
  height: y1 - y0,
});

function fits(drawing: Drawing, box: Extents): boolean {
  const drawn = size(extentsOf(drawing.marks));
  const room = size(box);
  return drawn.width / drawing.perPaper <= room.width && drawn.height / drawing.perPaper <= room.height;
}

/**
 * The drawing at the largest standard scale at which it fits a box; the smallest scale if none does. Lettering takes the
 * least of the piece at the largest scale, so that what even that drawing does not fit need not be drawn.
 */
export function largestThatFits(draw: (perPaper: number) => Drawing, box: Extents): Drawing {
  const largest = draw(scales[0]);
  if (fits(largest, box)) return largest;
  const [least, room] = [size(extentsOf(largest.marks)), size(box)];
  const bound = Math.max(least.width / room.width, least.height / room.height);
  for (const perPaper of scales.slice(1).filter((each) => each >= bound)) {
    const drawing = draw(perPaper);
    if (fits(drawing, box)) return drawing;
  }
  return draw(scales.at(-1)!);
}

/** The marks of a drawing in millimetres of the paper, in the middle of a box. */
export function centred({ marks, perPaper }: Drawing, box: Extents): Mark[] {
  const { x0, y0, x1, y1 } = extentsOf(marks);
  const shift: Point = [
    (box.x0 + box.x1) / 2 - (x0 + x1) / 2 / perPaper,
    (box.y0 + box.y1) / 2 - (y0 + y1) / 2 / perPaper,
  ];
  return placed(marks, 1 / perPaper, shift);
}
