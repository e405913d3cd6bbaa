import { describe, expect, it } from 'vitest';
import { askJobHeat, askJobLight, type Job, newJob, sizeJob, sizeJobCarefully } from '../../src/index.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

type Section = Job['section'];

/** A low panel with upright slots at a pitch, so that heat and light are what takes the time. */
function panelOf(pitch_mm: number, slot_mm: number, section: Partial<Section>): Job {
  const job = newJob();
  return {
    ...job,
    panel: { width_mm: 2 * pitch_mm + slot_mm + 20, height_mm: 500 },
    slots: {
      from: 'generator',
      axis: 'upright',
      width_mm: slot_mm,
      left_mm: 10,
      right_mm: 10,
      foot_mm: 50,
      head_mm: 50,
      spacing: { by: 'pitch', pitch_mm },
    },
    section: { ...job.section, ...section },
  };
}

const questions = { sizeJob, sizeJobCarefully, askJobHeat, askJobLight } as const;

/** Every question answers, or refuses with a code and a sentence that says what to change. */
function answersOrRefuses(job: Job, asked: readonly (keyof typeof questions)[]): void {
  for (const name of asked) {
    const outcome = questions[name](job);
    if (outcome.ok) expect(JSON.stringify(outcome.value), name).not.toMatch(/NaN|Infinity/);
    else for (const { sentence } of outcome.issues) expect(sentence, name).toMatch(/\. [A-Z]|: [a-z]/);
  }
}

const all = Object.keys(questions) as (keyof typeof questions)[];

describe('ordinary build-ups that ended in a crash', () => {
  for (const batten_mm of [56, 60, 66, 67.9999, 68])
    it(`battens of ${batten_mm} mm between slots of 12 mm at 80 mm`, () => {
      answersOrRefuses(panelOf(80, 12, { batten_mm }), all);
      answersOrRefuses(panelOf(80, 12, { batten_mm, cover: 'open' }), all);
    });

  for (const carrierWidth_mm of [39.999, 39.99999999, 40, 40.001])
    it(`a carrier of ${carrierWidth_mm} mm in a bay of 40 mm`, () => {
      const carrier = { carrier: 'flat aluminium', carrierWidth_mm } as const;
      answersOrRefuses(panelOf(80, 12, { batten_mm: 40, ...carrier }), all);
      answersOrRefuses(panelOf(40, 12, { batten_mm: 0, ...carrier }), all);
    });

  it('a strip on a side 0.1 µm from the end of it', () => {
    const job = panelOf(40, 20, {
      batten_mm: 20,
      cavity_mm: 22.000001,
      strip: 'side',
      stripOffset_mm: -8.4999005,
    });
    answersOrRefuses({ ...job, strip: { ...job.strip, data: { width_mm: 5 } } }, all);
  });

  it('a carrier 1 µm narrower than its bay reads as one that fills it, and battens 1 µm short as flush ones', () => {
    const solder = (section: Partial<Section>): number => {
      const outcome = sizeJobCarefully(panelOf(80, 12, section));
      if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
      return outcome.value.heat.temperatures.find(({ id }) => id === 'solder')!.value_degC;
    };
    const carried = (carrierWidth_mm: number): number =>
      solder({ batten_mm: 40, carrier: 'flat aluminium', carrierWidth_mm });
    expect(carried(39.999)).toBeCloseTo(carried(40), 1);
    expect(solder({ batten_mm: 67.999 })).toBeCloseTo(solder({ batten_mm: 68 }), 1);
  });
});

/** Picks sections whose edges touch, or miss one another by a hair. */
function touching(random: () => number): Job {
  const one = <Item>(...items: readonly Item[]): Item => items[Math.floor(random() * items.length)]!;
  const hair = (): number => one(0, 0, 0, 1e-9, -1e-9, 1e-6, -1e-6, 1e-4, -1e-4, 1e-3, -1e-3, 0.01, -0.01);
  const within = (value: number, min: number, max: number): number => Math.min(max, Math.max(min, value));
  const pitch_mm = one(14, 40, 80, 60 + 140 * random(), 900);
  const slot_mm = within(one(2, 12, 20, pitch_mm / 2, pitch_mm + hair(), 3 + 40 * random(), 200), 2, 200);
  const strip_mm = one(5, 8, 10, 12);
  const batten_mm = within(
    one(0, pitch_mm - slot_mm, pitch_mm / 2, pitch_mm - strip_mm, pitch_mm - 20, random() * pitch_mm) +
      hair(),
    0,
    500,
  );
  const bay_mm = pitch_mm - batten_mm;
  const cavity_mm = within(one(5, strip_mm, 10, 22, 300, 5 + 60 * random()) + hair(), 5, 300);
  const strip = one('backing', 'front', 'side');
  const carrierWidth_mm = within(
    one(strip_mm, bay_mm, cavity_mm, (bay_mm - slot_mm) / 2, 5 + 30 * random()) + hair(),
    5,
    300,
  );
  const carrier = one('none', 'flat aluminium');
  const mounted_mm = carrier === 'none' ? strip_mm : Math.max(strip_mm, carrierWidth_mm);
  const ends_mm =
    strip === 'side'
      ? (cavity_mm - mounted_mm) / 2
      : one((slot_mm + mounted_mm) / 2, (bay_mm - mounted_mm) / 2, bay_mm / 2);
  const frontThickness_mm = one(1, 3, 12, 60);
  const job = panelOf(pitch_mm, slot_mm, {
    available_mm: 500,
    batten_mm,
    cavity_mm,
    strip,
    stripOffset_mm: within(one(0, 1, -1) * ends_mm + hair(), -1000, 1000),
    carrier,
    carrierWidth_mm,
    carrierThickness_mm: within(one(0.5, 2, 10, cavity_mm, bay_mm) + hair(), 0.5, 10),
    front: { material: 'oak', thickness_mm: frontThickness_mm },
    cover: one('open', 'opal acrylic', 'clear acrylic, 3 mm'),
    coverThickness_mm: within(one(1, 3, frontThickness_mm) + hair(), 1, 12),
    behind: one('insulation', 'inner wall'),
  });
  return { ...job, strip: { ...job.strip, data: { width_mm: strip_mm } } };
}

describe('sections whose edges touch', () => {
  it('answer quickly or are refused with a remedy', () => {
    const random = seededRandom(8105);
    for (let i = 0; i < 60; i++)
      answersOrRefuses(touching(random), i % 3 === 0 ? ['sizeJob', 'askJobLight'] : ['sizeJob']);
  });

  it('answer with care, and asked the other way round, or are refused with a remedy', () => {
    const random = seededRandom(417);
    for (let i = 0; i < 12; i++) answersOrRefuses(touching(random), i % 6 === 0 ? all : ['sizeJobCarefully']);
  });
});
