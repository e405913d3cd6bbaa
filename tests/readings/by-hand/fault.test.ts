import { describe, expect, it } from 'vitest';
import { findFault, goodFitLimit } from '../../../src/readings/fault-finding.ts';
import {
  type Fault,
  fitFaults,
  likeliestShifts,
  type MeasuredValues,
  type ReadingModel,
} from '../../../src/readings/fault-fit.ts';

/**
 * Two branches and a loop in straight lines, so that every fit is one line of arithmetic. Sound they read 10 V, 20 V and
 * 0.5 ohm; a contact at `a` takes 2 V from the first for each ohm, one at `b` 4 V from the second, and either is in the
 * loop. Without run `r` the second reads 22 V, or 0 V where no volts reach it. Spreads are 0.1 V, 0.2 V, 0.1 ohm, so that
 * an ohm at either is worth 20 spreads of its branch and 10 of the loop.
 */
const read = (fault: Fault): number[] => {
  if (fault.kind === 'missing run') return [10, 22, 0.5];
  if (fault.kind === 'unfed run') return [10, 0, 0.5];
  if (fault.kind === 'none' || fault.kind === 'open circuit') return [10, 20, 0.5];
  const { place, ohm } = fault;
  if (place.startsWith('a')) return [10 - 2 * ohm, 20, 0.5 + ohm];
  if (place === 'b') return [10, 20 - 4 * ohm, 0.5 + ohm];
  if (place === 'weak') return [10 - 0.01 * ohm, 20, 0.5];
  if (place === 'bent') return [10 - 2 * ohm ** 2, 20, 0.5];
  return [10, 20, 0.5];
};

const model: ReadingModel = { predict: read, resistancePlaces: ['a', 'b'], runs: ['r'] };
const at = (...resistancePlaces: string[]): ReadingModel => ({ ...model, resistancePlaces, runs: [] });

const values = (measured: (number | null)[], shifts: number[][] = []): MeasuredValues => ({
  ...{ measured, shifts, spread: [0.1, 0.2, 0.1] },
});

/** What the meters show with so many ohms at `a`. */
const withOhms = (ohm: number) => values(read({ kind: 'resistance', place: 'a', ohm }));

const ohmOf = (fault: Fault): number => (fault.kind === 'resistance' ? fault.ohm : Number.NaN);

