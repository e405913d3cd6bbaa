import { isOnCondition } from '../../../src/answer/finding-status.ts';
import type { Finding } from '../../../src/answer/findings.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';
import type { Unprintable } from '../../../src/job/printed-characters.ts';
import type { Comparison } from '../comparison.ts';
import { shown } from '../shown.ts';
import type { Table, TableColumn } from './table.ts';

const words = (label: string): TableColumn => ({ label, unit: '', align: 'left', write_mm: 0, group: '' });
const millimetres = (label: string, unit = 'mm'): TableColumn => ({
  label,
  unit,
  align: 'right',
  write_mm: 0,
  group: '',
});

const unmarked: ReadonlySet<number> = new Set();

/** The cautions of the job, each with why it appears and what it rests on. */
export function cautionsTable({ cautions }: Sizing): Table {
  return {
    title: 'Cautions: read before anything is connected',
    columns: [words('No.'), words('Caution'), words('Appears because'), words('Rests on')],
    rows: cautions.map(({ sentence, because, basis }, i) => [String(i + 1), sentence, because, basis]),
    text: { lead: 'hanging' },
    marked: unmarked,
  };
}

const verdicts = { fails: 'not passed', watch: 'warning', passes: 'passed', note: 'note' } as const;

const verdictOf = (finding: Finding): string =>
  isOnCondition(finding) ? 'on condition' : verdicts[finding.status];

const where = ({ place }: Finding): string =>
  place.cable ?? place.driver ?? place.feedPoint ?? place.run ?? place.slot ?? 'whole job';

const meaning = ({ sentence, remedies }: Finding): string =>
  [sentence, ...remedies.map((remedy) => remedy.sentence)].join(' ');

/**
 * The checks that are not passed or carry a warning; nothing is built before the maker has answered them. What would pass
 * but for a condition comes after the condition itself.
 */
export function openFindings({ findings }: Sizing): Table {
  const open = findings.filter(({ status }) => status === 'fails' || status === 'watch');
  return {
    title: 'Open findings: settle before building',
    columns: [
      words('Verdict'),
      words('Where'),
      words('Check'),
      words('What it means, and what to change'),
      words('Rests on'),
    ],
    rows: [...open.filter((each) => !isOnCondition(each)), ...open.filter(isOnCondition)].map((each) => [
      verdictOf(each),
      where(each),
      each.title,
      meaning(each),
      each.basis,
    ]),
    text: { lead: 3 },
    marked: unmarked,
  };
}

/** Title of the list of what no font at hand has; the cover points to it. */
export const unprintableTitle = 'Characters that cannot be printed';

/** Texts of the job with characters that no font at hand has, whose codes stand in their place. */
export function unprintableTable(missing: readonly Unprintable[]): Table {
  return {
    title: unprintableTitle,
    columns: [words('No.'), words('What it means, and what to change')],
    rows: missing.map(({ sentence }, i) => [String(i + 1), sentence]),
    marked: unmarked,
  };
}

/** Where every slot is. */
export function slotList({ setOut }: Sizing): Table {
  return {
    title: 'Slot list',
    columns: [
      words('Slot'),
      millimetres('Start from left'),
      millimetres('Start from bottom'),
      millimetres('Finish from left'),
      millimetres('Finish from bottom'),
      millimetres('Length'),
      millimetres('Width'),
      millimetres('Runs', ''),
    ],
    rows: setOut.slots.map((slot) => [
      slot.id,
      ...[slot.x0_mm, slot.y0_mm, slot.x1_mm, slot.y1_mm, slot.length_mm, slot.width_mm].map((value) =>
        shown(value, 1),
      ),
      String(setOut.runs.filter((run) => run.slot === slot.id).length),
    ]),
    marked: unmarked,
  };
}

/** Where every tap on a trunk or a ring is, and what leaves it. */
export function tapList({ cables, installation }: Sizing): Table {
  const branches = (tap: string): string =>
    cables.flatMap(({ id, from }) => (from.kind === 'tap' && from.id === tap ? [id] : [])).join(', ');
  return {
    title: 'Tap list',
    columns: [
      words('Tap'),
      words('On cable'),
      millimetres('From left'),
      millimetres('From bottom'),
      words('Branches'),
    ],
    rows: installation.taps.map(({ id, cable, x_mm, y_mm }) => [
      id,
      cable,
      shown(x_mm, 0),
      shown(y_mm, 0),
      branches(id),
    ]),
    marked: unmarked,
  };
}

/** What changed since the revision before: by the maker first, then what became of it; the rows are marked where they stand. */
export function changesTable({ made, became, shifts }: Comparison, before: string): Table {
  const part = (name: string, whats: readonly string[]): string[][] => whats.map((what) => [name, what]);
  return {
    title: `Changes since revision ${before}`,
    columns: [words(''), words('What changed')],
    rows: [
      ...part(
        'Changed by the maker',
        made.map(({ label, before, after }) => `${label}: ${before} → ${after}`),
      ),
      ...part('What became of it', became),
      ...part('Moved by 5 % or less', shifts === '' ? [] : [shifts]),
    ],
    marked: unmarked,
  };
}

/** A revision in the table on the cover. */
export interface RevisionLine {
  readonly revision: string;
  readonly date: string;
  readonly note: string;
}

/** Width of the columns of the revision table that are written in by hand, all but the words, mm. */
const signatures_mm = 86.5;

/** The revision table of the cover across so many mm, newest last, with room for signatures. */
export function revisionTable(revisions: readonly RevisionLine[], width: number): Table {
  return {
    title: 'Revisions',
    columns: [
      words('Revision'),
      { ...words('Date'), write_mm: 22 },
      { ...words('What changed'), write_mm: width - signatures_mm },
      { ...words('Checked'), write_mm: 24 },
      { ...words('Released'), write_mm: 24 },
    ],
    rows: revisions.map(({ revision, date, note }) => [revision, date, note, '', '']),
    marked: unmarked,
  };
}
