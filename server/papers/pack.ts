import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import { textsOfJob, type Unprintable, unprintable } from '../../src/job/printed-characters.ts';
import type { IssuedReading } from '../contract/issued-readings.ts';
import { attachedJob, type IssuedRevision } from './attached-job.ts';
import { type Change, changesSince } from './changes.ts';
import { comparisonOf } from './comparison.ts';
import { singleLineSheets } from './drawings/single-line.ts';
import { printedRanges } from './ink/fonts.ts';
import { extentsOf } from './ink/mark.ts';
import { pdfOf } from './ink/pdf.ts';
import { type ContentsLine, coverDrafts } from './sheets/cover.ts';
import { elevationDrafts } from './sheets/elevation-sheet.ts';
import { heading, headingRoom_mm } from './sheets/heading.ts';
import { labelDrafts } from './sheets/label-sheets.ts';
import { groupedTables, scheduleTables } from './sheets/schedule-table.ts';
import { placesAndSection } from './sheets/section-sheet.ts';
import { bodyOf, type Draft, type Format, type Sheet } from './sheets/sheet.ts';
import { statusText } from './sheets/status.ts';
import type { Table } from './sheets/table.ts';
import { tableDrafts } from './sheets/table-flow.ts';
import {
  cautionsTable,
  changesTable,
  openFindings,
  type RevisionLine,
  slotList,
  tapList,
  unprintableTable,
} from './sheets/text-tables.ts';
import { finished } from './sheets/title-block.ts';
import { commissioningRecord, orderOfWork, ownersSheet } from './sheets/work-tables.ts';
import { withStandIns } from './stand-ins.ts';
import { writtenIn } from './written-in.ts';

/** What a pack is made from. */
export interface PackInput {
  readonly job: Job;
  readonly sizing: Sizing;
  readonly format: Format;
  /** When it was issued, and as which revision of which job; null for a draft. */
  readonly issued: { readonly date: string; readonly as?: IssuedRevision } | null;
  /** Revisions for the table on the cover, oldest first; empty for just the one in the job. */
  readonly revisions: readonly RevisionLine[];
  /** The revision before, whose rows this one is compared with; null for none. */
  readonly before: {
    readonly revision: string;
    readonly job: Job;
    readonly sizing: Pick<Sizing, 'schedules' | 'findings'>;
  } | null;
  /** What stands in the boxes of the test sheet; left out for boxes to be written in by hand. */
  readonly readings?: readonly IssuedReading[];
}

/** The single-line diagram, and the lists that begin on its last sheet where that has room. */
function diagramAndLists({ job, sizing, format }: PackInput, lists: readonly Table[]): Draft[] {
  const body = bodyOf(format);
  const sheets = singleLineSheets(job, sizing, { ...body, y1: body.y1 - headingRoom_mm });
  const drafts = sheets.map(
    (marks, i): Draft => ({
      titles: ['Single-line diagram'],
      perPaper: 0,
      marks: [heading(`Single-line diagram${i === 0 ? '' : ', continued'}`, body), ...marks],
    }),
  );
  const last = drafts.at(-1);
  if (!last) return tableDrafts(lists, format);
  const used = bodyOf(format, 'list').y1 - extentsOf(last.marks).y0;
  return [...drafts.slice(0, -1), ...tableDrafts(lists, format, { draft: last, used })];
}

function schedules({ job, sizing, format, readings = [] }: PackInput, changes: readonly Change[]): Table[] {
  const { x0, x1 } = bodyOf(format, 'list');
  return sizing.schedules.flatMap((schedule) => {
    const rows = changes.filter((change) => change.schedule === schedule.id).map(({ row }) => row);
    const filled = schedule.id === 'test-sheet' ? writtenIn(schedule, readings) : schedule;
    const marked = new Set(rows.filter((row) => row !== null));
    return scheduleTables(filled, marked, x1 - x0).map((table) => ({
      ...table,
      revision: job.title.revision,
    }));
  });
}

function contentsOf(drafts: readonly Draft[], coverCount: number): ContentsLine[] {
  const lines = drafts.flatMap(({ titles }, i) =>
    titles.map((title) => ({ title, sheet: i + 1 + coverCount })),
  );
  return lines.filter(({ title }, i) => lines.findIndex((each) => each.title === title) === i);
}

