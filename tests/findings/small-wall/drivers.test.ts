import { describe, expect, it } from 'vitest';
import { driverFindings } from '../../../src/findings/driver-findings.ts';
import { isTold, told, type Wall, wall } from './wall.ts';

const at = (id: string, change?: (wall: Wall) => void) => told(driverFindings(wall(change)), id);
const is = (id: string, change?: (wall: Wall) => void) => isTold(driverFindings(wall(change)), id);

const driver = (number: number, figures: object) => (made: Wall) =>
  void Object.assign(made.drivers.drivers[number - 1]!, figures);

const output = (number: number, figures: object) => (made: Wall) =>
  void Object.assign(made.drivers.drivers[number - 1]!.outputs[0]!, figures);

const both =
  (...changes: ((wall: Wall) => void)[]) =>
  (made: Wall) => {
    for (const change of changes) change(made);
  };

it('a wall in order has these findings of drivers, and all of them pass', () => {
  expect(driverFindings(wall()).map(({ id, status }) => [id, status])).toEqual([
    ['driver-load', 'passes'],
    ['driver-current', 'passes'],
    ['driver-fit-1', 'passes'],
    ['driver-fit-2', 'passes'],
    ['driver-ambient', 'passes'],
    ['driver-case', 'passes'],
    ['breaker-inrush', 'passes'],
  ]);
});

describe('load', () => {
  // Of 60 W a fifth is kept: 48 W. D1 carries 30, D2 18.
  it('is that of the fullest output', () => {
    expect(at('driver-load')).toMatchObject({
      ...{ status: 'passes', value: 30, limit: 48, margin: 18, unit: 'W', fields: [] },
      place: { driver: 'D1', field: 'drivers.entry' },
      sentence: 'Output D1.1 carries 30 W of 48 W usable.',
    });
    // 20 of 25 W are four fifths; 30 of 48 are less.
    expect(at('driver-load', output(2, { watts: 20, usable_W: 25, load: 0.8 }))).toMatchObject({
      ...{ value: 20, limit: 25, margin: 5, place: { driver: 'D2' } },
    });
    expect(at('driver-load').basis).toContain('a reserve of 20 %');
  });

  it('passes when full, to the last bits of a sum, and fails beyond', () => {
    const full = (watts: number) => at('driver-load', output(1, { watts, load: watts / 48 }));
    expect(full(48)).toMatchObject({ status: 'passes', margin: 0, fields: [] });
    expect(full(48 * (1 + 1e-12))).toMatchObject({ status: 'passes', margin: 0 });
    expect(full(48.01)).toMatchObject({ status: 'fails', margin: -0.01 });
    expect(full(48.01).sentence).toBe('Output D1.1 carries 48.01 W of 48.00 W usable.');
  });

  const advised = (watts: number, change: (wall: Wall) => void = () => {}) =>
    at('driver-load', both(output(1, { watts, load: watts / 48 }), change)).advice;
  const lessStrip = 'Choose a strip with fewer watts per metre.';

  // Of the trade's sizes 75 W leaves 60 W usable, and 100 W leaves 80 W.
  it('too large asks for the next driver that carries it with the reserve kept, or for less strip', () => {
    expect(advised(60)).toEqual(['Take a driver of 75 W or more, such as 24 V 75 W driver.', lessStrip]);
    expect(advised(61)).toEqual(['Take a driver of 100 W or more, such as 24 V 100 W driver.', lessStrip]);
    // Half the watts are left where the air is so warm for one of them: 75 W leaves 30, 150 W leaves 60.
    expect(advised(60, driver(2, { derating: 0.5 }))[0]).toContain('driver of 150 W');
  });

  // 320 W leaves 256 W.
  it('beyond the trade asks for less strip alone', () => {
    expect(advised(256)[0]).toContain('driver of 320 W');
    expect(advised(257)).toEqual([lessStrip]);
  });

  it('asks for a driver of the same volts', () => {
    expect(advised(60, ({ products }) => (products.driver.output_V = 48))[0]).toContain('48 V 75 W driver');
  });
});

