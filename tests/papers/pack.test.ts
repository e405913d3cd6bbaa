import { describe, expect, it } from 'vitest';
import { extentsOf } from '../../server/papers/ink/mark.ts';
import { type PackInput, packPdf, packSheets } from '../../server/papers/pack.ts';
import { scheduleTables } from '../../server/papers/sheets/schedule-table.ts';
import { bodyOf } from '../../server/papers/sheets/sheet.ts';
import type { Table } from '../../server/papers/sheets/table.ts';
import { shownRows } from '../../server/papers/shown.ts';
import { writtenIn } from '../../server/papers/written-in.ts';
import type { Schedule } from '../../src/answer/schedules.ts';
import { rowGroups } from '../../src/hand-over/row-groups.ts';
import { rowsOfGroups } from '../hand-over/expanded.ts';
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

const widthOf = (format: 'A4' | 'A3'): number => bodyOf(format).x1 - bodyOf(format).x0;

const bare = (text: string): string => text.replaceAll(/\s/g, '');

/** Names of things in a text. */
const names = /[A-Z]+\d[\w.]*(?<!\.)(-\w+)?( way \d+| in(?!\w)| out(?!\w))?/g;

/** Whether a printed row with the caption above it says a cell: as it stands, or its names in the row and the rest above. */
function says(cell: string, row: readonly string[], captions: string): boolean {
  const all = `${row.join(' ')} ${captions}`;
  if (cell === '' || cell === '–' || all.includes(cell)) return true;
  const rest = cell
    .split(/‹|›|[A-Z]+\d[\w.]*(?:-\w+)?(?: way \d+| in(?!\w)| out(?!\w))?/)
    .map((part) => part.replace(/^[\s.,;]+|[\s.,;]+$/g, ''));
  return (
    (cell.match(names) ?? []).every((name) => all.includes(name)) &&
    rest.every((part) => captions.includes(part))
  );
}

/** What a row is about: of a place of the test sheet, its run. */
const runOf = (ref: string): string => ref.replace(/(-F\d+| start| finish)$/, '');

/** Rows of a schedule that its tables on paper do not say, each cell found in the row named so or above it. */
function unsaid(schedule: Schedule, tables: readonly Table[]): string[] {
  const captions = tables.map(({ caption = [], part = '' }) => [part, ...caption].join(' '));
  const ofAll = tables.flatMap(({ caption = [] }) => caption.filter((line) => line.startsWith('Every row')));
  const printed = tables.flatMap((table, i) =>
    (table.rows.length === 0 ? [[]] : table.rows).map((row) => ({
      row,
      above: `${ofAll.join(' ')} ${captions[i]}`,
    })),
  );
  return shownRows(schedule).flatMap((cells) => {
    const isHere = ({ row, above }: (typeof printed)[number]): boolean =>
      row.some((cell) => runOf(cell) === runOf(cells[0]!)) || above.includes(` ${runOf(cells[0]!)}`);
    const found = printed.filter(isHere);
    return found.some(({ row, above }) => cells.every((cell) => says(cell, row, above)))
      ? []
      : [cells.join(' | ')];
  });
}

describe.each(formats)('the pack on %s', (format) => {
  it.each([...demos, ...unusual])('holds every row of every schedule: $name', async (sized) => {
    const pages = pdfTexts(await packPdf(inputOf(sized, format), false));
    const paper = bare(pages.flat().join(''));
    for (const schedule of sized.sizing.schedules) {
      expect(schedule.rows.length).toBeGreaterThan(0);
      const tables = scheduleTables(schedule, new Set(), widthOf(format));
      const shown = { columns: schedule.columns, rows: shownRows(schedule) };
      expect(rowsOfGroups(rowGroups(shown), shown.columns.length), schedule.title).toEqual(shown.rows);
      expect(unsaid(schedule, tables), schedule.title).toEqual([]);
      const missing = tables.flatMap((table) => [
        ...(table.caption ?? []).filter((text) => !paper.includes(bare(text))),
        ...table.rows.map((row) => row.join(' ')).filter((row) => !paper.includes(bare(row))),
      ]);
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
    for (const title of ['Cautions', 'Open findings', 'Driver schedule', 'Test sheet']) {
      const here = pages.filter((_, i) => sheets[i]!.titles.some((each) => each.startsWith(title)));
      expect(here.join(), title).toContain(sentence);
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
    const signs = marks.filter(({ layer }) => layer === 'MARKED');
    expect(signs.filter(({ kind }) => kind === 'path')).toHaveLength(1);
    expect(signs.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []))).toEqual(['A']);
    const paper = pdfTexts(await packPdf(input, false))
      .flat()
      .join(' ');
    const now = Math.round(sizing.cables[2]!.length_mm).toLocaleString('en');
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
