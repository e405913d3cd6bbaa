import type { Sizing } from '../../../src/answer/sizing.ts';
import { waysOf } from '../../../src/job/cable-way.ts';
import type { Job } from '../../../src/job/job.ts';
import { elevation } from '../drawings/elevation.ts';
import { isNamedOnWall, type LabelPlan, labelPlan } from '../drawings/elevation-labels.ts';
import { rearElevation } from '../drawings/rear-elevation.ts';
import { centred, type Drawing, largestThatFits, scaleText } from '../drawings/scale.ts';
import { leading, textWidth, wrapped } from '../ink/lettering.ts';
import {
  circle,
  corners,
  type Extents,
  extentsOf,
  filled,
  lettering,
  line,
  type Mark,
  outline,
} from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { heading, headingRoom_mm } from './heading.ts';
import { bodyOf, type Draft, type Format } from './sheet.ts';
import type { Table } from './table.ts';
import { tableDrafts } from './table-flow.ts';

const em = 2.5;
const legend_mm = 5;

/** A sign of the legend, drawn from a point 8 mm to the right, and what it is. */
interface Sign {
  readonly text: string;
  readonly marks: (x: number, y: number) => Mark[];
}

const signBox = (x: number, y: number) => corners({ x0: x, y0: y - 0.9, x1: x + 8, y1: y + 0.9 });

const signs: readonly Sign[] = [
  { text: 'strip', marks: (x, y) => [filled('STRIP', ...signBox(x, y))] },
  {
    text: 'dark end',
    marks: (x, y) => [filled('DARK_ENDS', ...signBox(x, y)), outline('SLOTS', ...signBox(x, y))],
  },
  { text: 'feed point', marks: (x, y) => [circle('FEED_POINTS', [x + 4, y], 0.7, true)] },
  { text: 'cable', marks: (x, y) => [line('CABLES', [x, y], [x + 8, y])] },
  { text: 'driver place', marks: (x, y) => [outline('DRIVER_PLACES', ...signBox(x, y))] },
  {
    text: 'driver, block or dimmer; bar: terminals',
    marks: (x, y) => [
      outline('DRIVERS', ...signBox(x, y)),
      filled('DRIVERS', ...corners({ x0: x, y0: y - 0.9, x1: x + 0.8, y1: y + 0.9 })),
    ],
  },
  {
    text: 'tap',
    marks: (x, y) => [filled('TAPS', ...corners({ x0: x + 3.2, y0: y - 0.8, x1: x + 4.8, y1: y + 0.8 }))],
  },
  { text: 'cable exit', marks: (x, y) => [circle('EXITS', [x + 4, y], 0.9)] },
];

/** The signs of the legend in lines as wide as a box, the first on a height. */
function legendMarks({ x0, x1 }: Extents, y: number): { marks: Mark[]; lineCount: number } {
  let [x, row] = [x0, 0];
  const marks = signs.flatMap((sign) => {
    const width = 10 + textWidth(sign.text, em);
    if (x + width > x1 && x > x0) [x, row] = [x0, row + 1];
    const [left, at] = [x, y - row * legend_mm];
    x += width + 5;
    const name = lettering({ layer: 'LETTERING', at: [left + 10, at - 0.85], text: sign.text, em });
    return [...sign.marks(left, at), name];
  });
  return { marks, lineCount: row + 1 };
}

/** The same value for all, or undefined where they differ by what a joiner can measure. */
function common(values: readonly number[]): number | undefined {
  const first = values[0]!;
  return values.every((value) => Math.abs(value - first) < 0.05) ? first : undefined;
}

const mm = (value: number): string => shown(value, Math.abs(value - Math.round(value)) < 0.05 ? 0 : 1);

function slotNote(sizing: Sizing): string {
  const { slots, runs } = sizing.setOut;
  const length = common(slots.map((slot) => slot.length_mm));
  const dark = [common(runs.map((run) => run.darkStart_mm)), common(runs.map((run) => run.darkFinish_mm))];
  const lengths =
    length === undefined ? 'of different lengths, see the slot list' : `each ${mm(length)} long`;
  const ends =
    dark[0] === undefined || dark[1] === undefined
      ? 'dark ends differ, see the cutting list'
      : `dark ends ${mm(dark[0])} at the start and ${mm(dark[1])} at the finish`;
  const widths = [...new Set(slots.map(({ width_mm }) => mm(width_mm)))].join(' and ');
  return `${slots.length} slots, ${widths} wide, ${lengths}; ${ends}.`;
}

