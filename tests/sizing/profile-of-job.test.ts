import { describe, expect, it } from 'vitest';
import { type Job, newJob, readJob, sizeJob, sizeJobCarefully } from '../../src/index.ts';
import { newProfile } from '../../src/job/profile-catalogue.ts';

type Change = (section: Job['section'], job: Job) => unknown;

/** Some keys of a part of a job given other values. */
const set = <Part extends object>(part: Part, values: Partial<Part>): Part => Object.assign(part, values);

/** A short wall: three slots of 1 m. */
function wall(change: Change = () => {}): Job {
  const job = newJob();
  Object.assign(job.panel, { width_mm: 800, height_mm: 1200 });
  job.section.cavity_mm = 28;
  job.section.available_mm = 60;
  job.section.profile = newProfile('u-12x10');
  change(job.section, job);
  return job;
}

/** Inside 12 by 10 mm, walls and base 1.5 mm, a cover of 1.5 mm: 15 mm over the walls, 13 mm high. */
const inSlot: Change = (section, job) => {
  Object.assign(section, { strip: 'recessed', cover: 'open' });
  job.slots.width_mm = 15;
};

function sized(job: Job, size = sizeJob) {
  const outcome = size(job);
  if (!outcome.ok) throw new Error(outcome.issues.map(({ sentence }) => sentence).join(' '));
  return outcome.value;
}

function refusal(job: Job) {
  const outcome = sizeJob(job);
  return outcome.ok ? [] : outcome.issues.map(({ code, place }) => [code, place.field]);
}

describe('a job without a profile', () => {
  it('means what it meant: what does not name one has none', () => {
    const { profile: _, ...section } = newJob().section;
    const read = readJob({ ...newJob(), section });
    expect(read.ok && read.value.section.profile).toBeNull();
    const answer = sized(newJob());
    expect([
      answer.products.profile,
      answer.light.ofProfile,
      answer.heat.profile,
      answer.section.profile,
    ]).toEqual([null, null, null, null]);
  });
});

