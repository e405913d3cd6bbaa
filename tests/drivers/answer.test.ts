import { describe, expect, it } from 'vitest';
import { drivers as driversSchema } from '../../src/answer/drivers.ts';
import { shareOut } from '../../src/drivers/allocation.ts';
import { type DriversToDescribe, describeDrivers } from '../../src/drivers/answer.ts';
import { quickSharing } from '../../src/drivers/share-effort.ts';
import { model } from './loads-to-allocate.ts';

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
  isPerBreakerPrinted: false,
  isInrushPrinted: true,
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

function answered() {
  const outcome = shareOut(
    {
      loads: [50, 50, 40].map((watts, i) => ({
        run: `R${i + 1}`,
        watts,
        zone: null,
        placeDistances_m: i === 2 ? [5, 1] : [1, 5],
      })),
      models: [model({ ...driver, usable_W: [80, 80] })],
      hasRoom: () => true,
      set_V: 24,
      outputCeiling_W: null,
    },
    quickSharing,
  );
  if (!outcome.ok) throw new Error('refused');
  return { allocation: outcome.value };
}

function answer(change: Partial<DriversToDescribe> = {}) {
  return describeDrivers({
    ...answered(),
    models: [driver],
    places,
    mains_V: 230,
    breaker: { curve: 'B', rating_A: 16 },
    standby_W: null,
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
    expect(breaker).toMatchObject({
      models: [{ mostDrivers: 2 }],
      most: '2 drivers',
      loads: [{ share: 1 }, { share: 0.5 }],
    });
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
    expect(answer().breaker.models).toMatchObject([
      { model: 0, input_A: expect.closeTo(0.51423, 5), bySteady: 24, byInrush: 2, isPrinted: false },
    ]);
  });

  it('says which driver hangs on which breaker, with amps and peaks of each', () => {
    // Two on a B16 by inrush, so three need two breakers. Inputs 51, 52 and 21 W over 0.89 and 218.5 V: 0.26226, 0.26740
    // and 0.10799 A; 30 A of inrush each.
    expect(answer().breaker.loads).toEqual([
      { id: 'M1', drivers: ['D1', 'D2'], input_A: expect.closeTo(0.52966, 5), inrush_A: 60, share: 1 },
      { id: 'M2', drivers: ['D3'], input_A: expect.closeTo(0.10799, 5), inrush_A: 30, share: 0.5 },
    ]);
    expect(answer().breaker.models[0]!.isInrushPrinted).toBe(true);
    const none = answer({ models: [{ ...driver, inrush_A: 70, isInrushPrinted: false }] }).breaker;
    expect(none).toMatchObject({ models: [{ mostDrivers: 0, isInrushPrinted: false }], loads: [] });
  });

  it('describes each driver by its own model, and mixes models on a breaker', () => {
    // A second model of 60 W and 0.8: 21 / 0.8 = 26.25 W; 60 / 0.8 / 218.5 V = 0.34325 A, inrush 67.88 / 20 = 3 on a B16.
    const other = { ...driver, name: '24 V 60 W driver', rated_W: 60, efficiency: 0.8, inrush_A: 20 };
    const { allocation } = answered();
    const drivers = allocation.drivers.map((each, i) => (i === 2 ? { ...each, model: 1 } : each));
    const mixed = answer({ models: [driver, other], allocation: { ...allocation, drivers } });
    expect(mixed.drivers.map(({ model, name, rated_W }) => [model, name, rated_W])).toEqual([
      [0, '24 V 100 W driver', 100],
      [0, '24 V 100 W driver', 100],
      [1, '24 V 60 W driver', 60],
    ]);
    expect(mixed.drivers[2]).toMatchObject({
      input_W: expect.closeTo(26.25, 9),
      loss_W: expect.closeTo(5.25, 9),
    });
    expect(mixed.breaker.models).toMatchObject([
      { model: 0, mostDrivers: 2 },
      { model: 1, mostDrivers: 3, input_A: expect.closeTo(0.34325, 5) },
    ]);
    expect(mixed.breaker.most).toBe('2 of the 24 V 100 W driver or 3 of the 24 V 60 W driver');
    // Two halves fill the first; a third is left.
    expect(mixed.breaker.loads).toMatchObject([
      { drivers: ['D1', 'D2'], inrush_A: 60, share: 1 },
      { drivers: ['D3'], inrush_A: 20, share: expect.closeTo(1 / 3, 12) },
    ]);
  });

  it('throws when an output has no solved load', () => {
    const allocation = {
      drivers: [
        {
          id: 'D1',
          ...{ model: 0, place: 0, watts: 1, usable_W: 80, rated_W: 100 },
          outputs: [{ id: 'D1.1', zone: null, runs: ['R1'], watts: 1, limit_W: 80 }],
        },
      ],
      method: '',
      lowerBoundCount: 1,
      sharing: answered().allocation.sharing,
    };
    expect(() =>
      describeDrivers({
        allocation,
        models: [driver],
        places: [places[0]!],
        mains_V: 230,
        breaker: { curve: 'B', rating_A: 16 },
        standby_W: null,
        solved: new Map(),
      }),
    ).toThrow(RangeError);
  });
});
