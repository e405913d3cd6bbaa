import {
  boards,
  cableCatalogue,
  demoJobs,
  driverCatalogue,
  finishes,
  type Job,
  job as jobShape,
  newJob,
  profileCatalogue,
  profileCoverCatalogue,
  slotCovers,
  stripCatalogue,
} from '../../src/index.ts';
import type { OwnProduct } from '../../src/job/own-product.ts';
import { metalFixings, profileFinishes } from '../../src/job/profile.ts';
import type { Slots } from '../../src/job/slots.ts';
import { type Wall, type WallLayerChoice, wallMaterials } from '../../src/job/wall.ts';
import { newZone } from '../../src/job/zone.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { between, chance, pick, shuffled, whole } from './random.ts';
import { furtherDrivers, randomControl, zoneWiring } from './random-control.ts';
import { randomHung } from './random-hung.ts';
import { randomOpenings } from './random-openings.ts';
import { withRandomPanels } from './random-panels.ts';
import { randomRoom } from './random-room.ts';
import { randomValue } from './random-value.ts';
import { jobSchema, type Schema, waysOf } from './schema.ts';

type Own<Kind extends OwnProduct['kind']> = Extract<OwnProduct, { kind: Kind }>['data'];
type Segment = Extract<Slots, { from: 'segments' }>['segments'][number];

const kept = (value: number, most: number): number => Math.min(most, Math.max(0, value));

const slotCount = (random: Random): number =>
  chance(random, 0.02)
    ? whole(random, 40, 150)
    : chance(random, 0.2)
      ? whole(random, 8, 40)
      : whole(random, 1, 8);

/** Lines across a panel: in columns and in lines, slanted alike, short ones between long ones, some anywhere. */
function segments({ width_mm, height_mm }: Job['panel'], count: number, random: Random): Segment[] {
  const slant_mm = chance(random, 0.3) ? between(random, -0.5, 0.5) * height_mm : 0;
  const isLevel = chance(random, 0.25);
  const anywhere = chance(random, 0.1);
  const step = 1 / (count + 1);
  const lines = Array.from({ length: count }, (_, i): Segment => {
    if (anywhere) {
      const [x0, y0, x1, y1] = [random(), random(), random(), random()];
      return { x0_mm: x0 * width_mm, y0_mm: y0 * height_mm, x1_mm: x1 * width_mm, y1_mm: y1 * height_mm };
    }
    const at = (i + 1) * step;
    const [from, to] = chance(random, 0.5)
      ? [0.05, 0.95]
      : [between(random, 0, 0.5), between(random, 0.55, 1)];
    const line = isLevel
      ? { x0_mm: from * width_mm, y0_mm: at * height_mm, x1_mm: to * width_mm, y1_mm: at * height_mm }
      : {
          x0_mm: at * width_mm,
          y0_mm: from * height_mm,
          x1_mm: at * width_mm + slant_mm,
          y1_mm: to * height_mm,
        };
    if (!chance(random, 0.2)) return line;
    return { x0_mm: line.x1_mm, y0_mm: line.y1_mm, x1_mm: line.x0_mm, y1_mm: line.y0_mm };
  });
  return shuffled(random, lines).map(({ x0_mm, y0_mm, x1_mm, y1_mm }) => ({
    ...{ x0_mm: kept(x0_mm, width_mm), y0_mm: kept(y0_mm, height_mm) },
    ...{ x1_mm: kept(x1_mm, width_mm), y1_mm: kept(y1_mm, height_mm) },
  }));
}

