import { filled, type Mark } from '../ink/mark.ts';

/** The triangle left of a marked row, standing on the foot of the row. */
export const rowSign = (left: number, foot: number): Mark =>
  filled('MARKED', [left - 2.2, foot + 0.6], [left - 0.4, foot + 0.6], [left - 1.3, foot + 2.2]);
