import { scheduleCsv } from '../csv.ts';
import { handOverPage } from '../on-site/page.ts';
import { cableLabelSchedule } from './cable-labels.ts';
import { elevation } from './drawings/elevation.ts';
import { section } from './drawings/section.ts';
import { dxfOf } from './ink/dxf.ts';
import { extentsOf, lettering, type Mark } from './ink/mark.ts';
import { svgOf } from './ink/svg.ts';
import { labelsPdf, type PackInput, packPdf } from './pack.ts';
import { elevationDraft } from './sheets/elevation-sheet.ts';
import { sectionDrafts } from './sheets/section-sheet.ts';
import type { Draft } from './sheets/sheet.ts';
import { statusText } from './sheets/status.ts';
import { finished } from './sheets/title-block.ts';

/** A file as it is sent: text, or bytes. */
export type Paper = string | Uint8Array;

function sheetSvg(input: PackInput, draft: Draft): string {
  const sheet = finished(input, draft, { number: 1, count: 1 });
  const title = `${input.job.title.job} ${draft.titles.join(', ')}, ${statusText(input)}`;
  return svgOf(sheet, sheet.marks, title.trim());
}

/** Lettering of the line below a drawing without a title block, mm of the paper. */
const line_mm = 2.5;

/** What a title block would say first: document, revision, status; for a drawing that has none. */
function statusLine(input: PackInput, marks: readonly Mark[], perPaper: number): Mark {
  const { job, documentNumber, revision } = input.job.title;
  const text = [job, documentNumber, `revision ${revision}`, statusText(input)].filter((part) => part !== '');
  const { x0, y0 } = extentsOf(marks);
  return lettering({
    layer: 'LETTERING',
    at: [x0, y0 - 3 * line_mm * perPaper],
    text: text.join(', '),
    em: line_mm * perPaper,
  });
}

/** DXF is drawn at full size; only its lettering is sized for the scale the sheet has. */
function drawingDxf(input: PackInput, draw: typeof elevation, { perPaper }: Draft): string {
  const { marks } = draw(input.job, input.sizing, perPaper);
  return dxfOf([...marks, statusLine(input, marks, perPaper)], perPaper);
}

const papers = {
  'pack.pdf': (input: PackInput) => packPdf(input),
  'hand-over.html': (input: PackInput) =>
    handOverPage(input, [
      { title: 'Elevation', svg: sheetSvg(input, elevationDraft(input.job, input.sizing, input.format)) },
      { title: 'Section', svg: sheetSvg(input, sectionDrafts(input.job, input.sizing, input.format)[0]!) },
    ]),
  'labels.pdf': (input: PackInput) => labelsPdf(input),
  'labels.csv': (input: PackInput) => scheduleCsv(cableLabelSchedule(input.sizing)),
  'elevation.svg': (input: PackInput) =>
    sheetSvg(input, elevationDraft(input.job, input.sizing, input.format)),
  'elevation.dxf': (input: PackInput) =>
    drawingDxf(input, elevation, elevationDraft(input.job, input.sizing, input.format)),
  'section.svg': (input: PackInput) =>
    sheetSvg(input, sectionDrafts(input.job, input.sizing, input.format)[0]!),
  'section.dxf': (input: PackInput) =>
    drawingDxf(input, section, sectionDrafts(input.job, input.sizing, input.format)[0]!),
} as const satisfies Record<string, (input: PackInput) => Paper | Promise<Paper>>;

export type PaperName = keyof typeof papers;

/** One of the papers of a job by the name of its file. */
export async function paperOf(name: PaperName, input: PackInput): Promise<Paper> {
  return papers[name](input);
}
