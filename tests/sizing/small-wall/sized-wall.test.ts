import { describe, expect, it } from 'vitest';
import { sizing as answerSchema, type Sizing } from '../../../src/answer/sizing.ts';
import type { Job } from '../../../src/job/job.ts';
import { newZone } from '../../../src/job/zone.ts';
import { prepare } from '../../../src/sizing/prepare.ts';
import {
  type Accuracy,
  settledSizing,
  sizeAt,
  sizeJob,
  sizeJobCarefully,
} from '../../../src/sizing/size-job.ts';
import { granted } from './granted.ts';
import { wallOf } from './small-wall.ts';

const job = wallOf([600, 800]);
const sized = (accuracy: Accuracy, change: (job: Job) => void = () => {}) =>
  granted(sizeAt(wallOf([600, 800], change), accuracy));

const quickly = () => sized('quick');

describe('a small wall, sized', () => {
  it('has the shape it promises, quick and careful', () => {
    const [quick, careful] = [quickly(), sized('careful')];
    for (const answer of [quick, careful])
      expect(answerSchema.safeParse(answer).error?.issues).toBeUndefined();
    expect([quick.accuracy, careful.accuracy]).toEqual(['quick', 'careful']);
  });

  it('is what was asked: two runs on one driver, pitch 200 mm, 24 V', () => {
    const quick = quickly();
    expect(quick.setOut.runs.map(({ id }) => id)).toEqual(['S01', 'S02']);
    expect(quick.section.pitch_mm).toBe(200);
    expect(quick.set_V).toBe(24);
    expect(quick.drivers.drivers.map(({ outputs }) => outputs.map(({ runs }) => runs))).toEqual([
      [['S01', 'S02']],
    ]);
    // One pair of terminals at the driver: a block, and a link to it.
    expect(quick.cables.map(({ id, serves }) => [id, ...serves])).toEqual([
      ['L1.1', 'S01-F1', 'S02-F1'],
      ['C01', 'S01-F1'],
      ['C02', 'S02-F1'],
    ]);
    expect(quick.installation.blocks.map(({ id, standing }) => [id, standing?.place])).toEqual([
      ['B1.1', 'Plinth'],
    ]);
    expect(quick.circuit.runs.map(({ driver, output }) => [driver, output])).toEqual([
      ['D1', 'D1.1'],
      ['D1', 'D1.1'],
    ]);
    expect(quick.products.strip.id).toBe(job.strip.entry);
    expect(quick.conditions).toEqual([]);
  });

  it('is sized where its cables may carry nothing, and says that nothing protects them', () => {
    const hot = sized('quick', (one) => {
      one.cables.cable_degC = 70;
    });
    expect(hot.cables.map(({ capacity_A, protectedBy }) => [capacity_A, protectedBy])).toEqual(
      Array(3).fill([0, 'nothing']),
    );
  });

  it('has bands in the careful answer only, of the same loads', () => {
    const [quick, careful] = [quickly(), sized('careful')];
    const outputOf = ({ drivers }: Sizing) => drivers.drivers[0]!.outputs[0]!;
    expect([outputOf(quick).band_W, quick.circuit.runs[0]!.band, quick.heat.field]).toEqual([
      null,
      null,
      null,
    ]);
    const { band_W, watts } = outputOf(careful);
    expect(band_W!.least).toBeLessThan(watts);
    expect(band_W!.greatest).toBeGreaterThan(watts);
    expect(careful.heat.field).not.toBeNull();
    expect(outputOf(quick).watts).toBeCloseTo(watts, 1);
  });

  it('heats by the unit that draws most, over the tolerances of the circuit', () => {
    const quick = quickly();
    const most = Math.max(...quick.circuit.runs.map(({ worst_W_per_m }) => worst_W_per_m));
    expect(quick.heat.strip_W_per_m).toBe(most);
    const { least, greatest } = quick.heat.stripBand_W_per_m;
    // Some 20 % either way: 3 % of volts and 0.1 V of each lamp.
    expect(greatest / most).toBeGreaterThan(1.15);
    expect(least / most).toBeLessThan(0.85);
    expect(greatest / most).toBeLessThan(1.3);
    expect(least / most).toBeGreaterThan(0.7);
    // 250 lm/m of white over 315 lm a watt leave as light what the cavity lets out.
    const out_W_per_m = (250 / 315 / 2.4) * most * quick.light.outFraction;
    expect(quick.heat.heat_W_per_m).toBeCloseTo(most - out_W_per_m, 6);
    expect(quick.heat.unknown).toBeNull();
  });

  it('has findings, cautions and schedules, and nothing to remark twice', () => {
    const [quick, careful] = [quickly(), sized('careful')];
    expect(quick.findings.length).toBeGreaterThan(10);
    expect(quick.cautions.length).toBeGreaterThan(0);
    expect(quick.schedules.map(({ id }) => id)).toContain('cables');
    const sentences = careful.notes.map(({ sentence }) => sentence);
    expect(new Set(sentences).size).toBe(sentences.length);
  });

  it('remarks what its questions do, and nothing on the cover without a reason', () => {
    const quick = quickly();
    expect(quick.notes.filter(({ onCover }) => onCover)).toEqual([]);
    // An open slot shows its lamps; the light question says so, and it is printed with the section.
    const open = sized('quick', (one) => {
      one.section.cover = 'open';
    });
    const bare = open.notes.find(({ sentence }) => sentence.includes('into the bare LEDs'));
    expect(bare).toMatchObject({ sheet: 'section', onCover: false });
    expect(quick.notes).not.toContainEqual(bare);
  });

  it('is the same by any of its names', () => {
    expect(sizeJob(job)).toEqual(sizeAt(job, 'quick'));
    expect(granted(settledSizing(job, 'quick')).sizing).toEqual(quickly());
    expect(granted(settledSizing(job, 'quick')).settled.allocation.drivers).toHaveLength(1);
    expect(granted(sizeJobCarefully(job)).accuracy).toBe('careful');
  });
});

