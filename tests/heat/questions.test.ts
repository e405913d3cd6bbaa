import { describe, expect, it } from 'vitest';
import { type TemperatureLimit, temperatureLimits } from '../../src/heat/limits.ts';
import {
  answerPoint,
  highestPower,
  limitChecks,
  passingDepths,
  type SectionQuestion,
  sweepDepth,
  sweepPower,
  variantsOf,
} from '../../src/heat/questions.ts';
import type { Outcome } from '../../src/outcome.ts';
import { carrier, panel, sheet } from './sections.ts';

function answered<V>(outcome: Outcome<V>): V {
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
}

const question: SectionQuestion = {
  section: panel,
  loads: { strip_W_per_m: 7 },
  request: { lampRise_K: 6 },
  limits: temperatureLimits({ touch: 'touched', stripRating_degC: 70 }),
};

/** Only the strip's own rating. */
const rated = (stripRating_degC: number): SectionQuestion => ({
  ...question,
  limits: temperatureLimits({ touch: 'touched', stripRating_degC }).filter((l) => l.id === 'strip-rating'),
});

describe('sweeps', () => {
  it('answer each point as if it were asked alone', () => {
    const [first, second] = sweepDepth(question, [0.02, 0.04]).points;
    expect(first).toEqual(answered(answerPoint(question, { cavityDepth_m: 0.02 })));
    expect(second!.cavityDepth_m).toBe(0.04);
  });

  it('scale all heat and the rise of the lamp with power', () => {
    const [none, half, all] = answered(sweepPower(question, [0, 0.5, 1]));
    expect(none!.answer.temperatures.solderPoint_K).toBeCloseTo(panel.room_K, 3);
    const rise = (p: typeof all) => p!.answer.temperatures.solderPoint_K - panel.room_K;
    expect(rise(half)).toBeGreaterThan(0.45 * rise(all));
    expect(rise(half)).toBeLessThan(0.6 * rise(all));
    expect(
      half!.answer.temperatures.solderPoint_K - half!.answer.temperatures.strip.peak.temperature_K,
    ).toBeCloseTo(3, 9);
  });
});

describe('the depths that pass', () => {
  it('end where the margin is used up, to a tenth of a millimetre', () => {
    // Deeper than about 20 mm the strip cools again; ask for a rating between what 25 and 60 mm give.
    const at = (q: SectionQuestion, cavityDepth_m: number) => answered(answerPoint(q, { cavityDepth_m }));
    const deep = at(rated(70), 0.055).checks[0]!.value_degC;
    const asked = rated(deep);
    const stretches = passingDepths(asked, [0.015, 0.03, 0.045, 0.06]);
    expect(stretches.length).toBe(1);
    expect(stretches[0]!.from_m).toBeCloseTo(0.055, 3);
    expect(stretches[0]!.to_m).toBe(0.06);
    expect(at(asked, stretches[0]!.from_m).passes).toBe(true);
    expect(at(asked, stretches[0]!.from_m - 2e-4).passes).toBe(false);
  });

  it('may be none', () => {
    expect(passingDepths(rated(40), [0.015, 0.03, 0.045])).toEqual([]);
  });

  it('may be all', () => {
    const depths_m = [0.015, 0.03, 0.045];
    expect(passingDepths(rated(120), depths_m)).toEqual([{ from_m: 0.015, to_m: 0.045 }]);
  });

  it('begin where the section can be built: above the carrier, shallower depths being gaps with their reason', () => {
    const thick = { ...carrier, thickness_m: 0.012 };
    const asked = { ...rated(120), section: { ...panel, strip: { ...panel.strip, carrier: thick } } };
    const depths_m = [0.008, 0.011, 0.02, 0.03];
    const swept = sweepDepth(asked, depths_m);
    expect(swept.points.map((point) => point.cavityDepth_m)).toEqual([0.02, 0.03]);
    expect(swept.gaps.map((gap) => gap.cavityDepth_m)).toEqual([0.008, 0.011]);
    expect(swept.gaps[0]!.issues[0]!.code).toBe('carrier-fills-cavity');
    const [only, ...none] = passingDepths(asked, depths_m);
    expect(none).toEqual([]);
    expect(only!.from_m).toBeGreaterThan(0.012);
    expect(only!.from_m).toBeLessThan(0.0122);
    expect(only!.to_m).toBe(0.03);
  });
});

describe('the highest power', () => {
  it('passes, and one per cent more does not', () => {
    const best = answered(highestPower(question))!;
    expect(best.unbounded).toBe(false);
    expect(answered(answerPoint(question, { share: best.share })).passes).toBe(true);
    expect(answered(answerPoint(question, { share: 1.01 * best.share })).passes).toBe(false);
    expect(best.strip_W_per_m).toBeCloseTo(7 * best.share, 9);
  });

  it('is higher on a carrier', () => {
    const carried = { ...question, section: { ...panel, strip: { ...panel.strip, carrier } } };
    expect(answered(highestPower(carried))!.share).toBeGreaterThan(
      1.05 * answered(highestPower(question))!.share,
    );
  });

  it('is null in a room that is too warm already, and says where nothing binds', () => {
    expect(answered(highestPower(rated(20)))).toBeNull();
    expect(answered(highestPower(rated(1000), 1.5))!.unbounded).toBe(true);
  });
});

describe('checks', () => {
  it('come least margin first and leave out places that do not exist', () => {
    const point = answered(answerPoint(question));
    const margins = point.checks.map((check) => check.margin_K);
    expect(margins).toEqual([...margins].sort((a, b) => a - b));
    expect(point.checks.some((check) => check.limit.place === 'sheet')).toBe(false);
    const closed = answered(answerPoint({ ...question, section: { ...panel, sheet } }));
    expect(closed.checks.some((check) => check.limit.place === 'sheet')).toBe(true);
  });

  it('add the allowance for the upper end to the place', () => {
    const { answer } = answered(answerPoint({ ...question, section: { ...panel, cavityDepth_m: 0.045 } }));
    const limit = question.limits.find((l): l is TemperatureLimit => l.id === 'timber-77')!;
    const [check] = limitChecks([limit], answer);
    expect(answer.stratification_K).toBeGreaterThan(1);
    expect(check!.value_degC + 273.15).toBeCloseTo(
      answer.temperatures.hottestTimber.temperature_K + answer.stratification_K,
      9,
    );
  });

  it('do not let a caution stand in the way of passing', () => {
    const caution = question.limits.filter((limit) => limit.beyond === 'caution');
    const point = answered(answerPoint({ ...question, limits: caution, loads: { strip_W_per_m: 30 } }));
    expect(point.checks[0]!.margin_K).toBeLessThan(0);
    expect(point.passes).toBe(true);
  });
});

describe('variants', () => {
  it('are the other carrier and the other slot', () => {
    expect(variantsOf(panel).map((v) => v.key)).toEqual(['with-carrier', 'slot-closed']);
    const other = { ...panel, sheet, strip: { ...panel.strip, carrier } };
    expect(variantsOf(other).map((v) => v.key)).toEqual(['without-carrier', 'slot-open']);
    expect(
      variantsOf(other).every((v) => answered(answerPoint({ ...question, section: v.section }))),
    ).toBeTruthy();
  });
});
