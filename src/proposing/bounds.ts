import type { FeedPoint, Run, SetOut } from '../answer/set-out.ts';
import { current_A, nominalCurrent_A, warmLaw } from '../circuit/strip-law.ts';
import { usableWatts } from '../drivers/derating.ts';
import { alongWay, pathLength_mm, toPad, wayStart } from '../installation/cable-routes.ts';
import { wayHeight_mm, wiringOf } from '../job/cable-way.ts';
import type { Job } from '../job/job.ts';
import { driverModels, type Products } from '../job/products.ts';
import { setVoltage_V } from '../job/resolve.ts';
import { leastBins } from '../numeric/tolerance.ts';
import { lawOf } from '../sizing/circuit-of-job.ts';
import { circuitShare } from '../sizing/dimming-of-job.ts';
import { nominal_W_per_m } from '../sizing/light-of-job.ts';
import type { CablingChoice } from './choices.ts';

/** Volts that every cut unit has left in any design that keeps to the limit of the drop. */
export const leastVolts_V = (job: Job, products: Products): number =>
  setVoltage_V(job, products) - job.site.dropLimit * products.strip.nominal_V;

/**
 * Least current of a cut unit over its nominal one, at most 1: at the fewest volts it has left, its LEDs as cold as the
 * room, which draws least.
 */
export function leastCurrentShare(job: Job, { strip }: Products, least_V: number): number {
  const lamp_degC = Math.min(job.site.room_degC, job.strip.strip_degC ?? job.site.room_degC);
  const shares = strip.channels.map((channel) => {
    const law = lawOf(strip, channel);
    return Math.max(0, current_A(warmLaw(law, lamp_degC), least_V)) / nominalCurrent_A(law);
  });
  return Math.min(1, ...shares);
}

/** Least watts the drivers deliver where every unit has so many volts left: `set volts * least current`. */
export function leastDelivered_W(
  job: Job,
  products: Products,
  runs: SetOut['runs'],
  least_V: number,
): number {
  const { strip } = products;
  const volts = setVoltage_V(job, products) / strip.nominal_V;
  const share = Math.min(1, volts) * leastCurrentShare(job, products, least_V) * nominal_W_per_m(strip);
  return runs.reduce(
    (sum, { zone, strip_mm }) => sum + (strip_mm / 1000) * share * circuitShare(job, products, zone),
    0,
  );
}

/** No strip that keeps to its limits is warmer, and none draws more than at this. */
const warmest_degC = 100;

/** Volts across a fuse at its rating, at most: the standard's bound for the smallest (see the families of fuses). */
const fuse_V = 0.25;

/** Contacts that a trunk passes, by the contact resistance of one: those of a block, and two at each of its ends. */
const contactsOfTrunk = 8;

/** A warm conductor over one at 20 °C, at 90 °C. */
const warmCopper = 1.28;

/** Most amps of a cut unit, its LEDs as warm as they may be. */
const mostOfUnit_A = ({ strip }: Products, set_V: number): number =>
  strip.channels.reduce(
    (sum, channel) => sum + current_A(warmLaw(lawOf(strip, channel), warmest_degC), set_V),
    0,
  );

/** The ways of a layout as far as they can go: to the farthest place, and once along the panel where there is a trunk. */
interface FarWays {
  readonly run: SetOut['runs'][number];
  readonly lead_m: number;
  readonly trunk_m: number;
}

function farWays(job: Job, run: SetOut['runs'][number], layout: Job['cables']['layout']): FarWays {
  const { tail_mm, allowance } = job.cables;
  const ways = run.feedPoints.map((pad) => farthest_mm(job, { run, pad }));
  const [along, out] = [Math.max(...ways.map((w) => w.along)), Math.max(...ways.map((w) => w.out))];
  const long = (mm: number): number => (mm * (1 + allowance)) / 1000;
  return layout === 'radial'
    ? { run, lead_m: long(along + out + 2 * tail_mm), trunk_m: 0 }
    : { run, lead_m: long(out + 2 * tail_mm), trunk_m: long(along + 2 * job.panel.width_mm + 2 * tail_mm) };
}

/**
 * Fewest volts any cut unit has left with given cables, radial or on trunks: the set volts less the most the strip, the
 * cable, its contacts and its protection can take, every length the longest and every current the greatest. Coarse, but
 * above the drop limit where the cables are short or thick. Not worked out behind a dimmer, or from run to run.
 */