/** What is left unsaid in a drawing of the elevation. */
interface Unsaid {
  readonly plan: LabelPlan;
  readonly hasUnnamedCables: boolean;
}

const saidAtFeeds = {
  coordinates: 'its reference, its cable, its coordinates',
  cable: 'its reference and its cable; its coordinates stand in the feed-point schedule',
  reference: 'its reference; its cable and its coordinates stand in the feed-point schedule',
} as const;

/** Strip that lies to one side of its slot is drawn in its middle, as are its feed points. */
function besideNote({ section: { strip, stripOffset_mm } }: Job): string[] {
  if (strip === 'side')
    return [
      'Strip and feed points are drawn in the middle of the slot; the strip lies on the side of the cavity, see the section.',
    ];
  if (stripOffset_mm === 0) return [];
  return [
    `Strip and feed points are drawn in the middle of the slot; the strip lies ${mm(Math.abs(stripOffset_mm))} to one side of it, see the section.`,
  ];
}

/** The ways of the wall and of its zones: "foot run, 40 mm from the lower edge (y 40 mm)". */
const wayText = (job: Job): string =>
  waysOf(job)
    .map(({ way, y_mm }) => {
      const edge = way === 'head' ? 'upper' : 'lower';
      return `${way} run, ${mm(job.cables.wayInset_mm)} from the ${edge} edge (y ${mm(y_mm)})`;
    })
    .join(' and ');

function notes(job: Job, sizing: Sizing, { plan, hasUnnamedCables }: Unsaid): string[] {
  const { every, where, says } = plan;
  const some = every > 1 ? `One slot in ${every} is` : 'Slots are';
  return [
    `Seen from the room. Millimetres; x and y from the panel's lower left corner (0, 0). ${slotNote(sizing)}`,
    `The arrow at an end of a strip is its start. Plus and minus land at a feed point, unless (+) or (−) stands with it. Height of y 0 over the floor: ________ mm.`,
    `Cable way: ${wayText(job)}. At each feed point: ${saidAtFeeds[says]}.`,
    ...besideNote(job),
    ...(where === 'beyond'
      ? [`${some} labelled here, at the end that is fed; all feed points stand in their schedule.`]
      : []),
    ...(hasUnnamedCables
      ? ['Cables without room for their reference here stand in the cable schedule.']
      : []),
  ];
}

/** Whether the drawing leaves a cable without its reference. */
function leavesUnnamed(sizing: Sizing, { marks }: Drawing): boolean {
  const words = new Set(
    marks.flatMap((mark) =>
      mark.kind === 'text' && mark.layer === 'CABLE_REFS' ? mark.text.split(/\s+/) : [],
    ),
  );
  return sizing.cables.some((cable) => isNamedOnWall(cable) && !words.has(cable.id));
}

/** The longest the notes can be. */
const mostUnsaid: Unsaid = {
  plan: { em_mm: 1, where: 'beyond', every: 2, says: 'reference' },
  hasUnnamedCables: true,
};

/** A drawing with its heading and what is said of it, in a box. */
interface Block {
  readonly marks: readonly Mark[];
  readonly perPaper: number;
}

/** The elevation in a box, at the largest standard scale that fits, with a legend and notes below it. */
function frontBlock(job: Job, sizing: Sizing, body: Extents): Block {
  const linesOf = (unsaid: Unsaid): string[] =>
    notes(job, sizing, unsaid).flatMap((text) => wrapped(text, body.x1 - body.x0, { em }));
  const legend = legend_mm * legendMarks(body, 0).lineCount;
  const floor = body.y0 + legend + (linesOf(mostUnsaid).length + 0.4) * em * leading;
  const box = { ...body, y0: floor, y1: body.y1 - headingRoom_mm };
  const drawing = largestThatFits((perPaper) => elevation(job, sizing, perPaper), box);
  const lines = linesOf({
    plan: labelPlan(sizing, drawing.perPaper),
    hasUnnamedCables: leavesUnnamed(sizing, drawing),
  });
  const marks = [
    heading(`Elevation ${scaleText(drawing.perPaper)}`, body),
    ...centred(drawing, box),
    ...legendMarks(body, floor - 3).marks,
    ...lines.map((text, i) =>
      lettering({ layer: 'LETTERING', at: [body.x0, floor - legend - (i + 1) * em * leading], text, em }),
    ),
  ];
  return { perPaper: drawing.perPaper, marks };
}

