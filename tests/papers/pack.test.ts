import { describe, expect, it } from 'vitest';
import { extentsOf } from '../../server/papers/ink/mark.ts';
import { type PackInput, packPdf, packSheets } from '../../server/papers/pack.ts';
import { shownRows } from '../../server/papers/shown.ts';
import { writtenIn } from '../../server/papers/written-in.ts';
import type { Schedule } from '../../src/answer/schedules.ts';
import { demos, type Sized, unusual } from './jobs.ts';
import { pdfTexts } from './pdf-text.ts';

const formats = ['A4', 'A3'] as const;

const inputOf = ({ job, sizing }: Sized, format: 'A4' | 'A3'): PackInput => ({
  job,
  sizing,
  format,
  issued: null,
  revisions: [],
  before: null,
});

const bare = (text: string): string => text.replaceAll(/\s/g, '');

/** A row as one text, or as the parts it has where its columns are on several sheets that repeat the first. */
function holdsRow(paper: string, row: readonly string[]): boolean {
  if (paper.includes(bare(row.join('')))) return true;
  for (let cut = 2; cut < row.length; cut++) {
    const rest = [row[0]!, ...row.slice(cut)];
    if (paper.includes(bare(row.slice(0, cut).join(''))) && holdsRow(paper, rest)) return true;
  }
  return false;
}

/** What all rows of three or more say alike stands once, with its label and unit; the rows are given without it. */
function saidOnce({ columns }: Schedule, rows: readonly string[][], paper: string): string[][] {
  const isAlike = (i: number): boolean =>
    i > 0 && rows.length > 2 && rows.every((row) => row[i] === rows[0]![i]);
  for (const [i, { label, unit }] of columns.entries())
    if (isAlike(i) && rows[0]![i] !== '') expect(paper).toContain(bare(`${label}${rows[0]![i]}${unit}`));
  return rows.map((row) => row.filter((_, i) => !isAlike(i)));
}

describe.each(formats)('the pack on %s', (format) => {
  it.each([...demos, ...unusual])('holds every row of every schedule: $name', async (sized) => {
    const pages = pdfTexts(await packPdf(inputOf(sized, format), false));
    const paper = bare(pages.flat().join(''));
    for (const schedule of sized.sizing.schedules) {
      const rows = shownRows(schedule);
      expect(rows.length).toBeGreaterThan(0);
      const isSteps = (row: readonly string[]) => schedule.id === 'test-sheet' && /^[VL]\d+$/.test(row[0]!);
      const own = schedule.id === 'cables' ? saidOnce(schedule, rows, paper) : rows;
      const missing = own.filter((row) => !holdsRow(paper, isSteps(row) ? row.slice(0, 2) : row));
      expect(missing, schedule.title).toEqual([]);
    }
    for (const caution of sized.sizing.cautions)
      for (const text of [caution.sentence, caution.because, caution.basis])
        expect(paper).toContain(bare(text));
  });

  it('prints the limit of the dimmer on the cover, with the cautions, drivers and tests', async () => {
    const sized = unusual.find(({ name }) => name === 'limited dimmer')!;
    const sentence = bare(sized.sizing.conditions[0]!.sentence);
    expect(sentence).toContain('unabletogoabove15.5%offull');
    const pages = pdfTexts(await packPdf(inputOf(sized, format), false)).map((page) => bare(page.join('')));
    expect(pages[0]).toContain(sentence);
    const sheets = packSheets(inputOf(sized, format));
    for (const title of [
      'Cautions',
      'Open findings',
      'Driver schedule: conditions and notes',
      'Test sheet: steps',
    ]) {
      const at = sheets.findIndex(({ titles }) => titles.some((each) => each.startsWith(title)));
      expect(pages[at], title).toContain(sentence);
    }
  });

  it.each([...demos, ...unusual])('keeps every mark of every sheet inside its frame: $name', (sized) => {
    for (const sheet of packSheets(inputOf(sized, format))) {
      const { x0, y0, x1, y1 } = extentsOf(sheet.marks);
      const { frame } = sheet;
      expect(
        [x0, y0, -x1, -y1].every((v, i) => v >= [frame.x0, frame.y0, -frame.x1, -frame.y1][i]! - 1e-9),
        sheet.titles.join(),
      ).toBe(true);
      expect(frame.x1 < sheet.width_mm && frame.y1 < sheet.height_mm).toBe(true);
    }
  });

  it.each(demos)('says job, document, revision and sheet on every page: $name', async (sized) => {
    const pages = pdfTexts(await packPdf(inputOf(sized, format), false));
    const { job, documentNumber, revision } = sized.job.title;
    for (const [i, texts] of pages.entries()) {
      expect(texts).toEqual(expect.arrayContaining([job, documentNumber, revision]));
      expect(texts).toContain(`${i + 1} of ${pages.length}`);
    }
  });
});

