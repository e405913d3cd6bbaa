import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  boldWidths,
  firstCode,
  furtherWidths,
  regularWidths,
} from '../../server/papers/ink/letter-widths.ts';
import { fitted, leading, textWidth, wrapped } from '../../server/papers/ink/lettering.ts';

/** Advance widths of a TrueType file by character code: tables head, hhea, hmtx and cmap format 4 (OpenType). */
function widthsIn(name: string): (code: number) => number {
  const font = readFileSync(`node_modules/dejavu-fonts-ttf/ttf/${name}.ttf`);
  const tables = new Map(
    Array.from({ length: font.readUInt16BE(4) }, (_, i) => {
      const at = 12 + 16 * i;
      return [font.toString('latin1', at, at + 4), font.readUInt32BE(at + 8)];
    }),
  );
  const metricCount = font.readUInt16BE(tables.get('hhea')! + 34);
  const cmap = tables.get('cmap')!;
  const records = Array.from({ length: font.readUInt16BE(cmap + 2) }, (_, i) => cmap + 4 + 8 * i);
  const sub = records
    .map((at) => cmap + font.readUInt32BE(at + 4))
    .find((at) => font.readUInt16BE(at) === 4)!;
  const size = font.readUInt16BE(sub + 6);
  const glyphOf = (code: number): number => {
    for (let i = 0; i < size; i += 2) {
      if (font.readUInt16BE(sub + 14 + i) < code) continue;
      const first = font.readUInt16BE(sub + 16 + size + i);
      if (first > code) return 0;
      const delta = font.readUInt16BE(sub + 16 + 2 * size + i);
      const place = sub + 16 + 3 * size + i;
      const offset = font.readUInt16BE(place);
      if (offset === 0) return (code + delta) & 0xffff;
      return (font.readUInt16BE(place + offset + 2 * (code - first)) + delta) & 0xffff;
    }
    return 0;
  };
  return (code) => font.readUInt16BE(tables.get('hmtx')! + 4 * Math.min(glyphOf(code), metricCount - 1));
}

describe('widths of letters', () => {
  const [regular, bold] = [widthsIn('DejaVuSans'), widthsIn('DejaVuSans-Bold')];

  it.each([
    ['regular', regularWidths, regular],
    ['bold', boldWidths, bold],
  ] as const)('are those of the %s font file', (_, widths, inFile) => {
    const wrong = widths.flatMap((width, i) => {
      const code = firstCode + i;
      const isControl = code >= 0x7f && code < 0xa0;
      return isControl || width === inFile(code) ? [] : [code];
    });
    expect(wrong).toEqual([]);
    expect(widths).toHaveLength(0x180 - firstCode);
  });

  it('are those of the font files for signs beyond Latin', () => {
    for (const [character, plain, heavy] of furtherWidths) {
      const code = character.codePointAt(0)!;
      expect([character, regular(code), bold(code)]).toEqual([character, plain, heavy]);
    }
  });
});

describe('breaking into lines', () => {
  const text = 'two words and Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichen at the end';

  it('keeps every line within the width and loses nothing', () => {
    for (const width of [8, 15, 40, 200]) {
      const lines = wrapped(text, width, { em: 2.5 });
      expect(Math.max(...lines.map((line) => textWidth(line, 2.5)))).toBeLessThanOrEqual(width);
      expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
    }
  });

  it('takes the largest lettering that fits the box', () => {
    const { em, lines } = fitted(text, { width: 60, height: 10 }, [6, 4, 3, 2.5, 2]);
    expect(lines.length * em * leading).toBeLessThanOrEqual(10);
    const larger = [6, 4, 3, 2.5].filter((each) => each > em);
    for (const each of larger)
      expect(wrapped(text, 60, { em: each }).length * each * leading).toBeGreaterThan(10);
  });
});
