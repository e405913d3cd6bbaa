import type { CableEnd, Stretch } from './answer/cables.ts';

/** Numbers in the engine's sentences: rounded for a reader, with their unit. The page has its own for its figures. */
const round = (x: number, digits: number): string => {
  const text = Math.abs(x) < 0.5 * 10 ** -digits ? (0).toFixed(digits) : x.toFixed(digits);
  const [whole = '', part] = text.replace('-', '−').split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return part === undefined ? grouped : `${grouped}.${part}`;
};

/** A number in words with so many decimals more than usual. */
type Writes = (x: number, more?: number) => string;

/** Half millimetres are read on a rule, below 100 mm; whole ones beyond. */
export const mm: Writes = (x, more = 0) => {
  const digits = Math.abs(x) >= 100 || Math.abs(x - Math.round(x)) < 0.05 ? 0 : 1;
  return `${round(x, digits + more)} mm`;
};
/** A length as a tape in inches has it, to the nearest sixteenth: `47 3/16`. */
export function inches(length_mm: number): string {
  const sixteenths = Math.round((length_mm / 25.4) * 16);
  const whole = Math.floor(sixteenths / 16);
  const part = [2, 4, 8, 16].find((parts) => (sixteenths * parts) % 16 === 0)!;
  const above = ((sixteenths % 16) * part) / 16;
  if (above === 0) return `${whole}`;
  return `${whole === 0 ? '' : `${whole} `}${above}/${part}`;
}
export const metres = (x_mm: number): string => `${round(x_mm / 1000, 1)} m`;
/** A drop too small for two decimals is there all the same. */
export const volts: Writes = (x, more = 0) => {
  const least = 10 ** -(2 + more);
  return x > 0 && x < least / 2 ? `under ${least.toFixed(2 + more)} V` : `${round(x, 2 + more)} V`;
};
export const amps: Writes = (x, more = 0) => `${round(x, (x < 10 ? 2 : 1) + more)} A`;
export const watts: Writes = (x, more = 0) => `${round(x, (x < 10 ? 1 : 0) + more)} W`;
export const wattsPerMetre = (x: number): string => `${round(x, 1)} W/m`;
export const degrees: Writes = (x, more = 0) => `${round(x, more)} °C`;
export const hertz = (x: number): string => `${x.toLocaleString('en-GB')} Hz`;
export const percent: Writes = (ratio, more = 0) =>
  `${round(100 * ratio, (Math.abs(ratio) < 0.1 ? 1 : 0) + more)} %`;
export const candelas: Writes = (x, more = 0) => {
  const digits = Math.max(0, 1 + more - Math.floor(Math.log10(Math.max(x, 1))));
  return `${round(Number(x.toPrecision(2 + more)), x < 10 ? 1 + more : more === 0 ? 0 : digits)} cd/m²`;
};
/** Two figures are what lux are known to, one decimal below ten. */
export const lux: Writes = (x, more = 0) =>
  `${round(Number(x.toPrecision(2 + more)), x < 10 ? 1 + more : more)} lx`;
/** A number as somebody entered or printed it, without the noise of its last bits. */
export const figures = (x: number, most = 4): string => String(Number(x.toPrecision(most)));
export const square = (x: number): string => `${figures(x)} mm²`;

/** What a reader finds an end of a cable at: the output, the dimmer, the way of a block, the tap, or the run. */
export function cableEndText(end: CableEnd): string {
  if (end.kind === 'pad') return end.run;
  return end.kind === 'block' && end.way !== null ? `${end.id} way ${end.way}` : end.id;
}

/** As many decimals more as it takes for two different numbers to be written differently, three at most. */
const decimalsApart = (writes: Writes, a: number, b: number): number =>
  [0, 1, 2, 3].find((more) => a === b || writes(a, more) !== writes(b, more)) ?? 3;

/** A value and its limit in words, with the decimals it takes to tell them apart, so that the verdict can be read. */
export function apart(writes: Writes, value: number, limit: number): readonly [value: string, limit: string] {
  const more = decimalsApart(writes, value, limit);
  return [writes(value, more), writes(limit, more)];
}

/** "1 driver", "12 drivers". */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${round(count, 0)} ${count === 1 ? one : many}`;

/** "slot S01", "slots S01 and S02", "slots S01, S02 and 14 more". */
export function naming(what: string, ids: readonly string[], most = 3): string {
  if (ids.length === 1) return `${what} ${ids[0]}`;
  const shown = ids.length <= most ? ids.slice(0, -1) : ids.slice(0, most);
  const last = ids.length <= most ? ids.at(-1)! : `${ids.length - most} more`;
  return `${what}s ${shown.join(', ')} and ${last}`;
}

/** "a", "a and b", "a, b and c". */
export const listing = (each: readonly string[]): string =>
  each.length < 2 ? (each[0] ?? '') : `${each.slice(0, -1).join(', ')} and ${each.at(-1)}`;

/** Levels of the channels of a strip to the very figures entered: "15 %", "30 % (warm white) and 5.5 % (cool white)". */
export function levelsOf(levels: readonly number[], channels: readonly { readonly name: string }[]): string {
  const alike = new Set(levels).size === 1;
  const each = levels.map((level, i) => `${figures(100 * level)} %${alike ? '' : ` (${channels[i]!.name})`}`);
  return alike ? each[0]! : listing(each);
}

const lies: Readonly<Record<Stretch['in'], string>> = {
  place: 'in the driver place',
  remote: 'on the way from the remote place',
  riser: 'between the driver place and the cable way',
  way: 'along the cable way',
  panel: 'in the panel',
  slot: 'beside the strip',
};

/** Where a cable lies in a stretch of its way, with whom and how warm: "along the cable way, 12 circuits together, 40 °C". */
export const stretchText = ({ in: where, togetherCount, air_degC }: Stretch): string =>
  `${lies[where]}, ${counted(togetherCount, 'circuit')} ${togetherCount === 1 ? 'alone' : 'together'}, ${degrees(air_degC)} around`;

const twoDecimals = new Intl.NumberFormat('en-GB', { minimumFractionDigits: 2, maximumFractionDigits: 2 });

/** Cents as money is written, such as 1,234.50; of which currency the job's own note says. */
export const money = (cents: number): string => twoDecimals.format(cents / 100);
