import type { BarCut } from '../answer/bars.ts';
import type { Cable } from '../answer/cables.ts';
import type { Block, BlockWay } from '../answer/installation.ts';
import type { Price } from '../answer/price.ts';
import type { Schedule } from '../answer/schedules.ts';
import type { CableData } from '../job/cable.ts';
import { modelOf } from '../job/products.ts';
import { counted, figures, mm, money } from '../words.ts';
import { type PriceableRow, priceNotes, priceOfBill } from './bill-price.ts';
import type { HandOverInput } from './input.ts';
import { fuseText } from './protection-schedule.ts';
import { figures as numbers, tabulate, words } from './table.ts';

interface BillRow extends PriceableRow {
  readonly basis: string;
  /** Of the price, where it is that of an own product; left out where it is the job's. */
  readonly currency?: string;
}

/** The currency of an own product, by the entry a product in use has. */
function currencyOf({ job }: HandOverInput, id: string | undefined): { readonly currency?: string } {
  const currency = job.products.find((own) => own.id === id)?.currency ?? '';
  return currency === '' ? {} : { currency };
}

/** Prices of one currency are added up, that of the first row that says one; others stand in their basis. */
function inOneCurrency(rows: readonly BillRow[]): BillRow[] {
  const said = rows.filter(({ each_cents, currency }) => each_cents !== null && currency !== undefined);
  const first = said[0]?.currency;
  return rows.map((row) => {
    const { each_cents, currency, basis } = row;
    if (each_cents === null || currency === undefined || currency === first) return row;
    const other = `${money(each_cents)} ${currency} each, which is not added to ${first}`;
    return { ...row, each_cents: null, basis: `${basis}; ${other}` };
  });
}

const currencyNote = (rows: readonly BillRow[]): string[] => {
  const said = rows.find(({ each_cents, currency }) => each_cents !== null && currency !== undefined);
  return said ? [`Prices of own products are in ${said.currency}.`] : [];
};

