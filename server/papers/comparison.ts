import type { Finding } from '../../src/answer/findings.ts';
import type { Schedule, ScheduleCell } from '../../src/answer/schedules.ts';
import type { Path } from '../../src/job/field-name.ts';
import type { Job } from '../../src/job/job.ts';
import {
  isRatio,
  type JobDifference,
  jobDifferences,
  type WriteValue,
} from '../../src/job/job-differences.ts';
import { branches, schemaAt } from '../../src/job/schema-path.ts';
import { byReference, refOf } from './changes.ts';
import { figure, inWords, shown, shownCell } from './shown.ts';

/** An issue as it is compared: what of it cannot be read any more is left out. */
export interface Compared {
  readonly job?: Job;
  readonly findings?: readonly Finding[];
  readonly schedules: readonly Schedule[];
}

/** What is otherwise than in the revision before: what the maker changed, what became of it, and what hardly moved. */
export interface Comparison {
  readonly made: readonly Pick<JobDifference, 'label' | 'before' | 'after'>[];
  readonly became: readonly string[];
  /** All that moved by less than a twentieth, in one line; empty for nothing. */
  readonly shifts: string;
}

/** Figures that move by less than this part are a shift. */
const smallShift = 0.05;

/** A price is held in cents and printed as money. */
const isMoney = (path: Path): boolean => String(path.at(-1)).startsWith('price_cents');

const written: WriteValue = (value, path) => {
  if (typeof value === 'string') return value;
  if (isMoney(path)) return figure(value / 100, Number.isInteger(value) ? 2 : 4);
  const end = schemaAt(path);
  const schema = end && (branches(end).find(({ type }) => type !== 'null') ?? end);
  if (schema && isRatio(schema)) return `${Number((100 * value).toPrecision(10))} %`;
  return inWords(`${value} ${schema?.unit ?? ''}`.trim());
};

/** The revision and its date are those of every issue. */
const isOfIssue = ({ field }: JobDifference): boolean => field === 'title.revision' || field === 'title.date';

function madeBy(before: Compared, now: Compared): Comparison['made'] {
  if (!before.job || !now.job) return [];
  const all = jobDifferences(before.job, now.job, written).filter((one) => !isOfIssue(one));
  return all.map(({ label, before, after }) => ({ label: label.replace(/,? in cents$/, ''), before, after }));
}

const isSmall = (a: number, b: number): boolean =>
  Math.abs(a - b) <= smallShift * Math.max(Math.abs(a), Math.abs(b));

/** Moved so little that it stands in the line of shifts, or what there is to say of it. */
interface Moved {
  readonly what: string;
  readonly isShift: boolean;
}

const words = { fails: 'fails', watch: 'a warning', passes: 'passes', note: 'a note' } as const;

function findingText({ value, unit, status }: Finding): string {
  const [x, named] = unit === 'ratio' ? [100 * (value ?? 0), '%'] : [value ?? 0, unit];
  const figure = value === null ? '' : `${inWords(shown(x, Math.abs(x) < 10 ? 2 : 0))} ${named}`.trim();
  return [figure, words[status]].filter((text) => text !== '').join(', ');
}

function movedFinding(was: Finding, is: Finding): Moved[] {
  const hasMoved = was.value !== null && is.value !== null && was.value !== is.value;
  if (was.status === is.status && !hasMoved) return [];
  const isShift = was.status === is.status && isSmall(was.value ?? 0, is.value ?? 0);
  const what = isShift ? is.title : `${is.title}: ${findingText(was)} → ${findingText(is)}`;
  return [{ what, isShift }];
}

/** Findings of both by their id; one that comes more than once is told apart by its turn. Those that fail now come first. */
function movedFindings({ findings: before = [] }: Compared, { findings: now = [] }: Compared): Moved[] {
  const turns = (all: readonly Finding[]) => {
    const at = new Map<string, number>();
    return new Map(
      all.map((one) => {
        const turn = at.get(one.id) ?? 0;
        at.set(one.id, turn + 1);
        return [`${one.id} ${turn}`, one] as const;
      }),
    );
  };
  const old = turns(before);
  const pairs = [...turns(now)].flatMap(([key, is]) => (old.has(key) ? [{ was: old.get(key)!, is }] : []));
  const rank = ({ was, is }: (typeof pairs)[number]): number =>
    was.status === is.status ? 4 : ['fails', 'watch', 'passes', 'note'].indexOf(is.status);
  return pairs.toSorted((a, b) => rank(a) - rank(b)).flatMap(({ was, is }) => movedFinding(was, is));
}

