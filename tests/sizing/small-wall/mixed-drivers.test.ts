import { describe, expect, it } from 'vitest';
import type { Sizing } from '../../../src/answer/sizing.ts';
import type { Job } from '../../../src/job/job.ts';
import { driverChoices, modelField, modelOf } from '../../../src/job/products.ts';
import { sizeAt } from '../../../src/sizing/size-job.ts';
import { granted } from './granted.ts';
import { wallOf } from './small-wall.ts';

/** Five runs of 14.4 W, warm some 17 W, on models of 60 and 40 W without reserve: three go on the large, two on the small. */
function mixed(change: (job: Job) => void = () => {}): Sizing {
  const job = wallOf([400, 600, 800, 1000, 1200], (own) => {
    own.strip.entry = '24V-14.4W';
    own.drivers.reserve = 0;
    own.drivers.entry = '24V-60W';
    own.drivers.data = { name: 'small', rated_W: 40, current_A: 1.67, tolerance: 0.02, length_mm: 120 };
    const data = {
      name: 'large',
      rated_W: 60,
      current_A: 2.5,
      efficiency: 0.8,
      tolerance: 0.05,
      length_mm: 260,
    };
    own.drivers.also = [{ entry: '24V-60W', data: { ...data, perBreakerB16: 5 }, stock: null }];
    Object.assign(own.drivers.places[0]!, { width_mm: 900, height_mm: 300 });
    change(own);
  });
  return granted(sizeAt(job, 'quick'));
}

const column = ({ schedules }: Sizing, id: string, key: string) => {
  const { columns, rows } = schedules.find((schedule) => schedule.id === id)!;
  const at = columns.findIndex((each) => each.key === key);
  return rows.map((row) => row[at]);
};

describe('a wall on two models of drivers', () => {
  const answer = mixed();
  const [first, second] = answer.drivers.drivers;

  it('has the fewest drivers that do, then the fewest watts, and says which is which', () => {
    // Two large would be 120 W rated, large and small 100 W.
    expect(
      answer.drivers.drivers.map(({ name, model, rated_W, outputs }) => [
        name,
        model,
        rated_W,
        outputs[0]!.runs.length,
      ]),
    ).toEqual(
      expect.arrayContaining([
        ['large', 1, 60, 3],
        ['small', 0, 40, 2],
      ]),
    );
    expect(answer.drivers.drivers).toHaveLength(2);
  });

  it('has each with its own heat, current, case and breaker', () => {
    const large = first!.model === 1 ? first! : second!;
    const small = first!.model === 1 ? second! : first!;
    expect(large.watts / large.input_W).toBeCloseTo(0.8, 12);
    expect(small.watts / small.input_W).toBeCloseTo(modelOf(answer.products, small).efficiency, 12);
    const [place] = answer.drivers.places;
    const acrossOf = (id: string) => place!.cases.find(({ driver }) => driver === id)!.across_mm;
    expect([acrossOf(large.id), acrossOf(small.id)]).toEqual([260, 120]);
    expect(place!.loss_W).toBeCloseTo(large.loss_W + small.loss_W, 9);
    // 9 of a 60 W driver on a B16 are typical; of the large one 5 as entered.
    expect(answer.drivers.breaker.models.map(({ name, mostDrivers }) => [name, mostDrivers])).toEqual([
      ['small', 9],
      ['large', 5],
    ]);
    expect(answer.drivers.breaker.loads[0]!.share).toBeCloseTo(1 / 9 + 1 / 5, 12);
  });

  it('has both in bill, driver schedule and test sheet', () => {
    const bill = column(answer, 'bill', 'item').flatMap((item, i) =>
      item === 'Driver'
        ? [[column(answer, 'bill', 'description')[i], column(answer, 'bill', 'quantity')[i]]]
        : [],
    );
    expect(bill.toSorted()).toEqual([
      ['large', 1],
      ['small', 1],
    ]);
    const limits = column(answer, 'drivers', 'currentLimit');
    for (const [i, { name }] of answer.drivers.drivers.entries()) {
      expect(column(answer, 'drivers', 'type')[i]).toBe(name);
      expect(limits[i]).toBe(name === 'large' ? 2.5 : 1.67);
      // 24 V, 5 or 2 % either way, at the terminals without load.
      const row = column(answer, 'test-sheet', 'ref').indexOf(`${answer.drivers.drivers[i]!.id}.1`);
      expect(column(answer, 'test-sheet', 'noLoadLow')[row]).toBeCloseTo(name === 'large' ? 22.8 : 23.52, 6);
    }
  });

  it('is protected against what each may give: 1.5 times its rating', () => {
    for (const driver of answer.drivers.drivers)
      for (const cable of answer.cables.filter(({ output }) => output === driver.outputs[0]!.id))
        if (cable.protectedBy === 'driver')
          expect(cable.capacity_A).toBeGreaterThanOrEqual(1.5 * modelOf(answer.products, driver).current_A);
  });

  it('keeps to what there is, and says so where there is not enough', () => {
    const few = mixed((own) => Object.assign(own.drivers, { stock: 0 }));
    expect(few.drivers.drivers.map(({ name }) => name)).toEqual(['large', 'large']);
    const none = mixed((own) => {
      own.drivers.stock = 0;
      own.drivers.also[0]!.stock = 1;
    });
    expect(none.findings.find(({ id }) => id === 'driver-stock-1')).toMatchObject({
      status: 'watch',
      value: 1,
      limit: 0,
    });
  });

  it('stands only where its case goes in', () => {
    // Into a place 280 mm wide goes the small case of 120 mm, with a block, and not the large one of 260 mm and 20 mm either side.
    const tight = mixed((own) => {
      const [place] = own.drivers.places;
      own.drivers.places = [
        { ...place!, name: 'tight', x_mm: 700, width_mm: 280, height_mm: 100 },
        { ...place!, name: 'roomy', x_mm: 3000, width_mm: 900 },
      ];
    });
    for (const { name, place } of tight.drivers.drivers) if (name === 'large') expect(place).toBe('roomy');
    expect(tight.drivers.places.every(({ fits }) => fits)).toBe(true);
  });
});

it('finds the choice and the fields of a model', () => {
  const job = wallOf([600], (own) => {
    own.drivers.also = [{ entry: '24V-100W', data: {}, stock: 2 }];
  });
  expect(driverChoices(job).map(({ entry }) => entry)).toEqual([job.drivers.entry, '24V-100W']);
  expect([modelField({ model: 0 }, 'stock'), modelField({ model: 1 }, 'stock')]).toEqual([
    'drivers.stock',
    'drivers.also[1].stock',
  ]);
});
