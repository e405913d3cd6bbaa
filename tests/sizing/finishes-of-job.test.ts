import { describe, expect, it } from 'vitest';
import { type Job, newJob, readJob, sizeJob } from '../../src/index.ts';
import { newProfile } from '../../src/job/profile-catalogue.ts';
import { litSectionOfJob } from '../../src/sizing/light-of-job.ts';
import { sectionOfJob } from '../../src/sizing/section-of-job.ts';
import { preparedOf } from './small-wall/small-wall.ts';

function job(change: (section: Job['section']) => void): Job {
  const made = newJob();
  Object.assign(made.panel, { width_mm: 800, height_mm: 1200 });
  change(made.section);
  return made;
}

const heat = (change: (section: Job['section']) => void) => {
  const { job: own, products, setOut } = preparedOf(job(change));
  return sectionOfJob(own, products, setOut);
};
const light = (change: (section: Job['section']) => void) => {
  const { job: own, products, setOut } = preparedOf(job(change));
  return litSectionOfJob(own, products, setOut);
};

function sized(change: (section: Job['section']) => void) {
  const outcome = sizeJob(job(change));
  if (!outcome.ok) throw new Error(outcome.issues.map(({ sentence }) => sentence).join(' '));
  return outcome.value;
}

const solder = (change: (section: Job['section']) => void): number =>
  sized(change).heat.temperatures.find(({ id }) => id === 'solder')!.value_degC;

describe('a job that says nothing of makers’ figures', () => {
  it('is read with none, and its flat as one with the timber', () => {
    const { faces, revealFinish, carrierFinish, carrierFixing, carrierContact_m2K_per_W, ...section } =
      newJob().section;
    expect([faces.back.reflectance, revealFinish, carrierFinish, carrierContact_m2K_per_W]).toEqual([
      ...[null, null, 'anodised', null],
    ]);
    expect(carrierFixing).toBe('screws or clips');
    const read = readJob({ ...newJob(), section });
    if (!read.ok) throw new Error('not read');
    expect(read.value.section).toMatchObject({ carrierFixing: null, faces, revealFinish: null });
    const old = heat((own) => Object.assign(own, { ...read.value.section, carrier: 'flat aluminium' }));
    expect(old.strip.carrier).not.toHaveProperty('contact_m2K_per_W');
    expect(old.strip.carrier!.emissivity).toBe(0.8);
  });
});

describe('finishes', () => {
  it('give the sides of the slot their own, and the inner face’s where they have none', () => {
    expect(light(() => {}).reveal.reflectance).toBe(0.8);
    expect(light((own) => Object.assign(own, { frontFinish: 'walnut' })).reveal.reflectance).toBe(0.15);
    const black = light((own) => Object.assign(own, { revealFinish: 'matt black paint' }));
    expect([black.reveal.reflectance, black.reflectance.front]).toEqual([0.05, 0.8]);
  });

  it('send less light out of the slot the darker its sides are', () => {
    const out = (finish: Job['section']['revealFinish']): number =>
      sized((own) => Object.assign(own, { cover: 'open', revealFinish: finish })).light.outFraction;
    expect(out('matt black paint')).toBeLessThan(0.95 * out('matt white paint'));
    expect(out(null)).toBe(out('matt white paint'));
  });

  it('are of bare metal where they are: foil and mill finish in place of the timber’s 0.9', () => {
    const foiled = heat((own) =>
      Object.assign(own, { backFinish: 'bright aluminium foil', sideFinish: 'bare aluminium' }),
    );
    expect(foiled.backing.emissivity).toBe(0.05);
    expect(foiled.batten.emissivity).toBe(0.09);
    expect(foiled.front.emissivity).toBe(0.9);
    // What does not radiate keeps its heat: the wall gets warmer.
    const foil = solder((own) => Object.assign(own, { backFinish: 'bright aluminium foil' }));
    expect(foil).toBeGreaterThan(solder(() => {}) + 1);
  });

  it('give way to the figures of their maker, face by face', () => {
    const given = (own: Job['section']): void => {
      Object.assign(own.faces.back, { reflectance: 0.91, emissivity: 0.5 });
      Object.assign(own.faces.side, { reflectance: 0.3, emissivity: 0.6 });
      Object.assign(own.faces.front, { reflectance: 0.4, emissivity: 0.7 });
    };
    const { backing, batten, front } = heat(given);
    expect([backing.emissivity, batten.emissivity, front.emissivity]).toEqual([0.5, 0.6, 0.7]);
    const { reflectance, reveal } = light(given);
    expect(reflectance).toEqual({ back: 0.91, sides: 0.3, front: 0.4 });
    expect(reveal.reflectance).toBe(0.4);
    const own = light((section) => Object.assign(section.faces.reveal, { reflectance: 0.2 }));
    expect(own.reveal.reflectance).toBe(0.2);
  });
});

