import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { OwnProduct } from '../../src/job/own-product.ts';
import { productKinds } from '../../src/job/own-product.ts';
import { fromTypical, readForm, textsOf, typicalEntries } from '../../web/state/product-form.ts';
import { bytesOf, eachVisit, objections, type PageService, settled } from './browser.ts';

describe('the form of a product', () => {
  it.each(productKinds)('of a %s reads every typical entry as it shows it', (kind) => {
    for (const { id } of typicalEntries(kind)) {
      const texts = fromTypical(kind, id);
      const read = readForm(kind, texts);
      expect(read.ok ? [] : [...read.problems], id).toEqual([]);
      if (read.ok) expect(textsOf(read.product)).toEqual(texts);
    }
  });

  it('says beside its field what is wrong', () => {
    const texts = {
      ...fromTypical('driver', '24V-75W'),
      'data.name': ' ',
      'data.efficiency': '120',
      'data.length_mm': 'long',
    };
    const read = readForm('driver', { ...texts, 'data.price_cents': 'cheap', dated: '' });
    const problems = read.ok ? new Map() : read.problems;
    expect(problems.get('data.name')).toBe('Give the product a name.');
    expect(problems.get('data.efficiency')).toMatch(/between 50\u202f% and 99\u202f%/);
    expect(problems.get('data.length_mm')).toBe('Case length must be a number in mm.');
    expect(problems.get('data.price_cents')).toBe('Price of a driver must be an amount such as 24.90.');
    expect(problems.size).toBe(4);
  });

  it('takes prices by number of cores, and amounts for cents', () => {
    const texts = {
      ...fromTypical('cable', '1.5mm2'),
      'data.pricesByCores': '3: 1.40; 5 = €2,10',
      'data.price_cents_per_m': '0.985',
    };
    const read = readForm('cable', texts);
    expect(read.ok && read.product.data).toMatchObject({
      price_cents_per_m: 98.5,
      pricesByCores: [
        { cores: 3, price_cents_per_m: 140 },
        { cores: 5, price_cents_per_m: 210 },
      ],
    });
    const wrong = readForm('cable', { ...texts, 'data.pricesByCores': '3 cores cheap' });
    expect(wrong.ok ? [] : [...wrong.problems.keys()]).toEqual(['data.pricesByCores']);
  });
});

let page: Page;
let service: PageService;
eachVisit((visit) => {
  ({ page, service } = visit);
});

const panel = (): Locator => page.getByRole('region', { name: 'Own products' });
const press = (name: string | RegExp): Promise<void> =>
  panel()
    .getByRole('button', typeof name === 'string' ? { name, exact: true } : { name })
    .click();
const entry = (label: string): Locator => panel().getByLabel(label, { exact: true });
const file = (): string => join(service.jobsFolder, '.products', 'products.json');
const onDisk = async (): Promise<OwnProduct[]> => JSON.parse(await readFile(file(), 'utf8')).products;

async function openPanel(): Promise<void> {
  await page.goto(service.address);
  await settled(page);
  await page.getByRole('button', { name: 'Jobs', exact: true }).click();
  await panel().waitFor();
}

async function says(words: RegExp): Promise<void> {
  await expect.poll(() => panel().textContent()).toMatch(words);
}