export function fewestVolts_V(
  job: Job,
  products: Products,
  runs: SetOut['runs'],
  {
    layout,
    area_mm2,
    trunk_mm2,
  }: Pick<CablingChoice, 'area_mm2' | 'trunk_mm2'> & Pick<Job['cables'], 'layout'>,
): number {
  const limit_V = leastVolts_V(job, products);
  if (products.dimmer !== null || layout === 'run to run') return limit_V;
  const { strip } = products;
  const set_V = setVoltage_V(job, products);
  const ofOutput_A = Math.max(...driverModels(products).map(({ current_A: limit_A }) => limit_A));
  const copper_ohm_m = 2 * copper_ohm_mm2_per_m * warmCopper;
  const rails_ohm_per_m = (warmCopper * (strip.railPositive_mohm_per_m + strip.railReturn_mohm_per_m)) / 1000;
  const unit_A = mostOfUnit_A(products, set_V);
  const all_A = runs.reduce((sum, run) => sum + run.unitCount * unit_A, 0);
  const trunk_A = Math.min(all_A, ofOutput_A);
  const left = runs.map((run) => {
    const { lead_m, trunk_m } = farWays(job, run, layout);
    const run_A = run.unitCount * unit_A;
    const strip_ohm =
      (rails_ohm_per_m * run.strip_mm) / 1000 + (2 * job.feeds.joint_mohm * run.jointLines.length) / 1000;
    const lead_ohm = (copper_ohm_m * lead_m) / area_mm2 + (8 * job.feeds.terminal_mohm) / 1000;
    const trunk_ohm =
      (copper_ohm_m * trunk_m) / trunk_mm2 + (contactsOfTrunk * job.feeds.terminal_mohm) / 1000;
    return set_V - fuse_V - run_A * (strip_ohm + lead_ohm) - (trunk_m > 0 ? trunk_A * trunk_ohm : 0);
  });
  return Math.max(limit_V, Math.min(...left));
}

/** Resistivity of copper of cables, rounded up: 39 Ω/km of 0.5 mm² in IEC 60228, class 5 (secondary). */
const copper_ohm_mm2_per_m = 0.0205;

/** Spares of the bill: one for every ten begun. */
const spares = (count: number): number => Math.ceil(count / 10);

/** Least number of drivers, least rated watts and least price, of the models of a job that deliver so much, in air no cooler than the room. */
export function leastDrivers(job: Job, products: Products, delivered_W: number) {
  const { reserve, outputCeiling_W } = job.drivers;
  const set_V = setVoltage_V(job, products);
  const models = driverModels(products);
  const usable = models.map((model) => {
    const ofOutput_W = Math.min(model.current_A * set_V, outputCeiling_W ?? Number.POSITIVE_INFINITY);
    const whole_W = usableWatts(model, { ambient_degC: job.site.room_degC, reserve });
    return Math.min(whole_W, model.outputCount * ofOutput_W);
  });
  const most_W = Math.max(...usable);
  const driverCount = most_W > 0 ? Math.max(1, leastBins(delivered_W, most_W)) : Number.POSITIVE_INFINITY;
  const smallest_W = Math.min(...models.map(({ rated_W }) => rated_W));
  const cheapest_cents = Math.min(...models.map((model) => model.price_cents ?? 0));
  return {
    driverCount,
    rated_W: Math.max(driverCount * smallest_W, delivered_W / (1 - reserve)),
    drivers_cents: (driverCount + spares(driverCount)) * cheapest_cents,
  };
}

interface Laid {
  readonly run: Run;
  readonly pad: FeedPoint;
}

/** Ways of cable to a feed point from every place: along the way, and from it to the pad. */
function ways_mm(job: Job, { run, pad }: Laid): { readonly along: readonly number[]; readonly out: number } {
  const way_mm = wayHeight_mm(job.panel.height_mm, { ...job.cables, ...wiringOf(job, run.zone) });
  const along = job.drivers.places.map((place) =>
    pathLength_mm(alongWay(wayStart(place, way_mm, job.panel.width_mm), pad.x_mm)),
  );
  return { along, out: pathLength_mm(toPad(pad, run, way_mm)) };
}

function shortest_mm(job: Job, laid: Laid) {
  const { along, out } = ways_mm(job, laid);
  return { along: Math.min(...along), out };
}

function farthest_mm(job: Job, laid: Laid) {
  const { along, out } = ways_mm(job, laid);
  return { along: Math.max(...along), out };
}

/** Ways of cable that no allocation goes below. */
export interface LeastWays {
  /** Conductors times metres of a cable for each feed point. */
  readonly radial_m: number;
  /** The same of branches alone. */
  readonly branches_m: number;
  /** Of the longest trunk there must be. */
  readonly trunk_m: number;
  /** Of each run, the longest first: what a trunk takes that goes no further than to it. */
  readonly trunks_m: readonly number[];
  /** Metres of cable, however many conductors they have: for each feed point, and of branches alone. */
  readonly radialCable_m: number;
  readonly branchCable_m: number;
}

