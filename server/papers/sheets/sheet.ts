import type { Extents, Mark } from '../ink/mark.ts';
import type { Paper } from '../ink/svg.ts';

/** Sheets lie on their long side. ISO 216 sizes. */
export const formats = {
  A4: { width_mm: 297, height_mm: 210 },
  A3: { width_mm: 420, height_mm: 297 },
} as const satisfies Record<string, Paper>;

export type Format = keyof typeof formats;

/** Height of a row of the title block: two on a sheet with a drawing, one on a sheet of a list. */
export const titleRow_mm = 10;

/** What a sheet carries; lists have a title block of one row, and more room. */
export type Carries = 'drawing' | 'list';

/** The frame of a sheet: 20 mm of filing margin on the left, 10 mm elsewhere (ISO 5457). */
export function frameOf(format: Format): Extents {
  const { width_mm, height_mm } = formats[format];
  return { x0: 20, y0: 10, x1: width_mm - 10, y1: height_mm - 10 };
}

/** Height of the title block along the lower edge. */
export const titleBlockOf = (carries: Carries): number => (carries === 'list' ? 1 : 2) * titleRow_mm;

/** Where the content of a sheet goes: inside the frame, above the title block, with some air. */
export function bodyOf(format: Format, carries: Carries = 'drawing'): Extents {
  const frame = frameOf(format);
  const air = carries === 'list' ? 2.5 : 4;
  return {
    x0: frame.x0 + 4,
    y0: frame.y0 + titleBlockOf(carries) + 2.5,
    x1: frame.x1 - 3,
    y1: frame.y1 - air,
  };
}

/** A sheet before it has its frame, its title block and its number. */
export interface Draft {
  /** What stands on it; the contents on the cover list each with its first sheet. */
  readonly titles: readonly string[];
  /** Millimetres of the piece to one of the paper, such as 20 for 1:20; 0 where nothing is drawn to scale. */
  readonly perPaper: number;
  readonly marks: readonly Mark[];
  /** Left out for a drawing. */
  readonly carries?: Carries;
}

/** A finished sheet. */
export interface Sheet extends Paper, Draft {
  readonly frame: Extents;
}
