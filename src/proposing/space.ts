import type { SetOut } from '../answer/set-out.ts';
import { quickSharing } from '../drivers/share-effort.ts';
import type { Job } from '../job/job.ts';
import type { Openable } from '../job/open-choices.ts';
import type { Products } from '../job/products.ts';
import { resolveProducts } from '../job/resolve.ts';
import { allocate, loadsOf, nominalWatts } from '../sizing/drivers-of-job.ts';
import { nominal_W_per_m } from '../sizing/light-of-job.ts';
import {
  type LeastWays,
  leastDelivered_W,
  leastDrivers,
  leastReels_cents,
  leastVolts_V,
  leastWays,
} from './bounds.ts';
import { type Choices, choicesOf, isPriced, type Within } from './choices.ts';
import { type Fall, fallOfIssue } from './fallen.ts';
import { buildUpCount, type Figures, type Ranking } from './figures.ts';
import { fallOfHeat } from './heat-stage.ts';
import {
  lawOf,
  leastStrip,
  type SectionPick,
  type StandingSection,
  sectionPicks,
  stageSection,
} from './section-stage.ts';
import { setOutFor } from './trial.ts';

/** How a strip lies with one way of feeding. */
export interface Lying {
  readonly setOut: SetOut;
  readonly ways: LeastWays;
  readonly feedPointCount: number;
}

/** A section that light and depth let pass, with what it changes of the build-up. */
export interface Standing {
  /** Its place among all sections. */
  readonly index: number;
  readonly at: StandingSection;
  readonly buildUpCount: number;
  /** What it falls by at the fewest watts; its law is solved when this is first asked. */
  readonly heatFall: () => Fall | undefined;
}

/** Least of the drivers of a strip, and the job with them. */
export interface Driven {
  readonly job: Job;
  readonly products: Products;
  readonly driverCount: number;
  readonly rated_W: number;
  readonly drivers_cents: number;
}

/** A strip in its slots: what is electrical is alike in all its sections, but for how warm they make it. */
export interface Laid {
  readonly standing: readonly Standing[];
  /** The deepest of its sections, in which cables have most room. */
  readonly base: StandingSection;
  /** The one whose cables lie coolest at the watts of the data sheet, and so may carry most; its laws are solved when asked. */
  readonly coolest: () => StandingSection;
  readonly strip_W: number;
  readonly reels_cents: number;
  readonly lying: (feeds: number) => Lying | Fall;
  readonly driven: (drivers: number) => Driven | Fall;
}

/** Sections of one strip in the same slots. */
interface Family {
  readonly picks: readonly number[];
  readonly nominal_V: number;
}

/** All designs that a job's open choices allow, and what has been worked out of them. */
export interface Space extends Ranking {
  readonly choices: Choices;
  readonly families: readonly Family[];
  /** Ways of feeding, laying and protecting. */
  readonly wiringCount: number;
  /** Sets of drivers of those volts. */
  readonly driverCount: (nominal_V: number) => number;
  readonly allowedCount: number;
  /** Watts and amps of the strip of a family by its data sheet and price of its reels, before anything else of it is worked out. */
  readonly rough: (family: number) => Pick<Figures, 'strip_W' | 'strip_A' | 'price_cents'>;
  readonly laid: (family: number) => { readonly value: Laid | null; readonly falls: readonly Fall[] };
}

function once<Value>(work: () => Value): () => Value {
  let kept: { readonly value: Value } | undefined;
  return () => {
    kept ??= { value: work() };
    return kept.value;
  };
}

function onceFor<Value>(work: (index: number) => Value): (index: number) => Value {
  const kept = new Map<number, Value>();
  return (index) => {
    if (!kept.has(index)) kept.set(index, work(index));
    return kept.get(index)!;
  };
}

const isFall = (x: object): x is Fall => 'check' in x;

function lyingBy(at: StandingSection, choices: Choices): Laid['lying'] {
  return onceFor((index) => {
    const job: Job = { ...at.job, feeds: { ...at.job.feeds, ...feedsAt(choices, index) } };
    const setOut = setOutFor(job, at);
    if (isFall(setOut)) return setOut;
    const feedPointCount = setOut.runs.reduce((sum, run) => sum + run.feedPoints.length, 0);
    return { setOut, feedPointCount, ways: leastWays(job, at.products, setOut.runs) };
  });
}

/** One of the ways of feeding, as a job has it. */
export function feedsAt({ feeds }: Choices, index: number): Partial<Job['feeds']> {
  const { cutLines, exceptions, ...rest } = feeds[index]!;
  return { ...rest, cutLines: [...cutLines], exceptions: [...exceptions] };
}

