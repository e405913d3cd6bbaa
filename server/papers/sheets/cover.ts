import { type FindingStatus, isOnCondition } from '../../../src/answer/finding-status.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';
import type { Job } from '../../../src/job/job.ts';
import type { Unprintable } from '../../../src/job/printed-characters.ts';
import { cutTo, fitted, leading, leastEm_mm, wrapped } from '../ink/lettering.ts';
import { corners, type Extents, filled, lettering, line, type Mark } from '../ink/mark.ts';
import { sheetAnchor } from '../ink/pdf.ts';
import { electricianPairs, makerPairs, type Pair, tiles } from './key-figures.ts';
import { bodyOf, type Draft, type Format } from './sheet.ts';
import { type Standing, statusText } from './status.ts';
import { type TablePart, tableParts } from './table-sheets.ts';
import { type RevisionLine, revisionTable, unprintableTitle } from './text-tables.ts';

/** A line of the contents. */
export interface ContentsLine {
  readonly title: string;
  readonly sheet: number;
}

/** What the cover is made from. */
export interface CoverInput {
  readonly job: Job;
  readonly sizing: Sizing;
  readonly issued: Standing['issued'];
  readonly revisions: readonly RevisionLine[];
  /** Texts with characters that no font at hand has. */
  readonly missing: readonly Unprintable[];
}

/** Marks of a part of the cover, and where the next part may begin. */
interface Block {
  readonly marks: readonly Mark[];
  readonly bottom: number;
}

const text = (at: readonly [number, number], value: string, em: number, bold = false): Mark =>
  lettering({ layer: 'LETTERING', at, text: value, em, bold });

/** Lettering of the cover, mm. */
const ems = { A4: 2.5, A3: 3 } as const satisfies Record<Format, number>;

/** An em and smaller ones, as far as lettering may shrink. */
const shrinking = (em: number): number[] =>
  [em, 0.9 * em, 0.84 * em].filter((each) => each === em || each >= leastEm_mm);

const subtitle = 'Hand-over papers for the electrician';

function titleBlock(
  { job: { title }, ...standing }: Omit<CoverInput, 'revisions' | 'missing'>,
  body: Extents,
  em: number,
): Block {
  const width = body.x1 - body.x0;
  const { em: size, lines } = fitted(title.job, { width, height: 22 }, [9, 7.5, 6.5, 5.5, 4.5, 3.5], true);
  const under = body.y1 - 2 - lines.length * leading * size;
  const status = statusText(standing);
  const said = [title.place, title.client, title.documentNumber, `revision ${title.revision}`, status];
  const particulars = wrapped(said.filter((each) => each !== '').join('  ·  '), width, { em });
  const rule = under - 7 - (particulars.length + 0.6) * em * leading;
  return {
    marks: [
      ...lines.map((each, i) => text([body.x0, body.y1 - 2 - (i + 0.8) * leading * size], each, size, true)),
      text([body.x0, under - 5], subtitle, 4.6),
      ...particulars.map((each, i) => text([body.x0, under - 7 - (i + 1) * em * leading], each, em)),
      line('BREAKS', [body.x0, rule], [body.x1, rule]),
    ],
    bottom: rule - 3,
  };
}

/** The figures looked for first, large, in a row. */
function tileRow(job: Job, sizing: Sizing, body: Extents, em: number): Block {
  const all = tiles(job, sizing);
  const air = 3;
  const width = (body.x1 - body.x0 + air) / all.length - air;
  const height = 6.4 * em;
  const marks = all.flatMap(({ value, says }, i): Mark[] => {
    const x0 = body.x0 + i * (width + air);
    const box = { x0, y0: body.y1 - height, x1: x0 + width, y1: body.y1 };
    const large = fitted(
      value,
      { width: width - 4, height: 3 * em },
      [2.3 * em, 1.9 * em, 1.5 * em, em],
      true,
    );
    const small = fitted(says, { width: width - 4, height: 2.5 * em * 0.9 }, shrinking(em));
    return [
      filled('SHADE', ...corners(box)),
      text([x0 + 2, body.y1 - 2.6 * em], large.lines.join(' '), large.em, true),
      ...small.lines.map((each, k) =>
        text([x0 + 2, body.y1 - 4 * em - k * small.em * leading], each, small.em),
      ),
    ];
  });
  return { marks, bottom: body.y1 - height - 4 };
}