describe('a wall under a limited dimmer that switches', () => {
  it('heats with half the watts, its drivers stand in cooler air, and every current is that of full', () => {
    const quick = quickly();
    const limited = sized('quick', (one) => {
      Object.assign(one.dimming, { levels: [0.5], sizeFor: 'levels' });
    });
    expect(limited.heat.strip_W_per_m).toBeCloseTo(0.5 * quick.heat.strip_W_per_m, 9);
    expect(limited.heat.stripBand_W_per_m.greatest).toBeCloseTo(
      0.5 * quick.heat.stripBand_W_per_m.greatest,
      9,
    );
    expect(limited.heat.stripBand_W_per_m.least).toBeCloseTo(0.5 * quick.heat.stripBand_W_per_m.least, 9);
    expect(limited.circuit.supply_W).toBe(quick.circuit.supply_W);
    const [own] = limited.drivers.drivers;
    expect(own!.ambient_degC).toBeLessThan(quick.drivers.drivers[0]!.ambient_degC);
    expect(own!.derating).toBe(quick.drivers.drivers[0]!.derating);
    expect(limited.conditions.map(({ holds }) => holds)).toEqual(['heat']);
  });
});

describe('a wall that leans', () => {
  it('says on the cover that its temperatures are not known', () => {
    const leaning = sized('quick', (one) => {
      if (one.slots.from === 'segments') for (const slot of one.slots.segments) slot.x1_mm += 300;
    });
    expect(leaning.heat.unknown).toMatch(/do not stand upright/);
    expect(leaning.notes[0]).toEqual({ sheet: 'section', onCover: true, sentence: leaning.heat.unknown });
  });
});

describe('the number of drivers on a breaker', () => {
  it('is the maker’s only where it was entered', () => {
    const quick = quickly();
    expect(quick.drivers.breaker.models[0]!.isPrinted).toBe(false);
    const own = sized('quick', (one) => {
      one.drivers.data.perBreakerB16 = 7;
    });
    expect(own.drivers.breaker.models).toMatchObject([{ isPrinted: true, printed: 7 }]);
  });

  it('and its inrush likewise, summed up breaker by breaker', () => {
    const quick = quickly();
    const { drivers, breaker } = quick.drivers;
    expect(breaker.models[0]!.isInrushPrinted).toBe(false);
    expect(breaker.loads.flatMap((load) => load.drivers)).toEqual(drivers.map(({ id }) => id));
    const own = sized('quick', (one) => {
      one.drivers.data.inrush_A = 11;
    });
    expect(own.drivers.breaker).toMatchObject({
      models: [{ isInrushPrinted: true }],
      loads: [{ id: 'M1', inrush_A: 11 * own.drivers.drivers.length }],
    });
  });
});

describe('what is refused before anything is solved', () => {
  it.each([
    ['an unknown strip', (one: Job) => (one.strip.entry = 'none'), 'unknown-entry', 'strip.entry'],
    [
      'an unlit set-out',
      (one: Job) => (one.dimming.zones = [newZone({ id: 'Z1', name: 'a', slots: [9] })]),
      'no-such-slot',
      '',
    ],
    [
      'a strip beside its face',
      (one: Job) => (one.section.stripOffset_mm = 900),
      'strip-wider-than-cavity',
      'section.stripOffset_mm',
    ],
    [
      'vents larger than their place',
      (one: Job) => (one.drivers.places[0]!.ventOpening_mm2 = 1e6),
      'vent-larger-than-place',
      'drivers.places[1].ventOpening_mm2',
    ],
    [
      'a driver place too warm, which only the settled watts show',
      (one: Job) => {
        one.strip.entry = '24V-14.4W';
        const closed = { width_mm: 60, height_mm: 50, depth_mm: 20, vented: false };
        Object.assign(one.drivers.places[0]!, closed);
      },
      'driver-place-too-warm',
      'drivers.places[1].vented',
    ],
    ['a driver too small', (one: Job) => (one.drivers.data.rated_W = 2), 'load-larger-than-output', ''],
  ])('%s', (_, change, code, field) => {
    const one = wallOf([600, 800], change);
    const outcome = sizeAt(one, 'quick');
    const found = outcome.ok ? undefined : outcome.issues.find((issue) => issue.code === code);
    expect(found?.sentence).toMatch(/\.$/);
    if (field !== '') expect(found?.place.field).toBe(field);
  });

  it.each([
    ['loads no driver carries', (one: Job) => (one.drivers.data.rated_W = 2), 'load-larger-than-output'],
    ['cables no layout allows', (one: Job) => (one.cables.layout = 'run to run'), 'layout-needs-end-feed'],
  ])('is told of %s before the section is asked how warm it gets', (_, change, code) => {
    const one = wallOf([600], (own) => {
      own.feeds.arrangement = 'both';
      change(own);
    });
    const outcome = prepare(one, 'quick');
    expect(outcome.ok ? [] : outcome.issues.map((issue) => issue.code)).toEqual([code]);
  });

  it('is told together where it is of the section and of vents', () => {
    const one = wallOf([600, 800], (own) => {
      own.section.stripOffset_mm = 900;
      own.drivers.places[0]!.ventOpening_mm2 = 1e6;
    });
    const outcome = prepare(one, 'quick');
    const codes = outcome.ok ? [] : outcome.issues.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(['strip-wider-than-cavity', 'vent-larger-than-place']));
  });
});
