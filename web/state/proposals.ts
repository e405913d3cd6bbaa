import type { AskedStrip } from '../../src/answer/asked.ts';
import { cableCatalogue } from '../../src/job/cable-catalogue.ts';
import type { Arrangement, Job } from '../../src/job/job.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { entryText, nearest, noLess, percent, quantity } from '../format.ts';
import { channelsOf, shownValue, withField, withProduct } from './sheet.ts';

/** A change of the job that an answer proposes: in words, the fields it sets, and the change itself. */
export interface Proposal {
  readonly what: string;
  readonly fields: readonly string[];
  readonly edit: (job: Job) => Job;
}

/** True where the job already says what is proposed. */
export const isInJob = (job: Job, { edit }: Proposal): boolean =>
  JSON.stringify(edit(job)) === JSON.stringify(job);

/** Every cable of this size, fine-wire copper. */
export function cableProposal(area_mm2: number): Proposal | undefined {
  const entry = cableCatalogue.find((cable) => cable.area_mm2 === area_mm2 && cable.id.endsWith('mm2'));
  if (!entry) return undefined;
  return {
    what: `${entry.name} for every cable`,
    fields: ['cables.data'],
    edit: (job) => withProduct(job, 'cables', entry.id),
  };
}

/** What the words of an answer mean in the job: an arrangement, and how many feed points between the ends. */
function arrangementOf(
  words: string,
  job: Job,
): { arrangement: Arrangement; betweenCount: number } | undefined {
  const { arrangement, betweenCount } = job.feeds;
  if (words === 'at one end')
    return { arrangement: arrangement === 'finish' ? 'finish' : 'start', betweenCount };
  if (words === 'at both ends') return { arrangement: 'both', betweenCount };
  if (words === 'crossed') return { arrangement: 'crossed', betweenCount };
  if (words === 'in the middle') return { arrangement: 'between', betweenCount: 1 };
  const several = /^at (two|\d+) points between$/.exec(words)?.[1];
  if (several === undefined) return undefined;
  return { arrangement: 'between', betweenCount: several === 'two' ? 2 : Number(several) };
}

/** A feed arrangement as an answer names it; undefined for one that the job cannot hold. */
export function arrangementProposal(words: string, job: Job): Proposal | undefined {
  if (!arrangementOf(words, job)) return undefined;
  return {
    what: `runs fed ${words}`,
    fields: ['feeds.arrangement', 'feeds.betweenCount'],
    edit: (at) => ({ ...at, feeds: { ...at.feeds, ...arrangementOf(words, at) } }),
  };
}

/** Volts at the drivers, to the hundredth that a trimmer can be set to. */
export function voltsProposal(set_V: number): Proposal {
  const rounded_V = nearest(set_V, 2);
  return {
    what: `drivers set to ${quantity(rounded_V, 'V')}`,
    fields: ['drivers.set_V'],
    edit: (job) => ({ ...job, drivers: { ...job.drivers, set_V: rounded_V } }),
  };
}

const inSection =
  (change: Partial<Job['section']>) =>
  (job: Job): Job => ({ ...job, section: { ...job.section, ...change } });

/** Another depth of the cavity, to the tenth of a millimetre and never below it. */
export function cavityProposal(depth_mm: number): Proposal {
  const cavity_mm = noLess(depth_mm, 1);
  return {
    what: `a cavity of ${quantity(cavity_mm, 'mm')}`,
    fields: ['section.cavity_mm'],
    edit: inSection({ cavity_mm }),
  };
}

/** What the variants of the heat answer change, by their names there; the measures are those they were asked with. */
const variantEdits: Readonly<Record<string, (job: Job) => Job>> = {
  'with an aluminium carrier 20 × 2 mm under the strip': (job) =>
    inSection({
      carrier: 'flat aluminium',
      carrierWidth_mm: Math.max(20, Number(shownValue(job, ['strip', 'data', 'width_mm']))),
      carrierThickness_mm: 2,
    })(job),
  'without the aluminium carrier': inSection({ carrier: 'none' }),
  'with an opal cover over the slot': inSection({ cover: 'opal acrylic', coverThickness_mm: 3 }),
  'with the slot open': inSection({ cover: 'open' }),
};

