import type { WrittenRow } from '../../src/answer/asked.ts';
import type { Schedule } from '../../src/answer/schedules.ts';
import { recordFormat } from '../../src/job/record-file.ts';
import type { OnSiteData } from './data.ts';

/** A box of the test sheet: where it is, what it is called, and the band it should lie in; none for a tick. */
export interface Box {
  readonly row: string;
  readonly quantity: 'loop_ohm' | 'noLoad_V' | 'loaded_V' | 'current_A' | 'done' | 'linkOut';
  readonly label: string;
  readonly unit: string;
  readonly band: { readonly low: number; readonly high: number; readonly digits: number } | null;
}

const measured = [
  { key: 'loop', quantity: 'loop_ohm' },
  { key: 'noLoad', quantity: 'noLoad_V' },
  { key: 'loaded', quantity: 'loaded_V' },
  { key: 'current', quantity: 'current_A' },
] as const;

/** The boxes of a row of the test sheet, in the order they are filled in. */
export function boxesOf(sheet: Schedule, row: Schedule['rows'][number]): Box[] {
  const at = (key: string): number => sheet.columns.findIndex((column) => column.key === key);
  const ref = String(row[0]);
  const boxes = measured.flatMap(({ key, quantity }): Box[] => {
    const [low, high] = [row[at(`${key}Low`)], row[at(`${key}High`)]];
    if (typeof low !== 'number' || typeof high !== 'number') return [];
    const { label, unit, digits } = sheet.columns[at(key)]!;
    return [{ row: ref, quantity, label, unit, band: { low, high, digits } }];
  });
  const tick = (quantity: 'done' | 'linkOut', label: string): Box => ({
    ...{ row: ref, quantity, label, unit: '', band: null },
  });
  if (boxes.length === 0) return [tick('done', 'Done')];
  const link = row[at('linkOut')] === null ? [tick('linkOut', 'Link is out')] : [];
  return [...boxes.slice(0, 1), ...link, ...boxes.slice(1)];
}

/** What stands in the boxes, with who took it and when, by row and quantity. */
export interface Taken {
  readonly row: string;
  readonly quantity: Box['quantity'];
  readonly value: number | 'OL';
  readonly by: string;
  readonly at: string;
}

export const keyOf = ({ row, quantity }: Pick<Box, 'row' | 'quantity'>): string => `${row} ${quantity}`;

/** A text as the meter's reading: a number with point or comma, OL of an open loop; undefined for anything else. */
export function readingIn(text: string, quantity: Box['quantity']): number | 'OL' | undefined {
  const plain = text.trim().replace(',', '.');
  if (quantity === 'loop_ohm' && plain.toUpperCase() === 'OL') return 'OL';
  return /^\d+(\.\d+)?$|^\.\d+$/.test(plain) ? Number(plain) : undefined;
}

/** Where a reading lies: as the judgement of the engine names it. */
export function judged({ band }: Box, value: number | 'OL'): string {
  if (!band) return '';
  if (value === 'OL') return 'open circuit';
  if (value < band.low) return 'below its band';
  return value > band.high ? 'above its band' : 'in its band';
}

/** Readings row by row, as the engine judges them; ticks are none. */
export function writtenRows(taken: readonly Taken[]): WrittenRow[] {
  const rows = new Map<string, Record<string, number | 'OL'>>();
  for (const { row, quantity, value } of taken)
    if (quantity !== 'done' && quantity !== 'linkOut') rows.set(row, { ...rows.get(row), [quantity]: value });
  return [...rows].map(([row, values]) => ({ row, ...values }) as WrittenRow);
}

/** The file of readings as the workshop's page takes it in. */
export function recordText({ job, revision }: OnSiteData, taken: readonly Taken[]): string {
  return `${JSON.stringify({ format: recordFormat, job, revision, readings: taken, typed: {} }, undefined, 2)}\n`;
}
