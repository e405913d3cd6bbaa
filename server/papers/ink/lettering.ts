import { boldWidths, firstCode, furtherWidths, regularWidths, unitsPerEm } from './letter-widths.ts';

const further = new Map(furtherWidths.map(([character, regular, bold]) => [character, { regular, bold }]));

/** A character the lists do not hold is taken as wide as it is high, which few are. */
function letterWidth(character: string, bold: boolean): number {
  const code = character.codePointAt(0)!;
  const listed = (bold ? boldWidths : regularWidths)[code - firstCode];
  if (listed !== undefined) return listed;
  return further.get(character)?.[bold ? 'bold' : 'regular'] ?? unitsPerEm;
}

/** Width of a line of lettering, in the unit of its em. Kerning, which is left out, only makes it narrower. */
export function textWidth(text: string, em: number, bold = false): number {
  let units = 0;
  for (const character of text) units += letterWidth(character, bold);
  return (units / unitsPerEm) * em;
}

/** Lettering as it has to fit. */
export interface Face {
  readonly em: number;
  readonly bold?: boolean;
}

/** A word wider than the line, cut where the line is full. */
function cutWord(word: string, width: number, { em, bold }: Face): string[] {
  const parts: string[] = [];
  let part = '';
  for (const character of word) {
    if (part !== '' && textWidth(part + character, em, bold) > width) {
      parts.push(part);
      part = '';
    }
    part += character;
  }
  return [...parts, part];
}

/** Lines no wider than the width: broken between words, and within a word only where it alone is too wide. */
export function wrapped(text: string, width: number, face: Face): string[] {
  const lines: string[] = [];
  let current = '';
  const wide = (line: string): boolean => textWidth(line, face.em, face.bold) > width;
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    const joined = current === '' ? word : `${current} ${word}`;
    if (!wide(joined)) {
      current = joined;
      continue;
    }
    if (current !== '') lines.push(current);
    const parts = wide(word) ? cutWord(word, width, face) : [word];
    lines.push(...parts.slice(0, -1));
    current = parts.at(-1)!;
  }
  return current === '' ? lines : [...lines, current];
}

/** Least lettering of the papers, mm of its em: capitals of 1.82 mm, where ISO 3098 asks for 1.8 mm. */
export const leastEm_mm = 2.5;

/** A text that goes on where a line of it would not fit is cut there, and says so. */
export function cutTo(text: string, width: number, face: Face): string {
  if (textWidth(text, face.em, face.bold) <= width) return text;
  let cut = text;
  while (cut.length > 1 && textWidth(`${cut}…`, face.em, face.bold) > width) cut = cut.slice(0, -1);
  return `${cut.trimEnd()}…`;
}

/** Distance of base lines, in ems. */
export const leading = 1.22;

/** The largest of the given ems at which a text fits a box, with its lines; the smallest if none does. */
export function fitted(
  text: string,
  box: { readonly width: number; readonly height: number },
  ems: readonly number[],
  bold = false,
): { em: number; lines: string[] } {
  for (const em of ems) {
    const lines = wrapped(text, box.width, { em, bold });
    if (lines.length * leading * em <= box.height) return { em, lines };
  }
  const em = ems.at(-1)!;
  return { em, lines: wrapped(text, box.width, { em, bold }) };
}
