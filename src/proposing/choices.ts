import { cablesFor, entriesOf } from '../job/catalogues.ts';
import { fuseKinds } from '../job/fuses.ts';
import type { Job } from '../job/job.ts';
import type { Openable } from '../job/open-choices.ts';
import { listedPrice_cents, type PricedProduct } from '../job/prices.ts';
import { slotCovers } from '../job/section.ts';
import { widestSlot_mm } from '../job/slot-widths.ts';
import type { StripData } from '../job/strip.ts';

type Strip = Pick<Job['strip'], 'entry' | 'data' | 'lifeTests'>;
type Feeding = Pick<Job['feeds'], 'arrangement' | 'betweenCount' | 'cutLines' | 'exceptions'>;
type Drivers = Pick<Job['drivers'], 'entry' | 'data' | 'stock' | 'also' | 'set_V'>;
type Mount = Pick<Job['section'], 'strip' | 'stripOffset_mm'>;
type Cabling = Pick<Job['cables'], 'entry' | 'data' | 'trunk'>;

/** A strip with the volts it asks for. */
export interface StripChoice extends Strip {
  readonly nominal_V: number;
}

/** Drivers with the volts they give. */
export interface DriverChoice extends Drivers {
  readonly output_V: number;
}

/** Cable of the feeds, and of trunks, with the area of each in mm². */
export interface CablingChoice extends Cabling {
  readonly area_mm2: number;
  readonly trunk_mm2: number;
}

/** Everything each choice of a job may be, its present one first; one entry where it is kept. */
export interface Choices {
  readonly strips: readonly StripChoice[];
  readonly carriers: readonly Job['section']['carrier'][];
  readonly covers: readonly Job['section']['cover'][];
  readonly depths_mm: readonly number[];
  readonly mounts: readonly Mount[];
  readonly pitches: readonly Job['slots'][];
  readonly drivers: readonly DriverChoice[];
  readonly feeds: readonly Feeding[];
  readonly layouts: readonly Job['cables']['layout'][];
  readonly cabling: (layout: Job['cables']['layout']) => readonly CablingChoice[];
  readonly fuses: readonly Job['cables']['fuses'][];
}

/** What there is to choose from, where that is less than the whole catalogue. */
export interface Within {
  readonly strips?: readonly string[];
  readonly drivers?: readonly string[];
  readonly cables?: readonly string[];
  readonly layouts?: readonly Job['cables']['layout'][];
  readonly arrangements?: readonly Job['feeds']['arrangement'][];
}

const entryOf = <Entry extends { readonly id: string }>(list: readonly Entry[], id: string): Entry =>
  list.find((entry) => entry.id === id)!;

const allowed =
  (ids: readonly string[] | undefined) =>
  ({ id }: { readonly id: string }): boolean =>
    ids === undefined || ids.includes(id);

/** Whether a strip has the channels of another: as many, white where that is white. */
function isOfKind(strip: Pick<StripData, 'channels'>, like: Pick<StripData, 'channels'>): boolean {
  const kind = ({ channels }: Pick<StripData, 'channels'>): string =>
    channels.map(({ cct_K }) => (cct_K === null ? 'colour' : 'white')).join();
  return kind(strip) === kind(like);
}

function stripsOf(job: Job, isOpen: boolean, within: Within): StripChoice[] {
  const { entry, data, lifeTests } = job.strip;
  const strips = entriesOf(job, 'strip');
  const present = { ...entryOf(strips, entry), ...data } as StripData;
  const others = strips.filter(
    (each) => each.id !== entry && isOfKind(each, present) && allowed(within.strips)(each),
  );
  return [
    { entry, data, lifeTests, nominal_V: present.nominal_V },
    ...(isOpen ? others : []).map(({ id, nominal_V }) => ({
      ...{ entry: id, data: {}, lifeTests: [], nominal_V },
    })),
  ];
}

/** How the present drivers are dimmed is kept: every model of a size is sold with each control. */
function driversOf(job: Job, isOpen: boolean, within: Within): DriverChoice[] {
  const { entry, data, stock, also, set_V } = job.drivers;
  const models = entriesOf(job, 'driver');
  const output_V = data.output_V ?? entryOf(models, entry).output_V;
  const { control } = data;
  const others = models.filter((each) => each.id !== entry && allowed(within.drivers)(each));
  return [
    { entry, data, stock, also, set_V, output_V },
    ...(isOpen ? others : []).map((each) => ({
      ...{ entry: each.id, data: control === undefined ? {} : { control }, stock: null, also: [] },
      ...{ set_V: each.output_V === output_V ? set_V : null, output_V: each.output_V },
    })),
  ];
}