/** Whose the data of each own product is, and of when. */
function sourceNotes({ job, products }: HandOverInput): string[] {
  const { strip, driver, furtherDrivers, cable, trunk, dimmer, profile } = products;
  const inUse = [strip, driver, ...furtherDrivers, cable, trunk, dimmer, profile].map((one) => one?.id);
  const cover = profile?.cover?.own ? job.section.profile?.cover?.own : undefined;
  return job.products
    .filter(({ id }) => inUse.includes(id) || id === cover)
    .map(({ data: { name }, source, dated }) => {
      const of = [source === '' ? 'source not given' : source, dated === '' ? 'not dated' : dated].join(', ');
      return `Own product: ${name}. Data: ${of}.`;
    });
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

function stripRows(input: HandOverInput): BillRow[] {
  const { setOut, products } = input;
  const { strip } = products;
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
      ...currencyOf(input, strip.id),
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

/** Price of a metre with so many cores: as it is listed for them, or for two as the cable is priced. */
function metre_cents({ price_cents_per_m, pricesByCores }: CableData, cores: number): number | null {
  const listed = pricesByCores.find((each) => each.cores === cores)?.price_cents_per_m;
  return listed ?? (cores === 2 ? price_cents_per_m : null);
}

/** What a cable is made of. */
const productOf = ({ products }: HandOverInput, { kind }: Pick<Cable, 'kind'>) =>
  kind === 'trunk' ? products.trunk : products.cable;

function cableRows(input: HandOverInput): BillRow[] {
  const groups = alike<Cable, string>(
    input.cables,
    (cable) => `${cable.name}, ${cable.conductorCount}, ${productOf(input, cable).id}`,
  );
  const measure = soldBy[input.job.site.rules === 'NEC' ? 'feet' : 'metres'];
  return [...groups.values()].map((cables) => {
    const { conductorCount, spareCoreCount } = cables[0]!;
    const cores = conductorCount + spareCoreCount;
    const product = productOf(input, cables[0]!);
    const each_cents = metre_cents(product, cores);
    const length = Math.ceil(cables.reduce((sum, cable) => sum + cable.length_mm, 0) / measure.of_mm);
    return {
      item: 'Cable',
      description: `${cables[0]!.name}, ${counted(cores, 'core')}${spareCoreCount > 0 ? `, ${spareCoreCount} of them spare` : ''}`,
      quantity: length,
      unit: measure.unit,
      spare: tenth(length),
      each_cents: each_cents === null ? null : (each_cents * measure.of_mm) / 1000,
      ...currencyOf(input, product.id),
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
function driverRows(input: HandOverInput): BillRow[] {
  const { drivers, products } = input;
  return [...alike(drivers.drivers, ({ name }) => name)].map(([description, same]) => ({
    ...pieces({
      ...{ item: 'Driver', description, quantity: same.length },
      each_cents: dearest(same.map((driver) => modelOf(products, driver).price_cents)),
    }),
    ...currencyOf(input, modelOf(products, same[0]!).id),
  }));
}

function dimmerRows(input: HandOverInput): BillRow[] {
  const { dimmers } = input.installation;
  const { products } = input;
  if (dimmers.length === 0) return [];
  const each_cents = products.dimmer?.price_cents ?? null;
  const row = pieces({ item: 'Dimmer', description: dimmers[0]!.name, quantity: dimmers.length, each_cents });
  return [{ ...row, ...currencyOf(input, products.dimmer?.id) }];
}

/** Lengths of profile or cover: whole bars as they are cut, or whole metres. */
function lengthOf(
  { bars, setOut: { slots } }: HandOverInput,
  item: BarCut['item'],
): Pick<BillRow, 'quantity' | 'unit' | 'spare' | 'basis'> {
  const longest_mm = Math.max(...slots.map((slot) => slot.length_mm));
  const cut = bars.find((each) => each.item === item);
  if (cut) {
    const joints =
      cut.jointCount === 0 ? '' : `, with ${counted(cut.jointCount, 'joint')} in slots longer than a bar`;
    return {
      ...{ quantity: cut.bars.length, unit: 'bar', spare: tenth(cut.bars.length) },
      basis: `bars of ${mm(cut.bar_mm)} cut to the slots, the longest ${mm(longest_mm)}${joints}; one spare for every ten begun`,
    };
  }
  const length = Math.ceil(slots.reduce((sum, slot) => sum + slot.length_mm, 0) / 1000);
  const basis = `as long as the slots, whole metres, the longest ${mm(longest_mm)}; one tenth spare for offcuts`;
  return { quantity: length, unit: 'm', spare: tenth(length), basis };
}

/** Profile as long as each slot, its cover, and a cap for each end. */
function profileRows(input: HandOverInput): BillRow[] {
  const { products, setOut, job } = input;
  const { profile } = products;
  if (profile === null) return [];
  const ofProfile = currencyOf(input, profile.id);
  const { cover } = profile;
  const coverRow = (of: NonNullable<typeof cover>): BillRow => ({
    item: 'Profile cover',
    description: `${of.own ?? of.kind}, for ${profile.name}`,
    ...lengthOf(input, 'cover'),
    each_cents: of.price_cents,
    ...currencyOf(input, job.section.profile?.cover?.own ?? undefined),
  });
  const caps = pieces({
    item: 'End cap',
    description: `for ${profile.name}`,
    quantity: 2 * setOut.slots.length,
    each_cents: profile.price_cents_per_cap,
  });
  return [
    {
      item: 'Aluminium profile',
      description: `${profile.name}, fixed by ${profile.fixing}`,
      ...lengthOf(input, 'profile'),
      each_cents: profile.price_cents,
      ...ofProfile,
    },
    ...(cover === null ? [] : [coverRow(cover)]),
    { ...caps, ...ofProfile },
  ];
}

/** What is made off by hand; nobody is asked for its price. */
const made = (item: string, description: string, quantity: number): BillRow =>
  pieces({ item, description, quantity, each_cents: null });

function rowsOf(input: HandOverInput): BillRow[] {
  const rows: BillRow[] = [
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
  return inOneCurrency(rows);
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
    {
      id: 'bill',
      title: 'Bill of quantities',
      notes: [...priceNotes(price), ...currencyNote(rows), ...sourceNotes(input)],
    },
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
