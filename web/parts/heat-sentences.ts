import type { AskedHeat } from '../../src/answer/asked.ts';
import type { HeatAnswer } from '../../src/answer/heat.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { nearest, quantity } from '../format.ts';
import type { Given } from '../state/asking.ts';
import {
  limitedDimmerProposal,
  type Proposal,
  variantProposal,
  weakerStripProposal,
} from '../state/proposals.ts';
import type { Answer } from '../state/store.ts';

export type SweepPoint = AskedHeat['byDepth'][number];

export const watts = (w_per_m: number): string => quantity(w_per_m, 'W/m');
export const depth = (depth_mm: number): string => quantity(nearest(depth_mm, 1), 'mm');
const depths = (from_mm: number, to_mm: number): string =>
  `${quantity(nearest(from_mm, 1), '')} to ${depth(to_mm)}`;

/** True where the least depth looked at passes already, so that none shallower is known. */
export const passesFromTheFirst = ({
  byDepth,
  passing_mm,
}: Pick<AskedHeat, 'byDepth' | 'passing_mm'>): boolean =>
  (passing_mm[0]?.from_mm ?? Number.POSITIVE_INFINITY) <= (byDepth[0]?.cavity_mm ?? 0) + 0.05;

/** The point of the sweep over power that is the job's own. */
export function ownPoint({ value, of }: Given<AskedHeat>): SweepPoint {
  const own = of.sizing.heat.strip_W_per_m;
  const off = (point: SweepPoint): number => Math.abs(point.strip_W_per_m - own);
  return value.byPower.reduce((a, b) => (off(b) < off(a) ? b : a));
}

/** The place whose limit comes first; limits that only warn do not count against passing. */
export function nearestLimit({ temperatures }: HeatAnswer): string | undefined {
  const all = temperatures.flatMap(({ name, value_degC, limits }) =>
    limits
      .filter(({ beyond }) => beyond !== 'caution')
      .map(({ limit_degC }) => ({ name, limit_degC, room_K: limit_degC - value_degC })),
  );
  if (all.length === 0) return undefined;
  const { name, limit_degC } = all.reduce((a, b) => (b.room_K < a.room_K ? b : a));
  return `${name.toLowerCase()}, ${quantity(limit_degC, '°C')}`;
}

/** The depths that cannot be built, with the reason of the deepest of them. */
function gapWords({ gaps }: AskedHeat): string {
  const deepest = gaps.at(-1);
  return deepest ? ` Not at ${depth(deepest.cavity_mm)}: ${deepest.reason}` : '';
}

/** Which depths pass, in words; none is an answer too. */
export function depthWords(asked: AskedHeat): string {
  return `${passingWords(asked)}${gapWords(asked)}`;
}

function passingWords({ byDepth, passing_mm }: AskedHeat): string {
  const [first, last] = [byDepth[0]?.cavity_mm ?? 0, byDepth.at(-1)?.cavity_mm ?? 0];
  const looked = depths(first, last);
  if (passing_mm.length === 0) return `No depth from ${looked} passes.`;
  if (passesFromTheFirst({ byDepth, passing_mm }) && passing_mm[0]!.to_mm >= last - 0.05) {
    return `Every depth looked at passes, ${looked}.`;
  }
  const ranges = passing_mm.map(({ from_mm, to_mm }) => depths(from_mm, to_mm));
  return `Depths from ${ranges.join(' and from ')} pass, of ${looked} looked at.`;
}

export function powerWords({ highest_W_per_m, highestNominal_W_per_m, highestIsBounded }: AskedHeat): string {
  if (highest_W_per_m === null) return 'No power passes in this section.';
  if (!highestIsBounded) return `Every power looked at passes, up to ${watts(highest_W_per_m)}.`;
  const sheet =
    highestNominal_W_per_m === null
      ? ''
      : `, drawn by a strip of ${watts(highestNominal_W_per_m)} on its data sheet`;
  return `The highest power that passes is ${watts(highest_W_per_m)}${sheet}.`;
}

