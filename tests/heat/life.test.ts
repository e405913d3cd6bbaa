import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitStripWatts } from '../../reference/laws/led-heat.ts';
import { decayBetween, fitDecay, projectedLife } from '../../src/heat/life.ts';

const decaying = (alpha_per_h: number, b: number, hours: readonly number[]) =>
  hours.map((h) => ({ hours: h, maintenance: b * Math.exp(-alpha_per_h * h) }));

describe('the fit of a life test', () => {
  it('finds again the decay that made the data, whatever came before its window', () => {
    const alpha = fc.double({ min: 1e-7, max: 1e-5, noNaN: true });
    fc.assert(
      fc.property(alpha, fc.double({ min: 0.9, max: 1.1, noNaN: true }), (a, b) => {
        const early = [
          { hours: 0, maintenance: 1 },
          { hours: 500, maintenance: 0.5 },
        ];
        const outcome = fitDecay([...early, ...decaying(a, b, [1000, 2000, 3000, 4500, 6000])]);
        expect(outcome.ok && outcome.value.alpha_per_h / a).toBeCloseTo(1, 6);
        expect(outcome.ok && outcome.value.b).toBeCloseTo(b, 9);
      }),
      { seed: 81, numRuns: 60 },
    );
  });

  it('uses the last half of a long test', () => {
    const hours = [1000, 4000, 7000, 8000, 10_000, 12_000, 14_000];
    const outcome = fitDecay(decaying(2e-6, 1, hours));
    expect(outcome.ok && [outcome.value.from_h, outcome.value.readingCount]).toEqual([7000, 5]);
  });

  it('is refused a short test', () => {
    const outcome = fitDecay(decaying(2e-6, 1, [1000, 2000, 5000]));
    expect(outcome.ok ? '' : outcome.issues[0]!.code).toBe('life-data-too-short');
  });
});

describe('projected life', () => {
  const test = { share: 0.7, test_h: 6000, sampleCount: 20 };

  it('is cut at 6 and 5.5 times the test by the number of samples', () => {
    const slow = { alpha_per_h: 1e-7, b: 1 };
    expect(projectedLife(slow, test)).toMatchObject({ reported_h: 36_000, capped: true });
    expect(projectedLife(slow, { ...test, sampleCount: 12 }).reported_h).toBe(33_000);
    expect(() => projectedLife(slow, { ...test, sampleCount: 9 })).toThrow(RangeError);
  });

  it('is itself below the cap, and the cap for a decay that does not fall', () => {
    expect(projectedLife({ alpha_per_h: 1e-4, b: 1 }, test).capped).toBe(false);
    expect(projectedLife({ alpha_per_h: -1e-6, b: 1 }, test)).toEqual({
      projected_h: 36_000,
      reported_h: 36_000,
      capped: true,
    });
  });

  it('meets both tests at their temperatures, is never extrapolated, and shortens with heat between', () => {
    const tests = [
      { temperature_K: 358.15, alpha_per_h: 3.354e-6, b: 0.9525 },
      { temperature_K: 328.15, alpha_per_h: 1.684e-6, b: 0.9639 },
    ] as const;
    const at = (t: number) => {
      const outcome = decayBetween(tests, t);
      return outcome.ok ? outcome.value.alpha_per_h : Number.NaN;
    };
    expect(at(358.15) / 3.354e-6).toBeCloseTo(1, 9);
    expect(at(328.15)).toBe(1.684e-6);
    expect(at(300)).toBe(1.684e-6);
    expect(at(345)).toBeGreaterThan(at(340));
    const hot = decayBetween(tests, 360);
    expect(hot.ok ? '' : hot.issues[0]!.code).toBe('life-outside-tested-temperatures');
  });
});

describe('the watts of a strip', () => {
  it('add up, and light that cannot leave stays', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.integer({ min: 40, max: 200 }),
        share,
        (w, lm, s) => {
          const watts = splitStripWatts({ electrical_W_per_m: w, efficacy_lm_per_W: lm, leavingShare: s });
          expect(watts.strip_W_per_m + watts.trapped_W_per_m + watts.leaving_W_per_m).toBeCloseTo(w, 9);
          expect(
            Math.min(watts.strip_W_per_m, watts.trapped_W_per_m, watts.leaving_W_per_m),
          ).toBeGreaterThanOrEqual(0);
        },
      ),
      { seed: 82, numRuns: 60 },
    );
    expect(() => splitStripWatts({ electrical_W_per_m: 1, efficacy_lm_per_W: 400, leavingShare: 0 })).toThrow(
      RangeError,
    );
    expect(() => splitStripWatts({ electrical_W_per_m: 1, efficacy_lm_per_W: 100, leavingShare: 2 })).toThrow(
      RangeError,
    );
  });
});
