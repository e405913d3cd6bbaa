import { found, type Outcome, refused } from '../outcome.ts';
import { mm } from '../words.ts';
import { entriesOf } from './catalogues.ts';
import type { DimmerData } from './dimmer.ts';
import { doublesIn } from './doubles.ts';
import type { JobIssue } from './issues.ts';
import type { Job } from './job.ts';
import { ownEntries } from './own-product.ts';
import { outlineOf } from './panels.ts';
import { listedPrice_cents, type PricedProduct } from './prices.ts';
import { productIssues } from './product-issues.ts';
import type { Named, Products } from './products.ts';
import { completeProfile } from './profile-catalogue.ts';
import { profileIssues } from './profile-issues.ts';
import { roomIssues } from './room-issues.ts';
import { wallIssues } from './wall-issues.ts';

/** Catalogues with what the job lists as their prices; an own product that has one keeps it. */
function pricedCatalogues(job: Job) {
  const { prices } = job;
  const priceOf = (product: PricedProduct, { id }: Named) => listedPrice_cents(prices, product, id);
  const pieces = <Entry extends Named & { readonly price_cents: number | null }>(
    product: PricedProduct,
    entries: readonly Entry[],
  ) =>
    prices.list.length === 0
      ? entries
      : entries.map((entry) => ({ ...entry, price_cents: entry.price_cents ?? priceOf(product, entry) }));
  const cables = entriesOf(job, 'cable');
  return {
    strips: pieces('strip', entriesOf(job, 'strip')),
    drivers: pieces('driver', entriesOf(job, 'driver')),
    dimmers: pieces('dimmer', entriesOf(job, 'dimmer')),
    cables:
      prices.list.length === 0
        ? cables
        : cables.map((entry) => ({
            ...entry,
            price_cents_per_m: entry.price_cents_per_m ?? priceOf('cable', entry),
          })),
  };
}

/** Prices listed for what no catalogue has. */
function priceIssues(job: Job): JobIssue[] {
  return job.prices.list.flatMap(({ product, entry }, i) =>
    entriesOf(job, product).some(({ id }) => id === entry)
      ? []
      : [unknownEntry({ what: product, field: `prices.list[${i + 1}].entry`, choice: { entry } })],
  );
}

interface Choice<Data> {
  readonly entry: string;
  readonly data: { readonly [Key in keyof Data]?: Data[Key] | undefined };
}

function overlay<Entry extends Named>(
  catalogue: readonly Entry[],
  choice: Choice<Omit<Entry, 'id'>>,
): Entry | undefined {
  const entry = catalogue.find((candidate) => candidate.id === choice.entry);
  if (!entry) return undefined;
  const given = Object.entries(choice.data).filter(([, value]) => value !== undefined);
  return { ...entry, ...Object.fromEntries(given) };
}

/** A catalogue with the entry a job takes from it: what to call it, and where the job names it. */
interface Asked<Entry extends Named> {
  readonly what: string;
  readonly field: string;
  readonly catalogue: readonly Entry[];
  readonly choice: Choice<Omit<Entry, 'id'>>;
}

const unknownEntry = ({
  what,
  field,
  choice,
}: Pick<Asked<Named>, 'what' | 'field'> & { readonly choice: { readonly entry: string } }): JobIssue => ({
  code: 'unknown-entry',
  place: { field },
  quantities: {},
  sentence: `There is no ${what} called "${choice.entry}" in the catalogue: choose one from the list and enter your data sheet over it.`,
});

/** Takes entries from their catalogues, and notes every one that is not there. */
function taking() {
  const issues: JobIssue[] = [];
  const take = <Entry extends Named>(asked: Asked<Entry>): Entry | undefined => {
    const entry = overlay(asked.catalogue, asked.choice);
    if (!entry) issues.push(unknownEntry(asked));
    return entry;
  };
  return { issues, take };
}

const dimmerMissing: JobIssue = {
  code: 'dimmer-missing',
  place: { field: 'dimming.dimmer' },
  quantities: {},
  sentence: 'The light is to be dimmed by a dimmer and none is chosen: choose one, or dim it otherwise.',
};

/** An own cover that the profile names and the job does not carry. */
function ownCoverIssues({ section, products }: Job): JobIssue[] {
  const own = section.profile?.cover?.own ?? null;
  if (own === null || products.some(({ kind, id }) => kind === 'cover' && id === own)) return [];
  return [unknownEntry({ what: 'cover', field: 'section.profile.cover.own', choice: { entry: own } })];
}

/** Remote places that do not say how much cable comes from them. */
const remoteIssues = ({ drivers }: Job): JobIssue[] =>
  drivers.places.flatMap(({ kind, name, cable_mm }, i) =>
    kind === 'box' || cable_mm !== null
      ? []
      : [
          {
            code: 'cable-length-missing',
            place: { field: `drivers.places[${i + 1}].cable_mm` },
            quantities: {},
            sentence: `The remote place "${name}" is known by its length of cable, which is not given: measure the way to the panel and enter it.`,
          },
        ],
  );

