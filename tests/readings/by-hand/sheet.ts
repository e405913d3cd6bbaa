import type { Band } from '../../../src/hand-over/bands.ts';
import type { TestRow } from '../../../src/hand-over/test-sheet.ts';

const band = (predicted: number, low: number, high: number): Band => ({ predicted, low, high });

const row = (id: string, boxes: Partial<TestRow>): TestRow => ({
  ...{ id, step: '', isLinked: false, loop: null, noLoad: null, loaded: null, current: null, path: null },
  ...boxes,
});

/** A test sheet of an output without a loop, a feed point with every box, and an end without amps. */
export const sheet: readonly TestRow[] = [
  row('D1.1', { noLoad: band(24, 23, 25), loaded: band(24, 23, 25), current: band(2, 1.5, 2.5) }),
  row('S01-F1', {
    ...{ loop: band(0.2, 0.17, 0.32), noLoad: band(24, 23, 25), loaded: band(23.8, 22.8, 24.8) },
    current: band(1, 0.8, 1.2),
  }),
  row('S01 finish', {
    loop: band(0.4, 0.34, 0.54),
    noLoad: band(24, 23, 25),
    loaded: band(23.5, 22.5, 24.5),
  }),
];
