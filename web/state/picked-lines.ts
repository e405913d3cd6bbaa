import type { Schedule } from '../../src/answer/schedules.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import { fixed, unitText } from '../format.ts';
import { type PickedPart, pickedName } from './belonging.ts';

/** Columns of the schedules that say most of a part; the rest is in the schedule itself. */
const told = {
  cables: ['from', 'to', 'feeds', 'type', 'cut', 'current', 'fuse'],
  'feed-points': ['at', 'cable', 'output', 'current', 'volts'],
  drivers: ['output', 'type', 'place', 'runs', 'current'],
} as const;

const scheduleOf = ({ cable, feedPoint }: PickedPart): keyof typeof told =>
  cable !== undefined ? 'cables' : feedPoint !== undefined ? 'feed-points' : 'drivers';

type Line = readonly (readonly [label: string, text: string])[];

/** A row of a schedule in words: only the columns that are told, without those that hold nothing. */
function lineOf({ columns }: Schedule, row: Schedule['rows'][number], keys: readonly string[]): Line {
  return columns.flatMap(({ key, label, unit, digits }, i) => {
    const cell = row[i];
    if (!keys.includes(key) || cell === null || cell === undefined || cell === '') return [];
    const text = typeof cell === 'number' ? `${fixed(cell, digits)} ${unitText(unit)}`.trim() : cell;
    return [[label, text] as const];
  });
}

/** What the schedules say of a picked part: a line each, since a driver may have several outputs. */
export function linesOf({ schedules }: Pick<Sizing, 'schedules'>, picked: PickedPart): readonly Line[] {
  const id = scheduleOf(picked);
  const schedule = schedules.find((each) => each.id === id);
  const at = schedule?.columns.findIndex(({ key }) => key === (id === 'drivers' ? 'driver' : key)) ?? -1;
  const name = pickedName(picked);
  const rows = schedule?.rows.filter((row) => row[at] === name) ?? [];
  return schedule ? rows.map((row) => lineOf(schedule, row, told[id])) : [];
}