/** A heading and below it names with their values; a long value goes on below. */
function pairList(title: string, pairs: readonly Pair[], box: Extents, em: number): Block {
  const indent = 11.5 * em;
  let y = box.y1 - 1.9 * em;
  const marks: Mark[] = [text([box.x0, box.y1 - 1.1 * em], title, 1.2 * em, true)];
  for (const [name, value] of pairs) {
    const lines = wrapped(value, box.x1 - box.x0 - indent, { em });
    marks.push(text([box.x0, y - em], name, em, true));
    marks.push(...lines.map((each, i) => text([box.x0 + indent, y - em - i * em * leading], each, em)));
    y -= em * (1.45 + (lines.length - 1) * leading);
  }
  return { marks, bottom: y - 1.5 * em };
}

function contentsList(contents: readonly ContentsLine[], box: Extents, em: number): Block {
  const at = (i: number): number => box.y1 - (2.9 + i * 1.38) * em;
  return {
    marks: [
      text([box.x0, box.y1 - 1.1 * em], 'Contents', 1.2 * em, true),
      ...contents.flatMap(({ title, sheet }, i) => {
        const room = { width: box.x1 - box.x0 - 5 * em, height: 1.3 * em };
        const face = fitted(title, room, shrinking(em));
        return [
          lettering({
            ...{ layer: 'LETTERING', em: face.em, at: [box.x0, at(i)] },
            text: cutTo(face.lines.join(' '), room.width, face),
            leadsTo: sheetAnchor(sheet),
          }),
          lettering({
            ...{ layer: 'LETTERING', text: String(sheet), em, align: 'right' },
            at: [box.x1, at(i)],
            leadsTo: sheetAnchor(sheet),
          }),
        ];
      }),
    ],
    bottom: at(contents.length) - em,
  };
}

const statement =
  'A design aid. Fixed wiring and everything on the mains side belong to a licensed electrician under the local wiring rules; the makers’ data sheets take precedence over every figure here. Test before the wall is closed: the test sheet says what to expect.';

/** What has to be so for the figures to hold, in the colour of what needs care. */
function conditionsBlock({ conditions }: Sizing, box: Extents, em: number): Block {
  const lines = conditions.flatMap(({ sentence }) => wrapped(sentence, box.x1 - box.x0, { em, bold: true }));
  if (lines.length === 0) return { marks: [], bottom: box.y1 };
  return {
    marks: lines.map((each, i) =>
      lettering({
        ...{ layer: 'MARKED', text: each, em, bold: true },
        at: [box.x0, box.y1 - (i + 0.9) * em * leading],
      }),
    ),
    bottom: box.y1 - (lines.length + 0.5) * em * leading,
  };
}

const listOf = (titles: readonly string[]): string => [...new Set(titles)].join('; ');

/** A line of the cover that is set apart, in the colour of what needs care or not. */
interface Said {
  readonly words: string;
  readonly layer: 'MARKED' | 'LETTERING';
}

/** What this program's own checks leave open, in one sentence each: nobody has approved anything by them. */
function checksSaid({ findings }: Sizing, sheet: number | undefined): readonly Said[] {
  const titled = (status: FindingStatus) =>
    findings
      .filter((finding) => finding.status === status && !isOnCondition(finding))
      .map(({ title }) => title);
  const [failing, warned] = [titled('fails'), titled('watch')];
  const at = `(sheet ${sheet ?? '–'})`;
  const failed: Said =
    failing.length === 0
      ? { words: "None of this program's own checks fails.", layer: 'LETTERING' }
      : { words: `Not passed, to be settled before building ${at}: ${listOf(failing)}.`, layer: 'MARKED' };
  const held = findings.filter(isOnCondition).length;
  const conditional = held === 0 ? '' : ` On condition: ${held}, which pass only as said above.`;
  return warned.length === 0
    ? [failed]
    : [failed, { words: `Warnings ${at}: ${listOf(warned)}.${conditional}`, layer: 'LETTERING' }];
}

const sheetOf = (contents: readonly ContentsLine[], start: string): number | undefined =>
  contents.find(({ title }) => title.startsWith(start))?.sheet;

/** Where codes stand for characters that no font at hand has. */
function missingSaid(missing: readonly Unprintable[], sheet: number | undefined): readonly Said[] {
  if (missing.length === 0) return [];
  const labels = listOf(missing.map(({ label }) => label));
  const words = `Codes stand for characters that cannot be printed (sheet ${sheet ?? '–'}): ${labels}.`;
  return [{ words, layer: 'MARKED' }];
}

