import { cablesUnder } from '../../src/job/cable-catalogue.ts';
import { entriesOf } from '../../src/job/catalogues.ts';
import type { Path } from '../../src/job/field-name.ts';
import type { Job } from '../../src/job/job.ts';
import { isOwnId, type OwnProduct, ownEntries } from '../../src/job/own-product.ts';
import { inFinish, newProfile, profileCoverCatalogue } from '../../src/job/profile-catalogue.ts';
import type { StripChannel } from '../../src/job/strip.ts';
import { nearest } from '../format.ts';
import { valueAt, withValue } from './paths.ts';

/** The parts of a job that are chosen from a catalogue and overridden from a data sheet. */
export type Product = 'strip' | 'cables' | 'drivers';

/** Kinds of product by the parts of a job that hold one. */
const kindOfPart = {
  strip: 'strip',
  cables: 'cable',
  drivers: 'driver',
  profile: 'profile',
  dimmer: 'dimmer',
} as const satisfies Readonly<Record<string, Parameters<typeof entriesOf>[1]>>;

type Part = keyof typeof kindOfPart | 'profileCover';

interface Entry {
  readonly id: string;
  readonly name: string;
}

/** What a job may choose a part from: the catalogue, then the own products it carries. */
export function catalogueOf(job: Job, part: Part): readonly Entry[] {
  if (part !== 'profileCover') return entriesOf(job, kindOfPart[part]);
  return [...profileCoverCatalogue, ...ownEntries(job.products, 'cover')];
}

/** The workshop’s products of a part that a job does not carry. */
function furtherOwn(job: Job, part: Part, workshop: readonly OwnProduct[]): Entry[] {
  const kind = part === 'profileCover' ? 'cover' : kindOfPart[part];
  const carried = new Set(job.products.map(({ id }) => id));
  return ownEntries(workshop, kind).filter(({ id }) => !carried.has(id));
}

/**
 * What a list offers for a part: the catalogue, of which cables as the rules of the job size them, then the own products the job
 * carries and those of the workshop.
 */
export function offeredFor(
  job: Job,
  part: Part,
  chosen: string,
  workshop: readonly OwnProduct[],
): readonly Entry[] {
  const sizes = new Set([chosen, ...cablesUnder(job.site.rules).map(({ id }) => id)]);
  const isOffered = ({ id }: Entry): boolean => part !== 'cables' || sizes.has(id) || isOwnId(id);
  return [...catalogueOf(job, part).filter(isOffered), ...furtherOwn(job, part, workshop)];
}

/** A copy of the job that carries an own product as the workshop has it now; as it is for anything else. */
export function withCopy(job: Job, id: string | null, workshop: readonly OwnProduct[]): Job {
  const own = workshop.find((product) => product.id === id);
  if (!own) return job;
  const isCarried = job.products.some((product) => product.id === id);
  const products = isCarried
    ? job.products.map((product) => (product.id === id ? own : product))
    : [...job.products, own];
  return { ...job, products };
}

/** A copy of the job without the own products that nothing in it names any more. */
export function withoutUnused(job: Job): Job {
  const { strip, drivers, cables, dimming, section, prices } = job;
  const named = new Set([
    ...[strip, drivers, ...drivers.also, cables].map(({ entry }) => entry),
    ...[cables.trunk?.entry, dimming.dimmer?.entry, section.profile?.entry, section.profile?.cover?.own],
    ...prices.list.map(({ entry }) => entry),
  ]);
  const products = job.products.filter(({ id }) => named.has(id));
  return products.length === job.products.length ? job : { ...job, products };
}

/** Parts of a job that hold an entry of a catalogue with a data sheet over it, the longest way first; # is one of a list. */
const parts: readonly (readonly [stem: readonly string[], catalogue: Part])[] = [
  [['section', 'profile', 'cover'], 'profileCover'],
  [['section', 'profile'], 'profile'],
  [['dimming', 'dimmer'], 'dimmer'],
  [['cables', 'trunk'], 'cables'],
  [['strip'], 'strip'],
  [['cables'], 'cables'],
  [['drivers', 'also', '#'], 'drivers'],
  [['drivers'], 'drivers'],
];

/** The part whose catalogue entry a field overrides: that of `strip.data.width_mm` is the strip. */
const overridden = (path: Path) =>
  parts.find(([stem]) =>
    [...stem, 'data'].every((step, i) => step === path[i] || (step === '#' && typeof path[i] === 'number')),
  );

/** True for a field that overrides a catalogue entry: `strip.data.width_mm`. */
export const isOverride = (path: Path): boolean => overridden(path) !== undefined;

/** An entry of the catalogue; that of a profile in the finish it has in the job. */
function asFinished(
  job: Job,
  product: Parameters<typeof catalogueOf>[1],
  entry: object | undefined,
): object | undefined {
  const { profile } = job.section;
  return product === 'profile' && profile && entry ? inFinish(entry, profile.finish) : entry;
}

