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
    expect(await objections(page, '.own-products')).toEqual([]);
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
    expect(await objections(page, '.own-products')).toEqual([]);
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

describe('own products in a job', () => {
  const form = (): Locator => page.locator('job-form');
  const driver = (rated_W: number, price_cents: number) => {
    // As the drivers of the first demo job are: dimmed by the mains.
    const texts = {
      ...fromTypical('driver', '12V-20W'),
      'data.name': 'House driver',
      'data.control': 'mains phase',
    };
    const read = readForm('driver', texts);
    if (!read.ok) throw new Error('no driver');
    const about = { currency: 'EUR', source: 'sheet of the maker', dated: '2026-03-31' };
    return { ...read.product, ...about, data: { ...read.product.data, rated_W, price_cents } };
  };
  const send = async (path: string, method: string, body: unknown, etag = '') => {
    const headers = { 'content-type': 'application/json', ...(etag === '' ? {} : { 'if-match': etag }) };
    const reply = await fetch(`${service.address}${path}`, { method, headers, body: JSON.stringify(body) });
    return (await reply.json()) as { product: OwnProduct; etag: string };
  };
  const jobOnPage = async (): Promise<{ drivers: { entry: string }; products: OwnProduct[] }> => {
    const stored = await page.evaluate(() =>
      Object.values(localStorage).find((text) => text.includes('"drivers"')),
    );
    return JSON.parse(stored!).job;
  };
  const openDrivers = async (): Promise<void> => {
    const step = form().locator('details.step[data-step="Drivers"]');
    await step.waitFor();
    if ((await step.getAttribute('open')) === null) await step.locator('summary').first().click();
  };

  it('are chosen beside typical ones, carried as a copy, and taken over again when the workshop changes', async () => {
    const { product, etag } = await send('/api/products', 'POST', driver(20, 2490));
    await page.goto(service.address);
    await settled(page);
    await openDrivers();
    const list = form().getByLabel('Typical driver', { exact: true });
    const before = await list.inputValue();
    await list.selectOption({ label: 'House driver' });
    await settled(page);
    const note = form().locator('.own-note');
    await expect
      .poll(() => note.textContent())
      .toMatch(/Own product, carried by the job\. Data: sheet of the maker, 2026-03-31\. Price 24\.90 EUR\./);
    await expect.poll(async () => (await jobOnPage()).drivers.entry).toBe(product.id);
    expect((await jobOnPage()).products.map(({ id }) => id)).toContain(product.id);
    await send(`/api/products/${product.id}`, 'PUT', driver(22, 2600), etag);
    await page.reload();
    await settled(page);
    await openDrivers();
    await expect
      .poll(() => note.locator('li').allTextContents())
      .toEqual(['Rated output: 20 W \u2192 22 W', 'Price of a driver: 24.90 \u2192 26.00']);
    expect((await jobOnPage()).products.find(({ id }) => id === product.id)!.data).toMatchObject({
      rated_W: 20,
    });
    expect(await objections(page)).toEqual([]);
    await form().getByRole('button', { name: 'Take over what the workshop has now: House driver' }).click();
    await settled(page);
    await expect.poll(() => note.locator('li').count()).toBe(0);
    const rated = async () => (await jobOnPage()).products.find(({ id }) => id === product.id)!.data;
    await expect.poll(rated).toMatchObject({ rated_W: 22, price_cents: 2600 });
    // One step of undo brings the former copy back, a second the typical driver.
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await expect.poll(rated).toMatchObject({ rated_W: 20, price_cents: 2490 });
    await list.selectOption({ label: before });
    await expect.poll(async () => (await jobOnPage()).products.length).toBe(0);
  });

  it('that this workshop does not have work by their copy, and can be kept here', async () => {
    const house = driver(20, 2490);
    const named = { ...house, data: { ...house.data, name: 'Their driver' } };
    const { product, etag } = await send('/api/products', 'POST', {
      ...named,
      source: 'another workshop',
    });
    await page.goto(service.address);
    await settled(page);
    await openDrivers();
    await form().getByLabel('Typical driver', { exact: true }).selectOption({ label: 'Their driver' });
    await settled(page);
    await expect.poll(async () => (await jobOnPage()).drivers.entry).toBe(product.id);
    await fetch(`${service.address}/api/products/${product.id}`, {
      method: 'DELETE',
      headers: { 'if-match': etag },
    });
    await page.reload();
    await settled(page);
    await openDrivers();
    await expect
      .poll(() => form().locator('.own-note').textContent())
      .toMatch(/not among the own products of this workshop/);
    await form().getByRole('button', { name: 'Keep in this workshop: Their driver' }).click();
    await expect.poll(() => form().locator('.own-note').textContent()).not.toMatch(/not among/);
    expect(
      (await onDisk()).some(({ id, source }) => id === product.id && source === 'another workshop'),
    ).toBe(true);
  });
});