describe('boards by their maker', () => {
  it('conduct as said, in a band of 15 % as all boards of one name', () => {
    const { backing, front } = heat((own) => Object.assign(own.backing, { conductivity_W_per_mK: 0.05 }));
    expect(backing.conductivity_W_per_mK).toBe(0.05);
    expect(backing).not.toHaveProperty('conductivityRange');
    expect(front.conductivity_W_per_mK).toBe(0.17);
    const cork = solder((own) => Object.assign(own.front, { conductivity_W_per_mK: 0.05 }));
    expect(cork).toBeGreaterThan(solder(() => {}) + 1);
  });
});

describe('an aluminium flat', () => {
  const flat = (change: Partial<Job['section']> = {}) =>
    heat((own) => Object.assign(own, { carrier: 'flat aluminium', ...change })).strip.carrier!;

  it('has the joint of its fixing, or the one given', () => {
    expect(flat().contact_m2K_per_W).toBe(2e-3);
    expect(flat({ carrierFixing: 'tape' }).contact_m2K_per_W).toBe(5e-4);
    expect(flat({ carrierFixing: 'tape', carrierContact_m2K_per_W: 0 }).contact_m2K_per_W).toBe(0);
    expect(flat({ carrierFinish: 'bare' }).emissivity).toBe(0.09);
  });

  it('is warmer screwed on dry than taped, and bare than anodised', () => {
    const at = (change: Partial<Job['section']>) =>
      solder((own) => Object.assign(own, { carrier: 'flat aluminium', ...change }));
    const [one, taped, dry] = ([null, 'tape', 'screws or clips'] as const).map((carrierFixing) =>
      at({ carrierFixing }),
    );
    expect(taped!).toBeGreaterThan(one!);
    expect(dry!).toBeGreaterThan(taped!);
    expect(at({ carrierFinish: 'bare' })).toBeGreaterThan(dry!);
  });
});

describe('a profile', () => {
  const profile = (change: object) =>
    sized((own) => {
      Object.assign(own, { cavity_mm: 28, available_mm: 60 });
      own.profile = { ...newProfile('u-12x10'), ...change };
    });

  it('has the figures of its finish, and over those what its drawing says', () => {
    expect(profile({}).products.profile).toMatchObject({ insideEmissivity: 0.8, wallReflectance: 0.7 });
    const bare = profile({ finish: 'bare' });
    expect(bare.products.profile).toMatchObject({
      ...{ insideEmissivity: 0.1, outsideEmissivity: 0.1, wallReflectance: 0.65, outsideReflectance: 0.65 },
      baseReflectance: 0.7,
    });
    const drawn = profile({ finish: 'bare', data: { outsideEmissivity: 0.3 } }).products.profile;
    expect(drawn).toMatchObject({ insideEmissivity: 0.1, outsideEmissivity: 0.3 });
    const warmth = ({ heat }: ReturnType<typeof sized>) =>
      heat.temperatures.find(({ id }) => id === 'solder')!.value_degC;
    expect(warmth(bare)).toBeGreaterThan(warmth(profile({})));
  });
});
