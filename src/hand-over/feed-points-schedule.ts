import type { Schedule } from '../answer/schedules.ts';
import type { FeedPoint } from '../answer/set-out.ts';
import { placedPanels } from '../job/panels.ts';
import type { HandOverInput } from './input.ts';
import { panelOf } from './panels-schedule.ts';
import { type Column, figures, tabulate, words } from './table.ts';
import { cablesTo, feedPointsOf, polarity, runOf, solvedFeed, solvedRun } from './wiring.ts';

const at = { start: 'start', finish: 'finish', between: 'between the ends' } as const;

/** Distance along the strip from its start to the cut line of a feed point. */
function along_mm(feedPoint: FeedPoint, input: HandOverInput): number {
  const run = runOf(feedPoint.run, input);
  return (run.strip_mm * feedPoint.cutLine) / run.unitCount;
}

/** The volts a meter finds between the pads of a feed point; a crossed feed has no such pair. */
function padVolts_V(feedPoint: FeedPoint, input: HandOverInput): number | null {
  if (feedPoint.conductors !== 'both') return null;
  return solvedFeed(feedPoint, input)?.terminal_V ?? null;
}

/** From the lower left corner of its own panel, as it lies on the bench. */
function inPanelColumns(input: HandOverInput): Column<FeedPoint>[] {
  const all = placedPanels(input.job);
  const home = (f: FeedPoint) => all.find(({ id }) => id === panelOf(runOf(f.run, input).slot, input))!;
  if (all.length === 0) return [];
  return [
    words('panel', 'Panel', (f) => home(f).id),
    figures(
      { key: 'panelX', label: 'From left of panel', unit: 'mm', digits: 0 },
      (f) => f.x_mm - home(f).left_mm,
    ),
    figures(
      { key: 'panelY', label: 'From bottom of panel', unit: 'mm', digits: 0 },
      (f) => f.y_mm - home(f).bottom_mm,
    ),
  ];
}

/** Feed-point schedule: where every cable meets the strip, from the panel's lower left corner, with volts and amps. */
export function feedPointsSchedule(input: HandOverInput): Schedule {
  return tabulate<FeedPoint>(
    { id: 'feed-points', title: 'Feed-point schedule' },
    [
      words('feedPoint', 'Feed point', (f) => f.id),
      words('slot', 'Slot', (f) => runOf(f.run, input).slot),
      words('run', 'Run', (f) => f.run),
      figures({ key: 'x', label: 'From left', unit: 'mm', digits: 0 }, (f) => f.x_mm),
      figures({ key: 'y', label: 'From bottom', unit: 'mm', digits: 0 }, (f) => f.y_mm),
      ...inPanelColumns(input),
      words('at', 'Where on the run', (f) => at[f.at]),
      figures({ key: 'along', label: 'From start of strip', unit: 'mm', digits: 1 }, (f) =>
        along_mm(f, input),
      ),
      figures({ key: 'cutLine', label: 'Cut line', unit: '', digits: 0 }, (f) => f.cutLine),
      words('polarity', 'Conductors', (f) => polarity[f.conductors]),
      words('cable', 'Cable', (f) => cablesTo(f, input).at(-1)?.id ?? null),
      words('output', 'Output', (f) => solvedRun(f.run, input).output),
      figures(
        { key: 'current', label: 'Current', unit: 'A', digits: 2 },
        (f) => solvedFeed(f, input)?.current_A ?? null,
      ),
      figures({ key: 'volts', label: 'Volts, all lit', unit: 'V', digits: 2 }, (f) => padVolts_V(f, input)),
    ],
    feedPointsOf(input),
  );
}