describe('own products on the page', () => {
  it('are added from a typical one, changed, found, deleted and brought back, with nothing to object to', async () => {
    await openPanel();
    await entry('Kind').selectOption({ index: 1 });
    await press('Add a driver');
    await entry('Begin with the values of').selectOption({ label: '24 V 75 W driver' });
    await entry('Driver name').fill('House driver 75');
    await entry('Price of a driver').fill('twenty');
    await press('Keep this driver');
    await says(/1 entry has to be put right/);
    await expect.poll(() => entry('Price of a driver').getAttribute('aria-invalid')).toBe('true');
    expect(await objections(page)).toEqual([]);
    await entry('Price of a driver').fill('24,90');
    await entry('Currency of its price').fill('EUR');
    await entry('Source of its data').fill('sheet of the maker');
    await entry('Date of its data').fill('2026-03-31');
    await press('Keep this driver');
    await panel()
      .getByRole('row', { name: /House driver 75.+24\.90 EUR.+sheet of the maker/ })
      .waitFor();
    expect((await onDisk())[0]).toMatchObject({
      ...{ id: 'own-house-driver-75', kind: 'driver', source: 'sheet of the maker', dated: '2026-03-31' },
      data: { output_V: 24, rated_W: 75, price_cents: 2490 },
    });
    await press('Change: House driver 75');
    await entry('Price of a driver').fill('26');
    await press('Keep the change');
    await says(/26\.00 EUR/);
    await entry('Search').fill('nothing of this name');
    await says(/0 products of 1/);
    await entry('Search').fill('house 75');
    expect(await objections(page)).toEqual([]);
    await press('Delete: House driver 75');
    await says(/No drivers of your own yet/);
    await page.getByRole('button', { name: 'Bring it back' }).click();
    await says(/House driver 75/);
    expect((await onDisk())[0]).toMatchObject({ data: { price_cents: 2600 } });
  });

  it('that somebody else changed meanwhile are not overwritten, and what was typed stays', async () => {
    await openPanel();
    await entry('Kind').selectOption({ index: 3 });
    await press('Add a cable');
    await entry('Cable name').fill('Flex');
    await press('Keep this cable');
    await press('Change: Flex');
    const [{ id: _, ...theirs }] = (await onDisk()).filter(({ kind }) => kind === 'cable') as [OwnProduct];
    const { products } = (await (await fetch(`${service.address}/api/products`)).json()) as {
      products: { product: OwnProduct; etag: string }[];
    };
    const mine = products.find(({ product }) => product.kind === 'cable')!;
    await fetch(`${service.address}/api/products/${mine.product.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json', 'if-match': mine.etag },
      body: JSON.stringify({ ...theirs, source: 'theirs' }),
    });
    await entry('Source of its data').fill('mine');
    await press('Keep the change');
    await page.getByText(/“Flex” was changed by somebody else after you opened it/).waitFor();
    await expect.poll(() => entry('Source of its data').inputValue()).toBe('mine');
    expect((await onDisk()).find(({ kind }) => kind === 'cable')!.source).toBe('theirs');
  });

  it('come in as a table, a bad row is named and saved, and go out as they are', async () => {
    await openPanel();
    await entry('Kind').selectOption({ index: 3 });
    const table =
      'Cable name;Typical values from;Price of a metre\r\nThin;0.75mm2;0,65\r\nThick;no such;2,10\r\n';
    await panel()
      .locator('input[type="file"]')
      .setInputFiles({ name: 'list.csv', mimeType: 'text/csv', buffer: Buffer.from(table) });
    await says(/“list\.csv”: ?1 product added\. 1 problem to look at/);
    await says(/Row 3, Typical values from: No cable of the catalogue is called “no such”/);
    expect(await objections(page)).toEqual([]);
    const [notTaken] = await Promise.all([
      page.waitForEvent('download'),
      press('Save the rows that were not taken'),
    ]);
    expect(notTaken.suggestedFilename()).toBe('not-taken-list.csv');
    expect((await bytesOf(notTaken)).toString()).toContain('Thick');
    const [whole] = await Promise.all([page.waitForEvent('download'), press('Save as a table')]);
    expect((await bytesOf(whole)).toString()).toMatch(/"Thin".+0\.65/);
    const [empty] = await Promise.all([page.waitForEvent('download'), press('Save an empty table')]);
    expect((await bytesOf(empty)).toString()).toMatch(/^\uFEFF"Id","Cable name"/);
  });

  it('can be kept with the keyboard alone', async () => {
    await openPanel();
    await entry('Kind').focus();
    for (let i = 0; i < productKinds.indexOf('cover'); i++) await page.keyboard.press('ArrowDown');
    await panel().getByRole('button', { name: 'Add a cover' }).focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('product-data-name');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('Opal of the glazier');
    await page.keyboard.press('Enter');
    await says(/Opal of the glazier/);
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('own-products-title');
  });
});
