import { demoJobs, type Job, newJob, type Sizing, sizeJob } from '../../src/index.ts';
import { newProfile } from '../../src/job/profile-catalogue.ts';
import { newZone } from '../../src/job/zone.ts';

/** A job and its answer. */
export interface Sized {
  readonly name: string;
  readonly job: Job;
  readonly sizing: Sizing;
}

function sized(name: string, job: Job): Sized {
  const outcome = sizeJob(job);
  if (!outcome.ok) throw new Error(`${name}: ${outcome.issues.map(({ sentence }) => sentence).join(' ')}`);
  return { name, job, sizing: outcome.value };
}

/** The demo jobs: 6, 28 and 60 slots. */
export const demos: readonly Sized[] = demoJobs.map(({ id, job }) => sized(id, job));

/** The widest of everything a job may say: names of 60 characters, four channels, zones, feeds at both ends. */
function longest(): Job {
  const base = structuredClone(demoJobs[2]!.job);
  const wide = (count: number): string => 'W'.repeat(count);
  return {
    ...base,
    title: {
      job: wide(60),
      client: wide(60),
      place: wide(60),
      maker: wide(60),
      drawnBy: wide(40),
      documentNumber: wide(30),
      revision: wide(6),
      date: '2026-11-30',
    },
    strip: { ...base.strip, entry: '24V-4x4.8W-four-channel', data: { name: wide(80) } },
    feeds: { ...base.feeds, arrangement: 'both' },
    cables: { ...base.cables, data: { name: wide(80) } },
    drivers: {
      ...base.drivers,
      data: { ...base.drivers.data, name: wide(80) },
      places: base.drivers.places.map((place, i) => ({ ...place, name: `${i}${wide(29)}` })),
    },
    dimming: {
      ...base.dimming,
      levels: [1, 1, 1, 1],
      zones: [newZone({ id: 'Z1', name: wide(30), slots: [1, 2, 3, 4, 5, 6] })],
    },
  };
}

function onTrunk(): Job {
  const base = structuredClone(demoJobs[1]!.job);
  const section = { ...base.section, carrier: 'flat aluminium', carrierWidth_mm: 20 } as const;
  return {
    ...base,
    section,
    cables: { ...base.cables, layout: 'trunk' },
    feeds: { ...base.feeds, arrangement: 'between', betweenCount: 2 },
  };
}

/** Drivers with four outputs each, of which several are in use. */
function fourOutputs(): Job {
  const base = structuredClone(demoJobs[2]!.job);
  return {
    ...base,
    drivers: { ...base.drivers, data: { ...base.drivers.data, outputCount: 4, current_A: 2.5 } },
  };
}

function crossedLevel(): Job {
  const base = structuredClone(demoJobs[0]!.job);
  if (base.slots.from !== 'generator') throw new RangeError('the first demo comes from the generator');
  return {
    ...base,
    title: { ...base.title, job: '', date: '', maker: '' },
    slots: { ...base.slots, axis: 'level', spacing: { by: 'count', count: 3 } },
    section: { ...base.section, strip: 'front', stripOffset_mm: 40, cover: 'open', batten_mm: 0 },
    feeds: { ...base.feeds, arrangement: 'crossed' },
  };
}

/** Sized for a dimmer that is limited to its working level, which the papers must say. */
function limited(): Job {
  const base = structuredClone(demoJobs[0]!.job);
  return { ...base, dimming: { ...base.dimming, levels: [0.155], sizeFor: 'levels' } };
}

/** A strip in a profile on the backing, in the slot or at the side. */
function profiled(strip: 'backing' | 'recessed' | 'side'): Job {
  const base = structuredClone(demoJobs[1]!.job);
  const recessed = { strip, cover: 'open', stripOffset_mm: 0 } as const;
  const where = strip === 'recessed' ? recessed : ({ strip, stripOffset_mm: 0 } as const);
  return {
    ...base,
    slots: strip === 'recessed' ? { ...base.slots, width_mm: 15 } : base.slots,
    section: {
      ...base.section,
      ...where,
      carrier: 'none',
      cavity_mm: 28,
      batten_mm: 40,
      profile: newProfile('u-12x10'),
    },
  };
}

/** Jobs unlike the demos in what the papers have to show. */
export const unusual: readonly Sized[] = [
  sized('longest names', longest()),
  sized('trunk', onTrunk()),
  sized('four outputs', fourOutputs()),
  sized('level, crossed', crossedLevel()),
  sized('limited dimmer', limited()),
  sized('profile on the backing', profiled('backing')),
  sized('profile in the slot', profiled('recessed')),
  sized('profile at the side', profiled('side')),
];

function inLayout(layout: Job['cables']['layout']): Job {
  const base = newJob();
  return { ...base, cables: { ...base.cables, layout } };
}

/** A source that could give more than a cable may carry, so that blocks have fuses, shared by several cables. */
function fused(): Job {
  const base = structuredClone(demoJobs[1]!.job);
  return {
    ...base,
    drivers: { ...base.drivers, data: { ...base.drivers.data, current_A: 12, rated_W: 288 } },
  };
}

/** Drivers in a place known by its length of cable. */
function remote(): Job {
  const base = newJob();
  const places = base.drivers.places.map((place) => ({ ...place, kind: 'remote', cable_mm: 6500 }) as const);
  return { ...base, drivers: { ...base.drivers, places } };
}

/** A new job in each layout of its cables, one with fuses, and one from a remote place. */
export const laidOut: readonly Sized[] = [
  sized('new, trunk', inLayout('trunk')),
  sized('new, ring', inLayout('ring')),
  sized('new, run to run', inLayout('run to run')),
  sized('fused', fused()),
  sized('remote place', remote()),
];
