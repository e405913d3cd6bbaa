import type { AskedFeed, AskedStrip, AskedVariant } from '../../src/answer/asked.ts';
import type { Finding } from '../../src/answer/findings.ts';
import { cableCatalogue, thickerThan } from '../../src/job/cable-catalogue.ts';
import type { Job } from '../../src/job/job.ts';
import { newProfile } from '../../src/job/profile-catalogue.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { entryText, levelText, nearest, noLess, quantity } from '../format.ts';
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

/** An entry of the list for every cable. */
export function cableProposal(entry: string): Proposal | undefined {
  const cable = cableCatalogue.find(({ id }) => id === entry);
  return (
    cable && {
      what: `${cable.name} for every cable`,
      fields: ['cables.data'],
      edit: (job) => withProduct(job, 'cables', cable.id),
    }
  );
}

/** The thinnest cable of the same series that is thicker than the job's, and no thinner than so much. */
function thickerProposal({ cables }: Job, least_mm2: number): Proposal | undefined {
  const own = cableCatalogue.find(({ id }) => id === cables.entry);
  if (!own || cables.data.area_mm2 !== undefined) return undefined;
  const thicker = thickerThan(own).find(({ area_mm2 }) => area_mm2 >= least_mm2);
  return thicker && cableProposal(thicker.id);
}

const inCables =
  (change: Partial<Job['cables']>) =>
  (job: Job): Job => ({ ...job, cables: { ...job.cables, ...change } });

/** A cable to each feed point where several share one; a trunk where each has its own. */
const layoutProposal = ({ cables }: Job): Proposal =>
  cables.layout === 'radial'
    ? { what: 'one trunk with taps', fields: ['cables.layout'], edit: inCables({ layout: 'trunk' }) }
    : {
        what: 'one cable to each feed point',
        fields: ['cables.layout'],
        edit: inCables({ layout: 'radial' }),
      };

/** What a remedy of a finding does, where a change of one field of the cables does it. */
export function remedyProposal({ id, limit, unit }: Finding, field: string, job: Job): Proposal | undefined {
  if (field === 'cables.entry')
    return id === 'cable-thickness' ? undefined : thickerProposal(job, unit === 'mm²' ? (limit ?? 0) : 0);
  if (field === 'cables.layout') return layoutProposal(job);
  if (field === 'cables.fuses')
    return { what: 'electronic channels as fuses', fields: [field], edit: inCables({ fuses: 'electronic' }) };
  return undefined;
}

/** What a feed of an answer is in the job: an arrangement, and how many feed points between the ends. */
function feedsOf(
  { kind, feedCount }: AskedFeed,
  { arrangement, betweenCount }: Job['feeds'],
): Pick<Job['feeds'], 'arrangement' | 'betweenCount'> | undefined {
  if (kind === 'ends-and-between') return undefined;
  if (kind === 'between') return { arrangement: 'between', betweenCount: feedCount };
  // At one end is at the end the job feeds already.
  if (kind === 'start' && arrangement === 'finish') return { arrangement, betweenCount };
  return { arrangement: kind, betweenCount };
}

/** A feed arrangement of an answer, named in its words; undefined for one that the job cannot hold. */
export function arrangementProposal(
  { feed, arrangement }: { readonly feed: AskedFeed; readonly arrangement: string },
  job: Job,
): Proposal | undefined {
  if (!feedsOf(feed, job.feeds)) return undefined;
  return {
    what: `runs fed ${arrangement}`,
    fields: ['feeds.arrangement', 'feeds.betweenCount'],
    edit: (at) => ({ ...at, feeds: { ...at.feeds, ...feedsOf(feed, at.feeds) } }),
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

/** What a variant of the heat answer changes in the section, with the measures it was asked with. */
function variantSection({ key, carrier, cover_mm, profile }: AskedVariant): Partial<Job['section']> {
  if (key === 'with-carrier' && carrier)
    return {
      carrier: 'flat aluminium',
      carrierWidth_mm: nearest(carrier.width_mm, 3),
      carrierThickness_mm: nearest(carrier.thickness_mm, 3),
    };
  if (key === 'with-profile' && profile !== null) return { carrier: 'none', profile: newProfile(profile) };
  if (key === 'without-profile') return { profile: null };
  if (key === 'slot-closed' && cover_mm !== null)
    return { cover: 'opal acrylic', coverThickness_mm: nearest(cover_mm, 3) };
  return key === 'slot-open' ? { cover: 'open' } : { carrier: 'none' };
}

/** A variant of the section as the heat answer has it. */
export function variantProposal(variant: AskedVariant): Proposal {
  const carrier = ['section.carrier', 'section.carrierWidth_mm', 'section.carrierThickness_mm'];
  const cover = ['section.cover', 'section.coverThickness_mm'];
  return {
    what: `the section ${variant.name}`,
    fields: [...carrier, ...cover, 'section.profile'],
    edit: inSection(variantSection(variant)),
  };
}

const withLevels =
  (level: number) =>
  (job: Job): Job => ({
    ...job,
    dimming: { ...job.dimming, levels: channelsOf(job).map(() => level) },
  });

/** The working level an answer asks for, in tenths of a percent and never below it; full where that is not enough. */
export const levelOf = (level: number): number => Math.min(1, noLess(level, 3));

/** A strip of the catalogue, or of the job’s own by its name, at a working level. */
export function stripProposal(
  id: string,
  level: number,
  name = stripCatalogue.find((entry) => entry.id === id)?.name ?? id,
): Proposal {
  return {
    what: `${name}, working level ${levelText(levelOf(level))}`,
    fields: ['strip.data', 'dimming.levels'],
    edit: (job) => withLevels(levelOf(level))(job.strip.entry === id ? job : withProduct(job, 'strip', id)),
  };
}

/** A weaker strip of the catalogue; the levels stay as they are. */
export function weakerStripProposal(id: string): Proposal {
  const name = stripCatalogue.find((entry) => entry.id === id)?.name ?? id;
  return { what: name, fields: ['strip.data'], edit: (job) => withProduct(job, 'strip', id) };
}

/** A dimmer made unable to go above the working levels: never the first thing to do, and a condition of every paper. */
export const limitedDimmerProposal: Proposal = {
  what: 'the wall sized for a dimmer limited to its working level',
  fields: [],
  edit: (job) => ({ ...job, dimming: { ...job.dimming, sizeFor: 'levels' } }),
};

/** A name that only describes a strip, as those of the catalogue do; a maker's own name for it says something else. */
const isDescription = (name: unknown): boolean => /^\d+ V .*W\/m, .*(?:LEDs|lamps)\/m/.test(String(name));

const describe = ({ data, channel }: AskedStrip): string =>
  [
    `${data.nominal_V} V ${entryText(channel.watts_per_m, false)} W/m`,
    `${entryText(data.lampsPerMetre, false)} LEDs/m`,
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
