import type { Job } from '../../../src/index.ts';
import { corners, lettering, line, type Mark, outline } from '../ink/mark.ts';
import { shown } from '../shown.ts';

const em_mm = 2.5;

function openingMarks(opening: Job['openings'][number], perPaper: number): Mark[] {
  const { x_mm, y_mm, width_mm, height_mm } = opening;
  const box = { x0: x_mm, y0: y_mm, x1: x_mm + width_mm, y1: y_mm + height_mm };
  const [lowerLeft, lowerRight, upperRight, upperLeft] = corners(box);
  const isKeepOut = opening.kind === 'keep-out';
  const middle = x_mm + width_mm / 2;
  const words = [
    opening.name,
    `${shown(width_mm, 0)} x ${shown(height_mm, 0)}`,
    `corner at x ${shown(x_mm, 0)}, y ${shown(y_mm, 0)}`,
  ].filter((text) => text !== '');
  const em = em_mm * perPaper;
  return [
    outline(isKeepOut ? 'KEEP_OUTS' : 'OPENINGS', ...corners(box)),
    line('OPENING_DIAGONALS', lowerLeft, upperRight),
    ...(isKeepOut ? [] : [line('OPENING_DIAGONALS', lowerRight, upperLeft)]),
    ...words.map((text, i) =>
      lettering({
        layer: 'LETTERING',
        at: [middle, y_mm + height_mm / 2 - (i - (words.length - 1) / 2) * 1.4 * em],
        text,
        em,
        align: 'middle',
      }),
    ),
  ];
}

/** Doors, windows and keep-outs in the panel: outline, of a keep-out dashed, diagonals, name, clear measures and lower left corner. */
export const panelOpeningMarks = (job: Job, perPaper: number): Mark[] =>
  job.openings.flatMap((opening) => openingMarks(opening, perPaper));
