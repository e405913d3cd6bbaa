import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  conductance_S,
  current_A,
  nominalCurrent_A,
  relativeLight,
  type StripLaw,
  warmLaw,
} from '../../src/circuit/strip-law.ts';
import { regulatedLaw, resistorLaw } from './examples.ts';

const laws = fc
  .record({
    nominal_V: fc.constantFrom(12, 24, 48),
    unit_W: fc.double({ min: 0.05, max: 5, noNaN: true }),
    lampForward_V: fc.double({ min: 2, max: 3.3, noNaN: true }),
    slope_V: fc.double({ min: 0.03, max: 0.12, noNaN: true }),
    isRegulated: fc.boolean(),
  })
  .map(({ isRegulated, ...law }): StripLaw => {
    const lampsInSeries = Math.floor((law.nominal_V * 0.9) / law.lampForward_V);
    const common = { ...law, lampsInSeries };
    return isRegulated
      ? { kind: 'regulated', ...common, dropout_V: law.nominal_V * 0.08 }
      : { kind: 'resistor', ...common };
  });

const temperatures = fc.double({ min: -10, max: 90, noNaN: true });
const volts = fc.double({ min: -5, max: 58, noNaN: true });

describe('strip law', () => {
  it('draws nominal current at nominal volts and 25 degC', () => {
    fc.assert(
      fc.property(laws, (law) => {
        const amps = nominalCurrent_A(law);
        expect(Math.abs(current_A(warmLaw(law, 25), law.nominal_V) / amps - 1)).toBeLessThan(1e-12);
      }),
      { seed: 1, numRuns: 200 },
    );
  });

  it('gives back its volts when its current is put into the implicit law', () => {
    fc.assert(
      fc.property(laws, temperatures, volts, (law, lamp_degC, unit_V) => {
        const warm = warmLaw(law, lamp_degC);
        const amps = current_A(warm, unit_V);
        if (unit_V >= warm.regulatedFrom_V || amps < 1e-12 * warm.nominal_A) return;
        const back_V = warm.slope_V * Math.log1p(amps / warm.saturation_A) + warm.resistance_ohm * amps;
        expect(Math.abs(back_V - unit_V)).toBeLessThan(1e-11);
      }),
      { seed: 2, numRuns: 2000 },
    );
  });

  it('never draws less for more volts, and nothing to speak of backwards', () => {
    fc.assert(
      fc.property(laws, temperatures, volts, volts, (law, lamp_degC, a_V, b_V) => {
        const warm = warmLaw(law, lamp_degC);
        const [low_V, high_V] = a_V < b_V ? [a_V, b_V] : [b_V, a_V];
        expect(current_A(warm, high_V)).toBeGreaterThanOrEqual(current_A(warm, low_V) * (1 - 1e-14) - 1e-30);
        expect(Math.abs(current_A(warm, -1e4))).toBeLessThan(1e-6 * warm.nominal_A);
      }),
      { seed: 3, numRuns: 1000 },
    );
  });

  it('has the slope that differences show', () => {
    fc.assert(
      fc.property(
        laws,
        temperatures,
        fc.double({ min: 8, max: 58, noNaN: true }),
        (law, lamp_degC, unit_V) => {
          const warm = warmLaw(law, lamp_degC);
          const h = 1e-5;
          if (Math.abs(unit_V - warm.regulatedFrom_V) < 2 * h) return;
          const difference = (current_A(warm, unit_V + h) - current_A(warm, unit_V - h)) / (2 * h);
          const slope = conductance_S(warm, unit_V, current_A(warm, unit_V));
          expect(Math.abs(difference - slope)).toBeLessThan(1e-6 / warm.resistance_ohm);
        },
      ),
      { seed: 4, numRuns: 500 },
    );
  });

  it('reaches the regulated current without a step', () => {
    const warm = warmLaw(regulatedLaw, 25);
    expect(warm.regulatedFrom_V).toBeCloseTo(6 * 3 + 1.2, 12);
    expect(current_A(warm, warm.regulatedFrom_V - 1e-9)).toBeCloseTo(warm.nominal_A, 9);
    expect(current_A(warm, 29)).toBe(warm.nominal_A);
  });

  it('lets a warm resistor strip draw what 2 mV/K of six lamps add, a regulated one no more', () => {
    const cold = current_A(warmLaw(resistorLaw, 25), 24);
    const warm = current_A(warmLaw(resistorLaw, 65), 24);
    const steep = warmLaw({ ...resistorLaw, slope_V: 0.02 }, 65);
    expect(warm).toBeGreaterThan(cold);
    // Without slope the lamps give 6 * 0.08 V to the resistor, which had 6 V: 8 % more current.
    expect(current_A(steep, 24) / cold).toBeCloseTo(1.08, 2);
    expect(current_A(warmLaw(regulatedLaw, 65), 24)).toBe(nominalCurrent_A(regulatedLaw));
  });

  it('makes light by the power 0.92 of current', () => {
    expect(relativeLight(1)).toBe(1);
    expect(relativeLight(0.5)).toBeCloseTo(0.5285, 4);
    expect(relativeLight(-1e-20)).toBe(0);
  });

  it('throws where the constants cannot be', () => {
    expect(() => warmLaw({ ...resistorLaw, lampForward_V: 4 }, 25)).toThrow(RangeError);
    expect(() => warmLaw({ ...regulatedLaw, dropout_V: 0 }, 25)).toThrow(RangeError);
  });
});
