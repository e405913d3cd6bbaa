import { describe, expect, it } from 'vitest';
import { fitStrip, type StripDataSheet } from '../../src/circuit/fit.ts';
import { solveCircuit } from '../../src/circuit/solve-circuit.ts';
import type { StripLaw } from '../../src/circuit/strip-law.ts';
import { alone, channel, stripRun } from './examples.ts';

const bare = { length_m: 0, contact_ohm: 0 };

const sheet: StripDataSheet = {
  nominal_V: 24,
  watts_per_m: 10,
  cutLength_m: 0.05,
  lamps_per_m: 120,
  rails: { from: 'copper', width_m: 0.004, weight_oz: 2 },
};

function fitted(data: StripDataSheet) {
  const outcome = fitStrip(data);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

function refusal(data: StripDataSheet) {
  const outcome = fitStrip(data);
  if (outcome.ok) throw new Error('must be refused');
  return outcome.issues[0]!;
}

const longest = (length_m: number, dropRatio?: number): StripDataSheet['rails'] => ({
  from: 'longest run',
  length_m,
  ...(dropRatio === undefined ? {} : { dropRatio }),
});

const measured = (finish_V: number, strip_degC = 25, start_V = 24): StripDataSheet['rails'] => ({
  from: 'measured volts',
  length_m: 5,
  start_V,
  finish_V,
  strip_degC,
});

/** Rounded to three figures, a rail may be off by half of the third. */
const toThreeFigures = 0.005;

const expectClose = (value: number, wanted: number, within = toThreeFigures) =>
  expect(Math.abs(value / wanted - 1), `${value} against ${wanted}`).toBeLessThanOrEqual(within);

describe('the rail of a strip', () => {
  it.each([
    [3, 1, 0.164],
    [4, 2, 0.0616],
    [5, 3, 0.0328],
  ])('of %d mm and %d oz copper is what rho/(w t) gives', (width_mm, weight_oz, ohm_per_m) => {
    const rails = { from: 'copper', width_m: width_mm / 1000, weight_oz } as const;
    expect(fitted({ ...sheet, rails }).rail.rail_ohm_per_m).toBe(ohm_per_m);
  });

  it('of the published feeder with constant current (23.3586 V after 5 m) is its 61.6 mohm/m', () => {
    const { rail } = fitted({ ...sheet, dropout_V: 1, rails: measured(23.3586, 20) });
    expectClose(rail.rail_ohm_per_m, 0.12315 / 2);
  });

  it.each([
    [0.03, 5, 10],
    [0.05, 5, 10],
    [0.05, 10, 6],
    [0.1, 8, 14.4],
  ])(
    'that drops %d over %d m of constant %d W/m is drop/(i L^2), at 25 degC',
    (ratio, length_m, watts_per_m) => {
      const { rail } = fitted({ ...sheet, watts_per_m, dropout_V: 1, rails: longest(length_m, ratio) });
      const warm = 1 + 0.00393 * 5;
      expectClose(rail.rail_ohm_per_m, (ratio * 24) / ((watts_per_m / 24) * length_m ** 2) / warm);
      expect(rail.drop!.ratio).toBeCloseTo(ratio, 12);
    },
  );

  it('of a resistor strip agrees with marching from the far end, unit by unit', () => {
    const { law, rail } = fitted({ ...sheet, rails: measured(22.7, 25) });
    const warm_ohm_per_m = rail.rail_ohm_per_m * (1 + 0.00393 * 5);
    const march = (end_V: number): number => {
      let [pad_V, amps] = [end_V, 0];
      for (let unit = 0; unit < 100; unit++) {
        const load_V = pad_V + amps * warm_ohm_per_m * 0.05;
        amps += drawn(law, load_V);
        pad_V = load_V + amps * warm_ohm_per_m * 0.05;
      }
      return pad_V;
    };
    expect(march(24 - rail.drop!.reached_V)).toBeCloseTo(24, 5);
    expect(rail.drop!.reached_V).toBeCloseTo(1.3, 2);
  });

  it('comes back from a length it was solved with, law and warm copper and all', () => {
    const law = fitted(sheet).law;
    const run = stripRun('a', 100, {
      positiveRail_ohm_per_m: 0.07,
      strip_degC: 41,
      channels: [channel('white', law, 1, 0.07)],
    });
    const solved = solveCircuit({
      ...alone(run, { kind: 'start' }, bare),
      sources: [{ id: 'driver', set_V: 23.7 }],
    });
    if (!solved.ok) throw new Error('refused');
    const { positivePad_V, channels } = solved.value.runs[0]!;
    const finish_V = positivePad_V.at(-1)! - channels[0]!.returnPad_V.at(-1)!;
    expect(fitted({ ...sheet, rails: measured(finish_V, 41, 23.7) }).rail.rail_ohm_per_m).toBe(0.07);
  });

  it('is given for each drop a longest run may rest on, 5 % taken, and one only where the sheet says', () => {
    const { rail, rails, remarks } = fitted({ ...sheet, rails: longest(5) });
    expect(rails.map((one) => one.drop!.ratio.toFixed(2))).toEqual(['0.03', '0.05', '0.10']);
    expect(rails[1]).toBe(rail);
    const ohms = rails.map((one) => one.rail_ohm_per_m);
    expect(ohms).toEqual(ohms.toSorted((a, b) => a - b));
    for (const { drop } of rails) expectClose(drop!.reached_V, drop!.asked_V);
    expect(remarks[0]).toMatch(/does not say which drop/);
    const said = fitted({ ...sheet, rails: longest(5, 0.05) });
    expect(said.rails).toEqual([rail]);
    expect(said.remarks).toEqual([]);
  });

  it('falls with length and with watts, and a rail no strip has is doubted', () => {
    const of = (length_m: number, watts_per_m: number) =>
      fitted({ ...sheet, watts_per_m, rails: longest(length_m) });
    expect(of(10, 10).rail.rail_ohm_per_m).toBeLessThan(of(5, 10).rail.rail_ohm_per_m);
    expect(of(5, 20).rail.rail_ohm_per_m).toBeLessThan(of(5, 10).rail.rail_ohm_per_m);
    expect(of(30, 10).remarks.at(-1)).toMatch(/mm of 2 oz copper, more than strip commonly has/);
  });

  it('leaves out a drop that no rail gives, and says so', () => {
    const { rails, remarks } = fitted({ ...sheet, watts_per_m: 5, rails: longest(3) });
    expect(rails.map((one) => one.drop!.ratio.toFixed(2))).toEqual(['0.03', '0.05']);
    expect(remarks.join(' ')).toMatch(/No strip drops 2\.40 V over this length/);
  });
});

/** Current of a unit by halving on Shockley's law with a series resistance, apart from the engine's closed form. */
function drawn(law: StripLaw, unit_V: number): number {
  const nominal_A = law.unit_W / law.nominal_V;
  const saturation_A = nominal_A / Math.expm1(law.lampForward_V / law.slope_V);
  const resistance_ohm = (law.nominal_V - law.lampsInSeries * law.lampForward_V) / nominal_A;
  let [low, high] = [0, 3 * nominal_A];
  for (let i = 0; i < 60; i++) {
    const amps = (low + high) / 2;
    const needs_V = law.lampsInSeries * law.slope_V * Math.log1p(amps / saturation_A) + resistance_ohm * amps;
    if (needs_V < unit_V) low = amps;
    else high = amps;
  }
  return (low + high) / 2;
}

describe('the law of a strip', () => {
  it.each([
    [12, 60, 50, 3],
    [24, 70, 100, 7],
    [24, 128, 62.5, 4],
    [24, 168, 41.67, 7],
    [48, 120, 100, 12],
  ])('%d V, %d lamps a metre, cut every %d mm: %d in series', (nominal_V, lamps_per_m, cut_mm, series) => {
    const data = { ...sheet, nominal_V, lamps_per_m, cutLength_m: cut_mm / 1000 };
    expect(fitted(data).law.lampsInSeries).toBe(series);
  });

  it('takes a printed cut length for a whole number of units where it is a rounded one, and else as it is', () => {
    const units = (cut_mm: number, lamps_per_m: number) =>
      fitted({ ...sheet, cutLength_m: cut_mm / 1000, lamps_per_m });
    for (const [cut_mm, lamps_per_m, whole] of [
      [41.67, 168, 24],
      [33.3, 180, 30],
      [71.4, 84, 14],
      [8.3, 120, 120],
    ] as const) {
      const { unitsPerMetre, law } = units(cut_mm, lamps_per_m);
      expect(unitsPerMetre).toBe(whole);
      expect(law.unit_W).toBeCloseTo(10 / whole, 12);
    }
    const { unitsPerMetre, basis } = units(43, 139.5);
    expect(unitsPerMetre).toBeCloseTo(1000 / 43, 12);
    expect(basis[0]!.sentence).toBe('A cut every 43 mm: 23.26 cut units a metre.');
  });

  it('says where every quantity is from', () => {
    const { basis } = fitted({ ...sheet, dropout_V: 1, lampsInSeries: 6, rails: longest(5) });
    expect(basis.map(({ quantity, from }) => [quantity, from])).toEqual([
      ['cut units', 'data sheet'],
      ['unit watts', 'data sheet'],
      ['lamps in series', 'data sheet'],
      ['forward volts', 'usual value'],
      ['slope', 'usual value'],
      ['rail resistance', 'fitted'],
    ]);
    expect(basis.at(-1)!.sentence).toBe(
      'Fitted so that 5 m (100 cut units) fed at one end drops 1.20 V, 5 % of 24 V.',
    );
    for (const { sentence } of basis) expect(sentence).not.toMatch(/\d\.\d{4,}/);
  });
});

describe('a strip that cannot be', () => {
  it('has volts that no copper explains, or as many at the far end', () => {
    expect(refusal({ ...sheet, rails: measured(3) })).toMatchObject({ code: 'does-not-fit' });
    const turned = refusal({ ...sheet, rails: measured(24, 25, 22.8) });
    expect(turned).toMatchObject({ code: 'does-not-fit', quantities: { given: 24, possible: 22.8 } });
    expect(turned.sentence).toMatch(/which reading is which/);
    expect(refusal({ ...sheet, rails: longest(0.5) }).sentence).toMatch(/rails of 1 Ω\/m drop no more than/);
  });

  it('has lamps that do not go into its cut units or rows', () => {
    const parts = refusal({ ...sheet, cutLength_m: 0.043 });
    expect(parts).toMatchObject({ code: 'lamps-do-not-divide' });
    expect(parts.sentence).toMatch(/leave 5\.2 LEDs to a cut unit/);
    expect(refusal({ ...sheet, cutLength_m: 0.005 })).toMatchObject({ code: 'lamps-do-not-divide' });
    expect(refusal({ ...sheet, lampsInSeries: 4 })).toMatchObject({ quantities: { lamps: 6, parts: 4 } });
  });

  it('has more lamps in series than its volts light, or no watts', () => {
    const many = refusal({ ...sheet, lamps_per_m: 180, lampsInSeries: 9 });
    expect(many.code).toBe('too-few-volts-for-lamps');
    const regulated = refusal({ ...sheet, lamps_per_m: 160, lampsInSeries: 8, dropout_V: 1 });
    expect(regulated.sentence).toMatch(
      /24 V .* too little for 8 LEDs of 2\.9 V in series and a regulator of 1 V\./,
    );
    expect(refusal({ ...sheet, watts_per_m: Number.NaN }).code).toBe('number-missing');
  });
});