describe('a pack as measured', () => {
  it('prints what was measured in the boxes of the test sheet, with who and when, OL where a loop was open', () => {
    const sized = demos[0]!;
    const sheet = sized.sizing.schedules.find(({ id }) => id === 'test-sheet')!;
    const loop = sheet.columns.findIndex(({ key }) => key === 'loopMeasured');
    const row = sheet.rows.find((cells) => cells[loop] === null && /^S/.test(String(cells[0])))!;
    const reading = { row: String(row[0]), version: 1, by: 'Ida Blom', at: '2026-03-04T09:00:00.000Z' };
    const readings = [
      { ...reading, quantity: 'loop_ohm', value: 'OL' },
      { ...reading, quantity: 'loaded_V', value: 23.456 },
      { ...reading, quantity: 'linkOut', value: 1 },
      { ...reading, row: 'V1', quantity: 'done', value: 1 },
    ] as const;
    const own = writtenIn(sheet, readings).rows.filter((_, i) =>
      [reading.row, 'V1'].includes(String(sheet.rows[i]![0])),
    );
    const written = shownRows({ ...sheet, rows: own });
    // The box of amps stays empty; 23.456 V are printed as the meter showed them.
    expect(
      written.map((cells) =>
        cells.filter((cell) => /^(OL|out|done|23\.456|Ida Blom|2026-03-04)$/.test(cell)),
      ),
    ).toEqual([
      ['done', 'Ida Blom', '2026-03-04'],
      ['OL', 'out', '23.456', 'Ida Blom', '2026-03-04'],
    ]);
    const sheets = (more: Partial<PackInput>) =>
      JSON.stringify(packSheets({ ...inputOf(sized, 'A4'), ...more }));
    const [empty, filled] = [sheets({}), sheets({ readings })];
    const held = (sheet: string) =>
      ['"OL"', '"23.456"', '"done"', 'Blom'].map((text) => sheet.includes(text));
    expect([held(empty), held(filled)]).toEqual([Array(4).fill(false), Array(4).fill(true)]);
  });
});

describe('the pack', () => {
  it('is the same to the byte for the same job', async () => {
    const [one, other] = [await packPdf(inputOf(demos[0]!, 'A4')), await packPdf(inputOf(demos[0]!, 'A4'))];
    expect(one.equals(other)).toBe(true);
  });

  it('marks rows that changed since the revision before and lists them', async () => {
    const { job, sizing } = demos[0]!;
    const schedules = structuredClone(sizing.schedules);
    const cables = schedules.find(({ id }) => id === 'cables')!;
    const cut = cables.columns.findIndex(({ key }) => key === 'cut');
    cables.rows[2]![cut] = 999;
    cables.rows.push(cables.rows[0]!.with(0, 'C99'));
    const input = {
      ...inputOf(demos[0]!, 'A4'),
      before: { revision: '0', job, sizing: { ...sizing, schedules } },
    };
    const marks = packSheets(input).flatMap((sheet) => sheet.marks);
    // One row, in both tables of the schedule.
    expect(marks.filter(({ layer }) => layer === 'MARKED')).toHaveLength(2);
    const paper = pdfTexts(await packPdf(input, false))
      .flat()
      .join(' ');
    const now = String(Math.round(sizing.cables[2]!.length_mm));
    expect(paper).toContain(`${sizing.cables[2]!.id}: 999 → ${now} mm`);
    expect(paper).toContain('Cable schedule: C99 no longer there');
    expect(
      pdfTexts(await packPdf({ ...input, before: { revision: '0', job, sizing } }, false)).flat(),
    ).not.toContain('Changes since revision 0');
    expect(job.title.revision).toBe('A');
  });

  it('lists revisions on the cover, however many', async () => {
    const revisions = Array.from({ length: 40 }, (_, i) => ({
      revision: `R${i}`,
      date: '2026-01-01',
      note: `note ${i} ${'about the change '.repeat(12)}`,
    }));
    const paper = bare(
      pdfTexts(await packPdf({ ...inputOf(demos[0]!, 'A4'), revisions }, false))
        .flat()
        .join(''),
    );
    for (const { revision, note } of revisions) expect(paper).toContain(bare(`${revision}2026-01-01${note}`));
  });
});
