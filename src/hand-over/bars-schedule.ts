import type { BarCut } from '../answer/bars.ts';
import type { Schedule } from '../answer/schedules.ts';
import { counted, mm } from '../words.ts';
import type { HandOverInput } from './input.ts';
import { figures, tabulate, words } from './table.ts';

interface BarRow {
  readonly cut: BarCut;
  readonly bar: BarCut['bars'][number];
}

const refOf = ({ cut, bar }: BarRow): string => `${cut.item === 'profile' ? 'P' : 'C'}${bar.id}`;

/** What is cut from each bar of profile and cover, and what is left; none where neither is sold in bars. */
export function barsSchedule({ bars }: HandOverInput): Schedule[] {
  if (bars.length === 0) return [];
  const notes = bars.map(({ item, kerf_mm, jointCount, method }) => {
    const joints =
      jointCount === 0 ? '' : ` ${counted(jointCount, 'joint')} where a slot is longer than a bar.`;
    return `Bars of the ${item}: ${mm(kerf_mm)} for each saw cut. ${method}${joints}`;
  });
  const rows = bars.flatMap((cut) => cut.bars.map((bar) => ({ cut, bar })));
  return [
    tabulate<BarRow>(
      { id: 'bars', title: 'Bars of profile and cover', notes },
      [
        words('bar', 'Bar', refOf),
        words('what', 'Of', ({ cut }) => cut.name),
        figures({ key: 'length', label: 'Length', unit: 'mm', digits: 0 }, ({ cut }) => cut.bar_mm),
        words('pieces', 'Pieces, in cutting order', ({ bar }) =>
          bar.pieces.map(({ slot, length_mm }) => `${slot} ${mm(length_mm)}`).join(', '),
        ),
        figures({ key: 'left', label: 'Left', unit: 'mm', digits: 0 }, ({ bar }) => bar.left_mm),
      ],
      rows,
    ),
  ];
}