describe('the fit of every single fault', () => {
  /**
   * 0.3 ohm at `a`. Sound: 6 and 3 spreads off, 36 + 9. At `a`: nothing left. At `b` with R ohm: 36 + (20 R)^2 + (3 - 10
   * R)^2, least where 1000 R = 60: R = 0.06, 36 + 1.44 + 5.76. Run `r`: 10 spreads more.
   */
  const fitsNow = () => fitFaults(model, withOhms(0.3));

  it('is by least squares', () => {
    const fits = fitsNow();
    expect(fits.map(({ fault }) => fault.kind)).toEqual([
      ...['none', 'resistance', 'resistance', 'missing run'],
    ]);
    for (const [i, chiSquare] of [45, 0, 43.2, 145].entries())
      expect(fits[i]!.chiSquare).toBeCloseTo(chiSquare, 6);
    expect(ohmOf(fits[1]!.fault)).toBeCloseTo(0.3, 9);
    expect(ohmOf(fits[2]!.fault)).toBeCloseTo(0.06, 9);
  });

  it('gives the ohms with their spread', () => {
    const fits = fitsNow();
    for (const [i, ohmSpread] of [0, 1 / Math.sqrt(20 ** 2 + 10 ** 2), 1 / Math.sqrt(500), 0].entries())
      expect(fits[i]!.ohmSpread).toBeCloseTo(ohmSpread, 9);
  });

  it('has no ohms below nought', () => {
    const [sound, a] = fitFaults(at('a'), withOhms(-0.3));
    expect(ohmOf(a!.fault)).toBe(0);
    expect(a!.chiSquare).toBeCloseTo(sound!.chiSquare, 9);
  });

  // 1 V less at 0.01 V for each ohm asks for 100 ohm; 10 are as good as open and leave 0.9 V, 9 spreads.
  it('has no more than 10 ohm', () => {
    const [, weak] = fitFaults(at('weak'), values([9, 20, 0.5]));
    expect(ohmOf(weak!.fault)).toBe(10);
    expect(weak!.chiSquare).toBeCloseTo(81, 6);
    expect(weak!.ohmSpread).toBeCloseTo(10, 6);
  });

  it('of a place that no reading notices is the sound one', () => {
    const [sound, nowhere] = fitFaults(at('nowhere'), withOhms(0.3));
    expect(nowhere).toEqual({ ...sound, fault: { kind: 'resistance', place: 'nowhere', ohm: 0 } });
  });

  // 0.5 ohm squared is 0.25: 0.5 V off. At the end an ohm is worth some 4*0.5/0.1 = 20 spreads, and a step is 0.03 of one.
  it('follows a line that bends', () => {
    const [, bent] = fitFaults(at('bent'), values([9.5, 20, 0.5]));
    expect(ohmOf(bent!.fault)).toBeCloseTo(0.5, 2);
    expect(bent!.chiSquare).toBeLessThan(1e-2);
    expect(1 / bent!.ohmSpread).toBeGreaterThan(18);
    expect(1 / bent!.ohmSpread).toBeLessThan(22);
  });

  it('of a run is with or without volts, whichever explains more', () => {
    const kind = (second_V: number) => fitFaults(model, values([10, second_V, 0.5])).at(-1)!;
    expect(kind(22)).toMatchObject({ fault: { kind: 'missing run', place: 'r' }, chiSquare: 0 });
    expect(kind(0)).toMatchObject({ fault: { kind: 'unfed run', place: 'r' }, chiSquare: 0 });
    // 11 V lie in the middle.
    expect(kind(11).fault.kind).toBe('missing run');
  });

  it('leaves out what was not measured', () => {
    const fits = fitFaults(model, values([9.4, null, null]));
    expect(fits[0]!.chiSquare).toBeCloseTo(36, 9);
    expect(fits[1]!.ohmSpread).toBeCloseTo(1 / 20, 9);
    expect(fits[3]!.chiSquare).toBeCloseTo(36, 9);
  });

  /**
   * Both volts are one spread high, and share a shift of one spread each. Covariance 2, 1, 1, 2; its inverse 2, -1, -1, 2
   * over 3: the sum of squares is 2/3, and so is the likeliest size of the shift.
   */
  it('counts shifts that readings share', () => {
    const shared = values([10.1, 20.2, null], [[0.1, 0.2, 0.7]]);
    expect(fitFaults(model, shared)[0]!.chiSquare).toBeCloseTo(2 / 3, 9);
    expect(likeliestShifts(model, shared, { kind: 'none' })).toHaveLength(1);
    expect(likeliestShifts(model, shared, { kind: 'none' })[0]).toBeCloseTo(2 / 3, 9);
  });
});

describe('a good fit', () => {
  // Chi-square passed once in a thousand times, as tables print it; the formula is 3 % high at one degree of freedom.
  it.each([
    [1, 10.828, 0.031],
    [5, 20.515, 0.012],
    [10, 29.588, 0.01],
    [30, 59.703, 0.002],
  ])('with %d degrees of freedom is up to about %d', (count, tabled, share) => {
    expect(Math.abs(goodFitLimit(count) / tabled - 1)).toBeLessThan(share);
  });

  it('has one degree of freedom at least', () => {
    expect(goodFitLimit(0)).toBe(goodFitLimit(1));
    expect(goodFitLimit(2)).toBeGreaterThan(goodFitLimit(1));
  });
});

