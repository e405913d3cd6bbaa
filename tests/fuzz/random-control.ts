import { dimmerCatalogue, driverCatalogue, type Job, stripCatalogue } from '../../src/index.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { between, chance, pick, whole } from './random.ts';

/** One to three further models, mostly of the same volts, some short in stock, some sharing a case of several outputs. */
export function furtherDrivers(job: Job, random: Random): void {
  const own = job.products.flatMap((each) => (each.kind === 'strip' ? [{ id: each.id, ...each.data }] : []));
  const output_V = [...stripCatalogue, ...own].find(({ id }) => id === job.strip.entry)?.nominal_V;
  const alike = driverCatalogue.filter((driver) => driver.output_V === output_V);
  const count = chance(random, 0.7) ? 0 : whole(random, 1, 3);
  job.drivers.also = Array.from({ length: count }, () => ({
    entry: pick(random, chance(random, 0.95) ? alike : driverCatalogue).id,
    data: chance(random, 0.3)
      ? { outputCount: whole(random, 1, 4), outputsDimTogether: chance(random, 0.5) }
      : {},
    stock: chance(random, 0.5) ? null : whole(random, 0, 12),
  }));
}

type Dimmer = NonNullable<Job['dimming']['dimmer']>;

/** A dimmer of the catalogue that mostly has the volts and the channels of the strip, its channels thin now and then. */
function randomDimmer(job: Job, random: Random): Dimmer {
  const strip = stripCatalogue.find(({ id }) => id === job.strip.entry);
  const channelCount = (job.strip.data.channels ?? strip?.channels ?? []).length;
  const enough = dimmerCatalogue.filter((dimmer) => dimmer.channelCount >= channelCount);
  const isFit = chance(random, 0.95) && enough.length > 0;
  const volts = isFit && strip !== undefined ? ({ least_V: 12, most_V: 48 } as const) : {};
  const thin = chance(random, 0.3) ? { channel_A: between(random, 0.5, 3) } : {};
  const pulses = chance(random, 0.2) ? { frequency_Hz: null } : {};
  return { entry: pick(random, isFit ? enough : dimmerCatalogue).id, data: { ...volts, ...thin, ...pulses } };
}

/** What dims the light, if anything: drivers that do it themselves, or a dimmer, with a limit of the mix now and then. */
export function randomControl(job: Job, random: Random): void {
  const { dimming } = job;
  dimming.control = pick(random, ['none', 'none', 'driver', 'dimmer']);
  dimming.dimmer = dimming.control === 'dimmer' ? randomDimmer(job, random) : null;
  if (dimming.control === 'none') return;
  if (dimming.control === 'driver')
    for (const { data } of [job.drivers, ...job.drivers.also])
      data.control = chance(random, 0.02)
        ? 'none'
        : pick(random, ['mains phase', '1-10 V', 'DALI', 'switch']);
  dimming.sizeFor = pick(random, ['all on', 'all on', 'levels']);
  if (dimming.levels.length > 1 && chance(random, 0.3))
    dimming.mixingLimit = between(random, 1, dimming.levels.length);
}

/** How the cables of a zone lie: as those of the wall, or in a layout or along an edge of its own. */
export const zoneWiring = (random: Random): Pick<Job['dimming']['zones'][number], 'layout' | 'way'> => ({
  layout: pick(random, [null, null, 'radial', 'trunk', 'ring', 'run to run']),
  way: pick(random, [null, null, 'head', 'foot']),
});