function slotsFor(panel: Job['panel'], random: Random): Slots {
  const count = slotCount(random);
  const pitch_mm = kept(Math.max(5, panel.width_mm / (count + 1)), 5000);
  const width_mm = Math.max(
    2,
    Math.min(200, chance(random, 0.8) ? between(random, 5, 30) : pitch_mm * random()),
  );
  const from = pick(random, ['generator', 'lengths', 'segments'] as const);
  if (from === 'segments') {
    const plain = segments(panel, count, random);
    if (!chance(random, 0.25)) return { from, width_mm, segments: plain };
    const own_mm = Math.min(200, Math.max(2, width_mm * between(random, 0.3, 2)));
    const some = plain.map((each) => (chance(random, 0.4) ? { ...each, width_mm: own_mm } : each));
    return { from, width_mm, segments: some };
  }
  const margin_mm = Math.min(panel.width_mm, panel.height_mm) * between(random, 0.02, 0.2);
  if (from === 'lengths') {
    const room_mm = panel.height_mm - 2 * margin_mm;
    const length = (): number => Math.max(10, room_mm * (chance(random, 0.5) ? 1 : between(random, 0.2, 1)));
    const align = pick(random, ['foot', 'middle', 'head'] as const);
    const level_mm = { foot: margin_mm, middle: panel.height_mm / 2, head: panel.height_mm - margin_mm }[
      align
    ];
    return {
      from,
      width_mm,
      first_mm: pitch_mm,
      pitch_mm,
      level_mm,
      align,
      lengths_mm: Array.from({ length: count }, length),
    };
  }
  const margins = { left_mm: margin_mm, right_mm: margin_mm, foot_mm: margin_mm, head_mm: margin_mm };
  const spacing = chance(random, 0.5)
    ? ({ by: 'pitch', pitch_mm } as const)
    : ({ by: 'count', count } as const);
  return {
    from,
    axis: pick(random, ['upright', 'upright', 'level'] as const),
    width_mm,
    ...margins,
    spacing,
  };
}

interface Leaf {
  readonly holder: Record<string, unknown>;
  readonly key: string;
  readonly schema: Schema;
}

/** Every value of the job that can be given another of its schema, at any depth. */
function leaves(holder: Record<string, unknown>, schema: Schema): Leaf[] {
  const way = waysOf(schema).find((each) => fits(holder, each));
  return Object.entries(way?.properties ?? {}).flatMap(([key, inner]): Leaf[] => {
    const value = holder[key];
    const itself = inner.const === undefined ? [{ holder, key, schema: inner }] : [];
    return typeof value === 'object' && value !== null && !Array.isArray(value)
      ? leaves(value as Record<string, unknown>, inner)
      : itself;
  });
}

const fits = (value: Record<string, unknown>, schema: Schema): boolean =>
  Object.entries(schema.properties ?? {}).every(
    ([key, inner]) => inner.const === undefined || inner.const === value[key],
  );

const numbersIn = (value: unknown): number[] => {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
};

const partOf = (shape: Schema | undefined, random: Random, share: number, held: readonly number[]) =>
  Object.fromEntries(
    Object.entries(shape?.properties ?? {})
      .filter(() => chance(random, share))
      .map(([key, schema]) => [key, randomValue(schema, random, held)]),
  );

const dataOf = (question: 'strip' | 'drivers' | 'cables') =>
  jobSchema.properties?.[question]?.properties?.data;

/** Copies of own products in place of what is chosen: the same figures under an id of their own. */
function ownCopies(job: Job, random: Random): void {
  const about = { currency: 'EUR', stock: null, source: 'sheet', dated: '2026-03-31' };
  const { id: _, ...strip } = stripCatalogue.find(({ id }) => id === job.strip.entry)!;
  const { id: __, ...driver } = driverCatalogue.find(({ id }) => id === job.drivers.entry)!;
  const price_cents = chance(random, 0.5) ? null : whole(random, 1, 9000);
  job.products = [
    { kind: 'strip', id: 'own-1', ...about, data: { ...strip, price_cents } as Own<'strip'> },
    {
      kind: 'driver',
      id: 'own-2',
      ...about,
      currency: pick(random, ['EUR', 'CHF', '']),
      data: { ...driver, price_cents } as Own<'driver'>,
    },
  ];
  job.strip.entry = 'own-1';
  if (chance(random, 0.7)) job.drivers.entry = 'own-2';
}

/** Products that belong together more often than not, with some figures of data sheets of their own. */
function productsFor(job: Job, random: Random, held: readonly number[]): void {
  const strip = pick(random, stripCatalogue);
  const alike = driverCatalogue.filter((driver) => driver.output_V === strip.nominal_V);
  job.strip.entry = strip.id;
  job.drivers.entry = pick(random, chance(random, 0.97) ? alike : driverCatalogue).id;
  job.cables.entry = pick(random, cableCatalogue).id;
  const share = chance(random, 0.5) ? 0 : between(random, 0.02, 0.3);
  job.strip.data = partOf(dataOf('strip'), random, share, held);
  job.drivers.data = partOf(dataOf('drivers'), random, share, held);
  job.cables.data = partOf(dataOf('cables'), random, share / 2, held);
  if (chance(random, 0.9)) {
    delete job.strip.data.nominal_V;
    delete job.drivers.data.output_V;
  }
  if (chance(random, 0.9) && !job.strip.data.channels) delete job.strip.data.unitsPerMetre;
  const channelCount = (job.strip.data.channels ?? strip.channels).length;
  const level = (): number => (chance(random, 0.5) ? 1 : chance(random, 0.2) ? 0 : random());
  job.dimming.levels = Array.from({ length: channelCount }, level);
}

