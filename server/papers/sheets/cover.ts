import type { Job } from '../../../src/job/job.ts';
import type { Sizing } from '../../../src/sizing.ts';
import { fitted, leading, wrapped } from '../ink/lettering.ts';
import { type Extents, lettering, line, type Mark } from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { bodyOf, type Draft, type Format } from './sheet.ts';
import { tableParts } from './table.ts';
import { type RevisionLine, revisionTable } from './text-tables.ts';

/** A line of the contents. */
export interface ContentsLine {
  readonly title: string;
  readonly sheet: number;
}

const em = 2.9;
const pitch = em * 1.45;

const text = (at: readonly [number, number], value: string, size = em, bold = false): Mark =>
  lettering({ layer: 'LETTERING', at, text: value, em: size, bold });

function titleMarks(job: Job, body: Extents): { marks: Mark[]; bottom: number } {
  const room = { width: body.x1 - body.x0, height: 22 };
  const { em: size, lines } = fitted(job.title.job, room, [9, 7.5, 6.5, 5.5, 4.5, 3.5], true);
  const top = body.y1 - 4;
  const under = top - lines.length * leading * size;
  return {
    marks: [
      ...lines.map((each, i) => text([body.x0, top - (i + 0.8) * leading * size], each, size, true)),
      text([body.x0, under - 6], 'Hand-over papers for the electrician', 5),
      line('BREAKS', [body.x0, under - 9], [body.x1, under - 9]),
    ],
    bottom: under - 12,
  };
}

/** Two columns of names and values; a long value goes on below. */
function pairs(rows: readonly (readonly [string, string])[], box: Extents): Mark[] {
  const indent = 46;
  let y = box.y1;
  return rows.flatMap(([name, value]) => {
    const lines = wrapped(value === '' ? '–' : value, box.x1 - box.x0 - indent, { em });
    const marks = [
      text([box.x0, y - em], name, em, true),
      ...lines.map((each, i) => text([box.x0 + indent, y - em - i * em * leading], each)),
    ];
    y -= pitch + (lines.length - 1) * em * leading;
    return marks;
  });
}

function particulars({ title }: Job): [string, string][] {
  return [
    ['Client', title.client],
    ['Place', title.place],
    ['Maker', title.maker],
    ['Drawn by', title.drawnBy],
    ['Document number', title.documentNumber],
    ['Revision', title.revision],
    ['Date', title.date],
  ];
}

function figures(job: Job, sizing: Sizing): [string, string][] {
  const { setOut, circuit, drivers, cables, findings } = sizing;
  const failing = findings.filter(({ status }) => status === 'fails').length;
  return [
    ['Panel', `${shown(job.panel.width_mm, 0)} × ${shown(job.panel.height_mm, 0)} mm`],
    ['Slots and strip', `${setOut.slots.length} slots, ${shown(setOut.strip_m, 2)} m of strip`],
    ['Drivers', `${drivers.drivers.length} × ${drivers.drivers[0]?.name ?? '–'}`],
    ['Cables', `${cables.length} × ${cables[0]?.name ?? '–'}`],
    ['Load of the drivers', `${shown(circuit.supply_W, 1)} W`],
    ['Mains side', `${shown(drivers.input_W, 1)} W, ${shown(drivers.input_A, 2)} A at ${job.site.mains_V} V`],
    ['Checks not passed', failing === 0 ? 'none' : `${failing}: see the open findings`],
  ];
}

function contentsMarks(contents: readonly ContentsLine[], box: Extents): Mark[] {
  const size = 2.6;
  return [
    text([box.x0, box.y1 - 3.2], 'Contents', 3.4, true),
    ...contents.flatMap(({ title, sheet }, i) => {
      const y = box.y1 - 8 - i * size * 1.42;
      return [
        text([box.x0, y], title, size),
        lettering({ layer: 'LETTERING', at: [box.x1, y], text: `sheet ${sheet}`, em: size, align: 'right' }),
      ];
    }),
  ];
}

const statement =
  'A design aid. Fixed wiring and everything on the mains side belong to a licensed electrician under the local wiring rules; the makers’ data sheets take precedence over every figure here. Test before the wall is closed: the test sheet says what to expect.';

/** The cover, with particulars, contents and the revision table; a long revision table goes on on further sheets. */
export function coverDrafts(
  given: { readonly job: Job; readonly sizing: Sizing; readonly revisions: readonly RevisionLine[] },
  contents: readonly ContentsLine[],
  format: Format,
): Draft[] {
  const { job, sizing, revisions } = given;
  const body = bodyOf(format);
  const { marks, bottom } = titleMarks(job, body);
  const middle = body.x0 + (body.x1 - body.x0) * 0.64;
  const left = { ...body, x1: middle - 8, y1: bottom };
  const tableTop = Math.max(body.y0 + 34, bottom - 15.5 * pitch - 10);
  const lines = wrapped(statement, body.x1 - middle, { em: 2.5 });
  const [first, ...rest] = tableParts(revisionTable(revisions), { ...body, x1: middle - 8, y1: tableTop });
  return [
    {
      titles: ['Cover'],
      perPaper: 0,
      marks: [
        ...marks,
        ...pairs([...particulars(job), ...figures(job, sizing)], left),
        ...contentsMarks(contents, { ...body, x0: middle, y1: bottom }),
        ...(first?.marks ?? []),
        ...lines.map((each, i) => text([middle, body.y0 + 22 - i * 3], each, 2.5)),
      ],
    },
    ...rest.map((part) => ({ titles: ['Cover, revisions'], perPaper: 0, marks: part.marks })),
  ];
}
