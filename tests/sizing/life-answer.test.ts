import { describe, expect, it } from 'vitest';
import type { HeatAnswer } from '../../src/answer/heat.ts';
import type { LifeTest } from '../../src/job/life-test.ts';
import { lifeAnswer } from '../../src/sizing/life-answer.ts';

const at = (high_degC: number): HeatAnswer['temperatures'] => [
  {
    ...{ id: 'solder', name: '', value_degC: high_degC - 2, low_degC: high_degC - 4, high_degC },
    ...{ limit_degC: null, limits: [], x_mm: null, y_mm: null },
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