/** As many slots as a job surely has. */
function surely({ slots }: Job): number {
  if (slots.from === 'segments') return slots.segments.length;
  if (slots.from === 'lengths') return slots.lengths_mm.length;
  return slots.spacing.by === 'count' ? slots.spacing.count : 1;
}

/** A zone, half of them with wiring and half with levels and a brightness of their own. */
function randomZone(
  { dimming }: Job,
  random: Random,
  { number, slots }: { readonly number: number; readonly slots: number[] },
): Job['dimming']['zones'][number] {
  const plain = newZone({ id: `Z${number}`, name: `Zone ${number}`, slots });
  const zone = chance(random, 0.5) ? plain : { ...plain, ...zoneWiring(random) };
  if (chance(random, 0.5)) return zone;
  const level = (): number => (chance(random, 0.3) ? 1 : random());
  return {
    ...zone,
    levels: chance(random, 0.3) ? null : dimming.levels.map(level),
    lowest: chance(random, 0.5) ? null : between(random, 0.001, 1),
    wanted_cd_per_m2: chance(random, 0.5) ? null : between(random, 1, 2000),
  };
}

function listsFor(job: Job, random: Random, held: readonly number[]): void {
  const count = chance(random, 0.95) ? surely(job) : 12;
  const numbers = shuffled(
    random,
    Array.from({ length: count }, (_, i) => i + 1),
  );
  const zoneCount = chance(random, 0.6) ? 0 : whole(random, 1, 3);
  job.dimming.zones = Array.from({ length: zoneCount }, (_, i) =>
    randomZone(job, random, { number: i + 1, slots: numbers.slice(2 * i, 2 * i + 2) }),
  ).filter((zone) => zone.slots.length > 0);
  const exceptions = jobSchema.properties?.feeds?.properties?.exceptions;
  if (exceptions && chance(random, 0.3)) {
    const given = randomValue(exceptions, random, held) as Job['feeds']['exceptions'];
    job.feeds.exceptions = given.map((each) => ({
      ...each,
      slot: whole(random, 1, count),
    }));
  }
  const place = job.drivers.places[0]!;
  const placeCount = chance(random, 0.5) ? 1 : whole(random, 1, 4);
  job.drivers.places = Array.from({ length: placeCount }, (_, i) => ({
    ...place,
    name: `Place ${i + 1}`,
    ...{ x_mm: between(random, -500, job.panel.width_mm + 500), y_mm: between(random, -500, 500) },
    ...{
      width_mm: between(random, 100, 2000),
      height_mm: between(random, 60, 800),
      depth_mm: between(random, 30, 300),
    },
    ...{ vented: chance(random, 0.7), ventOpening_mm2: between(random, 500, 20000) },
  }));
}

function sectionFor(job: Job, random: Random): void {
  const { section } = job;
  section.front = { material: pick(random, boards), thickness_mm: between(random, 6, 22) };
  section.backing = { material: pick(random, boards), thickness_mm: between(random, 3, 18) };
  for (const board of [section.front, section.backing])
    if (chance(random, 0.1)) board.conductivity_W_per_mK = between(random, 0.03, 3);
  section.cavity_mm = between(random, 8, 40);
  section.cover = pick(random, slotCovers);
  section.strip = pick(random, ['backing', 'backing', 'front', 'side']);
  section.stripOffset_mm = section.strip === 'front' ? job.slots.width_mm / 2 + between(random, 3, 20) : 0;
  section.batten_mm = chance(random, 0.3) ? 0 : between(random, 5, 60);
  section.carrier = pick(random, ['none', 'flat aluminium']);
  section.carrierWidth_mm = between(random, 10, 60);
  section.carrierFinish = pick(random, ['anodised', 'bare']);
  section.carrierFixing = pick(random, [null, ...metalFixings]);
  section.carrierContact_m2K_per_W = chance(random, 0.8) ? null : between(random, 0, 0.02);
  section.behind = pick(random, ['insulation', 'inner wall', 'layers']);
  section.wall = section.behind === 'layers' || chance(random, 0.2) ? randomWall(random) : null;
  section.backFinish = pick(random, finishes);
  section.frontFinish = pick(random, finishes);
  section.sideFinish = pick(random, finishes);
  section.revealFinish = chance(random, 0.5) ? null : pick(random, finishes);
  for (const face of [section.faces.back, section.faces.side, section.faces.front])
    if (chance(random, 0.2))
      Object.assign(face, { reflectance: between(random, 0, 0.98), emissivity: between(random, 0.02, 1) });
  if (chance(random, 0.2)) section.faces.reveal.reflectance = between(random, 0, 0.98);
  if (chance(random, 0.3)) profileFor(job, random);
}