/** Least conductor lengths of a job's feed points, tails and allowance counted. Check: `tests/proposing/bounds.test.ts`. */
export function leastWays(job: Job, products: Products, runs: SetOut['runs']): LeastWays {
  const { tail_mm, allowance } = job.cables;
  const channelCount = products.strip.channels.length;
  const laid = runs.flatMap((run) =>
    run.feedPoints.map((pad) => {
      const { along, out } = shortest_mm(job, { run, pad });
      const conductorCount = pad.conductors === 'positive' ? 1 : pad.conductors === 'both' ? 2 : channelCount;
      return { run, along, out, conductorCount };
    }),
  );
  const sum = (of: (one: (typeof laid)[number]) => number): number =>
    laid.reduce((total, one) => total + (one.conductorCount * of(one) * (1 + allowance)) / 1000, 0);
  const cable_m = (of: (one: (typeof laid)[number]) => number): number =>
    laid.reduce((total, one) => total + (of(one) * (1 + allowance)) / 1000, 0);
  return {
    radial_m: sum(({ along, out }) => along + out + 2 * tail_mm),
    branches_m: sum(({ out }) => out),
    trunk_m: (Math.max(...laid.map(({ along }) => along)) * (1 + allowance)) / 1000,
    trunks_m: runs
      .map((run) => Math.min(...laid.filter((one) => one.run === run).map(({ along }) => along)))
      .map((along_mm) => (along_mm * (1 + allowance)) / 1000)
      .sort((a, b) => b - a),
    radialCable_m: cable_m(({ along, out }) => along + out + 2 * tail_mm),
    branchCable_m: cable_m(({ out }) => out),
  };
}

/** Most runs that one output carries, each at the fewest watts it may draw: the least of them together. */
export function mostRunsOfOutput(
  job: Job,
  products: Products,
  runs: SetOut['runs'],
  least_V: number,
): number {
  const { reserve, outputCeiling_W } = job.drivers;
  const set_V = setVoltage_V(job, products);
  const rooms_W = driverModels(products).map((model) =>
    Math.min(
      usableWatts(model, { ambient_degC: job.site.room_degC, reserve }),
      model.current_A * set_V,
      outputCeiling_W ?? Number.POSITIVE_INFINITY,
    ),
  );
  const each_W = runs.map((run) => leastDelivered_W(job, products, [run], least_V)).sort((a, b) => a - b);
  let left_W = Math.max(...rooms_W) * (1 + 1e-9);
  let count = 0;
  for (; count < each_W.length && each_W[count]! <= left_W; count++) left_W -= each_W[count]!;
  return Math.max(1, count);
}

/**
 * Metres of all trunks, where an output carries so many runs at most: the longest reaches the farthest pad, and of all runs in
 * order of their distance every such many another one begins, since no way to group them has a shorter sum of longest ones.
 */
function trunks_m({ trunk_m, trunks_m: each }: LeastWays, mostRuns: number): number {
  let sum_m = trunk_m;
  for (let i = mostRuns; i < each.length; i += mostRuns) sum_m += each[i]!;
  return sum_m;
}

/** Cables of a layout, and how many runs an output carries at most. */
interface Laying {
  readonly layout: Job['cables']['layout'];
  readonly ways: LeastWays;
  readonly mostRuns: number;
}

/** Least copper of a layout with given cables. */
export function leastCopper_mm2_m(
  { layout, ways, mostRuns }: Laying,
  { area_mm2, trunk_mm2 }: Pick<CablingChoice, 'area_mm2' | 'trunk_mm2'>,
): number {
  if (layout === 'radial') return ways.radial_m * area_mm2;
  if (layout === 'run to run') return 0;
  return ways.branches_m * area_mm2 + trunks_m(ways, mostRuns) * Math.min(area_mm2, trunk_mm2);
}

/** Least price of the cables of a layout, one tenth spare; 0 where the way of the cables is not known beforehand. */
export function leastCables_cents(
  { layout, ways, mostRuns }: Laying,
  { cable, trunk }: Readonly<Record<'cable' | 'trunk', { readonly price_cents_per_m: number | null }>>,
): number {
  const spare = 1.1;
  const [cents, trunk_cents] = [cable.price_cents_per_m ?? 0, trunk.price_cents_per_m ?? 0];
  if (layout === 'radial') return spare * ways.radialCable_m * cents;
  if (layout === 'run to run') return 0;
  return spare * (ways.branchCable_m * cents + trunks_m(ways, mostRuns) * Math.min(cents, trunk_cents));
}

/** Least price of the reels of a strip: those bought, without a spare one. */
export const leastReels_cents = (
  { reels }: Pick<SetOut, 'reels'>,
  { strip }: Pick<Products, 'strip'>,
): number => reels.filter(({ fromStock }) => !fromStock).length * (strip.price_cents ?? 0);