describe('load in the worst combination of tolerances', () => {
  const most = (number: number, greatest: number) => output(number, { band_W: { least: 0, greatest } });

  it('is not told in a quick answer', () => {
    expect(is('driver-load-worst')).toBe(false);
  });

  it('is held against rated watts without the reserve', () => {
    expect(at('driver-load-worst', most(1, 60))).toMatchObject({
      ...{ status: 'passes', value: 60, limit: 60, margin: 0, unit: 'W', fields: [] },
      place: { driver: 'D1', field: 'drivers.reserve' },
    });
    const over = at('driver-load-worst', most(1, 60.4));
    expect(over).toMatchObject({
      ...{ status: 'fails', value: 60.4, margin: -0.4 },
      fields: ['drivers.reserve', 'drivers.entry', 'strip.entry'],
      sentence: 'With every tolerance at its worst, output D1.1 carries 60.4 W of 60.0 W.',
    });
  });

  // At half its watts D2 may carry 30 W: 40 of 30 W are worse than 55 of 60 W.
  it('is that of the output furthest over, each derated for its own air', () => {
    const over = at('driver-load-worst', both(most(1, 55), most(2, 40), driver(2, { derating: 0.5 })));
    expect(over).toMatchObject({ value: 40, limit: 30, margin: -10, place: { driver: 'D2' } });
  });
});

describe('current', () => {
  // 30 W and 18 W at 24 V are 1.25 A and 0.75 A.
  it('is that of the busiest output against the limit of the driver', () => {
    expect(at('driver-current')).toMatchObject({
      ...{ status: 'passes', value: 1.25, limit: 2.5, margin: 1.25, unit: 'A', fields: [] },
      place: { driver: 'D1', field: 'drivers.entry' },
      sentence: 'Output D1.1 gives 1.25 A; it is limited to 2.50 A.',
    });
    expect(at('driver-current', output(2, { current_A: 2.5 }))).toMatchObject({
      ...{ status: 'passes', margin: 0, fields: [], place: { driver: 'D2' } },
    });
  });

  // 30 W need a driver of 40 W, but the next larger than this one of 60 W has 75 W.
  it('fails over it and asks for a driver larger than the one there is', () => {
    const over = at('driver-current', output(1, { current_A: 2.51 }));
    expect(over).toMatchObject({ status: 'fails', margin: -0.01, fields: ['drivers.entry', 'strip.entry'] });
    expect(over.advice[0]).toContain('driver of 75 W');
  });
});

describe('room for drivers', () => {
  const tight = (depth_mm: number) => (made: Wall) => {
    made.drivers.places[1]!.fits = false;
    made.job.drivers.places[1]!.depth_mm = depth_mm;
  };

  it('is told of each place, which fails where they do not fit', () => {
    expect(at('driver-fit-1', tight(90))).toMatchObject({
      ...{ status: 'passes', value: 1, limit: null, margin: null, fields: [], sentence: 'Room for 4.' },
    });
    expect(at('driver-fit-2', tight(90))).toMatchObject({
      ...{ status: 'fails', title: 'Room for drivers in Riser' },
      place: { field: 'drivers.places[2].width_mm' },
      fields: ['drivers.places[2].width_mm', 'drivers.places', 'drivers.entry'],
    });
  });

  // The thinnest side of a case of 180 x 45 x 28 mm with 20 mm of air: 48 mm.
  it('leads to the depth where not even the thinnest side goes in', () => {
    expect(at('driver-fit-2', tight(48)).place.field).toBe('drivers.places[2].width_mm');
    expect(at('driver-fit-2', tight(47.9)).place.field).toBe('drivers.places[2].depth_mm');
  });
});

