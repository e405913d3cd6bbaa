import type { Schedule } from '../answer/schedules.ts';
import type { Run } from '../answer/set-out.ts';
import { type PlacedPanel, placedPanels } from '../job/panels.ts';
import { rememberedFor } from '../numeric/remembered.ts';
import type { HandOverInput } from './input.ts';
import { type Column, figures, tabulate, words } from './table.ts';

const panelBySlot = rememberedFor(
  ({ setOut }: HandOverInput) => new Map(setOut.slots.map(({ id, panel }) => [id, panel] as const)),
);

/** Mark of the panel a slot lies in; null in a wall without panels. */
export const panelOf = (slot: string, input: HandOverInput): string | null =>
  panelBySlot(input).get(slot) ?? null;

/** The column that says the panel; none in a wall without panels. */
export const panelColumn = <Row>({ job }: HandOverInput, cell: (row: Row) => string | null): Column<Row>[] =>
  job.panels.length === 0 ? [] : [words('panel', 'Panel', cell)];

interface PanelRow {
  readonly panel: PlacedPanel;
  readonly isFirst: boolean;
  readonly runs: readonly Run[];
  /** Cables that end in the panel, and those that only pass it. */
  readonly ending: readonly string[];
  readonly passing: readonly string[];
}

function rowOf(panel: PlacedPanel, i: number, input: HandOverInput): PanelRow {
  const runs = input.setOut.runs.filter(({ slot }) => panelOf(slot, input) === panel.id);
  const feedPoints = new Set(runs.flatMap((run) => run.feedPoints.map(({ id }) => id)));
  const here = input.cables.filter(({ panels }) => panels.includes(panel.id));
  const ends = here.filter(({ serves }) => serves.some((id) => feedPoints.has(id)));
  return {
    panel,
    isFirst: i === 0,
    runs,
    ending: ends.map(({ id }) => id),
    passing: here.filter((cable) => !ends.includes(cable)).map(({ id }) => id),
  };
}

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

/** Where a panel stands and how it meets the one before it; nothing of that for the first. */
const standing: readonly Column<PanelRow>[] = [
  words('panel', 'Panel', ({ panel }) => panel.id),
  words('name', 'Name', ({ panel }) => panel.name),
  figures({ key: 'width', label: 'Width', unit: 'mm', digits: 0 }, ({ panel }) => panel.width_mm),
  figures({ key: 'height', label: 'Height', unit: 'mm', digits: 0 }, ({ panel }) => panel.height_mm),
  figures({ key: 'left', label: 'Left edge', unit: 'mm', digits: 0 }, ({ panel }) => panel.left_mm),
  figures({ key: 'lower', label: 'Lower edge', unit: 'mm', digits: 0 }, ({ panel }) => panel.bottom_mm),
  words('joint', 'Joined to the one before', ({ panel, isFirst }) => (isFirst ? '' : panel.joint)),
  figures({ key: 'gap', label: 'Gap', unit: 'mm', digits: 1 }, ({ panel, isFirst }) =>
    isFirst ? null : panel.gap_mm,
  ),
];

const fitted: readonly Column<PanelRow>[] = [
  words('slots', 'Slots', ({ runs }) => runs.map(({ slot }) => slot).join(', ')),
  figures({ key: 'pieces', label: 'Pieces of strip', unit: '', digits: 0 }, ({ runs }) =>
    sum(runs.map(({ pieces }) => pieces.length)),
  ),
  figures(
    { key: 'strip', label: 'Strip', unit: 'm', digits: 2 },
    ({ runs }) => sum(runs.map(({ strip_mm }) => strip_mm)) / 1000,
  ),
  figures({ key: 'feedPoints', label: 'Feed points', unit: '', digits: 0 }, ({ runs }) =>
    sum(runs.map(({ feedPoints }) => feedPoints.length)),
  ),
  words('ending', 'Cables that feed it', ({ ending }) => ending.join(', ')),
  words('passing', 'Cables that pass it', ({ passing }) => passing.join(', ')),
];

/**
 * Packing list of the panels, one row for each: its measures, where it stands, what is fitted into it and what is led through
 * it. Pieces, strip and feed points of all rows add up to those of the wall. None for a wall without panels.
 */
export function panelsSchedule(input: HandOverInput): Schedule[] {
  const all = placedPanels(input.job);
  if (all.length === 0) return [];
  return [
    tabulate<PanelRow>(
      { id: 'panels', title: 'Panels and packing list' },
      [...standing, ...fitted],
      all.map((panel, i) => rowOf(panel, i, input)),
    ),
  ];
}