/** What the least passing depth does to the build-up. */
export function stackWords({ value, of }: Given<AskedHeat>): string {
  const least = value.passing_mm[0]?.from_mm;
  if (least === undefined || passesFromTheFirst(value)) return '';
  const { section } = of.sizing;
  const { cavity_mm, tolerance_mm } = of.job.section;
  const whole_mm = section.depth_mm - cavity_mm + least + tolerance_mm;
  return `A cavity of ${depth(least)} makes a build-up of ${depth(whole_mm)} with its tolerance, of ${quantity(section.available_mm, 'mm')} available.`;
}

const nominal_W_per_m = (channels: readonly { readonly watts_per_m: number }[]): number =>
  channels.reduce((sum, channel) => sum + channel.watts_per_m, 0);

/** Watts at the working levels over watts at full, of the zone that draws most at its own. */
function shareAtLevels({ sizing: { light, products } }: Answer): number {
  const { channels } = products.strip;
  const lit = light.zones.map(({ levels }) =>
    channels.reduce((sum, one, i) => sum + one.watts_per_m * (levels.working[i] ?? 1), 0),
  );
  return Math.max(...lit) / (nominal_W_per_m(channels) || 1);
}

/** The strongest strip of the catalogue, alike in volts and channels, of no more watts on its data sheet. */
function weakerStrip({ sizing }: Answer, most_W_per_m: number): (typeof stripCatalogue)[number] | undefined {
  const { channels, nominal_V } = sizing.products.strip;
  return stripCatalogue
    .filter((entry) => entry.nominal_V === nominal_V)
    .filter((entry) => entry.channels.length === channels.length)
    .filter((entry) => nominal_W_per_m(entry.channels) <= most_W_per_m)
    .toSorted((a, b) => nominal_W_per_m(b.channels) - nominal_W_per_m(a.channels))[0];
}

interface Help {
  readonly sentence: string;
  readonly proposal: Proposal | undefined;
}

/** Fewer watts come first: what the section takes, and the strip of the catalogue nearest below it. */
function fewerWatts({ value, of }: Given<AskedHeat>, own: SweepPoint): Help[] {
  const highest = value.highest_W_per_m;
  if (highest === null) return [];
  const share = highest / own.strip_W_per_m;
  const most_W_per_m =
    value.highestNominal_W_per_m ?? share * nominal_W_per_m(of.sizing.products.strip.channels);
  const weaker = weakerStrip(of, most_W_per_m);
  const named = weaker
    ? `the strongest of the catalogue below that is ${weaker.name}`
    : 'none of the catalogue is below that';
  return [
    {
      sentence: `Fewer watts of strip: up to ${watts(most_W_per_m)} on its data sheet pass; ${named}.`,
      proposal: weaker && weakerStripProposal(weaker.id),
    },
  ];
}

function variants({ value }: Given<AskedHeat>): Help[] {
  return value.variants
    .filter(({ change_K }) => change_K < -0.5)
    .map((variant) => ({
      sentence: `The section ${variant.name}: ${quantity(-variant.change_K, 'K')} cooler, ${variant.passes ? 'which is enough' : 'which is not enough by itself'}.`,
      proposal: variantProposal(variant),
    }));
}

/** A limit of the dimmer, after all that needs nobody to keep to it. */
function limitedDimmer({ value, of }: Given<AskedHeat>, own: SweepPoint): Help[] {
  const highest_W_per_m = value.highest_W_per_m ?? 0;
  const limited_W_per_m = own.strip_W_per_m * shareAtLevels(of);
  if (of.job.dimming.sizeFor === 'levels' || limited_W_per_m > highest_W_per_m) return [];
  return [
    {
      sentence: `Where none of these can be done: a dimmer that whoever commissions it makes unable to go above the working level, so that the strip takes ${watts(limited_W_per_m)} on average instead of ${watts(own.strip_W_per_m)}. Every paper then carries that as a condition, and no temperature simply passes.`,
      proposal: limitedDimmerProposal,
    },
  ];
}

/** What does help where the job does not pass: fewer watts, another section, and last what rests on a setting. */
export const helps = (given: Given<AskedHeat>, own: SweepPoint): Help[] => [
  ...fewerWatts(given, own),
  ...variants(given),
  ...limitedDimmer(given, own),
];