describe('air round the drivers', () => {
  // 40 and 44 degC; full load to 50, in use to 70.
  it('is that of the warmest', () => {
    expect(at('driver-ambient')).toMatchObject({
      ...{ status: 'passes', value: 44, limit: 70, margin: 26, unit: '°C', fields: [] },
      place: { driver: 'D2', field: 'drivers.places[2].vented' },
      sentence:
        'The air round D2 reaches 44 °C. The driver is rated for full load to 50 °C; in warmer air it may be loaded less, and above 70 °C, the limit here, not at all.',
    });
  });

  it.each([
    [50, 'passes', 20],
    [50.1, 'watch', 19.9],
    [70, 'watch', 0],
    [70.1, 'fails', -0.1],
  ])('of %d °C: %s', (ambient_degC, status, margin) => {
    const air = at('driver-ambient', driver(1, { ambient_degC }));
    expect(air).toMatchObject({ status, value: ambient_degC, margin, place: { driver: 'D1' } });
    const [vents, width] = ['drivers.places[1].ventOpening_mm2', 'drivers.places[1].width_mm'];
    expect(air.fields).toEqual(status === 'passes' ? [] : [vents, width]);
    expect(air.place.field).toBe(vents);
  });

  it('is written with the digits that tell it from the temperature it is just over', () => {
    const says = (ambient_degC: number) => at('driver-ambient', driver(1, { ambient_degC })).sentence;
    expect(says(50.1)).toContain('reaches 50.1 °C. The driver is rated for full load to 50.0 °C');
    expect(says(70.1)).toContain('reaches 70.1 °C. The driver');
    expect(says(70.1)).toContain('above 70.0 °C, the limit here, not at all');
  });

  it('is cooled by vents where there are none yet', () => {
    const air = at('driver-ambient', driver(2, { ambient_degC: 60 }));
    expect(air.fields).toEqual(['drivers.places[2].vented', 'drivers.places[2].width_mm']);
    expect(air.advice[0]).toBe('Vent Riser to the room, low and high.');
  });

  it('leads to the place that lies where the driver is, though another bears its name', () => {
    const field = (x_mm: number, y_mm: number) =>
      at('driver-ambient', ({ job, drivers }) => {
        const [plinth] = job.drivers.places;
        job.drivers.places = [plinth!, { ...plinth!, x_mm: 1200 }, { ...plinth!, y_mm: 1300 }];
        Object.assign(drivers.drivers[1]!, { place: 'Plinth', x_mm, y_mm });
      }).place.field;
    // Each stands in a box of 900 x 120 mm, clear of its sides.
    expect(field(220, -120)).toContain('[1]');
    expect(field(1100, -20)).toContain('[1]');
    expect(field(1220, -120)).toContain('[2]');
    expect(field(220, 1320)).toContain('[3]');
  });

  it('and where one lies at the same spot under another name', () => {
    const air = at('driver-ambient', ({ job }) => {
      const riser = job.drivers.places[1]!;
      job.drivers.places = [{ ...riser, name: 'Shelf' }, riser];
      job.drivers.places.push({ ...riser, name: 'Plinth', x_mm: 200, y_mm: -140 });
    });
    expect(air.place.field).toContain('[2]');
  });
});

