import { describe, expect, it } from 'vitest';
import {
  askJobHeat,
  askJobLight,
  type Job,
  newJob,
  propose,
  sizeAt,
  sizeJob,
  sizeJobCarefully,
} from '../../src/index.ts';
import { newRoom } from '../../src/job/room.ts';
import { newZone } from '../../src/job/zone.ts';

type Segments = Extract<Job['slots'], { from: 'segments' }>['segments'];

/** Six upright slots 200 mm apart, each with the width given for it; null for none of its own. */
function wall(
  own_mm: readonly (number | null)[],
  otherwise_mm = 20,
  change: (job: Job) => void = () => {},
): Job {
  const job = structuredClone(newJob());
  const segments: Segments = own_mm.map((width_mm, i) => ({
    ...{ x0_mm: 300 + 200 * i, y0_mm: 200, x1_mm: 300 + 200 * i, y1_mm: 2200 },
    ...(width_mm !== null && { width_mm }),
  }));
  job.slots = { from: 'segments', width_mm: otherwise_mm, segments };
  job.strip.entry = '24V-9.6W';
  job.drivers.entry = '24V-240W';
  change(job);
  return job;
}

function sized(job: Job, size = sizeJob) {
  const answer = size(job);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

const alike = (width_mm: number, change?: (job: Job) => void) =>
  sized(wall([null, null, null, null, null, null], width_mm, change));
const mixed = [12, 12, 12, null, null, null];

describe('slots with widths of their own', () => {
  it('that are all the same give the answer of slots of that width, to the last bit', () => {
    const plain = alike(14);
    // What the section is drawn with, since the width of all may be that of none.
    const same = { ...plain, section: { ...plain.section, slotWidth_mm: 14 } };
    expect(sized(wall([14, 14, 14, 14, 14, 14], 40))).toEqual(same);
    // The slots that say nothing are as wide as all.
    expect(sized(wall([14, null, 14, 14, null, 14], 14))).toEqual(same);
  });

  it('look as slots of that width do, width by width', () => {
    const { light, setOut } = sized(wall(mixed, 30));
    expect(setOut.slots.map(({ width_mm }) => width_mm)).toEqual([12, 12, 12, 30, 30, 30]);
    expect(light.zones.map(({ name, slots }) => [name, slots])).toEqual([
      ['slots 30 mm wide', ['S04', 'S05', 'S06']],
      ['slots 12 mm wide', ['S01', 'S02', 'S03']],
    ]);
    for (const [zone, width_mm] of [
      [light.zones[0]!, 30],
      [light.zones[1]!, 12],
    ] as const) {
      const own = alike(width_mm).light;
      expect(zone.luminance_cd_per_m2).toBe(own.zones[0]!.luminance_cd_per_m2);
      expect(zone.neededLevels).toEqual(own.zones[0]!.neededLevels);
      const { full_cd_per_m2, outFraction, ripple } = own;
      expect(zone.ofWidth).toEqual({ width_mm, full_cd_per_m2, outFraction, ripple });
    }
  });

  it('give the room what slots of that width give', () => {
    const lit = (job: Job) => {
      job.light = { ...job.light, room: newRoom() };
    };
    const { roomLight, circuit, products } = sized(wall(mixed, 30, lit));
    const flux = products.strip.channels[0]!.lumens_per_m;
    const narrow = alike(12, lit).light.outFraction;
    const wide = alike(30, lit).light.outFraction;
    expect(wide).toBeGreaterThan(1.5 * narrow);
    for (const [i, { full_lm }] of roomLight.slots.entries()) {
      const { unit_light } = circuit.runs[i]!;
      const mean = unit_light.reduce((sum, one) => sum + one, 0) / unit_light.length;
      const strip_m = sized(wall(mixed, 30, lit)).setOut.runs[i]!.strip_mm / 1000;
      expect(full_lm).toBeCloseTo(flux * strip_m * mean * (i < 3 ? narrow : wide), 6);
    }
  });

  it('are as warm as the warmest of both, place by place, and say beside which', () => {
    const both = sized(wall(mixed, 30), sizeJobCarefully).heat;
    const one = [12, 30].map((width_mm) => {
      const own = sized(wall([null, null, null, null, null, null], width_mm), sizeJobCarefully).heat;
      return { width_mm, of: new Map(own.temperatures.map((row) => [row.id, row.high_degC])) };
    });
    expect(both.temperatures.length).toBeGreaterThan(4);
    for (const { id, high_degC, slotWidth_mm } of both.temperatures) {
      const warmest = one.reduce((a, b) => (b.of.get(id)! > a.of.get(id)! ? b : a));
      // All runs are as warm as the warmest, which draw a little more than either wall by itself.
      expect(Math.abs(high_degC - warmest.of.get(id)!), id).toBeLessThan(0.3);
      expect(high_degC, id).toBeGreaterThan(Math.max(...one.map(({ of }) => of.get(id)!)) - 0.05);
      const apart = Math.abs(one[0]!.of.get(id)! - one[1]!.of.get(id)!);
      if (apart > 0.3) expect(slotWidth_mm, id).toBe(warmest.width_mm);
    }
  });

  it('have findings of their own, each with a name of its own', () => {
    const { findings } = sized(wall(mixed, 30));
    const ids = findings.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toContain('brightness-12mm');
    expect(ids).toContain('brightness-30mm');
    const narrow = findings.find(({ id }) => id === 'brightness-12mm')!;
    expect(narrow.sentence).toMatch(/^Slots 12 mm wide: /);
  });

  it('go into zones as well', () => {
    const zoned = wall(mixed, 30, (job) => {
      const zone = newZone({ id: 'Z1', name: 'Left', slots: [1, 2, 3, 4] });
      job.dimming.zones = [{ ...zone, levels: [0.5] }];
    });
    expect(sized(zoned).light.zones.map(({ name, slots }) => [name, slots])).toEqual([
      ['Left, slots 30 mm wide', ['S04']],
      ['the rest, slots 30 mm wide', ['S05', 'S06']],
      ['slots 12 mm wide', ['S01', 'S02', 'S03']],
    ]);
  });

  it('listed the other way about, or mirrored, are the same wall', () => {
    const job = wall(mixed, 30);
    const { slots } = job as { slots: Extract<Job['slots'], { from: 'segments' }> };
    const turned = { ...job, slots: { ...slots, segments: slots.segments.toReversed() } };
    const [a, b] = [sized(job), sized(turned)];
    expect(b.heat).toEqual(a.heat);
    expect(b.circuit.supply_W).toBe(a.circuit.supply_W);
    expect(b.setOut.slots.map(({ width_mm }) => width_mm)).toEqual([12, 12, 12, 30, 30, 30]);
    const flipped = slots.segments.map((each) => ({
      ...each,
      ...{ x0_mm: job.panel.width_mm - each.x0_mm, x1_mm: job.panel.width_mm - each.x1_mm },
    }));
    const mirrored = sized({ ...job, slots: { ...slots, segments: flipped } });
    expect(mirrored.light.zones.map(({ luminance_cd_per_m2 }) => luminance_cd_per_m2)).toEqual(
      a.light.zones.map(({ luminance_cd_per_m2 }) => luminance_cd_per_m2),
    );
    expect(mirrored.setOut.slots.map(({ width_mm }) => width_mm)).toEqual([30, 30, 30, 12, 12, 12]);
  });

  it('keep their width beside an opening, which they keep clear of by it', () => {
    const { setOut } = sized(
      wall(mixed, 30, (job) => {
        // A level slot would do; these stand upright: a rim of 40 mm from 1,000 to 1,200 mm cuts 960 to 1,240.
        job.openings = [
          {
            ...{ name: 'Socket', kind: 'keep-out', cablesPass: true, rim_mm: 40 },
            ...{ x_mm: 280, y_mm: 1000, width_mm: 40, height_mm: 200 },
          },
        ];
      }),
    );
    const parts = setOut.slots.filter(({ x0_mm }) => x0_mm === 300);
    expect(parts.map(({ width_mm, y0_mm, y1_mm }) => [width_mm, y0_mm, y1_mm])).toEqual([
      [12, 200, 960],
      [12, 1240, 2200],
    ]);
  });

  it('that do not fit are refused as slots of that width are', () => {
    const wide = sizeAt(wall([12, 12, 12, 12, 12, 199]), 'quick');
    expect(wide.ok).toBe(false);
    const recessed = wall(mixed, 30, (job) => {
      job.section.strip = 'recessed';
    });
    expect(sizeAt(recessed, 'quick').ok).toBe(false);
  });

  it('are proposed for by what sizing says of every width, and kept', () => {
    const job = wall(mixed, 20, (own) => {
      own.strip.entry = '24V-2.4W';
      own.drivers.entry = '24V-75W';
    });
    const going = propose(job, ['level']);
    let step = going.next();
    while (!step.done) step = going.next();
    if (!step.value.ok) throw new Error('nothing proposed');
    const [design] = step.value.value.designs;
    expect(design!.job.slots).toEqual(job.slots);
    const whole = sized(design!.job, sizeJobCarefully);
    expect(design!.sizing.findings).toEqual(whole.findings);
    // The level serves the narrower slots, which are the darker ones.
    const narrow = whole.light.zones.find(({ ofWidth }) => ofWidth!.width_mm === 12)!;
    expect(narrow.luminance_cd_per_m2).toBeGreaterThan(0.9 * narrow.wanted_cd_per_m2);
  });

  it('are asked of depth in one width only, which is said', () => {
    const asked = askJobHeat(wall(mixed, 30));
    expect(asked).toMatchObject({ ok: false, issues: [{ code: 'heat-not-known' }] });
    const light = askJobLight(wall(mixed, 30));
    if (!light.ok) throw new Error('no light');
    expect(light.value.remarks.join(' ')).toMatch(
      /Slots have several widths: these figures are of those \d\d mm wide/,
    );
  });
});
