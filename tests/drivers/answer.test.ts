import { describe, expect, it } from 'vitest';
import { drivers as driversSchema } from '../../src/answer/sizing.ts';
import { allocateLoads } from '../../src/drivers/allocation.ts';
import { describeDrivers } from '../../src/drivers/answer.ts';

const driver = {
  name: '24 V 100 W driver',
  outputCount: 1,
  current_A: 4.17,
  rated_W: 100,
  fullLoadAmbient_degC: 50,
  derating_per_K: 0.025,
  highestAmbient_degC: 70,
  caseLimit_degC: 80,
  length_mm: 210,
  width_mm: 60,
  height_mm: 31,
  clearance_mm: 20,
  efficiency: 0.89,
  powerFactor: 0.95,
  inrush_A: 30,
  inrush_us: 300,
  perBreakerB16: null,
};

const place = (name: string, x_mm: number) => ({
  name,
  x_mm,
  y_mm: 100,
  width_mm: 250,
  height_mm: 100,
  depth_mm: 60,
  air_degC: 40,
  fullAir_degC: 40,
});

function answer() {
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
    places: [place('plinth', 0), place('cornice', 900)],
    mains_V: 230,
    breaker: { curve: 'B', rating_A: 16 },
    isPerBreakerPrinted: false,
    averageShare: 1,
    solved: new Map([
      ['D1.1', { watts: 51, current_A: 51 / 24 }],
      ['D2.1', { watts: 52, current_A: 52 / 24 }],
      ['D3.1', { watts: 21, current_A: 21 / 24 }],
    ]),
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
      ['plinth', 0],
      ['plinth', 0],
      ['cornice', 900],
    ]);
    expect(breaker).toMatchObject({ mostDrivers: 2, breakerCount: 2 });
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
        places: [place('plinth', 0)],
        mains_V: 230,
        averageShare: 1,
        breaker: { curve: 'B', rating_A: 16 },
        isPerBreakerPrinted: false,
        solved: new Map(),
      }),
    ).toThrow(RangeError);
  });
});