/** A wall that is not as large as its panels: both are said, and one of them is wrong. */
function outlineIssues({ panel, panels }: Job): JobIssue[] {
  const { width_mm, height_mm } = outlineOf(panels);
  const off_mm = Math.max(Math.abs(panel.width_mm - width_mm), Math.abs(panel.height_mm - height_mm));
  if (panels.length === 0 || off_mm < 0.01) return [];
  return [
    {
      code: 'panels-and-wall-differ',
      place: { field: 'panels' },
      quantities: { width_mm, height_mm, panelWidth_mm: panel.width_mm, panelHeight_mm: panel.height_mm },
      sentence: `The panels with their gaps are ${mm(width_mm)} wide and ${mm(height_mm)} high together, and the wall is said to be ${mm(panel.width_mm)} by ${mm(panel.height_mm)}: make panel.width_mm and panel.height_mm what the panels come to, or change the panels.`,
    },
  ];
}

/** Volts the drivers are set to: what the job says, or what they give as delivered. */
export function setVoltage_V(job: Job, { driver }: Pick<Products, 'driver'>): number {
  return job.drivers.set_V ?? driver.output_V;
}

/** What stands between drivers and strip; null for nothing. */
export interface DimmedBy {
  readonly dimmer: Pick<DimmerData, 'frequency_Hz'> | null;
}

/** Pulses a second of what dims the light: those of the dimmer chosen, none of one without pulses; else what the job says. */
export function dimmingFrequency_Hz({ dimming }: Job, { dimmer }: DimmedBy): number | null {
  return dimmer ? dimmer.frequency_Hz : dimming.pwm_Hz;
}

/** The profile a job names, whole; null for none, undefined for one that is not in the list. */
function takeProfile(job: Job, take: ReturnType<typeof taking>['take']): Products['profile'] | undefined {
  const choice = job.section.profile;
  if (choice === null) return null;
  const asked = { what: 'profile', field: 'section.profile.entry', catalogue: entriesOf(job, 'profile') };
  const drawn = take({ ...asked, choice });
  return drawn && completeProfile(drawn, choice, ownEntries(job.products, 'cover'));
}

/** Every product a job names, or what is not in its catalogue. */
function productsOf(job: Job): Outcome<Products, JobIssue> {
  const { issues, take } = taking();
  const { strips, drivers: driversAtHand, dimmers, cables } = pricedCatalogues(job);
  const { trunk } = job.cables;
  const chosen = job.dimming.control === 'dimmer' ? job.dimming.dimmer : null;
  const strip = take({ what: 'strip', field: 'strip.entry', catalogue: strips, choice: job.strip });
  const drivers = [job.drivers, ...job.drivers.also].map((choice, i) =>
    take({
      what: 'driver',
      field: i === 0 ? 'drivers.entry' : `drivers.also[${i}].entry`,
      catalogue: driversAtHand,
      choice,
    }),
  );
  const cable = take({ what: 'cable', field: 'cables.entry', catalogue: cables, choice: job.cables });
  const asTrunk = { what: 'cable', field: 'cables.trunk.entry', catalogue: cables };
  const trunkCable = trunk ? take({ ...asTrunk, choice: trunk }) : cable;
  const asDimmer = { what: 'dimmer', field: 'dimming.dimmer.entry', catalogue: dimmers };
  const dimmer = chosen ? take({ ...asDimmer, choice: chosen }) : null;
  const profile = takeProfile(job, take);
  const [driver, ...furtherDrivers] = drivers.filter((one) => one !== undefined);
  const isWhole = strip && driver && cable && trunkCable && dimmer !== undefined && profile !== undefined;
  if (!isWhole || issues.length > 0) return refused(...issues);
  return found({ strip, driver, furtherDrivers, cable, trunk: trunkCable, dimmer, profile });
}

/**
 * Looks up strip, drivers, cables and dimmer. Refuses unknown entries, products that do not go together (see
 * `productIssues`), a dimmer or a length of cable that is needed and not given, and what is said twice where only one
 * can be meant.
 */
export function resolveProducts(job: Job): Outcome<Products, JobIssue> {
  const products = productsOf(job);
  if (!products.ok) return products;
  const isWithoutDimmer = job.dimming.control === 'dimmer' && job.dimming.dimmer === null;
  const issues = [
    ...productIssues(job, products.value),
    ...(isWithoutDimmer ? [dimmerMissing] : []),
    ...remoteIssues(job),
    ...priceIssues(job),
    ...ownCoverIssues(job),
    ...outlineIssues(job),
    ...doublesIn(job),
    ...profileIssues(job, products.value),
    ...roomIssues(job),
    ...wallIssues(job),
  ];
  return issues.length > 0 ? refused(...issues) : products;
}
