import { type Extents, lettering, type Mark } from '../ink/mark.ts';

const em_mm = 4.6;

/** Height a heading takes at the top of a body. */
export const headingRoom_mm = 8;

/** The heading of a sheet's body. */
export function heading(text: string, body: Extents): Mark {
  return lettering({ layer: 'LETTERING', at: [body.x0, body.y1 - em_mm], text, em: em_mm, bold: true });
}
