import { describe, expect, it } from 'vitest';
import { type PriceableRow, priceNotes, priceOfBill } from '../../src/hand-over/bill-price.ts';
import {
  cableCatalogue,
  demoJobs,
  driverCatalogue,
  type Job,
  newJob,
  profileCatalogue,
  profileCoverCatalogue,
  sizeJob,
  stripCatalogue,
} from '../../src/index.ts';
import { type OwnProduct, ownProduct } from '../../src/job/own-product.ts';
import { newProfile } from '../../src/job/profile-catalogue.ts';

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

describe('own products in a bill', () => {
  const about = { currency: 'EUR', stock: null, source: 'sheet of the maker', dated: '2026-03-31' };
  const copy = (kind: OwnProduct['kind'], entry: object, data: object, of = {}): OwnProduct => {
    const { id: _, ...typical } = entry as { id: string };
    return ownProduct.parse({ kind, id: `own-${kind}`, ...about, ...of, data: { ...typical, ...data } });
  };
  const entryOf = (list: readonly { readonly id: string }[], id: string) =>
    list.find((one) => one.id === id)!;
  const withOwn = (products: OwnProduct[], change: (job: Job) => void): Job => {
    const job = newJob();
    job.products = products;
    change(job);
    return job;
  };
  const billOf = (job: Job) => sized(job).schedules.find(({ id }) => id === 'bill')!;

  it('give the figures and prices of their entries, whatever the workshop has since, and their source', () => {
    const job = newJob();
    const strip = copy('strip', entryOf(stripCatalogue, job.strip.entry), {
      name: 'House strip',
      price_cents: 3000,
    });
    const driver = copy('driver', entryOf(driverCatalogue, job.drivers.entry), {
      name: 'House driver',
      price_cents: 2500,
    });
    const own = withOwn([strip, driver], (each) => {
      each.strip.entry = 'own-strip';
      each.drivers.entry = 'own-driver';
    });
    const [before, after] = [sized(job), sized(own)];
    // The same figures under another name: the same circuit, loads and drivers.
    expect(after.circuit).toEqual(before.circuit);
    expect(after.drivers.drivers.map(({ watts }) => watts)).toEqual(
      before.drivers.drivers.map(({ watts }) => watts),
    );
    const cents = (item: string) => after.price.items.find((one) => one.item === item)?.each_cents;
    expect([cents('Strip'), cents('Driver')]).toEqual([3000, 2500]);
    const { notes } = billOf(own);
    expect(notes).toContain('Prices of own products are in EUR.');
    expect(notes).toContain('Own product: House strip. Data: sheet of the maker, 2026-03-31.');
    expect(notes).toContain('Own product: House driver. Data: sheet of the maker, 2026-03-31.');
    // One that the job carries and does not use is not spoken of.
    const unused = withOwn([strip, driver], (each) => {
      each.drivers.entry = 'own-driver';
    });
    expect(billOf(unused).notes.join(' ')).not.toContain('House strip');
  });

  it('keep their price beside a list of prices, and are refused where the job does not carry them', () => {
    const driver = copy('driver', entryOf(driverCatalogue, '24V-75W'), { price_cents: 2500 });
    const listed = withOwn([driver], (each) => {
      each.drivers.entry = 'own-driver';
      each.prices.list = [
        { product: 'driver', entry: 'own-driver', price_cents: 1 },
        { product: 'cable', entry: '1.5mm2', price_cents: 98 },
      ];
    });
    expect(sized(listed).products.driver.price_cents).toBe(2500);
    const codes = (job: Job) => {
      const answer = sizeJob(job);
      return answer.ok ? [] : answer.issues.map(({ code, place }) => [code, place.field]);
    };
    expect(codes({ ...listed, products: [], prices: { note: '', list: [] } })).toEqual([
      ['unknown-entry', 'drivers.entry'],
    ]);
    expect(codes({ ...listed, products: [driver, driver] })).toEqual([['said-twice', 'products[2].id']]);
    const profile = {
      ...newProfile('u-12x10'),
      cover: { entry: 'opal' as const, own: 'own-cover', data: {} },
    };
    const section = {
      ...newJob().section,
      cavity_mm: 24,
      available_mm: 60,
      strip: 'backing' as const,
      profile,
    };
    expect(codes({ ...newJob(), section })).toEqual([['unknown-entry', 'section.profile.cover.own']]);
  });

  it('in two currencies are not added up', () => {
    const strip = copy('strip', entryOf(stripCatalogue, newJob().strip.entry), { price_cents: 3000 });
    const driver = copy(
      'driver',
      entryOf(driverCatalogue, '24V-75W'),
      { price_cents: 2500 },
      { currency: 'CHF' },
    );
    const job = withOwn([strip, driver], (each) => {
      each.strip.entry = 'own-strip';
      each.drivers.entry = 'own-driver';
    });
    const { price } = sized(job);
    const reels = price.items.find(({ item }) => item === 'Strip')!;
    expect(price.known_cents).toBe(reels.ordered * 3000);
    expect(price.missing).toContain('Driver');
    expect(JSON.stringify(billOf(job).rows)).toContain('25.00 CHF each, which is not added to EUR');
  });

  it('price a metre of cable by its number of cores', () => {
    // Two channels need a plus and two returns: three cores.
    const strip = stripCatalogue.find(
      ({ channels, nominal_V }) => channels.length === 2 && nominal_V === 24,
    )!;
    const cable = (pricesByCores: object[]) =>
      copy('cable', entryOf(cableCatalogue, '1.5mm2'), { price_cents_per_m: 98, pricesByCores });
    const each = (pricesByCores: object[]): (number | null)[] => {
      const job = withOwn([cable(pricesByCores)], (one) => {
        one.panel.width_mm = 700;
        one.strip.entry = strip.id;
        one.dimming.levels = [0.2, 0.2];
        one.cables.entry = 'own-cable';
      });
      const { price, cables } = sized(job);
      expect(new Set(cables.map(({ conductorCount }) => conductorCount))).toEqual(new Set([3]));
      return price.items.filter(({ item }) => item === 'Cable').map(({ each_cents }) => each_cents);
    };
    expect(each([])).toEqual([null]);
    expect(each([{ cores: 3, price_cents_per_m: 140 }])).toEqual([140]);
    expect(each([{ cores: 5, price_cents_per_m: 210 }])).toEqual([null]);
  });

  it('count and price bars of profile and cover as they are cut', () => {
    const profile = copy('profile', entryOf(profileCatalogue, 'u-12x10'), {
      ...{ name: 'House U', bar_mm: 5000, price_cents: 1800, price_cents_per_cap: 45 },
    });
    const opal = {
      ...profileCoverCatalogue[0]!,
      look: 'opal',
      name: 'House opal',
      bar_mm: 2000,
      price_cents: 900,
    };
    const cover = copy('cover', opal, {});
    const job = withOwn([profile, cover], (each) => {
      each.section.available_mm = 60;
      each.section.cavity_mm = 24;
      each.section.profile = {
        ...newProfile('own-profile'),
        cover: { entry: 'opal', own: 'own-cover', data: {} },
      };
    });
    const { price, bars, schedules } = sized(job);
    const bought = (item: string) => {
      const { ordered, unit, each_cents, price_cents } = price.items.find((one) => one.item === item)!;
      return [ordered, unit, each_cents, price_cents];
    };
    // Eleven slots of 2,200 mm: two from a bar of 5 m make six bars and one to spare, at 18.00. Of bars of 2 m each slot takes a
    // whole one and 200 mm; nine of 200 mm with their cuts are 1,836, so that eleven fit in two: thirteen, and two to spare.
    expect(sized(job).setOut.slots.map(({ length_mm }) => length_mm)).toEqual(Array(11).fill(2200));
    expect(bars.map(({ item, bars: cut, jointCount }) => [item, cut.length, jointCount])).toEqual([
      ['profile', 6, 0],
      ['cover', 13, 11],
    ]);
    expect(bought('Aluminium profile')).toEqual([7, 'bar', 1800, 12600]);
    expect(bought('Profile cover')).toEqual([15, 'bar', 900, 13500]);
    expect(bought('End cap')).toEqual([25, 'piece', 45, 1125]);
    const map = schedules.find(({ id }) => id === 'bars')!;
    expect(map.rows).toHaveLength(19);
    expect(map.notes.join(' ')).toMatch(
      /Bars of the cover: 4 mm for each saw cut\. No fewer bars .+ 11 joints/,
    );
  });

  it('leave the bill of a profile by the metre as it was', () => {
    const job = newJob();
    job.section = { ...job.section, available_mm: 60, cavity_mm: 24, profile: newProfile('u-12x10') };
    const { price, bars, schedules } = sized(job);
    expect([bars, schedules.some(({ id }) => id === 'bars')]).toEqual([[], false]);
    expect(price.items.find(({ item }) => item === 'Aluminium profile')).toMatchObject({
      unit: 'm',
      each_cents: null,
    });
  });
});
