import { describe, expect, it } from 'vitest';
import type { HeatAnswer } from '../../../src/answer/heat.ts';
import type { SectionField } from '../../../src/heat/section-field.ts';
import type { Job } from '../../../src/job/job.ts';
import { type HeatQuestion, heatAnswer } from '../../../src/sizing/heat-answer.ts';
import type { HeatLaw } from '../../../src/sizing/heat-law.ts';
import { sectionOfJob } from '../../../src/sizing/section-of-job.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

const spot = (x_m: number, y_m: number) => ({ temperature_K: 300, x_m, y_m });

/** A field with no cover, and 2 W/m let out by three ways. */
const field = {
  temperatures: {
    ...{ strip: { mean_K: 300, peak: spot(0.001, 0.034) }, hottestTimber: spot(0.002, 0.035) },
    ...{ cable: spot(0.014, 0.034), roomFace: spot(0.011, 0), glueLine: spot(0.07, 0.02), sheet: null },
    profile: null,
  },
  heat_W_per_m: 2,
  watts_W_per_m: {
    ...{ front: 1, jambs: 0.4, sheet: 0, cover: 0, profile: 0 },
    ...{ openSlotRadiation: 0.6, airExchange: 0, behind: 0 },
  },
  balance: 1e-5,
} as SectionField;

/** Every rise in proportion to the watts, a fifth more at the warm end of the doubts and a fifth less at the cold one. */
const response = { power: 1, bend: 0, warm: 1.2, cold: 0.8 };

const law: HeatLaw = {
  ...{ accuracy: 'quick', nominal_W_per_m: 2.4, room_degC: 25, field, notes: ['As the law says.'] },
  rises: {
    ...{ solderPoint: 24, tape: 20, timber: 15, glueLine: null, cable: 8 },
    ...{ roomFace: 5, sheet: 9, strip: 18, stratification: 2, coverInside: null, coverOutside: null },
  },
  responses: {
    ...{ solderPoint: response, tape: response, timber: response, glueLine: null, cable: response },
    ...{ roomFace: response, sheet: response, strip: response, stratification: response },
    ...{ coverInside: null, coverOutside: null },
  },
};

const { job, products, setOut } = preparedOf(wallOf([600, 800]));

function question(change: Partial<HeatQuestion> = {}): HeatQuestion {
  return {
    ...{ job, strip: products.strip, profile: null, section: sectionOfJob(job, products, setOut), law },
    loads: { strip_W_per_m: 3, facesAbsorbed_W_per_m: { backing: 0.5, front: 0.25 } },
    ...{ electrical_W_per_m: 4.8, ends_W_per_m: { least: 3.6, greatest: 6 }, unknown: null },
    ...change,
  };
}

describe('a quick answer', () => {
  const quick = () => granted(heatAnswer(question()));
  const rowOf = (answer: HeatAnswer) => (id: string) => answer.temperatures.find((one) => one.id === id);

  it('carries each rise from 2.4 to 4.8 W/m, twice as much, over a room of 25 degC', () => {
    const answer = quick();
    const values = answer.temperatures.map(({ id, value_degC }) => [id, value_degC]);
    expect(values).toEqual([
      ['solder', expect.closeTo(73, 9)],
      ['tape', expect.closeTo(65, 9)],
      ['timber', expect.closeTo(55, 9)],
      ['cable', expect.closeTo(41, 9)],
      ['face', expect.closeTo(35, 9)],
    ]);
    expect(answer.upperEnd_K).toBeCloseTo(4, 9);
  });

  it('has a band: the doubts, the watts from 3.6 to 6, and 1 % and 0.15 K for the mesh', () => {
    const row = rowOf(quick());
    // Solder 48 K: 48*1.2*6/4.8 = 72, 48*0.8*3.6/4.8 = 28.8, either wider by 0.48 + 0.15.
    expect(row('solder')!.high_degC).toBeCloseTo(25 + 72.63, 9);
    expect(row('solder')!.low_degC).toBeCloseTo(25 + 28.17, 9);
  });

  it('says where each is in millimetres, and leaves out what the section does not have', () => {
    const row = rowOf(quick());
    expect(row('tape')).toMatchObject({ x_mm: 1, y_mm: 34 });
    expect(row('cable')).toMatchObject({ x_mm: 14, y_mm: 34 });
    expect(row('face')).toMatchObject({ x_mm: 11, y_mm: 0 });
    expect(row('timber')).toMatchObject({ x_mm: 2, y_mm: 35 });
    // A rise without a place, and a place without a rise.
    expect([row('sheet'), row('glue')]).toEqual([undefined, undefined]);
  });

  it('has the watts of the question: 3 + 0.5 + 0.25 W/m of heat, by the shares of the field', () => {
    const answer = quick();
    expect(answer).toMatchObject({
      ...{ strip_W_per_m: 4.8, stripBand_W_per_m: { least: 3.6, greatest: 6 }, heat_W_per_m: 3.75 },
    });
    // 3.75 over 2 W/m is 1.875 times 1, 0.4 and 0.6 W/m.
    expect(answer.paths.map(({ watts_per_m }) => watts_per_m)).toEqual([
      expect.closeTo(1.875, 9),
      expect.closeTo(0.75, 9),
      expect.closeTo(1.125, 9),
    ]);
    expect(answer.paths[2]!.name).toBe('radiated out of the open slot');
  });

  it('is not confirmed, draws no field, and remarks what its law does', () => {
    const outcome = heatAnswer(question());
    const answer = granted(outcome);
    expect(answer).toMatchObject({ field: null, unknown: null, balance: 1e-5 });
    expect(answer.method).toMatch(/not yet confirmed/);
    expect(outcome.ok && outcome.notes).toEqual(['As the law says.']);
  });

  it('has no paths where there is no heat, and no life where heat is not known', () => {
    const cold = { ...law, field: { ...field, heat_W_per_m: 0 } };
    const still = granted(heatAnswer(question({ law: cold, loads: { strip_W_per_m: 0 } })));
    expect([still.paths, still.heat_W_per_m]).toEqual([[], 0]);
    const tested: Job = {
      ...job,
      strip: { ...job.strip, lifeTests: [{ case_degC: 55, sampleCount: 20, readings: [] }] },
    };
    const unsure = granted(heatAnswer(question({ job: tested, unknown: 'Not known.' })));
    expect(unsure.unknown).toBe('Not known.');
    expect(unsure.life.sentence).toMatch(/how warm the LEDs get is not known/);
  });
});

