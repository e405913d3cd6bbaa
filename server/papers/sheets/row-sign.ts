import { leastEm_mm as em, textWidth } from '../ink/lettering.ts';
import { filled, lettering, type Mark } from '../ink/mark.ts';

/** Room for the name of a revision between the triangle and what stands left of the table, mm. */
const room_mm = 2.05;

/** The triangle left of a marked row, standing on the foot of the row, with the revision that changed it where its name is as short as a letter. */
export function rowSign(left: number, foot: number, revision = ''): Mark[] {
  const triangle = filled(
    'MARKED',
    [left - 1.7, foot + 0.6],
    [left - 0.3, foot + 0.6],
    [left - 1, foot + 2.2],
  );
  if (revision === '' || textWidth(revision, em, true) > room_mm) return [triangle];
  const at = [left - 1.9, foot + 0.7] as const;
  return [triangle, lettering({ layer: 'MARKED', at, text: revision, em, align: 'right', bold: true })];
}