/** Names, the first few of them. */
function listed(names: readonly string[]): string {
  const rest = names.length - 6;
  return rest <= 1 ? names.join(', ') : `${names.slice(0, 6).join(', ')} and ${rest} more`;
}

interface CellPair {
  readonly ref: string;
  readonly was: ScheduleCell;
  readonly is: ScheduleCell;
}

/** Bounds of a band follow what they are about. */
const isBound = ({ key }: Schedule['columns'][number]): boolean => /(Low|High)$/.test(key);

/** How far a cell is from what it was, as a part of the larger. */
const shiftOf = ({ was, is }: CellPair): number =>
  typeof was === 'number' && typeof is === 'number'
    ? Math.abs(was - is) / Math.max(Math.abs(was), Math.abs(is))
    : Number.POSITIVE_INFINITY;

function movedColumn(
  { title }: Schedule,
  column: Schedule['columns'][number],
  pairs: readonly CellPair[],
): Moved[] {
  const moved = pairs.filter(({ was, is }) => shownCell(was, column.digits) !== shownCell(is, column.digits));
  const [most] = moved.toSorted((a, b) => shiftOf(b) - shiftOf(a));
  if (!most) return [];
  const rows = moved.length === 1 ? '1 row' : `${moved.length} rows`;
  if (shiftOf(most) <= smallShift) return [{ what: `${title}, ${column.label} (${rows})`, isShift: true }];
  const cell = (one: ScheduleCell): string => {
    const text = shownCell(one, column.digits);
    return typeof one === 'number' ? inWords(text) : text || 'nothing';
  };
  const at = moved.length === 1 ? most.ref : `${rows}, most at ${most.ref}`;
  const change = `${cell(most.was)} → ${cell(most.is)} ${column.unit}`.trim();
  return [{ what: `${title}, ${column.label}: ${at}: ${change}`, isShift: false }];
}

function movedSchedule(now: Schedule, before: Schedule | undefined): Moved[] {
  const [fresh, old] = [byReference(now), before ? byReference(before) : new Map<string, never>()];
  const names = (keys: readonly string[]): string => listed(keys.map(refOf));
  const [added, gone] = [
    [...fresh.keys()].filter((key) => !old.has(key)),
    [...old.keys()].filter((key) => !fresh.has(key)),
  ];
  const columns = now.columns.filter((column, i) => i > 0 && !isBound(column));
  const cellAt = (schedule: Schedule, row: number, key: string): ScheduleCell =>
    schedule.rows[row]?.[schedule.columns.findIndex((column) => column.key === key)] ?? null;
  const pairsOf = (key: string): CellPair[] =>
    [...fresh].flatMap(([name, { row }]) => {
      const was = old.get(name);
      if (!was || !before) return [];
      return [{ ref: refOf(name), was: cellAt(before, was.row, key), is: cellAt(now, row, key) }];
    });
  return [
    ...(added.length > 0 ? [{ what: `${now.title}: ${names(added)} new`, isShift: false }] : []),
    ...(gone.length > 0 ? [{ what: `${now.title}: ${names(gone)} no longer there`, isShift: false }] : []),
    ...columns.flatMap((column) => movedColumn(now, column, pairsOf(column.key))),
  ];
}

/**
 * What an issue is otherwise in than the one before, the maker's own changes first, then verdicts and figures by how much they
 * matter: findings before the rows of schedules, column by column, and all that moved by 5 % or less in one line.
 */
export function comparisonOf(before: Compared, now: Compared): Comparison {
  const moved = [
    ...movedFindings(before, now),
    ...now.schedules.flatMap((schedule) =>
      movedSchedule(
        schedule,
        before.schedules.find(({ id }) => id === schedule.id),
      ),
    ),
  ];
  return {
    made: madeBy(before, now),
    became: moved.filter(({ isShift }) => !isShift).map(({ what }) => what),
    shifts: moved
      .filter(({ isShift }) => isShift)
      .map(({ what }) => what)
      .join('; '),
  };
}
