import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, newJob, readJob, readJobText, sizeAt } from '../../src/index.ts';
import { newZone } from '../../src/job/zone.ts';

type Loose = Record<string, unknown>;

/** A demo job as format 1 wrote it. */
const stored = (id: string): string => readFileSync(new URL(`format-1/${id}.json`, import.meta.url), 'utf8');

function lifted(document: unknown): Job {
  const read = readJob(document);
  if (!read.ok) throw new Error(read.issues[0]?.sentence);
  return read.value;
}

/** What format 1 had no key for, as format 1 meant it. */
const meant: readonly (readonly [string, (job: Job) => unknown, unknown])[] = [
  ['rules', ({ site }) => [site.rules, site.note], ['IEC', '']],
  [
    'places',
    ({ drivers }) => drivers.places.map((p) => [p.kind, p.cable_mm, p.reachable, p.terminalsFace]).at(-1),
    ['box', null, true, 'right'],
  ],
  ['drivers', ({ drivers }) => [drivers.also, drivers.stock], [[], null]],
  [
    'dimming',
    ({ dimming: { control, dimmer, mixingLimit, restName } }) => [control, dimmer, mixingLimit, restName],
    ['none', null, null, ''],
  ],
  ['cut lines', ({ feeds }) => feeds.cutLines, []],
  ['cables', ({ cables }) => [cables.trunk, cables.wayWidth_mm, cables.fuses], [null, 60, 'blade']],
  ['strip', ({ strip }) => [strip.strip_degC, strip.offcuts_mm], [null, []]],
  ['prices', ({ prices }) => prices, { note: '', list: [] }],
];

const format1 = (job: Job): Loose => ({ ...job, format: { name: 'slotwatt-job', version: 1 } });

describe('a job of format 1', () => {
  const ids = ['window-seat', 'stair-wall', 'foyer-wall'];

  it.each(ids)('opens as format 2 and keeps every value it had: %s', (id) => {
    const read = readJobText(stored(id));
    if (!read.ok) throw new Error(read.issues[0]?.sentence);
    const { format, ...held } = JSON.parse(stored(id)) as Loose;
    expect(format).toEqual({ name: 'slotwatt-job', version: 1 });
    expect(read.value.format).toEqual({ name: 'slotwatt-job', version: 2 });
    expect(read.value).toMatchObject(held);
  });

  it.each(meant)('means what it meant: %s', (_, of, value) => {
    for (const id of ids) expect(of(lifted(JSON.parse(stored(id))))).toEqual(value);
  });

  it.each(ids)('has the answer of the same job typed anew: %s', (id) => {
    const demo = demoJobs.find((one) => one.id === id)!.job;
    const anew = {
      ...demo,
      cables: { ...demo.cables, fuses: 'blade' as const, wayWidth_mm: 60 },
      drivers: { ...demo.drivers, data: {} },
      dimming: { ...demo.dimming, control: 'none' as const },
      light: { ...demo.light, room: null },
      prices: { note: '', list: [] },
    };
    expect(sizeAt(lifted(JSON.parse(stored(id))), 'quick')).toEqual(sizeAt(anew, 'quick'));
  });

  it('takes neither more nor less for being read twice', () => {
    const once = lifted(JSON.parse(stored('stair-wall')));
    expect(lifted(JSON.parse(JSON.stringify(once)))).toEqual(once);
  });

  it('has its zones named in their order, and those of format 2 keep their ids', () => {
    const zones = [
      { name: 'Left', slots: [1] },
      { name: 'Right', slots: [2] },
    ];
    const { dimming } = lifted(format1({ ...newJob(), dimming: { ...newJob().dimming, zones } as never }));
    expect(dimming.zones).toEqual([
      newZone({ id: 'Z1', name: 'Left', slots: [1] }),
      newZone({ id: 'Z2', name: 'Right', slots: [2] }),
    ]);
    const kept = [newZone({ id: '', name: 'a', slots: [1] }), newZone({ id: 'Z1', name: 'b', slots: [2] })];
    const again = lifted({ ...newJob(), dimming: { ...newJob().dimming, zones: kept } });
    expect(again.dimming.zones.map(({ id }) => id)).toEqual(['Z2', 'Z1']);
  });

  it('has zones of one name as one zone, since their slots were dimmed together', () => {
    const zones = [
      { name: 'Left', slots: [1] },
      { name: 'Right', slots: [2] },
      { name: 'Left', slots: [4] },
    ];
    const { dimming } = lifted(format1({ ...newJob(), dimming: { ...newJob().dimming, zones } as never }));
    expect(dimming.zones.map(({ name, slots }) => [name, slots])).toEqual([
      ['Left', [1, 4]],
      ['Right', [2]],
    ]);
  });

  it('with driver places of one name gets numbers behind them, the first as it was', () => {
    const job = newJob();
    const [place] = job.drivers.places;
    const names = ['Box', 'Box', 'Box (2)', 'Box', 'x'.repeat(30), 'x'.repeat(30)];
    const places = names.map((name) => ({ ...place!, name }));
    const read = lifted(format1({ ...job, drivers: { ...job.drivers, places } }));
    expect(read.drivers.places.map(({ name }) => name)).toEqual([
      'Box',
      'Box (3)',
      'Box (2)',
      'Box (4)',
      'x'.repeat(30),
      `${'x'.repeat(26)} (2)`,
    ]);
  });

  it('with a slot fed another way twice keeps the way it was fed: the first', () => {
    const job = newJob();
    const exceptions = (['both', 'finish'] as const).map((arrangement) => ({
      ...{ slot: 3, arrangement, betweenCount: 1 },
      cutLines: [],
    }));
    const read = lifted(format1({ ...job, feeds: { ...job.feeds, exceptions } }));
    expect(read.feeds.exceptions).toEqual([exceptions[0]]);
  });

  it('has its faults said as those of format 2, and an unknown key is none of it', () => {
    const broken = { ...format1(newJob()), panel: { width_mm: -5, height_mm: 100 }, colour: 'red' };
    const read = readJob(broken);
    expect(read.ok ? [] : read.issues.map(({ place }) => place.field)).toEqual(['panel.width_mm', 'colour']);
  });
});

describe('what format 2 says twice', () => {
  const issuesOf = (job: Job) => {
    const sized = sizeAt(job, 'quick');
    return sized.ok ? [] : sized.issues.map(({ code, place, sentence }) => [code, place.field, sentence]);
  };

  it('two driver places of one name, two zones of one id or name, a slot fed another way twice', () => {
    const job = newJob();
    job.drivers.places.push({ ...job.drivers.places[0]!, x_mm: 1500 });
    job.dimming.zones = ['a', 'b'].map((name, i) => newZone({ id: 'Z1', name, slots: [i + 1] }));
    job.dimming.zones.push(newZone({ id: 'Z2', name: 'a', slots: [3] }));
    job.feeds.exceptions = [1, 2].map(() => ({
      ...{ slot: 3, arrangement: 'both' as const, betweenCount: 1 },
      cutLines: [],
    }));
    expect(issuesOf(job)).toEqual([
      [
        'said-twice',
        'drivers.places[2].name',
        expect.stringMatching(/called "Plinth".*give one of them another/),
      ],
      ['said-twice', 'dimming.zones[2].id', expect.stringMatching(/Zones 1 and 2 have the same id "Z1"/)],
      ['said-twice', 'dimming.zones[3].name', expect.stringMatching(/^Two zones are called "a"/)],
      ['said-twice', 'feeds.exceptions[2].slot', expect.stringMatching(/^Slot 3 is fed another way twice/)],
    ]);
  });
});
