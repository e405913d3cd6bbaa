import type { WrittenRow } from '../../src/answer/asked.ts';
import type { Schedule } from '../../src/answer/schedules.ts';
import { nearest } from '../format.ts';
import { change } from './history.ts';
import { readingIn } from './reading-text.ts';
import type { Store } from './store.ts';

/** The boxes of a row of the test sheet: column of the box, column of its prediction, name in a reading. */
const boxes = [
  { measured: 'loopMeasured', predicted: 'loop', written: 'loop_ohm' },
  { measured: 'noLoadMeasured', predicted: 'noLoad', written: 'noLoad_V' },
  { measured: 'loadedMeasured', predicted: 'loaded', written: 'loaded_V' },
  { measured: 'currentMeasured', predicted: 'current', written: 'current_A' },
] as const;

export type Judged = 'empty' | 'not a reading' | 'in band' | 'below band' | 'above band' | 'open circuit';

/** A box of the test sheet with its band as the sheet shows it, and what was typed into it. */
export interface ReadingBox {
  readonly row: string;
  readonly written: (typeof boxes)[number]['written'];
  readonly label: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly text: string;
  readonly judged: Judged;
}

type Readings = Readonly<Record<string, string>>;

export const keyOf = (row: string, written: string): string => `${row} ${written}`;

function judge(value: ReturnType<typeof readingIn>, low: number, high: number): Judged {
  if (value === null) return 'empty';
  if (value === undefined) return 'not a reading';
  if (value === 'OL') return 'open circuit';
  if (value < low) return 'below band';
  return value > high ? 'above band' : 'in band';
}

function boxAt(sheet: Schedule, row: number, box: (typeof boxes)[number], readings: Readings): ReadingBox[] {
  const cells = sheet.rows[row] ?? [];
  const at = (key: string): number => sheet.columns.findIndex((column) => column.key === key);
  const [low, high] = [cells[at(`${box.predicted}Low`)], cells[at(`${box.predicted}High`)]];
  const column = sheet.columns[at(box.measured)];
  if (!column || typeof low !== 'number' || typeof high !== 'number') return [];
  const ref = String(cells[0]);
  const text = readings[keyOf(ref, box.written)] ?? '';
  // Held against the band as it is printed: a reading on its printed edge is in it.
  const band = { low: nearest(low, column.digits), high: nearest(high, column.digits) };
  const label = sheet.columns[at(box.predicted)]?.label ?? '';
  return [
    {
      row: ref,
      written: box.written,
      label,
      unit: column.unit,
      ...band,
      text,
      judged: judge(readingIn(text, box.written), band.low, band.high),
    },
  ];
}

/** A box of the test sheet to tick: a step that was done, or a link that was taken out. */
export interface TickBox {
  readonly row: string;
  readonly written: 'done' | 'linkOut';
  readonly label: string;
  readonly isTicked: boolean;
}

/** A row without a band is a step of the inspection; it is ticked off where a row of readings has its result. */
const isStep = (sheet: Schedule, row: number): boolean =>
  boxes.every((box) => typeof sheet.rows[row]?.[columnAt(sheet, `${box.predicted}Low`)] !== 'number');

const columnAt = (sheet: Schedule, key: string): number =>
  sheet.columns.findIndex((column) => column.key === key);

/** The tick in a cell of the test sheet, or undefined where nothing is ticked. */
export function tickBox(
  sheet: Schedule,
  row: number,
  column: number,
  readings: Readings,
): TickBox | undefined {
  const key = sheet.columns[column]?.key;
  const isHere = key === 'result' ? isStep(sheet, row) : key === 'linkOut' && !isStep(sheet, row);
  if (!isHere || sheet.rows[row]?.[column] !== null) return undefined;
  const ref = String(sheet.rows[row]![0]);
  const written = key === 'result' ? 'done' : 'linkOut';
  const label = key === 'result' ? 'step done' : 'link out';
  return { row: ref, written, label, isTicked: (readings[keyOf(ref, written)] ?? '') !== '' };
}

/** Every tick of the test sheet, in its order. */
export function tickBoxes(sheet: Schedule, readings: Readings): TickBox[] {
  return sheet.rows.flatMap((_, row) =>
    sheet.columns.flatMap((_column, column) => tickBox(sheet, row, column, readings) ?? []),
  );
}

/** The box in a cell of the test sheet, or undefined where nothing is measured there. */
export function readingBox(
  sheet: Schedule,
  row: number,
  column: number,
  readings: Readings,
): ReadingBox | undefined {
  const box = boxes.find(({ measured }) => measured === sheet.columns[column]?.key);
  return box && boxAt(sheet, row, box, readings)[0];
}

/** Every box of the test sheet, in its order. */
export function readingBoxes(sheet: Schedule, readings: Readings): ReadingBox[] {
  return sheet.rows.flatMap((_, row) => boxes.flatMap((box) => boxAt(sheet, row, box, readings)));
}

/** What was typed, as the service takes it: understood values only, row by row. */
export function writtenRows(all: readonly ReadingBox[]): WrittenRow[] {
  const rows = new Map<string, WrittenRow>();
  for (const { row, written, text, judged } of all) {
    if (judged === 'empty' || judged === 'not a reading') continue;
    rows.set(row, { ...(rows.get(row) ?? { row }), [written]: readingIn(text, written) });
  }
  return [...rows.values()];
}

/** Somebody types a reading; it belongs to the draft and not to the job. */
export function typeReading(
  store: Store,
  { row, written }: Pick<ReadingBox | TickBox, 'row' | 'written'>,
  text: string,
): void {
  const { draft } = store.get();
  if (!draft) return;
  const key = keyOf(row, written);
  const others = Object.entries(draft.readings ?? {}).filter(([name]) => name !== key);
  const readings = Object.fromEntries(text.trim() === '' ? others : [...others, [key, text]]);
  change(store, { ...draft, readings }, `reading ${key}`);
}

/** Empties every box; undo brings them back. */
export function clearReadings(store: Store): void {
  const { draft } = store.get();
  if (draft) change(store, { ...draft, readings: {} });
}
