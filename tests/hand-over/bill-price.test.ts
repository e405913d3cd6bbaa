import { describe, expect, it } from 'vitest';
import { type PriceableRow, priceNotes, priceOfBill } from '../../src/hand-over/bill-price.ts';
import { demoJobs, newJob, sizeJob } from '../../src/index.ts';

const row = (item: string, quantity: number, spare: number, each_cents: number | null): PriceableRow => ({
  ...{ item, description: '', unit: 'piece', quantity, spare, each_cents },
});

describe('what a bill comes to', () => {
  it('by hand: what is to order at its price, to the cent, and what has none', () => {
    // (3 + 1) · 2,490 = 9,960; 12 ft at 97 cents a metre are 12 · 97 · 0.3048 = 354.79, so 355; together 10,315.
    const rows = [
      row('Driver', 3, 1, 2490),
      row('Cable', 11, 1, 97 * 0.3048),
      row('Tap', 4, 1, null),
      row('Tap', 2, 0, null),
    ];
    const price = priceOfBill(rows, 'quoted in May');
    expect(price.items.map(({ ordered, price_cents }) => [ordered, price_cents])).toEqual([
      [4, 9960],
      [12, 355],
      [5, null],
      [2, null],
    ]);
    expect([price.known_cents, price.missing]).toEqual([10315, ['Tap']]);
    expect(priceNotes(price)).toEqual([
      'All prices given come to 103.15, spares included. Not in it, since no price is given: tap.',
      'Prices: quoted in May',
    ]);
  });

  it('is not known where nobody gave a price, and 0 where all costs nothing', () => {
    expect(priceOfBill([row('Driver', 3, 1, null)], '')).toMatchObject({ known_cents: null });
    expect(priceOfBill([row('Strip from stock', 3, 0, 0)], '')).toMatchObject({
      ...{ known_cents: 0, missing: [] },
    });
    expect(priceNotes(priceOfBill([row('Driver', 3, 1, null)], ''))[0]).toMatch(/^No prices are given/);
    expect(priceNotes(priceOfBill([row('Driver', 1, 0, 50)], ''))[0]).toMatch(/Every row has a price\.$/);
  });
});

const sized = (job: Parameters<typeof sizeJob>[0]) => {
  const answer = sizeJob(job);
  if (!answer.ok) throw new Error(answer.issues.map(({ sentence }) => sentence).join(' '));
  return answer.value;
};

describe('prices of a job', () => {
  it('are those entered with a product, or else those listed; the catalogue has none', () => {
    const job = newJob();
    const driverPrice = (): number | null => sized(job).products.driver.price_cents;
    expect([driverPrice(), sized(job).price.known_cents]).toEqual([null, null]);
    job.prices.list = [{ product: 'driver', entry: job.drivers.entry, price_cents: 2500 }];
    expect(driverPrice()).toBe(2500);
    job.drivers.data = { price_cents: 1999 };
    expect(driverPrice()).toBe(1999);
    job.drivers.data = {};
    job.prices.list = [{ product: 'cable', entry: '1.5mm2', price_cents: 98 }];
    const { price, drivers } = sized(job);
    const metres = price.items.find(({ item }) => item === 'Cable')!;
    expect(metres).toMatchObject({ each_cents: 98, price_cents: 98 * metres.ordered });
    expect(price.known_cents).toBe(metres.price_cents);
    expect(drivers.drivers.length).toBeGreaterThan(0);
    expect(price.missing).toContain('Driver');
  });

  it('of what no catalogue has, or listed twice, are refused by their line', () => {
    const job = newJob();
    job.prices.list = [
      { product: 'driver', entry: 'none', price_cents: 1 },
      { product: 'cable', entry: '1.5mm2', price_cents: 1 },
      { product: 'cable', entry: '1.5mm2', price_cents: 2 },
    ];
    const answer = sizeJob(job);
    expect(answer.ok ? [] : answer.issues.map(({ code, place }) => [code, place.field])).toEqual([
      ['unknown-entry', 'prices.list[1].entry'],
      ['said-twice', 'prices.list[3].entry'],
    ]);
  });

  it('of the demo jobs are invented, and their bill says so', () => {
    for (const { job } of demoJobs) {
      const { price, schedules } = sized(job);
      expect(price.known_cents).toBeGreaterThan(0);
      expect(price.note).toMatch(/^invented/);
      const bill = schedules.find(({ id }) => id === 'bill')!;
      expect(bill.notes).toContainEqual(expect.stringMatching(/^Prices: invented for this demonstration/));
      expect(bill.columns.map(({ key }) => key)).toContain('price');
    }
  });
});

describe('offcuts in stock', () => {
  it('are cut first where that spares a reel, cost nothing and stand in a row of their own', () => {
    // Eleven slots of 2,200 mm, two from a reel of 5 m: six reels, of which the last keeps 2.8 m, so none is spare. An offcut
    // of 2.3 m spares that reel, and then one is to spare; a second spares none and stays where it is.
    const job = newJob();
    job.prices.list = [{ product: 'strip', entry: job.strip.entry, price_cents: 1000 }];
    const reels = (offcuts_mm: number[]) => {
      const { setOut, price } = sized({ ...job, strip: { ...job.strip, offcuts_mm } });
      const rows = price.items.filter(({ unit }) => unit === 'reel' || unit === 'offcut');
      return [setOut.reels.map(({ fromStock }) => fromStock), rows.map(({ price_cents }) => price_cents)];
    };
    expect(reels([])).toEqual([Array(6).fill(false), [6000]]);
    expect(reels([2100])).toEqual(reels([]));
    expect(reels([2300, 5])).toEqual([
      [true, ...Array(5).fill(false)],
      [6000, 0],
    ]);
    expect(reels([2300, 2300])).toEqual(reels([2300]));
  });
});
