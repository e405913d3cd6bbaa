import type { Cable } from '../answer/cables.ts';
import type { Schedule } from '../answer/schedules.ts';
import { mm } from '../words.ts';
import type { HandOverInput } from './input.ts';
import { figures, tabulate, words } from './table.ts';
import { feedPointsOf } from './wiring.ts';

interface BillRow {
  readonly item: string;
  readonly description: string;
  readonly quantity: number;
  readonly unit: string;
  readonly spare: number;
  readonly basis: string;
}

/** Spares in the trade's proportions; a choice, said in every row. */
const tenth = (count: number): number => Math.ceil(count / 10);
const fifth = (count: number): number => Math.ceil(count / 5);

function counted<Item, Key>(items: readonly Item[], keyOf: (item: Item) => Key): Map<Key, Item[]> {
  const groups = new Map<Key, Item[]>();
  for (const item of items) groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
  return groups;
}

function stripRow({ setOut, products }: HandOverInput): BillRow {
  const longest_mm = Math.max(0, ...setOut.runs.flatMap((run) => run.pieces.map((p) => p.length_mm)));
  const left_mm = Math.max(0, ...setOut.reels.map((reel) => reel.left_mm));
  const enough = left_mm >= longest_mm;
  const why = enough
    ? `no spare reel: ${mm(left_mm)} left on one reel replaces any piece`
    : `one spare reel of the same batch: the longest offcut, ${mm(left_mm)}, does not replace a piece of ${mm(longest_mm)}`;
  return {
    item: 'Strip',
    description: `${products.strip.name}, reel of ${mm(products.strip.reel_mm)}`,
    quantity: setOut.reels.length,
    unit: 'reel',
    spare: enough ? 0 : 1,
    basis: why,
  };
}

function cableRows(input: HandOverInput): BillRow[] {
  const groups = counted<Cable, string>(
    input.cables,
    ({ name, conductorCount }) => `${name}, ${conductorCount}`,
  );
  return [...groups.values()].map((cables) => {
    const cores = cables[0]!.conductorCount;
    const length_m = Math.ceil(cables.reduce((sum, cable) => sum + cable.length_mm, 0) / 1000);
    return {
      item: 'Cable',
      description: `${cables[0]!.name}, ${cores} ${cores === 1 ? 'core' : 'cores'}`,
      quantity: length_m,
      unit: 'm',
      spare: tenth(length_m),
      basis: 'cut lengths with their allowance, whole metres; one tenth spare',
    };
  });
}

function fuseRows({ installation }: HandOverInput): BillRow[] {
  const fuses = installation.blocks.flatMap(({ ways }) => ways.flatMap(({ fuse }) => fuse ?? []));
  const groups = counted(fuses, ({ rating_A }) => rating_A);
  return [...groups].map(([rating_A, same]) => ({
    item: 'Fuse with holder',
    description: `${rating_A} A`,
    quantity: same.length,
    unit: 'piece',
    spare: fifth(same.length),
    basis: 'one for each fused way; one spare for every five begun',
  }));
}

/** Distribution blocks by their ways; what stands is fixed, so there is no spare. */
function blockRows({ installation }: HandOverInput): BillRow[] {
  const groups = counted(installation.blocks, ({ ways }) => ways.length);
  return [...groups].map(([wayCount, same]) => ({
    item: 'Distribution block',
    description: `one way in, ${wayCount} out, plus and minus`,
    quantity: same.length,
    unit: 'piece',
    spare: 0,
    basis: 'one for each output that several cables leave, or that needs fuses',
  }));
}

/** Conductors made off at the strip: the positive once, each return once. */
function terminalCount(input: HandOverInput): number {
  const returnCount = input.products.strip.channels.length;
  const each = { both: 1 + returnCount, positive: 1, return: returnCount } as const;
  return feedPointsOf(input).reduce((sum, feedPoint) => sum + each[feedPoint.conductors], 0);
}

const pieces = (item: string, description: string, quantity: number): BillRow => ({
  item,
  description,
  quantity,
  unit: 'piece',
  spare: tenth(quantity),
  basis: 'counted; one spare for every ten begun',
});

/** Bill of quantities with spares; the spares are a choice, stated row by row. Items not needed are left out. */
export function bill(input: HandOverInput): Schedule {
  const rows = [
    stripRow(input),
    ...cableRows(input),
    pieces('Driver', input.products.driver.name, input.drivers.drivers.length),
    ...blockRows(input),
    ...fuseRows(input),
    pieces('Terminal at the strip', 'one for each conductor at each feed point', terminalCount(input)),
    pieces('Strip joint', 'all rails, piece to piece at a cut line', input.setOut.jointCount),
    pieces('Tap', 'branch from the trunk, all conductors', input.installation.taps.length),
  ].filter((row) => row.quantity > 0);
  return tabulate<BillRow>(
    { id: 'bill', title: 'Bill of quantities' },
    [
      words('item', 'Item', (row) => row.item),
      words('description', 'Description', (row) => row.description),
      figures({ key: 'quantity', label: 'Needed', unit: '', digits: 0 }, (row) => row.quantity),
      figures({ key: 'spare', label: 'Spare', unit: '', digits: 0 }, (row) => row.spare),
      figures({ key: 'total', label: 'To order', unit: '', digits: 0 }, (row) => row.quantity + row.spare),
      words('unit', 'Unit', (row) => row.unit),
      words('basis', 'Basis', (row) => row.basis),
    ],
    rows,
  );
}