/** What the catalogue entry says for an overriding field. */
export function sheetValue(job: Job, path: Path): unknown {
  const part = overridden(path);
  if (!part) return undefined;
  const [stem, product] = part;
  const place = path.slice(0, stem.length);
  const own = product === 'profileCover' ? valueAt(job, [...place, 'own']) : null;
  const chosen = own ?? valueAt(job, [...place, 'entry']);
  const entry = asFinished(
    job,
    product,
    catalogueOf(job, product).find((candidate) => candidate.id === chosen),
  );
  return valueAt(entry, path.slice(stem.length + 1));
}

/** What a field shows: the document's own value, else the catalogue's. */
export function shownValue(job: Job, path: Path): unknown {
  const own = valueAt(job, path);
  return own === undefined && isOverride(path) ? sheetValue(job, path) : own;
}

export const isOverridden = (job: Job, path: Path): boolean =>
  isOverride(path) && JSON.stringify(shownValue(job, path)) !== JSON.stringify(sheetValue(job, path));

/** The channels of the strip in use. */
export const channelsOf = (job: Job): readonly StripChannel[] =>
  (shownValue(job, ['strip', 'data', 'channels']) ?? []) as readonly StripChannel[];

/** A copy of the job with one field set. A data-sheet field that says what the catalogue says is no override. */
export function withField(job: Job, path: Path, value: unknown): Job {
  const part = overridden(path);
  if (!part) return withValue(job, path, value);
  const depth = part[0].length + 2;
  const whole = path.slice(0, depth);
  const changed = withValue(shownValue(job, whole), path.slice(depth), value);
  const same = JSON.stringify(changed) === JSON.stringify(sheetValue(job, whole));
  return withValue(job, whole, same ? undefined : changed);
}

/**
 * A copy of the job with its strip in another profile, or in none; what was entered for the former section goes, cover and fixing stay.
 * An aluminium flat under the strip gives way to the profile.
 */
export function withProfile(job: Job, id: string | null): Job {
  const { section } = job;
  if (id === null) return { ...job, section: { ...section, profile: null } };
  const profile = { ...(section.profile ?? newProfile(id)), entry: id, data: {} };
  return { ...job, section: { ...section, carrier: 'none', profile } };
}

/** A copy of the job with another cover on its profile, a typical one or one of its own products, or with none. */
export function withProfileCover(job: Job, id: string | null): Job {
  const { section } = job;
  if (section.profile === null) return job;
  const own = ownEntries(job.products, 'cover').find((each) => each.id === id);
  const entry = own?.look ?? profileCoverCatalogue.find((each) => each.id === id)?.id;
  const cover = entry === undefined ? null : { entry, own: own?.id ?? null, data: {} };
  return { ...job, section: { ...section, profile: { ...section.profile, cover } } };
}

/** A copy of the job with another cable for its trunks; null for that of the branches. */
export function withTrunk(job: Job, id: string | null): Job {
  const trunk = id === null ? null : { entry: id, data: {} };
  return { ...job, cables: { ...job.cables, trunk } };
}

type Drivers = Job['drivers'];

/** A copy of the job with other further driver models. */
const withFurther = (job: Job, also: Drivers['also']): Job => ({ ...job, drivers: { ...job.drivers, also } });

/** A copy of the job with one more driver model allowed: that of the job, until another is chosen. */
export const withOneMoreDriver = (job: Job): Job =>
  withFurther(job, [...job.drivers.also, { entry: job.drivers.entry, data: {}, stock: null }]);

/** A copy of the job with another catalogue entry for a further driver model; overrides of the former one go. */
export const withFurtherDriver = (job: Job, index: number, id: string): Job =>
  withFurther(
    job,
    job.drivers.also.map((each, i) => (i === index ? { ...each, entry: id, data: {} } : each)),
  );

/** Working levels for another number of channels: together as much as before, each the same, and none above full. */
function sharedOut(levels: readonly number[], count: number): number[] {
  if (levels.length === count) return [...levels];
  const together = levels.reduce((sum, level) => sum + level, 0);
  const each = Math.min(1, nearest(together / count, 4));
  return Array.from({ length: count }, () => each);
}

/** A copy of the job whose working levels match the channels of its strip. */
export function withLevels(job: Job): Job {
  const count = channelsOf(job).length;
  const zones = job.dimming.zones.map((zone) => ({
    ...zone,
    levels: zone.levels && sharedOut(zone.levels, count),
  }));
  return { ...job, dimming: { ...job.dimming, levels: sharedOut(job.dimming.levels, count), zones } };
}

/** A copy of the job with another catalogue entry: overrides of the former one go, and levels match its channels. */
export function withProduct(job: Job, product: Product, id: string): Job {
  const chosen = { ...job, [product]: { ...job[product], entry: id, data: {} } };
  return product === 'strip' ? withLevels(chosen) : chosen;
}