describe('case of a driver', () => {
  // 60 and 66 degC; the mark is 80, of which 5 K are kept.
  it('is that of the warmest', () => {
    expect(at('driver-case')).toMatchObject({
      ...{ status: 'passes', value: 66, limit: 80, margin: 14, unit: '°C', fields: [] },
      place: { driver: 'D2', field: 'drivers.places[2].vented' },
    });
    expect(at('driver-case').sentence).toMatch(/^The case of D2 reaches about 66 °C; its mark is tc 80 °C\./);
  });

  it.each([
    [75, 'passes', 5],
    [75.1, 'watch', 4.9],
    [80, 'watch', 0],
    [80.1, 'fails', -0.1],
  ])('of %d °C: %s', (case_degC, status, margin) => {
    const warmest = at('driver-case', driver(1, { case_degC }));
    expect(warmest).toMatchObject({ status, value: case_degC, margin, place: { driver: 'D1' } });
    const fields = ['drivers.places[1].ventOpening_mm2', 'drivers.places[1].width_mm', 'drivers.reserve'];
    expect(warmest.fields).toEqual(status === 'passes' ? [] : fields);
  });

  it('says how long it lives, up to the twice that is the most it is given', () => {
    const life = (lifeRatio: number) => at('driver-case', driver(2, { lifeRatio })).sentence;
    expect(life(1.9)).toContain('comes to about 1.9 times what its maker states');
    expect(life(2)).toContain('comes to at least twice what its maker states');
    expect(life(0.01)).toContain('comes to about 0.01 times what its maker states');
    // 141 K over the mark: 2^-14.1 = 0.000057, a figure nobody wants to read.
    expect(life(0.000057)).toContain('comes to less than a hundredth of what its maker states');
  });
});

describe('drivers on one circuit-breaker', () => {
  const holding = (mostDrivers: number, breakerCount: number) => (made: Wall) => {
    const { breaker } = made.drivers;
    Object.assign(breaker.models[0]!, { mostDrivers });
    breaker.loads = Array.from({ length: breakerCount }, () => breaker.loads[0]!);
  };

  it('pass up to what it holds', () => {
    expect(at('breaker-inrush', holding(2, 1))).toMatchObject({
      ...{ status: 'passes', value: 2, limit: 2, margin: 0, fields: [], basis: '9 on a B16' },
      place: { field: 'site.breakerCurve' },
      sentence: 'Up to 2 of these drivers may start together on one B16 breaker; the job has 2.',
    });
  });

  it('are spread over several beyond', () => {
    expect(at('breaker-inrush', holding(1, 2))).toMatchObject({
      ...{ status: 'watch', value: 2, limit: 1, margin: -1, fields: [null] },
      sentence: '2 drivers switched on together may trip one B16 breaker, which holds 1.',
      advice: ['The electrician spreads them over 2 breakers, or fits an inrush limiter.'],
    });
  });

  it('need another breaker where it holds none', () => {
    expect(at('breaker-inrush', holding(0, 0)).fields).toEqual(['site.breakerCurve']);
    expect(at('breaker-inrush', holding(0, 0))).toMatchObject({ limit: 0, margin: -2 });
  });
});

/** D2 a second model: 24 V 100 W, 4.17 A, full load to 45 degC, tc 75, 7 on a B16. */
const mixed = (made: Wall): void => {
  const further = { ...made.products.driver, name: '24 V 100 W driver', rated_W: 100, current_A: 4.17 };
  Object.assign(made.products, {
    furtherDrivers: [{ ...further, fullLoadAmbient_degC: 45, caseLimit_degC: 75 }],
  });
  made.job.drivers.also = [{ entry: '24V-100W', data: {}, stock: null }];
  Object.assign(made.drivers.drivers[1]!, { model: 1, name: '24 V 100 W driver', rated_W: 100 });
  const { breaker } = made.drivers;
  breaker.models = [
    breaker.models[0]!,
    { ...breaker.models[0]!, model: 1, name: '24 V 100 W driver', mostDrivers: 7, formula: '7 on a B16' },
  ];
  breaker.most = '9 of the 24 V 60 W driver or 7 of the 24 V 100 W driver';
  breaker.loads[0]!.share = 1 / 9 + 1 / 7;
};

