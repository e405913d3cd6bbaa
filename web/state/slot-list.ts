import { coordinateColumns, widthColumn } from '../../src/job/coordinate-columns.ts';
import { mostSlots, type Segment } from '../../src/job/slots.ts';
import { entryText, ratioOfPercent, readNumber } from '../format.ts';

/** What was made of a pasted list, and the words in it that mean nothing. */
export interface PastedList<Value> {
  readonly values: readonly Value[];
  readonly leftOver: readonly string[];
}

const toMillimetres: Readonly<Record<string, number>> = { mm: 1, cm: 10, m: 1000 };

/** A length such as `1834`, `1,834 mm`, `183,4 cm` or `1.834 m`, in millimetres. */
function readLength(word: string): number | undefined {
  const parts = /^(.*?)\s*(mm|cm|m)?$/i.exec(word.trim());
  const number = readNumber(parts?.[1] ?? '');
  if (number === undefined) return undefined;
  return Number((number * (toMillimetres[(parts?.[2] ?? 'mm').toLowerCase()] ?? 1)).toPrecision(12));
}

/** Joins a number to the unit written after it with a space, so that blanks can part the words. */
const closeUnits = (text: string): string => text.replace(/(\d)[ \u00a0\u202f\u2009]+(mm|cm|m)\b/gi, '$1$2');

/** Words of a list. Line ends, tabs, semicolons and bars part them; a comma parts them only where a blank follows it. */
const wordsOf = (text: string): string[] =>
  closeUnits(text)
    .split(/[\s;|]+|,(?=\s|$)/)
    .map((word) => word.replace(/,$/, ''))
    .filter((word) => word !== '');

/** Commas without blanks part the words too, where reading them as decimals would be odd: `600,1200,600`. */
const unpacked = (word: string): string[] =>
  /^\d+(,\d+){2,}$/.test(word) || /^\d{2,},\d{4,}$/.test(word) || /^\d{4,},\d{3,}$/.test(word)
    ? word.split(',')
    : [word];

/** Reads a list of slot lengths copied from a spreadsheet, a drawing or a message. */
export function readLengths(text: string): PastedList<number> {
  const words = wordsOf(text).flatMap(unpacked);
  const read = words.map((word) => ({ word, length: readLength(word) }));
  return {
    values: read.flatMap(({ length }) => (length === undefined ? [] : [length])),
    leftOver: read.filter(({ length }) => length === undefined).map(({ word }) => word),
  };
}

/** A slot as wide as this or less is not sawn, wider than that it is a window: what a fifth number can be. */
const isSlotWidth = (width_mm: number): boolean => width_mm >= 2 && width_mm <= 200;

/** A slot of its four coordinates and the width it may have of its own; undefined where they are not that. */
function segmentFrom(words: readonly string[], width: string | undefined): Segment | undefined {
  const [x0_mm, y0_mm, x1_mm, y1_mm] = words.map(readLength);
  if (x0_mm === undefined || y0_mm === undefined || x1_mm === undefined || y1_mm === undefined)
    return undefined;
  const ends = { x0_mm, y0_mm, x1_mm, y1_mm };
  if (width === undefined || width === '') return ends;
  const width_mm = readLength(width);
  return width_mm !== undefined && isSlotWidth(width_mm) ? { ...ends, width_mm } : undefined;
}

/**
 * Reads slots as lines of four coordinates: start from the left and from the bottom, then finish; a fifth number is the slot's own
 * width. A heading may name further columns, such as a number. Rows of five numbers that begin by counting 1, 2, 3 are not
 * understood without one: nobody knows whether they begin with a number or end with a width.
 */
export function readSegments(text: string): PastedList<Segment> {
  const values: Segment[] = [];
  const leftOver: string[] = [];
  let columns: readonly number[] | undefined;
  let width: number | undefined;
  for (const row of text.split(/\r?\n/).filter((line) => line.trim() !== '')) {
    const words = wordsOf(row).flatMap(unpacked);
    const picked = columns ? columns.map((column) => words[column] ?? '') : words.slice(0, 4);
    const own = columns ? (width === undefined ? undefined : words[width]) : words[4];
    const isCounted = own !== undefined && Number(words[0]) === values.length + leftOver.length + 1;
    const isRow = columns !== undefined || (words.length <= 5 && !isCounted);
    const segment = isRow ? segmentFrom(picked, own) : undefined;
    const named = values.length === 0 ? coordinateColumns(words) : undefined;
    if (segment) values.push(segment);
    else if (named) [columns, width] = [named, widthColumn(words)];
    else leftOver.push(row.trim());
  }
  return { values, leftOver };
}