/** A wall of any layers that its kind allows. */
function randomWall(random: Random): Wall {
  const beyond = pick(random, ['room', 'outside'] as const);
  const layer = (): WallLayerChoice => {
    const material = pick(random, wallMaterials);
    return {
      ...{ material, thickness_mm: between(random, 1, 280), source: '' },
      conductivity_W_per_mK: material === 'other' || chance(random, 0.2) ? between(random, 0.02, 2) : null,
      timberShare: chance(random, 0.6) ? 0 : between(random, 0, 0.3),
      bridge_W_per_mK: chance(random, 0.8) ? null : between(random, 0.1, 1),
      emissivity: chance(random, 0.8) ? null : between(random, 0.03, 1),
    };
  };
  return {
    layers: Array.from({ length: whole(random, 1, 5) }, layer),
    beyond,
    beyond_degC: beyond === 'room' && chance(random, 0.5) ? null : between(random, -30, 70),
  };
}

/** A profile of the list with any cover, mostly where there is room for it. */
function profileFor({ section, slots }: Job, random: Random): void {
  const drawn = pick(random, profileCatalogue);
  const cover = pick(random, [null, ...profileCoverCatalogue]);
  section.strip = pick(random, ['backing', 'recessed', 'side'] as const);
  section.profile = {
    ...{ entry: drawn.id, data: {}, cover: cover && { entry: cover.id, own: null, data: {} } },
    finish: pick(random, profileFinishes),
    fixing: pick(random, metalFixings),
    contact_m2K_per_W: chance(random, 0.8) ? null : between(random, 0, 0.02),
  };
  section.carrier = 'none';
  section.cavity_mm += drawn.height_mm;
  if (section.strip !== 'recessed') return;
  section.cover = 'open';
  slots.width_mm = drawn.inside_mm + 2 * drawn.wall_mm;
}

/** How many values of a job are replaced by any their schema allows: none, a few, seldom a great many. */
const replacedCount = (random: Random): number => pick(random, [0, 0, 0, 1, 1, 2, 2, 3, 5, 12]);

/**
 * A job over the whole schema: a plain or a demo job given other slots, products, build-up and lists that mostly
 * belong together, and then some of its values replaced by any that their schema allows, bounds and coincidences
 * among them. What comes out always keeps to the schema.
 */
export function randomJob(random: Random): Job {
  const job = structuredClone(chance(random, 0.8) ? newJob() : pick(random, demoJobs).job);
  const held = numbersIn(job);
  if (chance(random, 0.9)) {
    job.panel = { width_mm: between(random, 300, 6000), height_mm: between(random, 200, 3000) };
    job.slots = slotsFor(job.panel, random);
    listsFor(job, random, held);
  }
  if (chance(random, 0.8)) sectionFor(job, random);
  if (chance(random, 0.8)) productsFor(job, random, held);
  if (chance(random, 0.5)) furtherDrivers(job, random);
  if (chance(random, 0.5)) randomControl(job, random);
  if (chance(random, 0.2)) ownCopies(job, random);
  job.feeds.arrangement = pick(random, ['start', 'start', 'finish', 'both', 'between', 'crossed']);
  job.cables.layout = pick(random, ['radial', 'radial', 'trunk', 'ring', 'run to run']);
  Object.assign(job, withRandomPanels(job, random));
  job.openings = randomOpenings(job, random);
  job.light.room = randomRoom(random);
  job.hung = randomHung(surely(job), random);
  // A name that is in no catalogue is refused before anything is worked out, so it is given seldom.
  const all = leaves(job as unknown as Record<string, unknown>, jobSchema).filter(
    ({ key }) => key !== 'entry' || chance(random, 0.1),
  );
  for (let i = replacedCount(random); i > 0; i--) {
    const { holder, key, schema } = pick(random, all);
    holder[key] = randomValue(schema, random, numbersIn(job));
  }
  return jobShape.parse(job);
}
