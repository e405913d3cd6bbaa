import type { CableEnd } from './answer/sizing.ts';

/** Numbers in the engine's sentences: rounded for a reader, with their unit. The page has its own for its figures. */
const round = (x: number, digits: number): string => {
  const text = Math.abs(x) < 0.5 * 10 ** -digits ? (0).toFixed(digits) : x.toFixed(digits);
  return text.replace('-', '−');
};

export const mm = (x: number): string => `${round(x, 0)} mm`;
export const volts = (x: number): string => `${round(x, 2)} V`;
export const amps = (x: number): string => `${round(x, x < 10 ? 2 : 1)} A`;
export const watts = (x: number): string => `${round(x, x < 10 ? 1 : 0)} W`;
export const wattsPerMetre = (x: number): string => `${round(x, 1)} W/m`;
export const degrees = (x: number): string => `${round(x, 0)} °C`;
export const hertz = (x: number): string => `${x.toLocaleString('en-GB')} Hz`;
export const percent = (ratio: number): string => `${round(100 * ratio, Math.abs(ratio) < 0.1 ? 1 : 0)} %`;
export const candelas = (x: number): string => `${Number(x.toPrecision(2))} cd/m²`;
/** A number as somebody entered or printed it, without the noise of its last bits. */
export const figures = (x: number, most = 4): string => String(Number(x.toPrecision(most)));
export const square = (x: number): string => `${x} mm²`;

/** What a reader finds an end of a cable at: the output, the tap, or the run. */
export const cableEndText = (end: CableEnd): string => (end.kind === 'pad' ? end.run : end.id);

/** "slot S01", "slots S01 and S02", "slots S01, S02 and 14 more". */
export function naming(what: string, ids: readonly string[], most = 3): string {
  if (ids.length === 1) return `${what} ${ids[0]}`;
  const shown = ids.length <= most ? ids.slice(0, -1) : ids.slice(0, most);
  const last = ids.length <= most ? ids.at(-1)! : `${ids.length - most} more`;
  return `${what}s ${shown.join(', ')} and ${last}`;
}