describe('a profile on the backing', () => {
  const answer = sized(wall());

  it('is the section of the list with the cover chosen, and what its fixing makes of the contact', () => {
    expect(answer.products.profile).toMatchObject({
      ...{ inside_mm: 12, height_mm: 10, wall_mm: 1.5, contact_m2K_per_W: 2e-3 },
      cover: { kind: 'opal', transmittance: 0.55, straight: 0 },
    });
  });

  it('lies on the backing: base, walls, cover, strip', () => {
    // Front 12, cavity 28: the backing begins 40 mm from the room face.
    expect(answer.section.profile).toEqual([
      { part: 'base', x0_mm: -7.5, x1_mm: 7.5, y0_mm: 38.5, y1_mm: 40 },
      { part: 'wall', x0_mm: -7.5, x1_mm: -6, y0_mm: 28.5, y1_mm: 38.5 },
      { part: 'wall', x0_mm: 6, x1_mm: 7.5, y0_mm: 28.5, y1_mm: 38.5 },
      { part: 'cover', x0_mm: -7.5, x1_mm: 7.5, y0_mm: 27, y1_mm: 28.5 },
      { part: 'strip', x0_mm: -4, x1_mm: 4, y0_mm: 36.5, y1_mm: 38.5 },
    ]);
  });

  it('leaves strip out behind the caps at both ends', () => {
    // Slots of 1000 mm, caps of 2 mm: as many whole units as 996 mm hold, and at least 2 mm dark at each end.
    for (const run of answer.setOut.runs) {
      expect(run.strip_mm).toBeLessThanOrEqual(996);
      expect(run.darkStart_mm).toBeGreaterThanOrEqual(2);
      expect(run.darkFinish_mm).toBeGreaterThanOrEqual(2);
      expect(run.darkStart_mm + run.strip_mm + run.darkFinish_mm).toBeCloseTo(1000, 6);
    }
  });

  it('warms its cover, which is held against what its plastic bears', () => {
    const cover = answer.heat.temperatures.find(({ id }) => id === 'cover-inside')!;
    expect(cover.limits.map(({ limit_degC }) => limit_degC)).toEqual([70]);
    expect(cover.value_degC).toBeGreaterThan(
      answer.heat.temperatures.find(({ id }) => id === 'cover-outside')!.value_degC,
    );
    expect(answer.findings.some(({ id }) => id === 'heat-cover-inside')).toBe(true);
    const { mean_degC, coverInside_degC, contact_W_per_m, airMoves } = answer.heat.profile!;
    expect(mean_degC).toBeGreaterThan(coverInside_degC!);
    expect(contact_W_per_m).toBeGreaterThan(0);
    expect(airMoves).toBe(false);
  });

  it('has all light of the strip somewhere', () => {
    const { absorbed, outFraction } = answer.light;
    const kept = Object.values(absorbed).reduce((sum, share) => sum + share, 0);
    expect(kept + outFraction).toBeCloseTo(1, 9);
    expect(absorbed.cover).toBeGreaterThan(0);
    // What stays is heat: 2.4 W/m less the light that gets out, at 315 lm for a watt of it.
    const lumens = answer.products.strip.channels.reduce((sum, { lumens_per_m }) => sum + lumens_per_m, 0);
    const nominal = answer.products.strip.channels.reduce((sum, { watts_per_m }) => sum + watts_per_m, 0);
    const share = 1 - ((lumens / 315) * outFraction) / nominal;
    expect(answer.heat.heat_W_per_m / answer.heat.strip_W_per_m).toBeCloseTo(share, 3);
  });

  it('is ordered with its cover and two caps for each slot', () => {
    const bill = answer.schedules.find(({ id }) => id === 'bill')!;
    // Item, description, needed, spare, to order: slots of 1 m, three of them or so, a tenth spare.
    const slots = answer.setOut.slots.length;
    const row = (item: string) => bill.rows.find(([first]) => first === item)!;
    expect(row('Aluminium profile').slice(2, 5)).toEqual([slots, 1, slots + 1]);
    expect(row('Profile cover').slice(2, 5)).toEqual([slots, 1, slots + 1]);
    expect(row('End cap').slice(2, 5)).toEqual([2 * slots, 1, 2 * slots + 1]);
  });

  it('has room: 13 mm, 1.5 mm of tolerance and half a millimetre of air in 28 mm', () => {
    expect(answer.findings.find(({ id }) => id === 'profile-room')).toMatchObject({
      ...{ status: 'passes', value: 15, limit: 28, margin: 13 },
    });
    const tight = sized(wall((section) => set(section, { cavity_mm: 14 })));
    expect(tight.findings.find(({ id }) => id === 'profile-room')).toMatchObject({
      status: 'fails',
      margin: -1,
    });
  });

  it('is cautioned about', () => {
    expect(answer.cautions.map(({ id }) => id)).toContain('profile-short');
  });
});

describe('a profile in the slot', () => {
  const answer = sized(wall(inSlot), sizeJobCarefully);

  it('lets out what leaves its cover, which is what is seen', () => {
    const { light } = answer;
    expect(light.outFraction).toBeCloseTo(light.ofProfile!.leavingShare, 9);
    expect(light.seen).toBe('profile cover');
    expect(light.full_cd_per_m2).toBeCloseTo(light.ofProfile!.cover_cd_per_m2, 6);
    expect(light.ripple).toBe(light.ofProfile!.ripple);
    expect(light.absorbed).toMatchObject({ back: 0, sides: 0, front: 0, sheet: 0, reveal: 0 });
  });

  it('gives heat off through its cover, and is part of the face within reach', () => {
    const path = answer.heat.paths.find(({ name }) => name === 'through the cover of the profile')!;
    expect(path.watts_per_m).toBeGreaterThan(0);
    const at = (id: string) => answer.heat.temperatures.find((t) => t.id === id)!.value_degC;
    expect(at('face')).toBeGreaterThanOrEqual(at('cover-outside') - 1e-6);
  });

  it('says what stands out behind the front', () => {
    // 13 mm high in a front of 12 mm.
    const { sentence, limit } = answer.findings.find(({ id }) => id === 'profile-room')!;
    expect(limit).toBe(40);
    expect(sentence).toContain('1 mm out of the rear of the front');
  });
});