const plainArrangements = ['start', 'finish', 'both', 'between', 'crossed'] as const;

function feedsOf(job: Job, isOpen: boolean, { arrangements }: Within): Feeding[] {
  const { arrangement, betweenCount, cutLines, exceptions } = job.feeds;
  const plain = plainArrangements.flatMap((kind) =>
    (kind === 'between' ? [1, 2, 3] : [betweenCount]).map((count) => ({
      ...{ arrangement: kind, betweenCount: count, cutLines, exceptions: [] },
    })),
  );
  const isPresent = (feeding: Feeding): boolean =>
    exceptions.length === 0 &&
    feeding.arrangement === arrangement &&
    (arrangement !== 'between' || feeding.betweenCount === betweenCount);
  const others = plain.filter(
    (each) => !isPresent(each) && (arrangements === undefined || arrangements.includes(each.arrangement)),
  );
  return [{ arrangement, betweenCount, cutLines, exceptions }, ...(isOpen ? others : [])];
}

const hasTrunk = (layout: Job['cables']['layout']): boolean => layout === 'trunk' || layout === 'ring';

/** Cables, each with a trunk no thinner than itself where the layout has one. */
function cablingOf(job: Job, isOpen: boolean, within: Within): Choices['cabling'] {
  const list = cablesFor(job);
  const { entry, data, trunk } = job.cables;
  const area = (of: Pick<Cabling, 'entry' | 'data'>): number =>
    of.data.area_mm2 ?? entryOf(entriesOf(job, 'cable'), of.entry).area_mm2;
  const present_mm2 = area({ entry, data });
  const present = { entry, data, trunk, area_mm2: present_mm2, trunk_mm2: trunk ? area(trunk) : present_mm2 };
  const others = list.filter(allowed(within.cables));
  const isPresent = (cable: string, of: string): boolean =>
    cable === entry &&
    of === (trunk?.entry ?? entry) &&
    Object.keys({ ...data, ...trunk?.data }).length === 0;
  const plain = (id: string): CablingChoice => {
    const area_mm2 = entryOf(list, id).area_mm2;
    return { entry: id, data: {}, trunk, area_mm2, trunk_mm2: area_mm2 };
  };
  return (layout) => {
    if (!isOpen) return [present];
    if (!hasTrunk(layout)) {
      const rest = others.filter(({ id }) => id !== entry || Object.keys(data).length > 0);
      return [present, ...rest.map(({ id }) => plain(id))];
    }
    const pairs = others.flatMap(({ id, area_mm2 }) =>
      others
        .filter((of) => of.area_mm2 >= area_mm2 && !isPresent(id, of.id))
        .map((of) => ({
          ...plain(id),
          ...{ trunk: of.id === id ? null : { entry: of.id, data: {} }, trunk_mm2: of.area_mm2 },
        })),
    );
    return [present, ...pairs];
  };
}

/** Strip and its solder joints need so much. */
const leastCavity_mm = 8;
const depthStep_mm = 2;
const mostDepths = 6;

/** The deepest cavity that fits, in half millimetres, and shallower ones in steps. */
function depthsOf({ section }: Job, isOpen: boolean): number[] {
  const { cavity_mm, available_mm, tolerance_mm, backing, front } = section;
  const room_mm = available_mm - tolerance_mm - backing.thickness_mm - front.thickness_mm;
  const most_mm = Math.floor(2 * room_mm + 1e-9) / 2;
  const steps = Array.from({ length: mostDepths }, (_, i) => most_mm - i * depthStep_mm);
  const others = steps.filter((depth_mm) => depth_mm >= leastCavity_mm && depth_mm !== cavity_mm);
  return [cavity_mm, ...(isOpen ? others : [])];
}

/** Free of the slot's edge by so much, so that nobody looks at the LEDs. */
const besideSlot_mm = 10;

function mountsOf({ section, slots }: Job, isOpen: boolean): Mount[] {
  const { strip, stripOffset_mm } = section;
  const others: Mount[] = [
    { strip: 'backing', stripOffset_mm: 0 },
    { strip: 'front', stripOffset_mm: widestSlot_mm(slots) / 2 + besideSlot_mm },
    ...(section.batten_mm > 0 ? [{ strip: 'side' as const, stripOffset_mm: 0 }] : []),
  ];
  return [{ strip, stripOffset_mm }, ...(isOpen ? others.filter((each) => each.strip !== strip) : [])];
}

