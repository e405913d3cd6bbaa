/**
 * The only place that rounds a number, writes a unit or knows percent. A narrow no-break space stands before the
 * unit, a true minus before negatives, a comma between thousands; no more digits than the thing deserves.
 */
const gap = '\u202f';
const minus = '\u2212';

const unitNames: Readonly<Record<string, string>> = {
  degC: '°C',
  cd_per_m2: 'cd/m²',
  W_per_m: 'W/m',
  lm_per_m: 'lm/m',
  mm2: 'mm²',
  ohm: 'Ω',
  mohm: 'mΩ',
};

/** Decimals by unit, where three significant figures would be too many or too few. */
const digitsByUnit: Readonly<Record<string, number>> = {
  V: 2,
  '°C': 0,
  K: 0,
  'cd/m²': 0,
  'lm/m': 0,
  'W/m': 1,
  Hz: 0,
};

const significant = (x: number, figures: number): number => {
  if (x === 0) return 0;
  return Math.max(0, Math.min(6, figures - 1 - Math.floor(Math.log10(Math.abs(x)))));
};

function usualDigits(x: number, unit: string): number {
  const set = digitsByUnit[unit];
  if (set !== undefined) return set;
  if (unit === 'mm²') return (String(nearest(x, 2)).split('.')[1] ?? '').length;
  if (unit === 'mm') return Number.isInteger(x) || Math.abs(x) >= 100 ? 0 : 1;
  return Number.isInteger(x) ? 0 : significant(x, 3);
}

/** A number with a fixed count of decimals: `1,834`, `−0.41`, never `−0`. */
export function fixed(x: number, digits: number): string {
  const text = Math.abs(x).toFixed(digits);
  const [whole = '', part] = text.split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  const sign = x < 0 && Number(text) !== 0 ? minus : '';
  return `${sign}${grouped}${part === undefined ? '' : `.${part}`}`;
}

/** An entry as it stands in a sentence: `1,620` of `1620`. */
export const inThousands = (entry: string): string =>
  entry.replace(/^\d+/, (whole) => fixed(Number(whole), 0));

/** A length on the paper of a drawing, in its own units: fine enough for the eye, and no longer. */
export const onPaper = (x: number): string => String(Number(x.toFixed(1)));

/** The nearest number of so many decimals, as somebody would set it on a driver. */
export const nearest = (x: number, digits: number): number => Number(x.toFixed(digits));

/** The least number of so many decimals that is no less, where less would not be enough. */
export function noLess(x: number, digits: number): number {
  const close = nearest(x, digits);
  return close >= x ? close : nearest(close + 10 ** -digits, digits);
}

/** The unit as it is printed. */
export const unitText = (unit: string): string => unitNames[unit] ?? unit;

/** What is there and too small for its decimals: `0.01` of 0.004; undefined of what shows, and of nothing. */
const unshown = (x: number, digits: number): string | undefined =>
  digits > 0 && x > noise && x < 0.5 * 10 ** -digits ? fixed(10 ** -digits, digits) : undefined;

/** Less than this is what is left of sums that come to nothing. */
const noise = 1e-6;

/** A figure of a table: `0.41`, `<0.01` of what is there and too small for its decimals. */
export function tableFigure(x: number, digits: number): string {
  const least = unshown(x, digits);
  return least === undefined ? fixed(x, digits) : `<${least}`;
}

/** A number with its unit: `0.41 V`, `12.3 W`, `1,834 mm`, `54 °C`, `under 0.01 V`. */
export function quantity(x: number, unit: string, digits?: number): string {
  const name = unitText(unit);
  const decimals = digits ?? usualDigits(x, name);
  const least = name === 'V' ? unshown(x, decimals) : undefined;
  const number = least === undefined ? fixed(x, decimals) : `under ${least}`;
  return name === '' ? number : `${number}${gap}${name}`;
}

/** What is known to two figures and no better: `50,000 lm`, `7.4 lx`. */
export const roughly = (x: number, unit: string): string =>
  quantity(Number(x.toPrecision(2)), unit, Math.min(2, significant(x, 2)));

/** Digits of a figure in a working: more than it is judged by, so that its lines can be gone through. */
const workingFigures = 4;

/** No more decimals than a number has, of those it may have. */
const needed = (x: number, digits: number): number => decimalsOf(String(nearest(x, digits)));

/** A figure of a working: `0.412 V`, `81.25 %`, `54.3 °C`. */
export function workingFigure(value: number, unit: string): string {
  const x = unit === 'ratio' ? 100 * value : value;
  const digits = needed(x, unit === '°C' || unit === 'K' ? 1 : significant(x, workingFigures));
  return unit === 'ratio' ? percent(value, digits) : quantity(value, unit, digits);
}

/** Cents as money, `1,234.50`; of which currency the job's own note says. */
export const money = (cents: number): string => fixed(cents / 100, 2);

/** A ratio as the trade reads it: 0.032 is `3.2 %`. */
export function percent(ratio: number, digits = 1): string {
  return `${fixed(ratio * 100, digits)}${gap}%`;
}

/** A level as it stands in its field: `15 %`, `5.5 %`. */
export const levelText = (level: number): string => `${entryText(level, true)}${gap}%`;

