import type { Proposal, ProposalMeasures } from '../answer/proposals.ts';
import type { Schedule } from '../answer/schedules.ts';
import type { Sizing } from '../answer/sizing.ts';
import type { Job } from '../job/job.ts';
import { resolveProducts } from '../job/resolve.ts';
import { type Judged, sizeAt } from '../sizing/size-job.ts';
import { counted, metres, mm, money, percent, watts } from '../words.ts';
import { changesBetween, type Worded } from './changes.ts';
import { measuresOf, warningsOf } from './figures.ts';
import type { Passing } from './search-parts.ts';

interface Compared {
  readonly key: keyof ProposalMeasures;
  /** Of the design that does best in it: "the fewest drivers". */
  readonly best: string;
  /** A difference below this is none. */
  readonly step: number;
  readonly less: (by: number) => string;
  readonly more: (by: number) => string;
}

const plain = (unit: (x: number) => string, less = 'less', more = 'more') => ({
  less: (by: number): string => `${unit(by)} ${less}`,
  more: (by: number): string => `${unit(by)} ${more}`,
});

const number = (one: string, many?: string) => ({
  less: (by: number): string => `${counted(by, one, many)} fewer`,
  more: (by: number): string => `${counted(by, one, many)} more`,
});

/** What designs are compared by, in words. */
const compared: readonly Compared[] = [
  { key: 'price_cents', best: 'the cheapest', step: 0.5, ...plain(money, 'cheaper', 'dearer') },
  { key: 'warningCount', best: 'the fewest warnings', step: 0.5, ...number('warning') },
  { key: 'input_W', best: 'the fewest watts', step: 1, ...plain(watts, 'fewer') },
  { key: 'depth_mm', best: 'the thinnest', step: 0.25, ...plain(mm, 'thinner', 'thicker') },
  { key: 'driverCount', best: 'the fewest drivers', step: 0.5, ...number('driver') },
  { key: 'jointCount', best: 'the fewest joints', step: 0.5, ...number('joint') },
  {
    key: 'hottest_degC',
    best: 'the coolest',
    step: 0.5,
    ...plain((x) => `${Math.round(x)} K`, 'cooler', 'hotter'),
  },
  {
    key: 'unevenness',
    best: 'the most even light',
    step: 0.002,
    ...plain(percent, 'more even', 'less even'),
  },
  {
    key: 'cable_m',
    best: 'the least cable',
    step: 0.5,
    ...plain((x) => metres(1000 * x), 'less cable', 'more cable'),
  },
];

/** The measures of `a` less those of `b`; 0 where either is not known. */
const difference = (a: ProposalMeasures, b: ProposalMeasures, key: keyof ProposalMeasures): number => {
  const [x, y] = [a[key], b[key]];
  return x === null || y === null ? 0 : x - y;
};

const measured = compared.map(({ key }) => key);

/** Whether a design is at least as good as another in everything and better in something; what is not known decides nothing. */
export function beatsInEverything(a: ProposalMeasures, b: ProposalMeasures): boolean {
  const differences = measured.map((key) => difference(a, b, key));
  return differences.every((x) => x <= 1e-9) && differences.some((x) => x < -1e-9);
}

/** Designs that no other of them beats in everything, in their order. */
export const unbeaten = <Design extends { readonly measures: ProposalMeasures }>(
  designs: readonly Design[],
): Design[] =>
  designs.filter((one) => !designs.some((other) => beatsInEverything(other.measures, one.measures)));

function bestIn(measures: ProposalMeasures, all: readonly ProposalMeasures[]): string[] {
  if (all.length < 2) return [];
  return compared
    .filter(({ key, step }) => {
      const others = all.filter((other) => other !== measures);
      const isLeast = others.every((other) => difference(measures, other, key) <= 1e-9);
      return isLeast && others.some((other) => difference(measures, other, key) < -step);
    })
    .map(({ best }) => best);
}

/** What a design has over the first, and what it costs, in one sentence. */
function beats(measures: ProposalMeasures, first: ProposalMeasures): string {
  const of = compared.map((each) => ({ ...each, by: difference(measures, first, each.key) }));
  const gains = of.filter(({ by, step }) => by < -step).map(({ by, less }) => less(-by));
  const costs = of.filter(({ by, step }) => by > step).map(({ by, more }) => more(by));
  if (gains.length === 0 && costs.length === 0) return '';
  if (gains.length === 0) return `Beside the first: ${costs.join(', ')}.`;
  return `Beside the first: ${gains.join(', ')}${costs.length > 0 ? `; for that ${costs.join(', ')}` : ''}.`;
}

/** The bill of a sized design, as far as it is to be ordered. */
function billOf({ schedules }: Pick<Sizing, 'schedules'>): Proposal['bill'] {
  const bill = schedules.find(({ id }) => id === 'bill') as Schedule;
  const at = (key: string): number => bill.columns.findIndex((column) => column.key === key);
  return bill.rows.map((row) => ({
    item: String(row[at('item')]),
    description: String(row[at('description')]),
    quantity: Number(row[at('total')]),
    unit: String(row[at('unit')]),
  }));
}

/** A sized job as its changes are worded from. */
export const wordedOf = ({ sized }: Judged): Worded => ({
  job: sized.job,
  products: sized.products,
  drivers: sized.drivers,
  setOut: sized.setOut,
});

/** The same of a job that is refused, as far as it goes; null where even its products are not there. */
export function wordedOfRefused(job: Job): Worded | null {
  const products = resolveProducts(job);
  return products.ok ? { job, products: products.value, drivers: null, setOut: null } : null;
}

/** A design with its measures. */
export interface Measured {
  readonly passing: Passing;
  readonly measures: ProposalMeasures;
}

/** A design that passed, with how it compares. */
export const withMeasures = (passing: Passing): Measured => ({
  passing,
  measures: measuresOf(passing.judged),
});

/** What is shown of a design beside others: sized with care, as whole jobs are. */
export function designOf(
  { passing, measures }: Measured,
  beside: { readonly all: readonly Measured[]; readonly present: Worded | null },
): Proposal {
  const { judged, job, id } = passing;
  const sizing = sizeAt(job, 'careful');
  if (!sizing.ok) throw new RangeError(`a design that passes is refused: ${sizing.issues[0]!.sentence}`);
  const worded = wordedOf(judged);
  const first = beside.all[0]!;
  const isFirst = first.passing === passing;
  return {
    id,
    job,
    sizing: sizing.value,
    measures,
    bestIn: bestIn(
      measures,
      beside.all.map((each) => each.measures),
    ),
    beats: isFirst ? '' : beats(measures, first.measures),
    changes: beside.present ? changesBetween(beside.present, worded) : [],
    changesFromFirst: isFirst ? [] : changesBetween(wordedOf(first.passing.judged), worded),
    warnings: warningsOf(judged).map(({ title, sentence }) => ({ title, sentence })),
    bill: billOf(sizing.value),
  };
}
