import type { Sizing } from '../../../src/answer/sizing.ts';
import { waysOf } from '../../../src/job/cable-way.ts';
import type { Job } from '../../../src/job/job.ts';
import { elevation } from '../drawings/elevation.ts';
import { isNamedOnWall, type LabelPlan, labelPlan } from '../drawings/elevation-labels.ts';
import { rearElevation } from '../drawings/rear-elevation.ts';
import { centred, type Drawing, largestThatFits, scaleText } from '../drawings/scale.ts';
import { leading, wrapped } from '../ink/lettering.ts';
import { circle, corners, type Extents, filled, lettering, line, type Mark, outline } from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { heading, headingRoom_mm } from './heading.ts';
import { bodyOf, type Draft, type Format } from './sheet.ts';

const em = 2.5;
const legend_mm = 5;

function legendMarks(body: Extents, y: number): Mark[] {
  const box = (x: number) => corners({ x0: x, y0: y - 0.9, x1: x + 8, y1: y + 0.9 });
  const [a, b, c, d, e, f, g, h] = [0, 22, 50, 80, 104, 136, 196, 216].map((dx) => body.x0 + dx) as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const name = (x: number, text: string): Mark =>
    lettering({ layer: 'LETTERING', at: [x + 10, y - 0.85], text, em });
  return [
    filled('STRIP', ...box(a)),
    name(a, 'strip'),
    filled('DARK_ENDS', ...box(b)),
    outline('SLOTS', ...box(b)),
    name(b, 'dark end'),
    circle('FEED_POINTS', [c + 4, y], 0.7, true),
    name(c, 'feed point'),
    line('CABLES', [d, y], [d + 8, y]),
    name(d, 'cable'),
    outline('DRIVER_PLACES', ...box(e)),
    name(e, 'driver place'),
    outline('DRIVERS', ...box(f)),
    filled('DRIVERS', ...corners({ x0: f, y0: y - 0.9, x1: f + 0.8, y1: y + 0.9 })),
    name(f, 'driver, block or dimmer; bar: terminals'),
    filled('TAPS', ...corners({ x0: g + 3.2, y0: y - 0.8, x1: g + 4.8, y1: y + 0.8 })),
    name(g, 'tap'),
    circle('EXITS', [h + 4, y], 0.9),
    name(h, 'cable exit'),
  ];
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
  return `${slots.length} slots, ${mm(slots[0]!.width_mm)} wide, ${lengths}; ${ends}.`;
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

/** The elevation on a sheet, at the largest standard scale that fits, with a legend and notes below it. */
export function elevationDraft(job: Job, sizing: Sizing, format: Format): Draft {
  const body = bodyOf(format);
  const linesOf = (unsaid: Unsaid): string[] =>
    notes(job, sizing, unsaid).flatMap((text) => wrapped(text, body.x1 - body.x0, { em }));
  const floor = body.y0 + legend_mm + (linesOf(mostUnsaid).length + 0.4) * em * leading;
  const box = { ...body, y0: floor, y1: body.y1 - headingRoom_mm };
  const drawing = largestThatFits((perPaper) => elevation(job, sizing, perPaper), box);
  const lines = linesOf({
    plan: labelPlan(sizing, drawing.perPaper),
    hasUnnamedCables: leavesUnnamed(sizing, drawing),
  });
  const marks = [
    heading(`Elevation ${scaleText(drawing.perPaper)}`, body),
    ...centred(drawing, box),
    ...legendMarks(body, floor - 3),
    ...lines.map((text, i) =>
      lettering({ layer: 'LETTERING', at: [body.x0, floor - legend_mm - (i + 1) * em * leading], text, em }),
    ),
  ];
  return { titles: ['Elevation'], perPaper: drawing.perPaper, marks };
}

const behindText =
  'Seen from the wall side, as the panel is wired: left and right are exchanged, x still counts from the corner that is the lower left seen from the room. Arrows, feed points and cables as in the elevation.';

/** The elevation from behind, at the largest standard scale that fits. */
export function rearElevationDraft(job: Job, sizing: Sizing, format: Format): Draft {
  const body = bodyOf(format);
  const lines = wrapped(behindText, body.x1 - body.x0, { em });
  const floor = body.y0 + (lines.length + 0.4) * em * leading;
  const box = { ...body, y0: floor, y1: body.y1 - headingRoom_mm };
  const drawing = largestThatFits((perPaper) => rearElevation(job, sizing, perPaper), box);
  const marks = [
    heading(`Rear elevation, mirrored ${scaleText(drawing.perPaper)}`, body),
    ...centred(drawing, box),
    ...lines.map((text, i) =>
      lettering({ layer: 'LETTERING', at: [body.x0, floor - (i + 1) * em * leading], text, em }),
    ),
  ];
  return { titles: ['Rear elevation'], perPaper: drawing.perPaper, marks };
}