/** Checks that are open, notes that numbers do not hold, and what could not be printed as it is written. */
function openBlock(
  { sizing, missing }: Pick<CoverInput, 'sizing' | 'missing'>,
  contents: readonly ContentsLine[],
  box: Extents,
  em: number,
): Block {
  const grave = sizing.notes.filter(({ onCover }) => onCover);
  const said: Said[] = [
    ...checksSaid(sizing, sheetOf(contents, 'Open findings')),
    ...grave.map(({ sentence }): Said => ({ words: sentence, layer: 'MARKED' })),
    ...missingSaid(missing, sheetOf(contents, unprintableTitle)),
  ];
  const lines = said.flatMap(({ words, layer }) =>
    wrapped(words, box.x1 - box.x0, { em, bold: true }).map((each) => ({ each, layer })),
  );
  return {
    marks: lines.map(({ each, layer }, i) =>
      lettering({ layer, at: [box.x0, box.y1 - (i + 0.9) * em * leading], text: each, em, bold: true }),
    ),
    bottom: box.y1 - (lines.length + 1) * em * leading,
  };
}

/** The gist of the cautions, and where they stand, as far as there is room. */
function cautionsBlock(contents: readonly ContentsLine[], box: Extents, em: number): Block {
  const sheet = sheetOf(contents, 'Cautions') ?? '–';
  const top = box.y1 - 2.2 * em;
  const gist = wrapped(statement, box.x1 - box.x0, { em });
  if (gist.length * em * leading > top - box.y0) return { marks: [], bottom: box.y1 };
  const at = (i: number): number => top - (i + 0.8) * em * leading;
  return {
    marks: [
      text([box.x0, box.y1 - 1.1 * em], `Cautions (in full on sheet ${sheet})`, 1.2 * em, true),
      ...gist.map((words, i) => text([box.x0, at(i)], words, em)),
    ],
    bottom: at(gist.length) - em,
  };
}

/** Empty rows for revisions to come, as far as there is room, so that they can be written in. */
const emptyCount = 8;

function revisionParts(revisions: readonly RevisionLine[], box: Extents): TablePart[] {
  const width = box.x1 - box.x0;
  for (let count = emptyCount; count > 0; count--) {
    const empty = Array.from({ length: count }, () => ({ revision: '', date: '', note: '' }));
    const parts = tableParts(revisionTable([...revisions, ...empty], width), box);
    if (parts.length === 1) return parts;
  }
  return tableParts(revisionTable(revisions, width), box);
}

/** Room kept for the revisions on the cover, mm. */
const revisions_mm = 26;

/** The cover: title, key figures, contents, cautions, revisions; a long revision table goes on on further sheets. */
export function coverDrafts(
  { job, sizing, issued, revisions, missing }: CoverInput,
  contents: readonly ContentsLine[],
  format: Format,
): Draft[] {
  const body = bodyOf(format);
  const em = ems[format];
  const width = body.x1 - body.x0;
  const title = titleBlock({ job, sizing, issued }, body, em);
  const row = tileRow(job, sizing, { ...body, y1: title.bottom }, em);
  const below = { ...body, y1: row.bottom };
  const [x1, x2] = [body.x0 + width * 0.38, body.x0 + width * 0.72];
  const electrician = pairList('Electrical', electricianPairs(job, sizing), { ...below, x1: x1 - 5 }, em);
  const maker = pairList('Joinery', makerPairs(job, sizing), { ...below, x0: x1, x1: x2 - 5 }, em);
  const listed = contentsList(contents, { ...below, x0: x2 }, em);
  const left = { ...body, x1: x2 - 5, y1: Math.min(electrician.bottom, maker.bottom) };
  const conditions = conditionsBlock(sizing, left, em);
  const open = openBlock({ sizing, missing }, contents, { ...left, y1: conditions.bottom }, em);
  const room = { ...left, y0: body.y0 + revisions_mm, y1: open.bottom };
  const cautions = cautionsBlock(contents, room, em);
  const tableTop = Math.min(listed.bottom, cautions.bottom);
  const isRoom = tableTop - body.y0 >= revisions_mm;
  const parts = revisionParts(revisions, isRoom ? { ...body, y1: tableTop } : body);
  const blocks = [title, row, electrician, maker, listed, conditions, open, cautions];
  const here = isRoom ? parts[0]!.marks : [];
  return [
    { titles: ['Cover'], perPaper: 0, marks: [...blocks.flatMap(({ marks }) => marks), ...here] },
    ...parts
      .slice(isRoom ? 1 : 0)
      .map((part) => ({ titles: ['Cover, revisions'], perPaper: 0, marks: part.marks })),
  ];
}