const wider = [1.1, 1.2] as const;

/** Fewer slots further apart; slots that were drawn stay as they are drawn. */
function pitchesOf({ slots }: Job, isOpen: boolean): Job['slots'][] {
  if (!isOpen || slots.from !== 'generator') return [slots];
  const { spacing } = slots;
  const spaced = wider.map((ratio): typeof spacing =>
    spacing.by === 'pitch'
      ? { by: 'pitch', pitch_mm: Math.round(spacing.pitch_mm * ratio) }
      : { by: 'count', count: Math.max(1, Math.round(spacing.count / ratio)) },
  );
  return [slots, ...spaced.map((each) => ({ ...slots, spacing: each }))];
}

function others<Value>(present: Value, all: readonly Value[], isOpen: boolean): Value[] {
  return [present, ...(isOpen ? all.filter((each) => each !== present) : [])];
}

/**
 * What each choice of a job may be: its present one first, then those of the catalogue where it is open.
 *
 * @param within what there is, where that is less than the catalogue
 * Strips have as many channels as now, white where they are white now; drivers dim as they do now. A trunk is no
 * thinner than its branches. Zones keep a layout of their own. Check: `tests/proposing/choices.test.ts`.
 */
export function choicesOf(job: Job, open: ReadonlySet<Openable>, within: Within = {}): Choices {
  const { section, cables } = job;
  // A profile takes the place of a flat, and has its own place.
  const isBare = section.profile === null && section.strip !== 'recessed';
  const layouts = within.layouts ?? (['radial', 'trunk', 'ring', 'run to run'] as const);
  return {
    strips: stripsOf(job, open.has('strip'), within),
    carriers: others(section.carrier, ['none', 'flat aluminium'] as const, open.has('carrier') && isBare),
    covers: others(section.cover, slotCovers, open.has('cover')),
    depths_mm: depthsOf(job, open.has('depth')),
    mounts: mountsOf(job, open.has('mount') && isBare),
    pitches: pitchesOf(job, open.has('pitch')),
    drivers: driversOf(job, open.has('drivers'), within),
    feeds: feedsOf(job, open.has('feeds'), within),
    layouts: others(cables.layout, layouts, open.has('layout')),
    cabling: cablingOf(job, open.has('cables'), within),
    fuses: others(cables.fuses, fuseKinds, open.has('protection')),
  };
}

/** Whether everything that may be chosen has a price, and so what it comes to can be compared. */
export function isPriced(job: Job, { strips, drivers, cabling, layouts }: Choices): boolean {
  const has = (product: PricedProduct, { entry, data }: { entry: string; data: object }): boolean => {
    const own = entriesOf(job, product).find(({ id }) => id === entry);
    const given = Object({ ...own, ...data })[product === 'cable' ? 'price_cents_per_m' : 'price_cents'];
    return (given ?? listedPrice_cents(job.prices, product, entry)) !== null;
  };
  const models = drivers.flatMap((set) => [set, ...set.also]);
  const cables = layouts
    .flatMap((layout) => cabling(layout))
    .flatMap(({ trunk, ...of }) => [of, trunk ?? of]);
  const { dimmer, control } = job.dimming;
  const dimmers = control === 'dimmer' && dimmer ? [dimmer] : [];
  return (
    strips.every((strip) => has('strip', strip)) &&
    models.every((model) => has('driver', model)) &&
    cables.every((cable) => has('cable', cable)) &&
    dimmers.every((each) => has('dimmer', each))
  );
}

/** What a metre of each cable of a choice costs at least, whatever its number of cores. */
export function pricesOf(job: Job, { entry, data, trunk }: CablingChoice) {
  const metre = (of: Pick<Cabling, 'entry' | 'data'>) => {
    const sheet = { ...entryOf(entriesOf(job, 'cable'), of.entry), ...of.data };
    const two_cents = sheet.price_cents_per_m ?? listedPrice_cents(job.prices, 'cable', of.entry);
    const others_cents = (sheet.pricesByCores ?? []).map((each) => each.price_cents_per_m);
    return { price_cents_per_m: two_cents === null ? null : Math.min(two_cents, ...others_cents) };
  };
  const cable = metre({ entry, data });
  return { cable, trunk: trunk ? metre(trunk) : cable };
}