/** Reads whole numbers parted in any way: cut lines counted in cut units, numbers of cores. */
export function readWholes(text: string): PastedList<number> {
  const words = text.split(/[\s,;|]+/).filter((word) => word !== '');
  return {
    values: words.filter((word) => /^\d+$/.test(word)).map(Number),
    leftOver: words.filter((word) => !/^\d+$/.test(word)),
  };
}

/** The numbers a word names: `20`, or a range such as `1-14`, either way about; undefined for any other word. */
function rangeOf(word: string): number[] | undefined {
  const [, first, last = first] = /^(\d{1,4})(?:-(\d{1,4}))?$/.exec(word) ?? [];
  if (first === undefined) return undefined;
  const [from, to] = [Number(first), Number(last)].sort((a, b) => a - b) as [number, number];
  return to > mostSlots ? undefined : Array.from({ length: to - from + 1 }, (_, i) => from + i);
}

/** Reads slots named by number and range, `1-14, 20` or `1 to 14 and 20`: each once, from the lowest. */
export function readSlotNumbers(text: string): PastedList<number> {
  const words = text
    .replace(/\s*(?:[\u2012-\u2015\u2212-]|\bto\b)\s*/gi, '-')
    .split(/[\s,;|]+|\band\b/)
    .filter((word) => word !== '');
  const read = words.map((word) => ({ word, numbers: rangeOf(word) }));
  return {
    values: [...new Set(read.flatMap(({ numbers }) => numbers ?? []))].sort((a, b) => a - b),
    leftOver: read.filter(({ numbers }) => !numbers).map(({ word }) => word),
  };
}

/** Slots as somebody would name them: `1\u201314, 20`; three or more in a row as a range. */
export function slotNumbersText(numbers: readonly number[]): string {
  const rows = numbers.reduce<number[][]>((found, number) => {
    const row = found.at(-1);
    if (row && row.at(-1) === number - 1) row.push(number);
    else found.push([number]);
    return found;
  }, []);
  return rows
    .flatMap((row) => (row.length > 2 ? [`${row[0]}\u2013${row.at(-1)}`] : row.map(String)))
    .join(', ');
}

/** Hours of a life test and the light left, as a ratio. */
export interface Reading {
  readonly hours: number;
  readonly maintenance: number;
}

const readRatio = (word: string | undefined): number | undefined => {
  const number = readNumber((word ?? '').replace('%', ''));
  if (number === undefined) return undefined;
  return number > 2 ? ratioOfPercent(number) : number;
};

/** Reads the readings of a life test: hours and the light left (`97`, `97 %` or `0.97`), one reading a line. */
export function readReadings(text: string): PastedList<Reading> {
  const values: Reading[] = [];
  const leftOver: string[] = [];
  for (const row of text.split(/\r?\n/).filter((line) => line.trim() !== '')) {
    const [first, second, extra] = wordsOf(row.replace(/\s+%/g, '%'));
    const hours = readNumber(first ?? '');
    const maintenance = readRatio(second);
    if (hours !== undefined && maintenance !== undefined && extra === undefined)
      values.push({ hours, maintenance });
    else leftOver.push(row.trim());
  }
  return { values, leftOver };
}

/** The readings of a life test, hours and percent, one a line. */
export const readingsText = (readings: readonly Reading[]): string =>
  readings.map(({ hours, maintenance }) => `${hours}  ${entryText(maintenance, true)} %`).join('\n');

/** A list of lengths as it stands in its field, one a line. */
export const lengthsText = (lengths_mm: readonly number[]): string => lengths_mm.join('\n');

/** Slots as lines of four coordinates, and their width where it is their own. */
export const segmentsText = (segments: readonly Segment[]): string =>
  segments
    .map(({ x0_mm, y0_mm, x1_mm, y1_mm, width_mm }) =>
      [x0_mm, y0_mm, x1_mm, y1_mm, ...(width_mm === undefined ? [] : [width_mm])]
        .map((x) => Math.round(x * 10) / 10)
        .join('  '),
    )
    .join('\n');
