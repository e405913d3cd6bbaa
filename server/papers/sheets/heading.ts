import { cutTo } from '../ink/lettering.ts';
import { type Extents, lettering, type Mark } from '../ink/mark.ts';

const em_mm = 4.6;

/** Height a heading takes at the top of a body. */
export const headingRoom_mm = 8;

/** The heading of a sheet's body. */
export function heading(text: string, body: Extents): Mark {
  return lettering({ layer: 'LETTERING', at: [body.x0, body.y1 - em_mm], text, em: em_mm, bold: true });
}

const listEm_mm = 3.4;

/** Height the heading of a list takes, mm. */
export const listHeadingRoom_mm = 6;

/** The heading of a list, which shares its sheet with others. */
export const listHeading = (text: string, { x0, x1, y1 }: Extents): Mark =>
  lettering({
    ...{ layer: 'LETTERING', em: listEm_mm, bold: true, at: [x0, y1 - listEm_mm] },
    text: cutTo(text, x1 - x0, { em: listEm_mm, bold: true }),
  });
