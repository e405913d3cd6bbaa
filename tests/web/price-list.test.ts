import { describe, expect, it } from 'vitest';
import { demoPrices } from '../../src/job/demo-prices.ts';
import { newJob } from '../../src/job/new-job.ts';
import { differences } from '../../web/state/difference.ts';
import { readEntry } from '../../web/state/edit.ts';
import { fieldSpec, numberText } from '../../web/state/field-spec.ts';
import { pricesText, readPrices } from '../../web/state/price-list.ts';

const driver_2490 = { product: 'driver', entry: '24V-75W', price_cents: 2490 };

describe('a list of prices', () => {
  // 24.90 of a currency is 2490 of its cents.
  it.each([
    'driver 24 V 75 W driver 24.90',
    'Driver; 24 V 75 W driver; 24,90',
    'driver\t24V 75W DRIVER\t€24.9',
    'driver: 24 V 75 W driver: 24.90 €',
    'driver 24V-75W 24.90',
  ])('reads %j', (text) => {
    expect(readPrices(text)).toEqual({ values: [driver_2490], leftOver: [] });
  });

  it('takes a whole number for whole units of the currency, and 1,250.50 for thousands', () => {
    const cents = (text: string) => readPrices(`cable 2 x 1.5 mm² fine-wire ${text}`).values[0]?.price_cents;
    expect([cents('2'), cents('0.98'), cents('1,250.50')]).toEqual([200, 98, 125050]);
  });

  it('keeps what names nothing or has no price, to be shown', () => {
    const left = ['driver 24 V 76 W driver 24.90', 'driver 24 V 75 W driver', 'lamp 24 V 75 W driver 24.90'];
    expect(readPrices(left.join('\n'))).toEqual({ values: [], leftOver: left });
  });

  it('reads back every entry of every catalogue as it writes it', () => {
    const { list } = demoPrices();
    expect(readPrices(pricesText(list))).toEqual({ values: list, leftOver: [] });
    expect(pricesText([list.find(({ entry }) => entry === '24V-75W')!])).toMatch(
      /^driver {2}24 V 75 W driver {2}\d+\.\d0$/,
    );
  });
});

describe('a price entered with a product', () => {
  const metre = ['cables', 'data', 'price_cents_per_m'] as const;
  const each = ['drivers', 'data', 'price_cents'] as const;

  it('is an amount of the currency and no percentage', () => {
    expect(fieldSpec(metre)).toMatchObject({ kind: 'money', unit: '', label: 'Price of a metre' });
    // 0.98 is 98 cents; half a cent more is 98.5.
    expect(readEntry(newJob(), metre, '0.98')).toEqual({ ok: true, value: 98 });
    expect(readEntry(newJob(), metre, '0,985')).toEqual({ ok: true, value: 98.5 });
    expect(numberText(98.5, 'money')).toBe('0.985');
    expect(numberText(2490, 'money')).toBe('24.90');
  });

  it('is refused in a sentence that shows an amount', () => {
    expect(readEntry(newJob(), each, '24.905')).toEqual({
      ok: false,
      sentence: 'Price of a driver must be an amount such as 24.90, up to 100,000.',
    });
  });

  it('is an amount where two versions are compared', () => {
    const priced = (price_cents: number) => {
      const job = newJob();
      return { ...job, drivers: { ...job.drivers, data: { ...job.drivers.data, price_cents } } };
    };
    expect(differences(priced(2490), priced(2600))).toMatchObject([
      { label: 'Price of a driver', before: '24.90', after: '26.00' },
    ]);
  });
});