describe('drivers of several models', () => {
  it('are each held against their own sheet', () => {
    // 1.25 A of 2.5 A are half, 3 A of 4.17 A more; 40 degC are 10 K below 50, 44 degC 1 K below 45; 66 degC 9 K below 75.
    const busy = both(mixed, output(2, { current_A: 3 }));
    expect(at('driver-current', busy)).toMatchObject({
      ...{ value: 3, limit: 4.17, place: { driver: 'D2', field: 'drivers.also[1].entry' } },
      basis: expect.stringContaining('typical of the trade'),
    });
    expect(at('driver-ambient', mixed).sentence).toContain('rated for full load to 45 °C');
    expect(at('driver-case', mixed)).toMatchObject({ value: 66, limit: 75, place: { driver: 'D2' } });
    expect(at('driver-load', both(mixed, output(2, { load: 1.1, watts: 88 }))).advice[0]).toContain('150 W');
  });

  it('take one over the number of their model of a breaker: 1/9 and 1/7 are 0.254', () => {
    expect(at('breaker-inrush', mixed)).toMatchObject({
      ...{ status: 'passes', limit: 1, unit: 'ratio', fields: [] },
      value: expect.closeTo(0.254, 3),
      margin: expect.closeTo(0.746, 3),
      sentence:
        'One B16 breaker may start 9 of the 24 V 60 W driver or 7 of the 24 V 100 W driver together; the drivers of the job take 25 % of that.',
    });
    const two = ({ drivers: { breaker } }: Wall) => void breaker.loads.push(breaker.loads[0]!);
    expect(at('breaker-inrush', both(mixed, two))).toMatchObject({ status: 'watch', fields: [null] });
    const none = ({ drivers: { breaker } }: Wall) => void breaker.loads.splice(0);
    expect(at('breaker-inrush', both(mixed, none))).toMatchObject({
      ...{ status: 'watch', value: null, fields: ['site.breakerCurve'] },
    });
  });

  it('ask for no smaller one where the sharing-out would have taken it', () => {
    const light = at('driver-light-load', both(mixed, driver(2, { watts: 20 })));
    expect(light).toMatchObject({ fields: [], place: { driver: 'D2' } });
    expect(light.sentence).toContain('less than 30 % of the watts it is made for');
  });

  it('are told where more are taken than there are', () => {
    const few = (stock: number) => (made: Wall) => void Object.assign(made.job.drivers, { stock });
    expect(is('driver-stock-1')).toBe(false);
    expect(is('driver-stock-1', few(2))).toBe(false);
    expect(at('driver-stock-1', few(1))).toMatchObject({
      ...{ status: 'watch', value: 2, limit: 1, margin: -1, fields: ['drivers.stock', 'drivers.also'] },
      place: { driver: 'D1', field: 'drivers.stock' },
    });
    const further = both(mixed, ({ job }) => void Object.assign(job.drivers.also[0]!, { stock: 0 }));
    expect(at('driver-stock-2', further).place.field).toBe('drivers.also[1].stock');
    // One of the second model is taken, D2; none is at hand.
    const second = at('driver-stock-2', further);
    expect(second).toMatchObject({ value: 1, limit: 0, margin: -1, place: { driver: 'D2' } });
    expect(second.advice[0]).toBe('Get 1 more, and enter how many there are then.');
    expect(second.sentence).toContain('The job takes 1 of the 24 V 100 W driver, and 0 are at hand');
    expect(at('driver-stock-1', few(1)).sentence).toContain('and 1 is at hand');
    expect(is('driver-stock-1', both(mixed, few(1)))).toBe(false);
  });

  it('allow no further model where there are eight already', () => {
    const eight = both(mixed, ({ job }) => {
      job.drivers.also = Array.from({ length: 8 }, () => ({ entry: '24V-100W', data: {}, stock: 0 }));
    });
    expect(at('driver-stock-2', eight).fields).toEqual(['drivers.also[1].stock']);
  });
});