/** Where the job, or what was said of its revisions, has characters that no font at hand has. */
function notPrinted({ job, revisions, readings = [] }: PackInput): Unprintable[] {
  const said = revisions.map(({ revision, note }) => ({
    field: null,
    label: `What changed in revision ${revision}`,
    text: note,
  }));
  const names = [...new Set(readings.map(({ by }) => by))].map((text) => ({
    field: null,
    label: 'A name on the test sheet',
    text,
  }));
  return unprintable([...textsOfJob(job), ...said, ...names], printedRanges());
}

function bodyDrafts(input: PackInput, missing: readonly Unprintable[]): Draft[] {
  const { job, sizing, format, before } = input;
  const changes = before ? changesSince(before.sizing.schedules, sizing.schedules) : [];
  const changed = before
    ? [changesTable(comparisonOf({ job: before.job, ...before.sizing }, { job, ...sizing }), before.revision)]
    : [];
  const ofSlots = [...groupedTables(slotList(sizing)), ...groupedTables(tapList(sizing))];
  const elevations = elevationDrafts(job, sizing, format, ofSlots);
  return [
    ...tableDrafts(
      [cautionsTable(sizing), openFindings(sizing), unprintableTable(missing), ...changed],
      format,
    ),
    ...elevations.drafts,
    ...placesAndSection(job, sizing, format),
    ...diagramAndLists(input, [
      ...elevations.left,
      ...schedules(input, changes).flatMap((table) =>
        table.title === 'Test sheet' ? [orderOfWork(job, sizing), table] : [table],
      ),
      commissioningRecord(sizing),
      ownersSheet(job, sizing),
    ]),
  ];
}

/** The finished sheets of the pack in order: cover, cautions, drawings, schedules, test sheet. */
export function packSheets(written: PackInput): Sheet[] {
  const found = notPrinted(written);
  const [input, missing] =
    found.length === 0 ? [written, found] : withStandIns([written, found] as const, printedRanges());
  const { job, sizing, format } = input;
  const { revision } = job.title;
  const here = { revision, date: input.issued?.date ?? '', note: input.issued ? '' : 'draft, not issued' };
  const revisions = input.revisions.length > 0 ? input.revisions : [here];
  const body = bodyDrafts(input, missing);
  const cover = (count: number): Draft[] =>
    coverDrafts({ job, sizing, issued: input.issued, revisions, missing }, contentsOf(body, count), format);
  const drafts = [...cover(cover(1).length), ...body];
  return drafts.map((draft, i) => finished(input, draft, { number: i + 1, count: drafts.length }));
}

/** The day of issue, or of the job, at noon UTC, so that the same job gives the same bytes; an undated job has a day of its own. */
function createdOf({ job, issued }: PackInput): Date {
  const date = issued?.date ?? job.title.date;
  return new Date(`${date === '' ? '2000-01-01' : date}T12:00:00Z`);
}

function pdfOfSheets(
  input: PackInput,
  sheets: readonly Sheet[],
  what: string,
  compress: boolean,
): Promise<Buffer> {
  const { title } = input.job;
  return pdfOf(sheets, {
    title: title.job === '' ? what : title.job,
    author: title.maker,
    subject: `${what} ${title.documentNumber} revision ${title.revision}, ${statusText(input)}`.replace(
      / +/g,
      ' ',
    ),
    created: createdOf(input),
    compress,
    attached: attachedJob(input.job, input.issued?.as ?? null),
  });
}

/** The labels of all cables, to be cut out. */
export function labelsPdf(input: PackInput, compress = true): Promise<Buffer> {
  const drafts = labelDrafts(input.sizing, input.format);
  const sheets = drafts.map((draft, i) => finished(input, draft, { number: i + 1, count: drafts.length }));
  return pdfOfSheets(input, sheets, 'Cable labels', compress);
}

/** The whole pack as one PDF. `compress` false leaves its text readable for tests. */
export async function packPdf(input: PackInput, compress = true): Promise<Buffer> {
  return pdfOfSheets(input, packSheets(input), 'Hand-over papers', compress);
}
