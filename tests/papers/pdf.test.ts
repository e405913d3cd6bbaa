import { create, type Font } from 'fontkit';
import { describe, expect, it } from 'vitest';
import { fontFile } from '../../server/papers/ink/fonts.ts';
import { extentsOf } from '../../server/papers/ink/mark.ts';
import { packPdf, packSheets } from '../../server/papers/pack.ts';
import { demos, laidOut, type Sized, unusual } from './jobs.ts';
import { contentsOf, pdfObjects } from './pdf-text.ts';

const inputOf = ({ job, sizing }: Sized, format: 'A4' | 'A3') =>
  ({ job, sizing, format, issued: null, revisions: [], before: null }) as const;

/** Points of PDF in a millimetre. */
const point_per_mm = 72 / 25.4;

/** Height of the capital H in ems, by the font's own outline. */
const capital = Math.min(
  ...(['regular', 'bold'] as const).map((face) => {
    const font = create(fontFile(face)) as Font;
    return font.glyphForCodePoint('H'.codePointAt(0)!).bbox.maxY / font.unitsPerEm;
  }),
);

/** Heights of the capitals of a page as it is printed, mm: sizes of its fonts in the scale its first frame sets. */
function heights_mm(content: string): number[] {
  const scale = Number(/^([\d.]+) 0 0 \1 0 0 cm$/m.exec(content)![1]);
  const sizes = [...content.matchAll(/\/F\d+ ([\d.]+) Tf/g)].map(([, size]) => Number(size));
  return sizes.map((size) => (size * scale * capital) / point_per_mm);
}

describe.each(['A4', 'A3'] as const)('a pack as a PDF on %s', (format) => {
  // ISO 3098-1, from memory: the least nominal height of lettering is 1.8 mm.
  it.each([...demos, ...unusual, ...laidOut])('has no capitals below 1.8 mm: $name', async (sized) => {
    for (const content of contentsOf(await packPdf(inputOf(sized, format), false))) {
      const heights = heights_mm(content);
      expect(heights.length).toBeGreaterThan(5);
      expect(Math.min(...heights)).toBeGreaterThan(1.8);
    }
  });

  it.each(demos)('leads from its contents, drawings and bookmarks to pages it has: $name', async (sized) => {
    const objects = pdfObjects(await packPdf(inputOf(sized, format), false));
    const pages = new Set(
      [...objects].filter(([, body]) => /\/Type \/Page\b(?!s)/.test(body)).map(([number]) => number),
    );
    const bodies = [...objects.values()];
    const marked = bodies.flatMap((body) =>
      [...(/\/Dest \[(\d+) 0 R/.exec(body)?.slice(1) ?? [])].map(Number),
    );
    const titles = new Set(packSheets(inputOf(sized, format)).flatMap((sheet) => sheet.titles));
    expect(marked).toHaveLength(titles.size);
    for (const page of marked) expect(pages).toContain(page);
    const names = new Map(
      bodies.flatMap((body) =>
        [...body.matchAll(/^ *\(([^)]*)\) \[(\d+) 0 R \/(?:Fit|XYZ)/gm)].map(
          ([, name, page]) => [name!, Number(page)] as const,
        ),
      ),
    );
    const led = bodies.flatMap((body) =>
      /\/S \/GoTo/.test(body) ? [/\/D \(([^)]*)\)/.exec(body)![1]!] : [],
    );
    expect(led.filter((name) => /^sheet \d+$/.test(name)).length).toBeGreaterThan(2 * titles.size - 6);
    // Every cable of the single line leads to its row.
    const cables = new Set(led.filter((name) => name.startsWith('Cable schedule: ')));
    const rows = [...names.keys()].filter((name) => name.startsWith('Cable schedule: '));
    expect([...cables].toSorted()).toEqual(rows.toSorted());
    for (const name of led) expect(pages, name).toContain(names.get(name));
  });
});

describe('the pack', () => {
  /** The most sheets of each demo and of a wall in each layout of its cables; sixty slots took 41 of A4 and 22 of A3 when every row said everything. */
  const most: Readonly<Record<string, { readonly A4: number; readonly A3: number }>> = {
    'window-seat': { A4: 11, A3: 7 },
    'stair-wall': { A4: 15, A3: 8 },
    'foyer-wall': { A4: 17, A3: 10 },
    'reading-wall': { A4: 14, A3: 8 },
    'landing-wall': { A4: 17, A3: 9 },
    trunk: { A4: 21, A3: 11 },
    'level, crossed': { A4: 12, A3: 7 },
    'new, trunk': { A4: 12, A3: 7 },
    'new, ring': { A4: 11, A3: 7 },
    'new, run to run': { A4: 13, A3: 7 },
  };

  it('has a limit for each demo job', () => {
    for (const { name } of demos) expect(Object.keys(most)).toContain(name);
  });

  it.each([...demos, ...unusual, ...laidOut].filter(({ name }) => most[name]))(
    'takes few sheets, and none of them is empty: $name',
    (sized) => {
      for (const format of ['A4', 'A3'] as const) {
        const sheets = packSheets(inputOf(sized, format));
        expect(sheets.length, format).toBeLessThanOrEqual(most[sized.name]![format]);
        for (const { marks, frame, titles } of sheets) {
          const own = marks.filter((mark) => mark.kind === 'text' && mark.at[1] > frame.y0 + 25);
          expect(own.length, titles.join()).toBeGreaterThan(5);
        }
      }
    },
  );

  it.each([...demos, ...laidOut])(
    'shows both elevations on A3 as large as a sheet of A4 would: $name',
    (sized) => {
      const scaleOf = (format: 'A4' | 'A3') =>
        packSheets(inputOf(sized, format)).find(({ titles }) => titles.includes('Elevation'))!.perPaper;
      expect(scaleOf('A3')).toBeLessThanOrEqual(scaleOf('A4'));
    },
  );

  it.each([...demos, ...unusual, ...laidOut])(
    'has no table that stands over another or beyond its sheet: $name',
    (sized) => {
      for (const format of ['A4', 'A3'] as const)
        for (const { marks, titles } of packSheets(inputOf(sized, format))) {
          const boxes = marks.flatMap((mark) =>
            mark.kind === 'text' ? [{ text: mark.text, box: extentsOf([mark]) }] : [],
          );
          const level = boxes.filter(({ box }) => box.x1 - box.x0 > box.y1 - box.y0 || box.y1 - box.y0 < 4);
          const across = level.toSorted((a, b) => a.box.x0 - b.box.x0);
          const hit = across.flatMap((one, i) => {
            const found = [];
            for (let k = i + 1; k < across.length && across[k]!.box.x0 < one.box.x1 - 0.3; k++) {
              const other = across[k]!.box;
              // Letters of two lines may share the air between them, not more.
              if (Math.min(one.box.y1, other.y1) - Math.max(one.box.y0, other.y0) > 1.2)
                found.push(`${one.text} / ${across[k]!.text}`);
            }
            return found;
          });
          expect(hit, `${format} ${titles.join()}`).toEqual([]);
        }
    },
  );
});
