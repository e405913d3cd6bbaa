import type { Piece } from '../src/answer/set-out.ts';
import { cutReels } from '../src/set-out/reels.ts';
import type { Check } from './check.ts';

interface CuttingExample {
  readonly id: string;
  readonly what: string;
  readonly source: string;
  readonly roll: number;
  /** Width and how many of it are ordered. */
  readonly orders: readonly (readonly [number, number])[];
  readonly printed: number;
}

/** Worked examples of the cutting-stock problem, each width a whole number of units. */
const examples: readonly CuttingExample[] = [
  {
    id: 'set-out-cutting-textbook',
    what: 'Rolls of 100 in for widths of 45, 36, 31 and 14 in',
    source:
      'Chvátal, Linear Programming, 1983, chapter 13, example of Gilmore and Gomory’s method; orders from a secondary copy, 453 rolls from memory',
    roll: 100,
    orders: [
      [45, 97],
      [36, 610],
      [31, 395],
      [14, 211],
    ],
    printed: 453,
  },
  {
    id: 'set-out-cutting-paper-machine',
    what: 'Rolls of 5,600 mm for thirteen widths of 1,380 to 2,200 mm, in tens of millimetres',
    source:
      'Encyclopedia example of the cutting-stock problem, paper machine; orders and 73 rolls from memory',
    roll: 560,
    orders: [
      ...([
        [138, 22],
        [152, 25],
        [156, 12],
        [171, 14],
        [182, 18],
        [188, 18],
        [193, 20],
      ] as const),
      ...([
        [200, 10],
        [205, 12],
        [210, 14],
        [214, 16],
        [215, 18],
        [220, 20],
      ] as const),
    ],
    printed: 73,
  },
];

function reelCount({ roll, orders }: CuttingExample): number {
  const pieces = orders.flatMap(([unitCount, count]) =>
    Array.from(
      { length: count },
      (_, i): Piece => ({
        ...{ id: `${unitCount}-${i}`, run: '', unitCount, length_mm: unitCount, reel: '' },
      }),
    ),
  );
  const { reels, isLeast } = cutReels(pieces, [{ length_mm: roll, price_cents: null, count: null }], 1000);
  return isLeast ? reels.length : Number.NaN;
}

export const setOutChecks: readonly Check[] = examples.map((example) => ({
  id: example.id,
  topic: 'set-out',
  quantity: `${example.what}: least number, proved`,
  source: example.source,
  standing: 'memory',
  unit: '1',
  printed: example.printed,
  computed: reelCount(example),
  tolerance: { absolute: 0 },
}));
