import { describe, expect, it } from 'vitest';
import { type Job, newJob } from '../../src/index.ts';
import { resolveProducts } from '../../src/job/resolve.ts';
import { newZone } from '../../src/job/zone.ts';

function jobWith(change: (job: Job) => unknown): Job {
  const job = newJob();
  change(job);
  return job;
}

function productsOf(change: (job: Job) => unknown) {
  const products = resolveProducts(jobWith(change));
  if (!products.ok) throw new Error(products.issues[0]?.sentence);
  return products.value;
}

function issuesOf(change: (job: Job) => unknown) {
  const products = resolveProducts(jobWith(change));
  return products.ok ? [] : products.issues;
}

const twoWhite = (job: Job): void => {
  job.strip.entry = '24V-2x9.6W-two-white';
  job.dimming.levels = [0.5, 0.5];
};

const dimmedBy = (job: Job, entry: string): void => {
  Object.assign(job.dimming, { control: 'dimmer', dimmer: { entry, data: {} } });
};

describe('the products of a job', () => {
  it('are the plain ones where nothing else is named: the trunk is of the same cable, and there is no dimmer', () => {
    const { cable, trunk, dimmer, furtherDrivers } = productsOf(() => {});
    expect(trunk).toEqual(cable);
    expect([dimmer, furtherDrivers]).toEqual([null, []]);
  });

  it('have a trunk, further drivers and a dimmer with what their data sheets say otherwise', () => {
    const { trunk, furtherDrivers, dimmer } = productsOf((job) => {
      job.cables.trunk = { entry: '4mm2', data: { outer_mm: 11 } };
      job.drivers.also = [{ entry: '24V-150W', data: { outputCount: 2 }, stock: 3 }];
      dimmedBy(job, '1x10A-1-10-v');
    });
    expect([trunk.id, trunk.area_mm2, trunk.outer_mm]).toEqual(['4mm2', 4, 11]);
    expect(furtherDrivers.map(({ id, rated_W, outputCount }) => [id, rated_W, outputCount])).toEqual([
      ['24V-150W', 150, 2],
    ]);
    expect([dimmer?.channelCount, dimmer?.channel_A, dimmer?.control]).toEqual([1, 10, '1-10 V']);
  });

  it('have no dimmer that is named while the light is dimmed otherwise', () => {
    const { dimmer } = productsOf((job) => {
      dimmedBy(job, '1x10A-1-10-v');
      job.dimming.control = 'none';
    });
    expect(dimmer).toBeNull();
  });
});

describe('what is refused has its field and says what to do', () => {
  it.each<[string, (job: Job) => unknown, string, string, RegExp]>([
    [
      'an unknown trunk',
      (job) => (job.cables.trunk = { entry: 'none', data: {} }),
      'unknown-entry',
      'cables.trunk.entry',
      /no cable called "none"/,
    ],
    [
      'an unknown further driver',
      (job) => (job.drivers.also = [{ entry: 'none', data: {}, stock: null }]),
      'unknown-entry',
      'drivers.also[1].entry',
      /no driver called "none"/,
    ],
    [
      'an unknown dimmer',
      (job) => dimmedBy(job, 'none'),
      'unknown-entry',
      'dimming.dimmer.entry',
      /no dimmer called "none"/,
    ],
    [
      'a further driver of another voltage',
      (job) => (job.drivers.also = [{ entry: '12V-60W', data: {}, stock: null }]),
      'voltage-mismatch',
      'drivers.also[1].entry',
      /24 V and the driver gives 12 V: choose a 24 V driver/,
    ],
    [
      'a dimmer for other volts',
      (job) => {
        job.strip.entry = '48V-9.6W-regulated';
        job.drivers.entry = '48V-75W';
        dimmedBy(job, '1x10A-1-10-v');
      },
      'voltage-mismatch',
      'dimming.dimmer.entry',
      /48 V and the dimmer for 12 to 24 V: choose a dimmer for 48 V/,
    ],
    [
      'a dimmer with too few channels',
      (job) => {
        twoWhite(job);
        dimmedBy(job, '1x10A-1-10-v');
      },
      'dimmer-channels',
      'dimming.dimmer.entry',
      /2 channels and the dimmer 1 channel: choose one/,
    ],
    [
      'a dimmer that is not chosen',
      (job) => (job.dimming.control = 'dimmer'),
      'dimmer-missing',
      'dimming.dimmer',
      /none is chosen: choose one/,
    ],
    [
      'drivers that cannot dim themselves',
      (job) => (job.dimming.control = 'driver'),
      'driver-not-dimmable',
      'drivers.data.control',
      /"24 V 75 W driver" cannot: enter how it is dimmed/,
    ],
    [
      'levels of a zone that do not match the channels',
      (job) =>
        (job.dimming.zones = [{ ...newZone({ id: 'Z1', name: 'Bay', slots: [1] }), levels: [0.1, 0.2] }]),
      'channel-levels',
      'dimming.zones[1].levels',
      /1 channel and zone "Bay" gives 2 levels: give one/,
    ],
    [
      // 0.7 + 0.5 = 1.2 of the 1 that the control allows.
      'working levels above what the control lets mix',
      (job) => {
        twoWhite(job);
        Object.assign(job.dimming, { levels: [0.7, 0.5], mixingLimit: 1 });
      },
      'mixing-limit',
      'dimming.levels',
      /add up to 120 % and the control allows 100 % over all channels: lower/,
    ],
    [
      'a remote place without its cable',
      (job) => (job.drivers.places[0]!.kind = 'remote'),
      'cable-length-missing',
      'drivers.places[1].cable_mm',
      /remote place "Plinth".*measure the way/,
    ],
  ])('%s', (_, change, code, field, sentence) => {
    const issues = issuesOf(change);
    expect(issues.map((issue) => [issue.code, issue.place.field])).toEqual([[code, field]]);
    expect(issues[0]!.sentence).toMatch(sentence);
  });

  it('is said all at once', () => {
    const codes = issuesOf((job) => {
      job.strip.entry = 'none';
      job.cables.entry = 'none';
    }).map(({ place }) => place.field);
    expect(codes).toEqual(['strip.entry', 'cables.entry']);
  });

  it('is not said of what fits: levels that add up to the limit, drivers that dim themselves, a place with its cable', () => {
    expect(
      issuesOf((job) => {
        twoWhite(job);
        Object.assign(job.dimming, { levels: [0.7, 0.3], mixingLimit: 1, control: 'driver' });
        job.drivers.data.control = 'DALI';
        Object.assign(job.drivers.places[0]!, { kind: 'remote', cable_mm: 6000 });
      }),
    ).toEqual([]);
  });
});
