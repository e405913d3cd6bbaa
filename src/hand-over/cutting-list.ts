import type { Schedule } from '../answer/schedules.ts';
import type { Piece, Run } from '../answer/set-out.ts';
import { inches } from '../words.ts';
import type { HandOverInput } from './input.ts';
import { panelColumn, panelOf } from './panels-schedule.ts';
import { figures, tabulate, words } from './table.ts';

interface PieceRow {
  readonly piece: Piece;
  readonly run: Run;
  readonly index: number;
}

/** How a piece meets what lies before and after it in its run. */
function jointText({ run, index }: PieceRow): string {
  const before = index > 0 ? run.pieces[index - 1]!.id : '';
  const after = run.pieces[index + 1]?.id ?? '';
  return [before, after].filter((id) => id !== '').join(' and ');
}

/** Strip cutting list: one row for each piece, in the order of the slots; dark ends at the two ends of a run. */
export function cuttingList(input: HandOverInput): Schedule {
  const { unitsPerMetre } = input.products.strip;
  return tabulate<PieceRow>(
    { id: 'cutting-list', title: 'Strip cutting list' },
    [
      words('piece', 'Piece', ({ piece }) => piece.id),
      words('slot', 'Slot', ({ run }) => run.slot),
      ...panelColumn<PieceRow>(input, ({ run }) => panelOf(run.slot, input)),
      words('reel', 'From reel', ({ piece }) => piece.reel),
      figures({ key: 'units', label: 'Cut units', unit: '', digits: 0 }, ({ piece }) => piece.unitCount),
      figures({ key: 'unit', label: 'Unit', unit: 'mm', digits: 2 }, () => 1000 / unitsPerMetre),
      figures({ key: 'length', label: 'Cut to', unit: 'mm', digits: 1 }, ({ piece }) => piece.length_mm),
      ...(input.job.site.rules === 'NEC'
        ? [words<PieceRow>('lengthInches', 'Cut to, in', ({ piece }) => inches(piece.length_mm))]
        : []),
      words('joint', 'Joined to', jointText),
      figures({ key: 'darkStart', label: 'Dark at start', unit: 'mm', digits: 1 }, ({ run, index }) =>
        index === 0 ? run.darkStart_mm : null,
      ),
      figures({ key: 'darkFinish', label: 'Dark at finish', unit: 'mm', digits: 1 }, ({ run, index }) =>
        index === run.pieces.length - 1 ? run.darkFinish_mm : null,
      ),
    ],
    input.setOut.runs.flatMap((run) => run.pieces.map((piece, index) => ({ piece, run, index }))),
  );
}