/** Two ends of a range as they are printed, once where they print alike: `35 and 36 °C`, `36 °C`. */
export function span(low: string, word: string, high: string, unit = ''): string {
  const end = unit === '' ? high : `${high}${gap}${unitText(unit)}`;
  return low === high ? end : `${low} ${word} ${end}`;
}

/** How many decimals a printed number has. */
export const decimalsOf = (text: string): number => /\.(\d+)/.exec(text)?.[1]?.length ?? 0;

/** A count with its noun: `1 finding`, `12 findings`. */
export function counted(n: number, one: string, many = `${one}s`): string {
  return `${fixed(n, 0)} ${n === 1 ? one : many}`;
}

/** A number as it stands in an entry field: plain, ready to be typed over. Ratios are entered in percent. */
export function entryText(x: number, inPercent: boolean): string {
  return String(Number((inPercent ? x * 100 : x).toPrecision(10)));
}

/** Reads what somebody typed: decimal comma or point, spaces or commas between thousands, any minus. */
export function readNumber(text: string): number | undefined {
  const plain = text
    .trim()
    .replace(/[\s\u00a0\u202f\u2009']/g, '')
    .replace(/[\u2212\u2013]/g, '-');
  const pointed = /^-?[1-9]\d{0,2}(,\d{3})+(\.\d+)?$/.test(plain)
    ? plain.replaceAll(',', '')
    : plain.replace(',', '.');
  return /^-?(\d+\.?\d*|\.\d+)$/.test(pointed) ? Number(pointed) : undefined;
}

const toMillimetres: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  '"': 25.4,
  ft: 304.8,
  "'": 304.8,
};

/** A number or, as inches are read off a rule, a fraction or a mixed number: `3/8`, `1 3/8`. */
function readFraction(text: string): number | undefined {
  const [, whole = '0', over, under] = /^(?:(\d+)\s+)?(\d+)\s*\/\s*(\d+)$/.exec(text.trim()) ?? [];
  if (over === undefined) return readNumber(text);
  return Number(under) > 0 ? Number(whole) + Number(over) / Number(under) : undefined;
}

/** One part of a sum, with its unit if it has one: `9.4 m` in a field of mm is 9400. */
function readPart(part: string, unit: string): number | undefined {
  const [, number = '', own] = /^(.*?)\s*(mm|cm|m|in|ft|"|')?$/i.exec(part.trim()) ?? [];
  if (own === undefined) return readNumber(number);
  const value = readFraction(number);
  return unit === 'mm' && value !== undefined ? value * toMillimetres[own.toLowerCase()]! : undefined;
}

/** Reads what somebody typed into a field: a number, a sum or difference, lengths in any unit: `20+2`, `9.4 m`, `3/8 in`. */
export function readEntryNumber(text: string, unit: string): number | undefined {
  const parts = text.replace(/[\u2212\u2013]/g, '-').match(/[+-]?[^+-]+/g) ?? [];
  if (parts.join('') !== text.replace(/[\u2212\u2013]/g, '-')) return undefined;
  const values = parts.map((part) => readPart(part.replace(/^\+/, '').replace(/^-\s+/, '-'), unit));
  if (values.length === 0 || values.some((value) => value === undefined)) return undefined;
  return Number((values as number[]).reduce((sum, value) => sum + value, 0).toPrecision(12));
}

/** A number as it is written, with its last digit so many steps further; undefined where it is no number. */
export function stepped(text: string, steps: number): string | undefined {
  const value = readNumber(text);
  if (value === undefined) return undefined;
  const digits = /[.,](\d+)\s*$/.exec(text)?.[1]?.length ?? 0;
  return Number((value + steps * 10 ** -digits).toFixed(digits)).toFixed(digits);
}

/** Cents as they stand in their field: `24.90`, and parts of a cent where there are some: `0.985`. */
export const amountText = (cents: number): string =>
  Number.isInteger(cents) ? (cents / 100).toFixed(2) : entryText(cents / 100, false);

/** What an entry in whole units of the currency means in cents. */
export const centsOfAmount = (entry: number): number => Number((entry * 100).toPrecision(12));

/** What an entry in percent means as a ratio. */
export const ratioOfPercent = (entry: number): number => Number((entry / 100).toPrecision(12));

/** Rewrites the ratios in a sentence of bounds as percent: `between 0 and 0.6` as `between 0 % and 60 %`. */
export function ratiosAsPercent(sentence: string): string {
  const written = (ratio: string): string =>
    percent(Number(ratio), Number.isInteger(Number(ratio) * 100) ? 0 : 1);
  return sentence
    .replace(/between (\S+) and ([\d.]+)/, (_, low: string, high: string) => {
      return `between ${written(low)} and ${written(high)}`;
    })
    .replace(': a ratio, ', ': ')
    .replace(/(?<![\d.,])0\.\d+(?![\d%]|\u202f%)/g, written)
    .replace(/: 1 for /, `: ${written('1')} for `);
}

/** A date and time as the browser's language writes it: `14:32` for today, `3 May 2026, 14:32` for any other day. */
export function moment(iso: string, now: Date, language?: string): string {
  const then = new Date(iso);
  if (Number.isNaN(then.getTime())) return '';
  const clock = then.toLocaleTimeString(language, { hour: '2-digit', minute: '2-digit' });
  const day = (of: Date): string =>
    of.toLocaleDateString(language, { day: 'numeric', month: 'short', year: 'numeric' });
  return day(then) === day(now) ? clock : `${day(then)}, ${clock}`;
}
