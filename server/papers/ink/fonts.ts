import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create, type Font } from 'fontkit';
import type { CodeRange } from '../../../src/job/printed-characters.ts';

/** The faces every PDF embeds. */
export const faces = { regular: 'DejaVuSans', bold: 'DejaVuSans-Bold' } as const;

/** The file of a face. */
export const fontFile = (face: keyof typeof faces): Buffer =>
  readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${faces[face]}.ttf`));

const isControl = (code: number): boolean => code < 0x20 || (code >= 0x7f && code < 0xa0);

function rangesOf(codes: readonly number[]): CodeRange[] {
  const ranges: [number, number][] = [];
  for (const code of codes) {
    const last = ranges.at(-1);
    if (last && last[1] === code - 1) last[1] = code;
    else ranges.push([code, code]);
  }
  return ranges;
}

const charactersOf = (face: keyof typeof faces): Set<number> =>
  new Set((create(fontFile(face)) as Font).characterSet);

let known: readonly CodeRange[] | undefined;

/** The characters that both faces have, by the fonts' own tables, ascending; control characters are none. */
export function printedRanges(): readonly CodeRange[] {
  if (known) return known;
  const bold = charactersOf('bold');
  const codes = [...charactersOf('regular')].filter((code) => bold.has(code) && !isControl(code));
  known = rangesOf(codes.sort((a, b) => a - b));
  return known;
}
