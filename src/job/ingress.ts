import { choice } from './quantity.ts';

/** Degrees of protection a data sheet prints: the first numeral against solids, the second against water (IEC 60529). */
const codes = [
  ...(['IP00', 'IP20', 'IP40', 'IP43', 'IP44', 'IP54', 'IP55'] as const),
  ...(['IP64', 'IP65', 'IP66', 'IP67', 'IP68'] as const),
] as const;

export type IngressCode = (typeof codes)[number];

/** Left out or null where the data sheet was not looked at for it. */
export const ingress = (label: string) => choice(label, codes).nullable().optional();

/** The second numeral: water. */
export const waterNumeral = (code: IngressCode): number => Number(code.at(-1));
