import { isOnCondition } from '../answer/finding-status.ts';
import type { ProposalMeasures } from '../answer/proposals.ts';
import { priceOf } from '../hand-over/bill.ts';
import type { Job } from '../job/job.ts';
import { nominal_W_per_m } from '../sizing/light-of-job.ts';
import type { Judged } from '../sizing/size-job.ts';

/** What designs are ranked by; of a part of a design, the least that any whole one with it comes to. */
export interface Figures {
  /** Of strip, cable, drivers and dimmers, spares included; 0 where designs are not ranked by price. */
  readonly price_cents: number;
  /** Watts of the strip by its data sheet. */
  readonly strip_W: number;
  /** The same over its nominal volts: fewer amps of the same watts drop less. */
  readonly strip_A: number;
  readonly driverCount: number;
  readonly rated_W: number;
  /** Parts of the build-up that are added or made otherwise. */
  readonly buildUpCount: number;
  /** Of all cables but links, mm² times metres, every conductor. */
  readonly copper_mm2_m: number;
  readonly feedPointCount: number;
  readonly depth_mm: number;
  readonly jointCount: number;
  readonly warningCount: number;
  /** How many of the cables on offer are thicker; 0 once sized. */
  readonly thinness: number;
}

/** Copper is compared in steps of so much: less is not worth another design. */
const copperStep = 1.1;

/** Hundredths of a watt of strip are the same watts. */
const hundredths = (x: number): number => Math.round(100 * x) / 100;

/**
 * What cheaper means, the first that differs: the price where prices are known; watts of the strip, drivers, their rated
 * watts, parts of the build-up to be added or changed, copper of the cables in steps of a tenth, feed points.
 */
export const costOf = (figures: Figures): number[] => [
  figures.price_cents,
  hundredths(figures.strip_W),
  figures.driverCount,
  figures.rated_W,
  figures.buildUpCount,
  Math.floor(Math.log(Math.max(figures.copper_mm2_m, 1)) / Math.log(copperStep)),
  figures.feedPointCount,
];

/** What is bought by price; what is made by hand, blocks and fuses have none. */
const priceable: ReadonlySet<string> = new Set(['Strip', 'Cable', 'Driver', 'Dimmer']);

type PricedRow = ReturnType<typeof priceOf>['items'][number];

/** Metres in a unit that cable is sold by. */
const metresIn = (unit: string): number => (unit === 'ft' ? 0.3048 : 1);

/**
 * Cable with another number of cores than its entry has no price of its own on the bill: here it counts at the price of the
 * entry, so that no design is the cheapest for want of a price. Links inside a place are of whatever size they have to be,
 * and count where that has a price. Null where the entry has none either.
 */
function unpricedCable_cents(
  { sized }: Pick<Judged, 'sized'>,
  { description, ordered, unit }: PricedRow,
): number | null {
  const { products, cables } = sized;
  const laid = cables.find(({ name, kind }) => kind !== 'link' && description.startsWith(`${name}, `));
  if (laid === undefined) return 0;
  const { price_cents_per_m } = laid.kind === 'trunk' ? products.trunk : products.cable;
  return price_cents_per_m === null ? null : Math.round(ordered * metresIn(unit) * price_cents_per_m);
}

/** What strip, cable, drivers and dimmers of a design come to, spares included; null where one of them has no price. */
export function price_cents(judged: Pick<Judged, 'sized'>): number | null {
  const rows = priceOf(judged.sized).items.filter(({ item }) => priceable.has(item));
  return rows.reduce<number | null>((sum, row) => {
    const cents = row.price_cents ?? (row.item === 'Cable' ? unpricedCable_cents(judged, row) : null);
    return sum === null || cents === null ? null : sum + cents;
  }, 0);
}

/** What figures are counted against: the job as it stands, and whether all that may be chosen has a price. */
export interface Ranking {
  readonly present: Job;
  readonly isPriced: boolean;
}

/** Parts of the build-up of a job that the present one has not, or has otherwise. */
export function buildUpCount({ section, slots }: Pick<Job, 'section' | 'slots'>, present: Job): number {
  const was = present.section;
  const changed = [
    section.carrier !== 'none',
    section.cover !== was.cover,
    section.cavity_mm !== was.cavity_mm,
    section.strip !== was.strip,
    JSON.stringify(slots) !== JSON.stringify(present.slots),
  ];
  return changed.filter(Boolean).length;
}

/** Warnings of a design, those aside that only rest on a condition named in one of them. */
export const warningsOf = ({ findings }: Pick<Judged, 'findings'>) =>
  findings.filter((finding) => finding.status === 'watch' && !isOnCondition(finding));

const feedPointCount = ({ setOut }: Judged['sized']): number =>
  setOut.runs.reduce((sum, run) => sum + run.feedPoints.length, 0);

const jointCount = (sized: Judged['sized']): number =>
  feedPointCount(sized) + sized.setOut.jointCount + sized.installation.taps.length;

/** What a sized design is ranked by. */
export function figuresOf(judged: Judged, { present, isPriced }: Ranking): Figures {
  const { job, products, setOut, drivers, cables, section } = judged.sized;
  const laid = cables.filter(({ kind }) => kind !== 'link');
  const strip_W = setOut.strip_m * nominal_W_per_m(products.strip);
  return {
    price_cents: isPriced ? (price_cents(judged) ?? 0) : 0,
    strip_W,
    strip_A: strip_W / products.strip.nominal_V,
    driverCount: drivers.drivers.length,
    rated_W: drivers.drivers.reduce((sum, { rated_W }) => sum + rated_W, 0),
    buildUpCount: buildUpCount(job, present),
    copper_mm2_m: laid.reduce((sum, c) => sum + (c.conductorCount * c.area_mm2 * c.length_mm) / 1000, 0),
    feedPointCount: feedPointCount(judged.sized),
    depth_mm: section.depth_mm,
    jointCount: jointCount(judged.sized),
    warningCount: warningsOf(judged).length,
    thinness: 0,
  };
}

/** What a sized design is compared by with others. */
export function measuresOf(judged: Judged): ProposalMeasures {
  const { sized } = judged;
  const { drivers, cables, circuit, heat, section, setOut } = sized;
  const highest = Math.max(...heat.temperatures.map(({ high_degC }) => high_degC));
  return {
    price_cents: price_cents(judged),
    input_W: drivers.input_W,
    depth_mm: section.depth_mm,
    driverCount: drivers.drivers.length,
    jointCount: jointCount(sized),
    hottest_degC: heat.unknown === null ? highest : null,
    unevenness: Math.max(...circuit.runs.map(({ fall, neighbour }) => Math.max(fall, neighbour ?? 0))),
    cable_m: cables.reduce((sum, { length_mm }) => sum + length_mm / 1000, 0),
    strip_m: setOut.strip_m,
    warningCount: warningsOf(judged).length,
  };
}