describe('a section that cannot be', () => {
  it('is refused where the answer has to solve it', () => {
    const { section } = question();
    const asked = question({
      law: { ...law, accuracy: 'careful' },
      section: { ...section, slotWidth_m: 0.3 },
    });
    expect(heatAnswer(asked)).toMatchObject({ ok: false, issues: [{ code: 'slot-wider-than-pitch' }] });
  });
});

describe('a careful answer', () => {
  // 40 mm of build-up: front 12, cavity 22, backing 6; slots 200 mm apart; the strip lies on the backing.
  const careful = { ...law, accuracy: 'careful' as const, room_degC: 26 };
  const solved = () => {
    const answer = granted(heatAnswer(question({ law: careful })));
    return { answer, picture: answer.field!, tape: answer.temperatures.find(({ id }) => id === 'tape')! };
  };

  it('is solved at the watts of the question and confirmed', () => {
    const { answer, tape } = solved();
    expect(answer.method).toMatch(/, confirmed by/);
    expect(Math.abs(answer.balance)).toBeLessThan(1e-3);
    expect(answer.heat_W_per_m).toBe(3.75);
    const out = answer.paths.reduce((sum, { watts_per_m }) => sum + watts_per_m, 0);
    expect(out).toBeCloseTo(3.75, 2);
    // The band is that of the doubts and the watts alone: 6 of 4.8 W/m, a fifth more.
    expect((tape.high_degC - 26) / (tape.value_degC - 26)).toBeCloseTo(1.5, 9);
    expect((tape.low_degC - 26) / (tape.value_degC - 26)).toBeCloseTo(0.6, 9);
  });

  it('draws half a pitch and the whole depth in millimetres and degrees', () => {
    const { answer, picture, tape } = solved();
    expect(picture.half).toBe(true);
    expect([picture.xs_mm[0], picture.xs_mm.at(-1)]).toEqual([expect.closeTo(0, 9), expect.closeTo(100, 9)]);
    expect([picture.ys_mm[0], picture.ys_mm.at(-1)]).toEqual([expect.closeTo(0, 9), expect.closeTo(40, 9)]);
    expect(picture.temperature_degC).toHaveLength(picture.xs_mm.length * picture.ys_mm.length);
    const known = picture.temperature_degC.filter((one) => one !== null);
    expect(known.length).toBeLessThan(picture.temperature_degC.length);
    // Nothing is colder than the room of 26 degC, nothing warmer than the strip without its upper end.
    expect(Math.min(...known)).toBeGreaterThan(26);
    expect(Math.max(...known)).toBeLessThan(tape.value_degC - answer.upperEnd_K + 0.1);
    expect(Math.max(...known)).toBeGreaterThan(tape.value_degC - answer.upperEnd_K - 1);
  });

  it('tells its meshes, each finer, the last peak being that of the strip', () => {
    const { answer, picture, tape } = solved();
    const counts = picture.meshes.map(({ nodeCount }) => nodeCount);
    expect(counts).toEqual(counts.toSorted((a, b) => a - b));
    // Within the 0.1 K that every answer is good for.
    const off_K = picture.meshes.at(-1)!.stripPeak_degC - (tape.value_degC - answer.upperEnd_K);
    expect(Math.abs(off_K)).toBeLessThan(0.1);
    expect(tape).toMatchObject({ y_mm: expect.closeTo(34, 3) });
  });
});
