import { describe, expect, it } from 'vitest';
import { drivers as driversSchema } from '../../src/answer/drivers.ts';
import { allocateLoads } from '../../src/drivers/allocation.ts';
import { type DriversToDescribe, describeDrivers } from '../../src/drivers/answer.ts';

const driver = {
  name: '24 V 100 W driver',
  outputCount: 1,
  current_A: 4.17,
  rated_W: 100,
  fullLoadAmbient_degC: 50,
  derating_per_K: 0.025,
  highestAmbient_degC: 70,
  caseLimit_degC: 80,
  efficiency: 0.89,
  powerFactor: 0.95,
  inrush_A: 30,
  inrush_us: 300,
  perBreakerB16: null,
};

const place = (name: string, x_mm: number, driver: string, without: readonly string[]) => ({
  name,
  x_mm,
  y_mm: 100,
  cases: [
    {
      ...{ driver, x_mm: x_mm + 20, y_mm: 120, across_mm: 210, up_mm: 60, deep_mm: 31 },
      ...{ faces: 'right' as const, out_x_mm: x_mm + 230, out_y_mm: 150 },
    },
  ],
  without,
  fitNote: `note of ${name}`,
  air_degC: 40,
  fullAir_degC: 40,
  dimmers_W: 0,
});

const places = [place('plinth', 0, 'D1', ['D2']), place('cornice', 900, 'D3', [])];

/** What 51, 52 and 21 W at 24 V are, on average a share of that. */
const solvedOutputs = (share = 1) =>
  new Map(
    [51, 52, 21].map((watts, i) => [
      `D${i + 1}.1`,
      { watts, current_A: watts / 24, average_W: share * watts },
    ]),
  );

function answer(change: Partial<DriversToDescribe> = {}) {
  const outcome = allocateLoads({
    loads: [50, 50, 20].map((watts, i) => ({
      run: `R${i + 1}`,
      watts,
      zone: null,
      placeDistances_m: i === 2 ? [5, 1] : [1, 5],
    })),
    driver,
    set_V: 24,
    usable_W: [80, 80],
    outputCeiling_W: null,
  });
  if (!outcome.ok) throw new Error('refused');
  return describeDrivers({
    allocation: outcome.value,
    driver,
    places,
    mains_V: 230,
    breaker: { curve: 'B', rating_A: 16 },
    isPerBreakerPrinted: false,
    isInrushPrinted: true,
    solved: solvedOutputs(),
    ...change,
  });
}