const behindText =
  'Seen from the wall side, as the panel is wired: left and right are exchanged, x still counts from the corner that is the lower left seen from the room. Arrows, feed points and cables as in the elevation.';

/** The elevation from behind in a box, at the largest standard scale that fits, in its middle or at its top; `used` is how far down it reaches. */
function rearBlock(
  job: Job,
  sizing: Sizing,
  body: Extents,
  stands: 'middle' | 'top' = 'middle',
): Block & { used: number } {
  const lines = wrapped(behindText, body.x1 - body.x0, { em });
  const under = (lines.length + 0.4) * em * leading;
  const box = { ...body, y0: body.y0 + under, y1: body.y1 - headingRoom_mm };
  const drawing = largestThatFits((perPaper) => rearElevation(job, sizing, perPaper), box);
  const { y0, y1 } = extentsOf(drawing.marks);
  const floor = stands === 'top' ? box.y1 - (y1 - y0) / drawing.perPaper : box.y0;
  const marks = [
    heading(`Rear elevation, mirrored ${scaleText(drawing.perPaper)}`, body),
    ...centred(drawing, { ...box, y0: floor }),
    ...lines.map((text, i) =>
      lettering({ layer: 'LETTERING', at: [body.x0, floor - (i + 1) * em * leading], text, em }),
    ),
  ];
  return { perPaper: drawing.perPaper, marks, used: body.y1 - floor + under };
}

/** The elevation on a sheet of its own. */
export const elevationDraft = (job: Job, sizing: Sizing, format: Format): Draft => ({
  titles: ['Elevation'],
  ...frontBlock(job, sizing, bodyOf(format)),
});

/** Air between two drawings on one sheet, mm. */
const apart_mm = 6;

/** Two boxes of a body below one another, the upper with more room for its notes, or beside one another. */
function halves(body: Extents): [Extents, Extents][] {
  const [x, y] = [(body.x0 + body.x1) / 2, body.y0 + 0.46 * (body.y1 - body.y0)];
  return [
    [
      { ...body, y0: y + apart_mm / 2 },
      { ...body, y1: y - apart_mm / 2 },
    ],
    [
      { ...body, x1: x - apart_mm / 2 },
      { ...body, x0: x + apart_mm / 2 },
    ],
  ];
}

/** Both elevations on one sheet of A3 where a sheet of A4 would show them no larger. */
function together(job: Job, sizing: Sizing): Draft | undefined {
  const onA4 = elevationDraft(job, sizing, 'A4').perPaper;
  const pairs = halves(bodyOf('A3')).map(([front, rear]) => [
    frontBlock(job, sizing, front),
    rearBlock(job, sizing, rear),
  ]);
  const scaleOf = (pair: readonly Block[]): number => Math.max(...pair.map(({ perPaper }) => perPaper));
  const [best] = pairs.toSorted((a, b) => scaleOf(a) - scaleOf(b));
  if (scaleOf(best!) > onA4) return undefined;
  const [front, rear] = best!;
  return {
    titles: ['Elevation', 'Rear elevation'],
    perPaper: front!.perPaper,
    marks: [...front!.marks, ...rear!.marks],
  };
}

/** The elevations from the room and from behind, and the tables on what is in them where they have room below. */
export function elevationDrafts(
  job: Job,
  sizing: Sizing,
  format: Format,
  tables: readonly Table[],
): { drafts: Draft[]; left: readonly Table[] } {
  const both = format === 'A3' ? together(job, sizing) : undefined;
  if (both) return { drafts: [both], left: tables };
  const front = elevationDraft(job, sizing, format);
  const body = bodyOf(format);
  const { used, ...top } = rearBlock(job, sizing, body, 'top');
  const titles = ['Rear elevation'];
  const begun = tableDrafts(tables, format, {
    draft: { titles, ...top },
    used: used + bodyOf(format, 'list').y1 - body.y1,
  });
  if (begun.length === 1 && tables.length > 0) return { drafts: [front, ...begun], left: [] };
  return { drafts: [front, { titles, ...rearBlock(job, sizing, body) }], left: tables };
}
