import { describe, expect, it } from 'vitest';
import type { HeatAnswer } from '../../src/answer/heat.ts';
import type { LifeTest } from '../../src/job/life-test.ts';
import { lifeAnswer } from '../../src/sizing/life-answer.ts';

const at = (high_degC: number): HeatAnswer['temperatures'] => [
  {
    ...{ id: 'solder', name: '', value_degC: high_degC - 2, low_degC: high_degC - 4, high_degC },
    ...{ power: 1, limit_degC: null, limits: [], x_mm: null, y_mm: null },
  },
];

/** Readings of an exact decay, every 1,000 hours to 10,000. */
const exact = (case_degC: number, alpha_per_h: number, b: number): LifeTest => ({
  case_degC,
  sampleCount: 20,
  readings: Array.from({ length: 10 }, (_, i) => (i + 1) * 1000).map((hours) => ({
    hours,
    maintenance: b * Math.exp(-alpha_per_h * hours),
  })),
});

// The worked example of the IES TM-21 slides of the US DOE (secondary): 55 and 85 degC, in situ 70 degC.
const example = [exact(55, 1.684e-6, 0.9639), exact(85, 3.354e-6, 0.9525)];

describe('life of the strip', () => {
  it('is 130,131 h by projection at 70 degC and reported as more than 60,000 h, as the slides print', () => {
    const life = lifeAnswer(example, at(70));
    expect(life).toMatchObject({ hours: 60000, atLeast: true });
    expect(life.sentence).toContain('more than 60,000 hours');
  });

  it('is not capped where the lamps fade fast, and is shorter when hotter', () => {
    const fast = [exact(55, 2e-5, 1), exact(85, 4e-5, 1)];
    const [cool, hot] = [lifeAnswer(fast, at(60)), lifeAnswer(fast, at(80))];
    expect(cool.atLeast).toBe(false);
    expect(hot.hours!).toBeLessThan(cool.hours!);
    expect(lifeAnswer(fast, at(40)).hours!).toBeCloseTo(Math.log(1 / 0.7) / 2e-5, 3);
  });

  it('has no number without data, beyond the tests, or from a test that was too short', () => {
    expect(lifeAnswer([], at(50)).hours).toBeNull();
    expect(lifeAnswer(example, at(90)).sentence).toContain('tested at 85 °C at most');
    const short = { ...example[0]!, readings: example[0]!.readings.slice(0, 4) };
    expect(lifeAnswer([short], at(50)).sentence).toContain('6000 h');
  });
});

/** Lamps that fade by so much an hour at 55, 85 and 105 degC, all their light at the beginning: L70 after 0.356675/alpha. */
const fading = (...alphas_per_h: number[]) =>
  alphas_per_h.map((alpha_per_h, i) => exact([55, 85, 105][i]!, alpha_per_h, 1));

describe('the decay a life is projected with', () => {
  const hoursAt = (tests: LifeTest[], high_degC: number) => lifeAnswer(tests, at(high_degC)).hours;
  const tests = fading(2e-5, 4e-5, 8e-5);

  it('is that of the coolest test up to its own temperature: 17,833.7 h', () => {
    expect(hoursAt(tests, 40)).toBeCloseTo(17833.75, 1);
    expect(hoursAt(tests, 55)).toBeCloseTo(17833.75, 1);
  });

  it('lies between the two tests about it, by Arrhenius', () => {
    // ln 2/(1/328.15 - 1/358.15) = 2715.47 K; at 343.15 K 2e-5*exp(2715.47*1.33209e-4) = 2.871608e-5 an hour.
    expect(hoursAt(tests, 70)).toBeCloseTo(12420.7, 0);
    // ln 2/(1/358.15 - 1/378.15) = 4693.74 K; at 368.15 K 4e-5*exp(4693.74*7.58419e-5) = 5.710442e-5 an hour.
    expect(hoursAt(tests, 95)).toBeCloseTo(6246.0, 0);
  });

  it('is that of the hottest test at its own temperature, and none above', () => {
    expect(hoursAt(tests, 85)).toBeCloseTo(8916.87, 1);
    expect(hoursAt(tests, 105)).toBeCloseTo(4458.44, 1);
    const beyond = lifeAnswer(tests, at(105.6));
    expect(beyond.hours).toBeNull();
    expect(beyond.sentence).toContain('reach 106 °C and were tested at 105 °C at most');
  });

  it('is the same in whichever order the tests were typed', () => {
    const [one, two, three] = tests;
    for (const order of [
      [three!, two!, one!],
      [two!, three!, one!],
    ])
      expect([40, 70, 95].map((one_degC) => hoursAt(order, one_degC))).toEqual(
        [40, 70, 95].map((one_degC) => hoursAt(tests, one_degC)),
      );
  });

  it('is that of the hotter test where lamps did not fade in one of the two', () => {
    expect(hoursAt(fading(0, 4e-5), 70)).toBeCloseTo(8916.87, 1);
    // None in the hotter: as long as may be said, 6 times 10,000 h.
    expect(lifeAnswer(fading(4e-5, 0), at(70))).toMatchObject({ hours: 60000, atLeast: true });
  });
});

describe('what may be said of a life', () => {
  it('is 5.5 or 6 times the shortest test, by the fewest samples', () => {
    const slow = fading(1e-6, 2e-6);
    // Readings to 7,000 h of the cooler one, 10,000 h of the hotter.
    const shorter = { ...slow[0]!, readings: slow[0]!.readings.slice(0, 7) };
    expect(lifeAnswer([shorter, slow[1]!], at(50)).hours).toBe(42000);
    expect(lifeAnswer([shorter, slow[1]!], at(80)).hours).toBe(42000);
    expect(lifeAnswer([slow[0]!, { ...slow[1]!, sampleCount: 19 }], at(50)).hours).toBe(55000);
  });

  it('is said to the hundred hours, and that the test was too short only where it was', () => {
    expect(lifeAnswer(fading(2e-5), at(49.6)).sentence).toBe(
      'At 50 °C the strip keeps 70 % of its light for about 17,800 hours.',
    );
    expect(lifeAnswer(fading(1e-6), at(50)).sentence).toBe(
      'At 50 °C the strip keeps 70 % of its light for more than 60,000 hours; the test was too short to say more.',
    );
  });

  it('is nothing where no test, no solder point or no temperature is known, each said for itself', () => {
    const tests = fading(2e-5);
    expect(lifeAnswer([], at(50)).sentence).toContain('takes a life test');
    const [solder] = at(50);
    expect(lifeAnswer(tests, [{ ...solder!, id: 'tape' }]).sentence).toContain('takes a life test');
    expect(lifeAnswer(tests, at(50), 'Not known: it leans.')).toEqual({
      hours: null,
      atLeast: false,
      sentence: 'No life is given: how warm the LEDs get is not known.',
    });
  });

  it('is read off the row of the solder point', () => {
    const [solder] = at(50);
    expect(lifeAnswer(fading(2e-5), [{ ...solder!, id: 'tape', high_degC: 99 }, solder!]).hours).toBeCloseTo(
      17833.75,
      1,
    );
  });
});
