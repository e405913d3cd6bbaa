import type { Format } from './sheets/sheet.ts';

/**
 * The name a paper is saved under: whose it is, what it is, and the sheet it was laid out for, so that two sizes do not
 * take each other's place. A DXF is at full size, a CSV is a table: on no sheet.
 */
export function paperFileName(whose: string, name: string, size: Format): string {
  const [what, ending] = name.split('.');
  return ending === 'dxf' || ending === 'csv' ? `${whose}-${name}` : `${whose}-${what}-${size}.${ending}`;
}
