import type { Cable } from '../answer/cables.ts';
import type { Block, BlockWay } from '../answer/installation.ts';
import type { Schedule } from '../answer/schedules.ts';
import { counted, figures, mm } from '../words.ts';
import type { HandOverInput } from './input.ts';
import { fuseText } from './protection-schedule.ts';
import { figures as numbers, tabulate, words } from './table.ts';

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

/** Items that are alike in something, in the order of the first of each. */
function alike<Item, Key>(items: readonly Item[], keyOf: (item: Item) => Key): Map<Key, Item[]> {
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

/** What cable is sold by. */
const soldBy = {
  metres: { unit: 'm', of_mm: 1000, name: 'metres' },
  feet: { unit: 'ft', of_mm: 304.8, name: 'feet' },
} as const;

function cableRows(input: HandOverInput): BillRow[] {
  const groups = alike<Cable, string>(
    input.cables,
    ({ name, conductorCount }) => `${name}, ${conductorCount}`,
  );
  const measure = soldBy[input.job.site.rules === 'NEC' ? 'feet' : 'metres'];
  return [...groups.values()].map((cables) => {
    const { conductorCount, spareCoreCount } = cables[0]!;
    const cores = conductorCount + spareCoreCount;
    const length = Math.ceil(cables.reduce((sum, cable) => sum + cable.length_mm, 0) / measure.of_mm);
    return {
      item: 'Cable',
      description: `${cables[0]!.name}, ${counted(cores, 'core')}${spareCoreCount > 0 ? `, ${spareCoreCount} of them spare` : ''}`,
      quantity: length,
      unit: measure.unit,
      spare: tenth(length),
      basis: `cut lengths with their allowance, whole ${measure.name}; one tenth spare`,
    };
  });
}

function fuseRows({ installation }: HandOverInput): BillRow[] {
  const fuses = installation.blocks.flatMap(({ ways }) => ways.flatMap(({ fuse }) => fuse ?? []));
  const groups = alike(fuses, (fuse) => `${fuseText(fuse)}, ${figures(fuse.rating_A)} A`);
  return [...groups].map(([description, same]) => ({
    item: same[0]!.family === 'electronic' ? 'Electronic channel' : 'Fuse with holder',
    description,
    quantity: same.length,
    unit: 'piece',
    spare: fifth(same.length),
    basis: 'one for each fused way; one spare for every five begun',
  }));
}

/** Ends of cables in one clamp of a way: a ring comes back to where it begins. */
function endCount({ id }: Block, { number, cables: made }: BlockWay, cables: readonly Cable[]): number {
  const comesBack = ({ to }: Cable): boolean => to.kind === 'block' && to.id === id && to.way === number;
  const rings = cables.filter((cable) => made.includes(cable.id) && comesBack(cable));
  return made.length + rings.length;
}

/** Distribution blocks by their ways; what stands is fixed, so there is no spare. */
function blockRows({ installation, cables, products: { strip } }: HandOverInput): BillRow[] {
  const onWay = (block: Block): string => {
    const most = Math.max(...block.ways.map((way) => endCount(block, way, cables)));
    return most === 1 ? 'one cable on a way' : `up to ${most} cable ends on a way`;
  };
  // Channels part in a dimmer; before one, or without, they come home to one minus.
  const several = strip.channels.length > 1 && installation.dimmers.length > 0;
  const minus = several ? `${strip.channels.length} minus` : 'minus';
  const groups = alike(
    installation.blocks,
    (block) => `one way in, ${block.ways.length} out, plus and ${minus}, ${onWay(block)}`,
  );
  return [...groups].map(([description, same]) => ({
    item: 'Distribution block',
    description,
    quantity: same.length,
    unit: 'piece',
    spare: 0,
    basis: 'one for each output that several cable ends meet, or that needs fuses',
  }));
}

/** Conductors made off at a strip: every core of a cable at each of its ends that is a pad. */
function terminalCount({ cables }: HandOverInput): number {
  const ends = cables.flatMap(({ from, to, conductorCount }) =>
    [from, to].map((end) => ({ end, conductorCount })),
  );
  return ends
    .filter(({ end }) => end.kind === 'pad')
    .reduce((sum, { conductorCount }) => sum + conductorCount, 0);
}

const pieces = (item: string, description: string, quantity: number): BillRow => ({
  item,
  description,
  quantity,
  unit: 'piece',
  spare: tenth(quantity),
  basis: 'counted; one spare for every ten begun',
});

/** Drivers model by model; of one name are counted together. */
const driverRows = ({ drivers: { drivers } }: HandOverInput): BillRow[] =>
  [...alike(drivers, ({ name }) => name)].map(([name, same]) => pieces('Driver', name, same.length));

function dimmerRows({ installation: { dimmers } }: HandOverInput): BillRow[] {
  return dimmers.length === 0 ? [] : [pieces('Dimmer', dimmers[0]!.name, dimmers.length)];
}

/** Bill of quantities with spares; the spares are a choice, stated row by row. Items not needed are left out. */
export function bill(input: HandOverInput): Schedule {
  const rows = [
    stripRow(input),
    ...cableRows(input),
    ...driverRows(input),
    ...dimmerRows(input),
    ...blockRows(input),
    ...fuseRows(input),
    pieces('Terminal at the strip', 'one for each conductor made off at a strip', terminalCount(input)),
    pieces('Strip joint', 'all rails, piece to piece at a cut line', input.setOut.jointCount),
    pieces('Tap', 'branch from the trunk, all conductors', input.installation.taps.length),
  ].filter((row) => row.quantity > 0);
  return tabulate<BillRow>(
    { id: 'bill', title: 'Bill of quantities' },
    [
      words('item', 'Item', (row) => row.item),
      words('description', 'Description', (row) => row.description),
      numbers({ key: 'quantity', label: 'Needed', unit: '', digits: 0 }, (row) => row.quantity),
      numbers({ key: 'spare', label: 'Spare', unit: '', digits: 0 }, (row) => row.spare),
      numbers({ key: 'total', label: 'To order', unit: '', digits: 0 }, (row) => row.quantity + row.spare),
      words('unit', 'Unit', (row) => row.unit),
      words('basis', 'Basis', (row) => row.basis),
    ],
    rows,
  );
}