describe('drivers far larger than their load', () => {
  // Three tenths of 60 W are 18 W.
  it('are told below three tenths', () => {
    expect(is('driver-light-load')).toBe(false);
    const light = at('driver-light-load', driver(2, { watts: 17.4 }));
    expect(light).toMatchObject({
      ...{ status: 'note', limit: 0.3, margin: null, fields: ['drivers.entry'] },
      place: { driver: 'D2', field: 'drivers.entry' },
    });
    expect(light.value).toBeCloseTo(0.29, 12);
    expect(light.sentence).toMatch(/^Driver D2 carries less than 30 % of the 60 W it is made for/);
  });

  it('are counted together, with the lightest of them', () => {
    const both = at('driver-light-load', ({ drivers }) => {
      Object.assign(drivers.drivers[0]!, { watts: 6 });
      Object.assign(drivers.drivers[1]!, { watts: 9 });
    });
    expect(both.value).toBeCloseTo(0.1, 12);
    expect(both.place.driver).toBe('D1');
    expect(both.sentence).toMatch(/^Drivers D1 and D2 carry less than 30 % of the 60 W they are made for/);
    // The fullest has 9 W; 15 W leaves 12 W usable.
    expect(both.advice[0]).toBe(
      'Take one of 15 W, such as 24 V 15 W driver: the fullest driver here carries 9.0 W.',
    );
  });

  // 40 W leaves 32 W usable.
  it('can be smaller where the fullest goes into the next smaller one', () => {
    const fullest = (watts: number) =>
      at('driver-light-load', both(driver(1, { watts }), driver(2, { watts: 6 })));
    expect(fullest(32).advice[0]).toMatch(/^Take one of 40 W/);
    expect(fullest(33).fields).toEqual([]);
    expect(fullest(33).sentence).toContain('the fullest, with 33 W, needs this size: nothing has to change.');
    // More than any driver of the trade carries: there is none to take instead.
    expect(fullest(300).fields).toEqual([]);
  });
});

describe('efficiency', () => {
  // P^0.81/(1.09 P^0.81 + 2.10) at 60 W: 60^0.81 = 27.56, so 27.56/32.14 = 0.8575.
  it('below the least asked of its size is worth a second look', () => {
    const low = at('driver-efficiency', ({ products }) => (products.driver.efficiency = 0.85));
    expect(low).toMatchObject({
      ...{ status: 'watch', value: 0.85, unit: 'ratio', fields: ['drivers.data.efficiency'] },
      place: { field: 'drivers.entry' },
    });
    expect(low.limit).toBeCloseTo(0.8575, 4);
    expect(low.margin).toBeCloseTo(-0.0075, 4);
    expect(low.sentence).toMatch(/^The driver turns 85 % of .* 86 % is the least/);
  });

  it('at the least is not spoken of', () => {
    const least = ({ limits }: Wall) =>
      void Object.assign(limits, { leastEfficiency: (rated_W: number) => (rated_W === 60 ? 0.88 : 1) });
    expect(is('driver-efficiency', least)).toBe(false);
  });
});

describe('an output as a Class 2 source', () => {
  const under = (rules: 'IEC' | 'NEC', figures: object) => (made: Wall) => {
    made.job.site.rules = rules;
    Object.assign(made.products.driver, figures);
  };

  // 24 V times 2.5 A are the 60 W of the driver; 24 V times 4.5 A are 108 W, of which 105 W are rated.
  it('is a question of the NEC alone, and never passed: what it may give is held against 100 W', () => {
    expect(driverFindings(wall(under('IEC', {}))).some(({ id }) => id === 'class-2-output')).toBe(false);
    expect(at('class-2-output', under('NEC', {}))).toMatchObject({
      ...{ status: 'note', value: 60, limit: 100, margin: 40, advice: [] },
    });
    const large = at('class-2-output', under('NEC', { rated_W: 105, current_A: 4.5 }));
    expect(large).toMatchObject({ status: 'watch', value: 105, margin: -5, fields: ['drivers.entry'] });
    expect(large.sentence).toContain('can give 105 W, and a Class 2 source 100 W at most');
    expect(at('class-2-output', under('NEC', { rated_W: 120, current_A: 4 })).value).toBe(96);
  });
});