describe('the drivers part of the answer', () => {
  it('has the shape the contract asks for', () => {
    expect(driversSchema.safeParse(answer()).success).toBe(true);
  });

  it('keeps the watts: mains in is lamps and copper out and heat at the places', () => {
    const { drivers, places, input_W } = answer();
    const out_W = drivers.reduce((sum, d) => sum + d.watts, 0);
    const heat_W = places.reduce((sum, p) => sum + p.loss_W, 0);
    expect(out_W).toBeCloseTo(124, 12);
    expect(input_W).toBeCloseTo(out_W + heat_W, 12);
  });

  it('counts and fits place by place, and puts drivers where they are', () => {
    const { drivers, places, breaker } = answer();
    expect(places.map((p) => [p.driverCount, p.fits])).toEqual([
      [2, false],
      [1, true],
    ]);
    expect(drivers.map((d) => [d.place, d.x_mm])).toEqual([
      // The corner of its case; of the place for D2, which has no room there.
      ['plinth', 20],
      ['plinth', 0],
      ['cornice', 920],
    ]);
    expect(breaker).toMatchObject({ mostDrivers: 2, breakerCount: 2 });
  });

  it('by hand: one driver at half its watts in air of 40 degC, 60 with everything on', () => {
    const warm = [{ ...places[0]!, fullAir_degC: 60 }, places[1]!];
    const bands = new Map([['D1.1', { least: 48, greatest: 55 }]]);
    const { drivers } = answer({ places: warm, solved: solvedOutputs(0.5), bands });
    expect(drivers[0]).toMatchObject({
      ...{ id: 'D1', name: '24 V 100 W driver', rated_W: 100, watts: 51, average_W: 25.5 },
      // 10 K over 50 at 2.5 % each.
      derating: expect.closeTo(0.75, 12),
      ...{ ambient_degC: 40, x_mm: 20, y_mm: 120 },
      // (80 - 50) K at full, a quarter and a bit of that: 40 + 30 · 0.255. It is over 20 K below its mark.
      ...{ case_degC: expect.closeTo(47.65, 9), lifeRatio: 2 },
      // 51 / 0.89 = 57.303 W over 230 V · 0.95; heat 6.303 W in a pulse, half of it on average.
      input_W: expect.closeTo(57.3034, 4),
      input_A: expect.closeTo(0.26226, 5),
      loss_W: expect.closeTo(3.1517, 4),
    });
    expect(drivers[0]!.outputs).toEqual([
      {
        ...{ id: 'D1.1', runs: ['R1'], watts: 51, current_A: 2.125, usable_W: 80, load: 0.6375 },
        band_W: { least: 48, greatest: 55 },
      },
    ]);
    expect(drivers[1]!.outputs[0]!.band_W).toBeNull();
    expect(drivers[2]!.derating).toBe(1);
  });

  it('adds up: what all take from the mains, and the heat at each place', () => {
    const { input_W, input_A, places } = answer();
    // 124 W / 0.89 = 139.326 W; over 218.5 V 0.63765 A. Heat 139.326 - 124 = 15.326 in all, 21 · 0.1236 at the cornice.
    expect(input_W).toBeCloseTo(139.3258, 4);
    expect(input_A).toBeCloseTo(0.63765, 5);
    expect(places.map((p) => Number(p.loss_W.toFixed(3)))).toEqual([12.73, 2.596]);
    expect(places.map((p) => p.air_degC)).toEqual([40, 40]);
  });

  it('says where each case is fixed, as it was laid out, and which have no room', () => {
    expect(answer().places.map(({ cases, without, fitNote }) => ({ cases, without, fitNote }))).toEqual(
      places.map(({ cases, without, fitNote }) => ({ cases, without, fitNote })),
    );
  });

  it('counts on a breaker by the current of a driver at all its watts', () => {
    // 100 W / 0.89 / 218.5 V = 0.51423 A: 0.8 · 16 / 0.51423 = 24; inrush 67.88 / 30 = 2.
    expect(answer().breaker).toMatchObject({
      ...{ input_A: expect.closeTo(0.51423, 5), bySteady: 24, byInrush: 2, isPrinted: false },
    });
  });

  it('says which driver hangs on which breaker, with amps and peaks of each', () => {
    // Two on a B16 by inrush, so three need two breakers. Inputs 51, 52 and 21 W over 0.89 and 218.5 V: 0.26226, 0.26740
    // and 0.10799 A; 30 A of inrush each.
    expect(answer().breaker.loads).toEqual([
      { id: 'M1', drivers: ['D1', 'D2'], input_A: expect.closeTo(0.52966, 5), inrush_A: 60 },
      { id: 'M2', drivers: ['D3'], input_A: expect.closeTo(0.10799, 5), inrush_A: 30 },
    ]);
    expect(answer().breaker.isInrushPrinted).toBe(true);
    expect(answer({ isInrushPrinted: false }).breaker.isInrushPrinted).toBe(false);
    const none = answer({ driver: { ...driver, inrush_A: 70 } }).breaker;
    expect(none).toMatchObject({ mostDrivers: 0, breakerCount: 0, loads: [] });
  });

  it('throws when an output has no solved load', () => {
    const allocation = {
      drivers: [
        {
          id: 'D1',
          place: 0,
          watts: 1,
          usable_W: 80,
          outputs: [{ id: 'D1.1', zone: null, runs: ['R1'], watts: 1, limit_W: 80 }],
        },
      ],
      method: '',
      lowerBoundCount: 1,
    };
    expect(() =>
      describeDrivers({
        allocation,
        driver,
        places: [places[0]!],
        mains_V: 230,
        breaker: { curve: 'B', rating_A: 16 },
        isPerBreakerPrinted: false,
        isInrushPrinted: true,
        solved: new Map(),
      }),
    ).toThrow(RangeError);
  });
});
