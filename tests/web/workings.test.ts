import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { eachVisit, objections, openDemo, type PageService } from './browser.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

const careful = () => page.waitForSelector('main[data-standing="current"][data-accuracy="careful"]');
const openFolds = () =>
  page.locator('finding-list details').evaluateAll((folds) => {
    for (const fold of folds) (fold as HTMLDetailsElement).open = true;
  });
const plain = (text: string | null): string => (text ?? '').replaceAll(/[\s\u202f]+/g, ' ').trim();

it('every figure of a finding opens its working, by keyboard alone, and closes it again', async () => {
  await openDemo(page, service.address, 'Foyer wall');
  await careful();
  const depth = page.locator('#finding-depth');
  const buttons = depth.getByRole('button', { name: /working behind the/ });
  expect(await buttons.count()).toBe(3);
  await buttons.first().focus();
  await page.keyboard.press('Enter');
  const working = page.getByRole('region', { name: 'Working of Depth of the build-up' });
  await working.waitFor();
  expect(await buttons.first().getAttribute('aria-expanded')).toBe('true');
  expect(await page.evaluate(() => document.activeElement!.getAttribute('aria-controls'))).toBe(
    await working.getAttribute('id'),
  );
  expect(await objections(page)).toEqual([]);
  await buttons.nth(2).press(' ');
  expect(await working.count()).toBe(0);
});

it('shows each line by its symbols, by the figures of the job, and what it would take', async () => {
  await openDemo(page, service.address, 'Window seat');
  await careful();
  await openFolds();
  await page.locator('#finding-depth .to-working').first().click();
  const lines = (await page.locator('#working-depth ol li').allTextContents()).map(plain);
  // Backing 6, cavity 20, front 12 and 1.5 of tolerance of 42 mm.
  expect(lines).toContainEqual(
    expect.stringMatching(/the build-up d = d1 \+ d2 \+ d3 = 6 mm \+ 20 mm \+ 12 mm = 38 mm/),
  );
  expect(lines).toContainEqual(expect.stringMatching(/dmost = d \+ t = 38 mm \+ 1\.5 mm = 39\.5 mm/));
  const turns = (await page.locator('#working-depth ul li').allTextContents()).map(plain);
  // 2.5 mm are left: the cavity may be 22.5 mm.
  expect(turns).toContainEqual(
    expect.stringMatching(/now 20 mm: keeps to its limit up to about 22\.5 mm\.$/),
  );
});

for (const width of [1440, 820, 390])
  it(`no working runs out of the page at ${width} px`, async () => {
    await page.setViewportSize({ width, height: 900 });
    await openDemo(page, service.address, 'Foyer wall');
    await careful();
    await openFolds();
    for (const measures of await page.locator('.measures').all()) {
      const button = measures.locator('.to-working').first();
      if ((await button.count()) > 0) await button.click();
    }
    expect(await page.locator('.working').count()).toBeGreaterThan(12);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    const out = await page
      .locator('.working-line, .working li')
      .evaluateAll((lines) =>
        lines
          .filter(
            (line) => line.scrollWidth > line.clientWidth + 1 && getComputedStyle(line).display !== 'inline',
          )
          .map((line) => line.textContent),
      );
    expect(out).toEqual([]);
    expect(await objections(page, '.working')).toEqual([]);
  });
