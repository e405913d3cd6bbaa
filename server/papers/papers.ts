import { elevation } from './drawings/elevation.ts';
import { section } from './drawings/section.ts';
import { dxfOf } from './ink/dxf.ts';
import { svgOf } from './ink/svg.ts';
import { type PackInput, packPdf } from './pack.ts';
import { elevationDraft } from './sheets/elevation-sheet.ts';
import { sectionDrafts } from './sheets/section-sheet.ts';
import type { Draft } from './sheets/sheet.ts';
import { finished } from './sheets/title-block.ts';

/** A file as it is sent: text, or bytes. */
export type Paper = string | Uint8Array;

function sheetSvg({ job, sizing, format }: PackInput, draft: Draft): string {
  const sheet = finished(job, draft, { number: 1, count: 1, engine: sizing.engine }, format);
  return svgOf(sheet, sheet.marks, `${job.title.job} ${draft.titles.join(', ')}`.trim());
}

/** DXF is drawn at full size; only its lettering is sized for the scale the sheet has. */
function drawingDxf({ job, sizing }: PackInput, draw: typeof elevation, draft: Draft): string {
  const perPaper = draft.perPaper;
  return dxfOf(draw(job, sizing, perPaper).marks, perPaper);
}

const papers = {
  'pack.pdf': (input: PackInput) => packPdf(input),
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