function drivenBy(at: StandingSection, choices: Choices, lying: Laid['lying']): Laid['driven'] {
  const anySetOut = once(() => choices.feeds.map((_, i) => lying(i)).find((each) => !isFall(each)));
  return onceFor((index) => {
    const { output_V: _volts, ...chosen } = choices.drivers[index]!;
    const job = { ...at.job, drivers: { ...at.job.drivers, ...chosen, also: [...chosen.also] } };
    const resolved = resolveProducts(job);
    if (!resolved.ok) return fallOfIssue(resolved.issues[0]!);
    const products = resolved.value;
    const lies = anySetOut();
    if (lies === undefined || isFall(lies)) return { job, products, ...leastDrivers(job, products, 0) };
    const { runs } = lies.setOut;
    const loads = loadsOf(job, runs, nominalWatts(lies.setOut, products, job));
    const air_degC = job.drivers.places.map(() => job.site.room_degC);
    const shared = allocate(job, products, { loads, air_degC, effort: quickSharing });
    if (!shared.ok) return fallOfIssue(shared.issues[0]!);
    const delivered_W = leastDelivered_W(job, products, runs, leastVolts_V(job, products));
    return { job, products, ...leastDrivers(job, products, delivered_W) };
  });
}

/** What of the working levels is fewest: where the circuit goes by them, a section with fewer draws fewer watts. */
const levelSum = ({ dimming }: Job): number => dimming.levels.reduce((sum, level) => sum + level, 0);

/** Kelvins of a cable beside the strip over the room, at the watts of the data sheet. */
function cableRise_K({ at }: Standing): number {
  const law = lawOf(at, 'quick');
  return isFall(law) ? Number.POSITIVE_INFINITY : (law.rises.cable ?? 0);
}

const coolestOf = (standing: readonly Standing[]): StandingSection =>
  standing.reduce((a, b) => (cableRise_K(b) < cableRise_K(a) ? b : a)).at;

function laidOf(standing: readonly Standing[], choices: Choices): Laid | null {
  const [first, ...rest] = standing;
  if (first === undefined) return null;
  const { at: base } = rest.reduce((a, b) => (b.at.depth_mm > a.at.depth_mm ? b : a), first);
  const dimmest = standing.reduce((a, b) => (levelSum(b.at.job) < levelSum(a.at.job) ? b : a)).at.job;
  const at = { ...base, job: { ...base.job, dimming: dimmest.dimming } };
  const lying = lyingBy(at, choices);
  return {
    standing: standing.toSorted((a, b) => a.buildUpCount - b.buildUpCount || a.index - b.index),
    base: at,
    coolest: once(() => coolestOf(standing)),
    strip_W: at.strip_m * nominal_W_per_m(at.products.strip),
    reels_cents: leastReels_cents(at.setOut, at.products),
    lying,
    driven: drivenBy(at, choices, lying),
  };
}

/** Sections by their strip and slots, in their order. */
function familiesOf(picks: readonly SectionPick[]): Family[] {
  const families = new Map<string, { picks: number[]; nominal_V: number }>();
  for (const [index, { strip, slots }] of picks.entries()) {
    const key = JSON.stringify([strip.entry, strip.data, slots]);
    const family = families.get(key) ?? { picks: [], nominal_V: strip.nominal_V };
    family.picks.push(index);
    families.set(key, family);
  }
  return [...families.values()];
}

function standingOf(at: StandingSection, index: number, present: Job): Standing {
  return {
    index,
    at,
    buildUpCount: buildUpCount(at.job, present),
    heatFall: once(() => {
      const law = lawOf(at, 'quick');
      return isFall(law) ? law : fallOfHeat(at, law);
    }),
  };
}

/** The designs of a job with its open choices. */
export function spaceOf(job: Job, open: ReadonlySet<Openable>, within: Within = {}): Space {
  const choices = choicesOf(job, open, within);
  const picks = sectionPicks(choices);
  const families = familiesOf(picks);
  const layings = choices.layouts.reduce((sum, layout) => sum + choices.cabling(layout).length, 0);
  const wiringCount = choices.feeds.length * layings * choices.fuses.length;
  const driverCount = (nominal_V: number): number =>
    Math.max(1, choices.drivers.filter(({ output_V }) => output_V === nominal_V).length);
  const priced = isPriced(job, choices);
  const isLevelOpen = open.has('level');
  const staged = onceFor((index) => stageSection(job, picks[index]!, { choices, isLevelOpen }));
  return {
    present: job,
    isPriced: priced,
    choices,
    families,
    wiringCount,
    driverCount,
    allowedCount: picks.reduce((sum, { strip }) => sum + driverCount(strip.nominal_V) * wiringCount, 0),
    rough: onceFor((family) => {
      const first = picks[families[family]!.picks[0]!]!;
      const { strip_W, reels_cents } = leastStrip(job, first);
      return { strip_W, strip_A: strip_W / first.strip.nominal_V, price_cents: priced ? reels_cents : 0 };
    }),
    laid: onceFor((family) => {
      const all = families[family]!.picks.map((index) => ({ index, staged: staged(index) }));
      const standing = all.flatMap(({ index, staged: one }) =>
        one.ok ? [standingOf(one.value, index, job)] : [],
      );
      const falls = all.flatMap(({ staged: one }) => (one.ok ? [] : [one.fall]));
      return { value: laidOf(standing, choices), falls };
    }),
  };
}