/** A variant of the section as the heat answer names it; undefined for a name this page does not know. */
export function variantProposal(name: string): Proposal | undefined {
  const edit = variantEdits[name];
  const carrier = ['section.carrier', 'section.carrierWidth_mm', 'section.carrierThickness_mm'];
  const cover = ['section.cover', 'section.coverThickness_mm'];
  return edit && { what: `the section ${name}`, fields: [...carrier, ...cover], edit };
}

const withLevels =
  (level: number) =>
  (job: Job): Job => ({
    ...job,
    dimming: { ...job.dimming, levels: channelsOf(job).map(() => level) },
  });

/** The level an answer asks for, in tenths of a percent and never below it; fully on where that is not enough. */
const levelOf = (level: number): number => Math.min(1, noLess(level, 3));

/** A strip of the catalogue, dimmed to a level. */
export function stripProposal(id: string, level: number): Proposal {
  const name = stripCatalogue.find((entry) => entry.id === id)?.name ?? id;
  const dimmed = levelOf(level) < 1 ? `dimmed to ${percent(levelOf(level))}` : 'fully on';
  return {
    what: `${name}, ${dimmed}`,
    fields: ['strip.data', 'dimming.levels'],
    edit: (job) => withLevels(levelOf(level))(job.strip.entry === id ? job : withProduct(job, 'strip', id)),
  };
}

/** A weaker strip of the catalogue; the levels stay as they are. */
export function weakerStripProposal(id: string): Proposal {
  const name = stripCatalogue.find((entry) => entry.id === id)?.name ?? id;
  return { what: name, fields: ['strip.data'], edit: (job) => withProduct(job, 'strip', id) };
}

/** A dimmer that cannot go above the levels given, so that everything is sized for those. */
export const limitedDimmerProposal: Proposal = {
  what: 'everything sized for the levels given',
  fields: [],
  edit: (job) => ({ ...job, dimming: { ...job.dimming, sizeFor: 'levels' } }),
};

/** A name that only describes a strip, as those of the catalogue do; a maker's own name for it says something else. */
const isDescription = (name: unknown): boolean => /^\d+ V .*W\/m, .*lamps\/m/.test(String(name));

const describe = ({ data, channel }: AskedStrip): string =>
  [
    `${data.nominal_V} V ${entryText(channel.watts_per_m, false)} W/m`,
    `${entryText(data.lampsPerMetre, false)} lamps/m`,
    ...(data.law === 'regulated' ? ['regulated current'] : []),
  ].join(', ');

/** A strip worked out from its data sheet, with one of the rails that were found for it. */
export function sheetProposal(strip: AskedStrip, rail_mohm_per_m: number): Proposal {
  const rails = { railPositive_mohm_per_m: rail_mohm_per_m, railReturn_mohm_per_m: rail_mohm_per_m };
  const at = ['strip', 'data'] as const;
  const fields = (job: Job) => [
    ...Object.entries({ ...strip.data, ...rails }).map(([key, value]) => [[...at, key], value] as const),
    ...Object.entries(strip.channel).map(([key, value]) => [[...at, 'channels', 0, key], value] as const),
    ...(isDescription(shownValue(job, [...at, 'name'])) ? [[[...at, 'name'], describe(strip)] as const] : []),
  ];
  return {
    what: `${describe(strip)}, with ${quantity(rail_mohm_per_m, 'mΩ/m', 1)} in each rail`,
    fields: ['strip.data'],
    edit: (job) => fields(job).reduce((edited, [path, value]) => withField(edited, path, value), job),
  };
}