describe('the finding', () => {
  // Four explanations: one has to be better than sound by 2 ln(4/0.01) = 11.98; R ohm at `a` are 500 R^2 better.
  it('names nothing that chance would bring', () => {
    expect(findFault(model, withOhms(0.15))).toMatchObject({
      ...{ verdict: 'as predicted', suspects: [], readingCount: 3 },
      sentence: 'The readings agree with the prediction within the errors of the meters.',
    });
  });

  /**
   * 0.16 ohm: sound 12.8, at `b` 43.2/45 of it, 12.288. Their weights are exp(-6.4) = 0.00166 and exp(-6.144) = 0.00215,
   * so that 1/1.00381 is left for `a`. Twice its spread is 2/sqrt(500) = 0.09 ohm.
   */
  it('names the place that leaves little doubt', () => {
    const found = findFault(model, withOhms(0.16));
    expect(found).toMatchObject({
      ...{ verdict: 'found', readingCount: 3, goodFit: goodFitLimit(2) },
      best: { kind: 'resistance', place: 'a' },
      sentence: 'The readings point to an extra 0.16 Ω (give or take 0.09 Ω) at a.',
    });
    expect(found.suspects).toHaveLength(1);
    expect(found.suspects[0]!.posterior).toBeCloseTo(1 / 1.00381, 5);
    expect(found.chiSquare).toBeCloseTo(0, 9);
  });

  it('names a run, with volts and without', () => {
    const { sentence } = findFault(model, values([10, 22, 0.5]));
    expect(sentence).toBe('The readings point to run r, which draws nothing.');
    expect(findFault(model, values([10, 0, 0.5])).sentence).toBe(
      'The readings point to run r, which draws nothing because no volts reach it.',
    );
  });

  it('leaves open what two places explain alike', () => {
    const twins = findFault(at('a1', 'a2', 'b'), withOhms(0.3));
    expect(twins.verdict).toBe('cannot tell');
    expect(twins.suspects.map(({ fault }) => (fault.kind === 'none' ? '' : fault.place))).toEqual([
      'a1',
      'a2',
    ]);
    for (const { posterior } of twins.suspects) expect(posterior).toBeCloseTo(0.5, 6);
    expect(twins.sentence).toBe(
      'The readings do not determine the place: an extra 0.30 Ω (give or take 0.09 Ω) at a1; or an extra 0.30 Ω (give or take 0.09 Ω) at a2. Measure again nearer to these places.',
    );
  });

  it('names four of many and counts the others', () => {
    const many = (count: number) =>
      findFault(at(...Array.from({ length: count }, (_, i) => `a${i + 1}`)), withOhms(0.3)).sentence;
    expect(many(4)).toMatch(/ at a4\. Measure/);
    expect(many(6)).toMatch(/ at a4; or 2 more\. Measure/);
  });

  // Half an ohm at both places: 1 V less, 2 V less, 1 ohm more.
  it('says that no single fault explains the readings', () => {
    const two = findFault(model, values([9, 18, 1.5]));
    expect(two).toMatchObject({ verdict: 'cannot tell', suspects: [], readingCount: 3 });
    expect(two.chiSquare).toBeGreaterThan(two.goodFit);
    expect(two.sentence).toMatch(/^No single fault explains the readings/);
    // Volts above the prediction, which no fault brings: 10 spreads.
    const high = findFault(model, values([11, 20, 0.5]));
    expect(high).toMatchObject({ verdict: 'cannot tell', suspects: [], best: { kind: 'none' } });
    expect(high.chiSquare).toBeCloseTo(100, 6);
    expect(high.sentence).toMatch(/^No single fault/);
  });

  /**
   * The first branch 1.5 spreads low and the second 2.9 low beside an ohm too small to name: sound 1.5^2 + 2.9^2 = 10.66.
   * At `b` alone with R ohm: 1.5^2 + (2.9 - 20 R)^2 + (10 R)^2, least at R = 0.116, 2.25 + 0.3364 + 1.3456: 6.73 better,
   * less than the 11.98 that looking in four places takes, although both together are more.
   */
  it('goes by how much better the best is than sound', () => {
    const near = findFault(model, values([9.85, 19.42, 0.5]));
    expect(near.verdict).toBe('as predicted');
    expect(near.chiSquare).toBeCloseTo(3.932, 3);
  });

  it('says so where there is no reading', () => {
    expect(findFault(model, values([null, null, null]))).toMatchObject({
      ...{ verdict: 'cannot tell', suspects: [], readingCount: 0 },
      sentence: 'There is no reading to judge yet.',
    });
  });

  it('asks for lists of one length, and for spreads', () => {
    const bad = (given: Partial<MeasuredValues>) => () =>
      findFault(model, { ...values([10, 20, 0.5]), ...given });
    expect(bad({ spread: [0.1, 0.2] })).toThrow(/one length/);
    expect(
      bad({
        shifts: [
          [0, 0, 0],
          [0, 0],
        ],
      }),
    ).toThrow(/one length/);
    for (const spread of [0, -0.1, Number.NaN])
      expect(bad({ spread: [0.1, spread, 0.1] })).toThrow(/above 0/);
    expect(bad({ shifts: [[0, 0, 0]] })).not.toThrow();
  });
});
