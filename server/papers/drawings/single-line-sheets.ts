import type { Driver } from '../../../src/answer/drivers.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';
import { type WiringOutput, type WiringRow, type WiringWay, wiringOf } from './wiring-rows.ts';

/** Heights of a row with one cable from comfortable to tight, and of the least a driver takes, mm of the paper. */
const rows_mm = [6.4, 6, 5.6, 4.8, 4.1] as const;
export const driver_mm = 21;

/** A row before it has its place on a sheet. */
interface Hanging {
  readonly row: WiringRow;
  readonly way: WiringWay;
}

/** An output, or what goes on of it, on one sheet. */
export interface Part {
  readonly output: WiringOutput;
  readonly rows: readonly Hanging[];
}

/** A driver, or what goes on of it, on one sheet. */
export interface DriverPart {
  readonly driver: Driver;
  readonly isContinued: boolean;
  readonly parts: readonly Part[];
}

/** Rows an output takes: at least two where a block or a dimmer has to be named beside it. */
export const slotsOf = ({ output, rows }: Part): number =>
  Math.max(rows.length, output.block || output.dimmer ? 2 : 1);

/** Rows of several outputs together. */
export const slotCount = (parts: readonly Part[]): number =>
  parts.reduce((sum, part) => sum + slotsOf(part), 0);

/** Parts of a driver that each fit a sheet. */
function cutToSheets(outputs: readonly WiringOutput[], most: number): Part[][] {
  const sheets: Part[][] = [[]];
  for (const output of outputs) {
    let rows: Hanging[] = output.ways.flatMap((way) => way.rows.map((row) => ({ row, way })));
    do {
      const room = most - slotCount(sheets.at(-1)!);
      if (room < Math.min(2, rows.length) + 1 && sheets.at(-1)!.length > 0) sheets.push([]);
      const free = most - slotCount(sheets.at(-1)!);
      sheets.at(-1)!.push({ output, rows: rows.slice(0, free) });
      rows = rows.slice(free);
    } while (rows.length > 0);
  }
  return sheets;
}

/** Height a driver takes with all that hangs on it, mm of the paper. */
export const heightOf = ({ parts }: DriverPart, row_mm: number): number =>
  Math.max(driver_mm, slotCount(parts) * row_mm + 2.4);

function partsOf(sizing: Sizing, row_mm: number, room: number): DriverPart[] {
  const most = Math.floor((room - 5) / row_mm);
  return sizing.drivers.drivers.flatMap((driver) =>
    cutToSheets(wiringOf(driver, sizing), most).map((parts, i) => ({ driver, isContinued: i > 0, parts })),
  );
}

/** Drivers one below the other, a new sheet where the next does not fit. */
function stacked(drivers: readonly DriverPart[], row_mm: number, room: number): DriverPart[][] {
  const sheets: DriverPart[][] = [[]];
  let used = 0;
  for (const driver of drivers) {
    const height = heightOf(driver, row_mm);
    if (used + height > room && used > 0) {
      sheets.push([]);
      used = 0;
    }
    sheets.at(-1)!.push(driver);
    used += height;
  }
  return sheets;
}

/** Steps by which sheets are filled more evenly, mm. */
const evener_mm = 4;

/** As few sheets as the tightest rows allow, with rows as comfortable as that permits, and evenly filled. */
export function partsBySheet(sizing: Sizing, room: number): { sheets: DriverPart[][]; row_mm: number } {
  const ways = rows_mm.map((row_mm) => {
    const drivers = partsOf(sizing, row_mm, room);
    return { row_mm, drivers, sheets: stacked(drivers, row_mm, room) };
  });
  const fewest = Math.min(...ways.map(({ sheets }) => sheets.length));
  const { row_mm, drivers, sheets } = ways.find((way) => way.sheets.length === fewest)!;
  let even = sheets;
  for (let less = room - evener_mm; less > 0; less -= evener_mm) {
    const trial = stacked(drivers, row_mm, less);
    if (trial.length > fewest) break;
    even = trial;
  }
  return { sheets: even, row_mm };
}