describe('covers that do not spread the light', () => {
  const bare = (cover: NonNullable<Job['section']['profile']>['cover']) =>
    sized(
      wall((section) => Object.assign(section, { cover: 'open', profile: { ...section.profile!, cover } })),
    );

  it.each([
    ['none', null],
    ['clear', { entry: 'clear' as const, own: null, data: {} }],
    ['frosted', { entry: 'frosted' as const, own: null, data: {} }],
  ])('%s: the LEDs are in view, and nothing about dots or brightness passes', (_, cover) => {
    const { light, findings } = bare(cover);
    expect(light.bareLampsSeen).toContain('standing');
    expect(light.seen).toBe('profile');
    const of = (id: string) => findings.find((finding) => finding.id === id)!;
    expect(of('dots').status).not.toBe('passes');
    expect(of('brightness').status).not.toBe('passes');
    expect(of('bare-lamps').sentence).toContain('opal cover');
  });

  it('opal hides the LEDs themselves', () => {
    expect(bare({ entry: 'opal', own: null, data: {} }).light.bareLampsSeen).toEqual([]);
  });
});

describe('air that moves in a tall profile', () => {
  it('lets no figure of the cover pass', () => {
    const tall = sized(
      wall((section, job) => {
        Object.assign(section, { cavity_mm: 60, available_mm: 100 });
        Object.assign(section.profile!.data, { height_mm: 40, inside_mm: 30 });
        section.profile!.cover!.data.limit_degC = 300;
        job.strip.entry = '24V-14.4W';
      }),
    );
    expect(tall.heat.profile!.airMoves).toBe(true);
    for (const id of ['heat-cover-inside', 'heat-cover-outside']) {
      const finding = tall.findings.find((one) => one.id === id)!;
      expect([finding.status, finding.sentence.includes('warmer')]).toEqual(['watch', true]);
    }
  });
});

describe('profiles a job cannot have', () => {
  it.each<[string, Change, string, string]>([
    [
      'strip wider than the inside',
      (s) => set(s.profile!.data, { inside_mm: 7 }),
      'profile-narrower-than-strip',
      'section.profile.data.inside_mm',
    ],
    ['higher than the cavity', (s) => set(s, { cavity_mm: 13 }), 'profile-too-high', 'section.cavity_mm'],
    [
      'beside its bay',
      (s) => set(s, { stripOffset_mm: 65 }),
      'profile-has-no-room',
      'section.stripOffset_mm',
    ],
    [
      'in a slot of another width',
      (s, j) => [inSlot(s, j), set(j.slots, { width_mm: 16 })],
      'slot-not-as-wide-as-profile',
      'slots.width_mm',
    ],
    [
      'in a slot with a cover',
      (s, j) => [inSlot(s, j), set(s, { cover: 'opal acrylic' })],
      'profile-closes-slot',
      'section.cover',
    ],
    [
      'with a flat besides',
      (s) => set(s, { carrier: 'flat aluminium' }),
      'profile-and-flat',
      'section.carrier',
    ],
    ['on the front', (s) => set(s, { strip: 'front' }), 'profile-misplaced', 'section.strip'],
    [
      'in the slot without one',
      (s, j) => [inSlot(s, j), set(s, { profile: null })],
      'profile-missing',
      'section.profile',
    ],
    [
      'at a side that is not there',
      (s) => Object.assign(s, { strip: 'side', batten_mm: 0 }),
      'side-needs-batten',
      'section.batten_mm',
    ],
    ['not in the list', (s) => set(s.profile!, { entry: 'u-1x1' }), 'unknown-entry', 'section.profile.entry'],
    [
      'with a cover that makes light',
      (s) => Object.assign(s.profile!.cover!.data, { transmittance: 0.8, reflectance: 0.3 }),
      'cover-gains-light',
      'section.profile.cover.data.transmittance',
    ],
  ])('%s', (_, change, code, field) => {
    expect(refusal(wall(change))).toEqual([[code, field]]);
  });
});

describe('a profile at the side', () => {
  it('is calculated, and seen from the slot is the back', () => {
    const answer = sized(wall((section) => Object.assign(section, { strip: 'side', cover: 'open' })));
    expect(answer.light.seen).toBe('back');
    expect(answer.heat.profile!.coverInside_degC).not.toBeNull();
    // The flank of the batten is 70 mm from the middle; the profile 13 mm high, its middle in the middle of the depth.
    expect(answer.section.profile![0]).toEqual({
      part: 'base',
      x0_mm: 68.5,
      x1_mm: 70,
      y0_mm: 18.5,
      y1_mm: 33.5,
    });
  });
});
