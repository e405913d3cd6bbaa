import type { Schedule } from '../../src/answer/schedules.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import type { IssuedRevision } from '../papers/attached-job.ts';
import type { PackInput } from '../papers/pack.ts';
import { statusText } from '../papers/sheets/status.ts';
import { shownRows } from '../papers/shown.ts';

/** What somebody at the wall asks of a slot. */
export interface SlotFacts {
  readonly id: string;
  readonly line: readonly [x0_mm: number, y0_mm: number, x1_mm: number, y1_mm: number];
  /** A thing of the slot, and what is to be known of it. */
  readonly facts: readonly (readonly [what: string, text: string])[];
  /** Rows of the test sheet that are measured at it. */
  readonly rows: readonly string[];
}

/** The judgement of a job's readings in a few plain texts. */
export interface Verdict {
  readonly sentence: string;
  readonly suspects: readonly string[];
}

/** All that the page for the site knows: one issued revision. */
export interface OnSiteData {
  readonly title: string;
  readonly about: string;
  readonly status: string;
  readonly engine: string;
  readonly job: Job;
  readonly revision: IssuedRevision | null;
  readonly panel: { readonly width_mm: number; readonly height_mm: number };
  readonly slots: readonly SlotFacts[];
  readonly schedules: readonly Schedule[];
  readonly cautions: readonly string[];
  readonly conditions: readonly string[];
}

type Row = Readonly<Record<string, string>>;

/** Rows of a schedule as they are shown, by the keys of their columns. */
function rowsOf({ schedules }: Sizing, id: Schedule['id']): Row[] {
  const schedule = schedules.find((each) => each.id === id);
  if (!schedule) return [];
  return shownRows(schedule).map((row) =>
    Object.fromEntries(schedule.columns.map(({ key }, i) => [key, row[i]!])),
  );
}

const protectedBy = {
  fuse: (row: Row) => `fuse ${row.fuse}, ${row.rating} A`,
  driver: () => 'held by the limit of its driver, no fuse',
  nothing: () => 'nothing protects it yet',
} as const;

function cableFacts(feedPoint: string, sizing: Sizing): [string, string][] {
  const rows = new Map(rowsOf(sizing, 'cables').map((row) => [row.cable!, row]));
  return sizing.cables
    .filter(({ serves }) => serves.includes(feedPoint))
    .flatMap((cable) => {
      const row = rows.get(cable.id)!;
      return [
        [`Cable ${cable.id}`, `${row.from} to ${row.to}; ${row.type}, cut to ${row.cut} mm`],
        [`Cores of ${cable.id}`, row.marks!],
        [`Protection of ${cable.id}`, protectedBy[cable.protectedBy](row)],
      ] satisfies [string, string][];
    });
}

function driverFacts(output: string, sizing: Sizing): [string, string][] {
  const row = rowsOf(sizing, 'drivers').find((each) => each.output === output);
  if (!row) return [];
  const breaker = row.breaker === '' ? '' : `, on breaker ${row.breaker}`;
  return [[`Driver ${row.driver}`, `output ${output}, ${row.type}, in ${row.place}${breaker}`]];
}

function slotFacts(slot: Sizing['setOut']['slots'][number], sizing: Sizing): SlotFacts {
  const runs = sizing.setOut.runs.filter((run) => run.slot === slot.id);
  const feedPoints = runs.flatMap((run) => run.feedPoints);
  const pieces = rowsOf(sizing, 'cutting-list').filter((row) => row.slot === slot.id);
  const outputs = sizing.drivers.drivers.flatMap((driver) => driver.outputs);
  const own = outputs.filter((output) => output.runs.some((run) => runs.some(({ id }) => id === run)));
  const feeds = rowsOf(sizing, 'feed-points').filter((row) =>
    feedPoints.some(({ id }) => id === row.feedPoint),
  );
  const places = new Set([...runs.map(({ id }) => id), ...feedPoints.map(({ id }) => id)]);
  return {
    id: slot.id,
    line: [slot.x0_mm, slot.y0_mm, slot.x1_mm, slot.y1_mm],
    facts: [
      ...feeds.map((row): [string, string] => [
        `Feed ${row.feedPoint}`,
        `${row.polarity}, at the ${row.at}: ${row.x} mm from left, ${row.y} mm from bottom`,
      ]),
      ...feedPoints.flatMap(({ id }) => cableFacts(id, sizing)),
      ...own.flatMap(({ id }) => driverFacts(id, sizing)),
      ...pieces.map((row): [string, string] => [
        `Strip ${row.piece}`,
        `${row.length} mm from reel ${row.reel}`,
      ]),
    ],
    rows: rowsOf(sizing, 'test-sheet').flatMap((row) => {
      const ref = row.ref!;
      return places.has(ref) || places.has(ref.replace(/ (start|finish)$/, '')) ? [ref] : [];
    }),
  };
}

const capitalised = (text: string): string => `${text[0]!.toUpperCase()}${text.slice(1)}`;

/** What the page for the site is made from: the papers of one revision, slot by slot. */
export function onSiteData({ job, sizing, issued }: PackInput): OnSiteData {
  const { title } = job;
  const said = [title.place, title.client, title.documentNumber, `revision ${title.revision}`];
  return {
    title: title.job === '' ? 'Hand-over' : title.job,
    about: said.filter((text) => text !== '').join(' · '),
    status: capitalised(`${statusText({ sizing, issued })}${issued ? `, ${issued.date}` : ''}`),
    engine: sizing.engine,
    job,
    revision: issued?.as ?? null,
    panel: { width_mm: job.panel.width_mm, height_mm: job.panel.height_mm },
    slots: sizing.setOut.slots.map((slot) => slotFacts(slot, sizing)),
    schedules: sizing.schedules,
    cautions: sizing.cautions.map(({ sentence }) => sentence),
    conditions: sizing.conditions.map(({ sentence }) => sentence),
  };
}
