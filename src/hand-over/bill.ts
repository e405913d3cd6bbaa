import type { Cable } from '../answer/cables.ts';
import type { Block, BlockWay } from '../answer/installation.ts';
import type { Price } from '../answer/price.ts';
import type { Schedule } from '../answer/schedules.ts';
import { modelOf } from '../job/products.ts';
import { counted, figures, mm } from '../words.ts';
import { type PriceableRow, priceNotes, priceOfBill } from './bill-price.ts';
import type { HandOverInput } from './input.ts';
import { fuseText } from './protection-schedule.ts';
import { figures as numbers, tabulate, words } from './table.ts';

interface BillRow extends PriceableRow {
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

function stripRows({ setOut, products: { strip } }: HandOverInput): BillRow[] {
  const bought = setOut.reels.filter(({ fromStock }) => !fromStock);
  const longest_mm = Math.max(0, ...setOut.runs.flatMap((run) => run.pieces.map((p) => p.length_mm)));
  const left_mm = Math.max(0, ...setOut.reels.map((reel) => reel.left_mm));
  const enough = left_mm >= longest_mm;
  const why = enough
    ? `no spare reel: ${mm(left_mm)} left on one reel replaces any piece`
    : `one spare reel of the same batch: the longest offcut, ${mm(left_mm)}, does not replace a piece of ${mm(longest_mm)}`;
  const offcuts = setOut.reels.filter(({ fromStock }) => fromStock);
  return [
    {
      item: 'Strip',
      description: `${strip.name}, reel of ${mm(strip.reel_mm)}`,
      quantity: bought.length,
      unit: 'reel',
      spare: enough || bought.length === 0 ? 0 : 1,
      each_cents: strip.price_cents,
      basis: why,
    },
    {
      item: 'Strip from stock',
      description: `${strip.name}, offcuts of ${offcuts.map(({ length_mm }) => mm(length_mm)).join(', ')}`,
      quantity: offcuts.length,
      unit: 'offcut',
      spare: 0,
      each_cents: 0,
      basis: 'in stock, so at no price; of the same batch as the reels, or the colours may differ',
    },
  ];
}

/** What cable is sold by. */
const soldBy = {
  metres: { unit: 'm', of_mm: 1000, name: 'metres' },
  feet: { unit: 'ft', of_mm: 304.8, name: 'feet' },
} as const;

/** Price of a metre of the cable of a name: of the branches, or else of the trunks. */
const metre_cents = ({ cable, trunk }: HandOverInput['products'], name: string): number | null =>
  [cable, trunk].find((one) => one.name === name)?.price_cents_per_m ?? null;

function cableRows(input: HandOverInput): BillRow[] {
  const groups = alike<Cable, string>(
    input.cables,
    ({ name, conductorCount }) => `${name}, ${conductorCount}`,
  );
  const measure = soldBy[input.job.site.rules === 'NEC' ? 'feet' : 'metres'];
  return [...groups.values()].map((cables) => {
    const { conductorCount, spareCoreCount } = cables[0]!;
    const cores = conductorCount + spareCoreCount;
    const each_cents = metre_cents(input.products, cables[0]!.name);
    const length = Math.ceil(cables.reduce((sum, cable) => sum + cable.length_mm, 0) / measure.of_mm);
    return {
      item: 'Cable',
      description: `${cables[0]!.name}, ${counted(cores, 'core')}${spareCoreCount > 0 ? `, ${spareCoreCount} of them spare` : ''}`,
      quantity: length,
      unit: measure.unit,
      spare: tenth(length),
      each_cents: each_cents === null ? null : (each_cents * measure.of_mm) / 1000,
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
    each_cents: null,
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
    each_cents: null,
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

interface Counted {
  readonly item: string;
  readonly description: string;
  readonly quantity: number;
  readonly each_cents: number | null;
}

const pieces = (counted: Counted): BillRow => ({
  ...counted,
  unit: 'piece',
  spare: tenth(counted.quantity),
  basis: 'counted; one spare for every ten begun',
});

/** The dearest of some prices; null where one of them is not known. */
const dearest = (prices: readonly (number | null)[]): number | null =>
  prices.reduce((a, b) => (a === null || b === null ? null : Math.max(a, b)), 0);

/** Drivers model by model; of one name are counted together, at the price of the dearest. */
function driverRows({ drivers: { drivers }, products }: HandOverInput): BillRow[] {
  return [...alike(drivers, ({ name }) => name)].map(([description, same]) =>
    pieces({
      ...{ item: 'Driver', description, quantity: same.length },
      each_cents: dearest(same.map((driver) => modelOf(products, driver).price_cents)),
    }),
  );
}

function dimmerRows({ installation: { dimmers }, products }: HandOverInput): BillRow[] {
  if (dimmers.length === 0) return [];
  const each_cents = products.dimmer?.price_cents ?? null;
  return [pieces({ item: 'Dimmer', description: dimmers[0]!.name, quantity: dimmers.length, each_cents })];
}

/** Profile as long as each slot, its cover, and a cap for each end. */
function profileRows({ products: { profile }, setOut: { slots } }: HandOverInput): BillRow[] {
  if (profile === null) return [];
  const length = Math.ceil(slots.reduce((sum, slot) => sum + slot.length_mm, 0) / 1000);
  const longest_mm = Math.max(...slots.map((slot) => slot.length_mm));
  const metres = { quantity: length, unit: 'm', spare: tenth(length), each_cents: null } as const;
  const basis = `as long as the slots, whole metres, the longest ${mm(longest_mm)}; one tenth spare for offcuts`;
  const caps = {
    item: 'End cap',
    description: `for ${profile.name}`,
    quantity: 2 * slots.length,
    each_cents: null,
  };
  const cover: BillRow[] =
    profile.cover === null
      ? []
      : [
          {
            item: 'Profile cover',
            description: `${profile.cover.kind}, for ${profile.name}`,
            ...metres,
            basis,
          },
        ];
  return [
    {
      item: 'Aluminium profile',
      description: `${profile.name}, fixed by ${profile.fixing}`,
      ...metres,
      basis,
    },
    ...cover,
    pieces(caps),
  ];
}

/** What is made off by hand; nobody is asked for its price. */
const made = (item: string, description: string, quantity: number): BillRow =>
  pieces({ item, description, quantity, each_cents: null });

function rowsOf(input: HandOverInput): BillRow[] {
  return [
    ...stripRows(input),
    ...cableRows(input),
    ...driverRows(input),
    ...dimmerRows(input),
    ...blockRows(input),
    ...fuseRows(input),
    ...profileRows(input),
    made('Terminal at the strip', 'one for each conductor made off at a strip', terminalCount(input)),
    made('Strip joint', 'all rails, piece to piece at a cut line', input.setOut.jointCount),
    made('Tap', 'branch from the trunk, all conductors', input.installation.taps.length),
  ].filter((row) => row.quantity > 0);
}

/** What the bill comes to, as far as prices are given: see `priceOfBill`. */
export const priceOf = (input: HandOverInput): Price => priceOfBill(rowsOf(input), input.job.prices.note);

const wholeUnits = (cents: number | null): number | null => (cents === null ? null : cents / 100);

/**
 * Bill of quantities with spares; the spares are a choice, stated row by row. Items not needed are left out. Prices stand in
 * it where at least one is given; its notes say what they come to and what has none.
 */
export function bill(input: HandOverInput): Schedule {
  const rows = rowsOf(input);
  const price = priceOfBill(rows, input.job.prices.note);
  const prices = [
    numbers<BillRow>({ key: 'each', label: 'Price of one', unit: '', digits: 2 }, (row) =>
      wholeUnits(row.each_cents),
    ),
    numbers<BillRow>({ key: 'price', label: 'Price', unit: '', digits: 2 }, (row) =>
      wholeUnits(price.items[rows.indexOf(row)]!.price_cents),
    ),
  ];
  return tabulate<BillRow>(
    { id: 'bill', title: 'Bill of quantities', notes: priceNotes(price) },
    [
      words('item', 'Item', (row) => row.item),
      words('description', 'Description', (row) => row.description),
      numbers({ key: 'quantity', label: 'Needed', unit: '', digits: 0 }, (row) => row.quantity),
      numbers({ key: 'spare', label: 'Spare', unit: '', digits: 0 }, (row) => row.spare),
      numbers({ key: 'total', label: 'To order', unit: '', digits: 0 }, (row) => row.quantity + row.spare),
      words('unit', 'Unit', (row) => row.unit),
      ...(price.known_cents === null ? [] : prices),
      words('basis', 'Basis', (row) => row.basis),
    ],
    rows,
  );
}
