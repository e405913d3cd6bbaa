import { shareOut } from '../src/drivers/allocation.ts';
import { carefulSharing } from '../src/drivers/share-effort.ts';
import type { Check } from './check.ts';

interface PackingExample {
  readonly id: string;
  readonly what: string;
  readonly source: string;
  readonly bin: number;
  readonly sizes: readonly number[];
  readonly printed: number;
}

/** Worked examples of bin packing: a load of a watt for each unit, a driver of the bin's watts. */
const examples: readonly PackingExample[] = [
  {
    id: 'drivers-sharing-bound-textbook',
    what: 'Nine loads of 300 W in all on drivers of 100 W, which their sum alone would let three carry',
    source:
      'Martello and Toth, Knapsack Problems, 1990, chapter 8, example of bounds for bin packing; sizes and 4 bins from memory (no others add up to the 30 that 70 leaves, so three full bins cannot be)',
    bin: 100,
    sizes: [70, 60, 50, 33, 33, 33, 11, 7, 3],
    printed: 4,
  },
  {
    id: 'drivers-sharing-first-fit-worst',
    what: 'Johnson’s family: six loads each of 101, 52 and 51 W and twelve of 48 W on drivers of 200 W',
    source:
      'Johnson and others, SIAM Journal on Computing 3 (1974), family where first-fit decreasing takes 11 for every 9; from memory',
    bin: 200,
    sizes: [101, 52, 51, 48, 48].flatMap((size) => Array<number>(6).fill(size)),
    printed: 9,
  },
];

/** The number of drivers, where it is proved. */
function driverCount({ bin, sizes }: PackingExample): number {
  const shared = shareOut(
    {
      loads: sizes.map((watts, i) => ({ run: `${i}`, watts, zone: null, placeDistances_m: [1] })),
      models: [
        {
          ...{ name: 'driver', rated_W: bin, outputCount: 1, current_A: bin, outputsDimTogether: false },
          ...{ usable_W: [bin], placeShare: () => 0, stock: null, price_cents: null },
        },
      ],
      hasRoom: () => true,
      set_V: 24,
      outputCeiling_W: null,
    },
    carefulSharing,
  );
  return shared.ok && shared.value.sharing.isProved ? shared.value.drivers.length : Number.NaN;
}

export const sharingChecks: readonly Check[] = examples.map((example) => ({
  id: example.id,
  topic: 'drivers',
  quantity: `${example.what}: least number, proved`,
  source: example.source,
  standing: 'memory',
  unit: '1',
  printed: example.printed,
  computed: driverCount(example),
  tolerance: { absolute: 0 },
}));
