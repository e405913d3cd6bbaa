import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { eachVisit, openDemo, type PageService, settled } from './browser.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

it('a count against none has no figures beside its sentence, and every other figure its unit', async () => {
  await openDemo(page, service.address, 'Foyer wall');
  const fuse = page.locator('#finding-cable-fuse');
  expect(await fuse.textContent()).toContain('No standard fuse lies between');
  expect(await fuse.locator('.measures').count()).toBe(0);
  expect(await page.locator('#finding-depth .measures dd').allTextContents()).toEqual([
    expect.stringMatching(/mm$/),
    expect.stringMatching(/mm$/),
    expect.stringMatching(/mm$/),
  ]);
});

it('the section says once why its temperatures are not known', async () => {
  await openDemo(page, service.address, 'Stair wall');
  const section = await page.locator('build-up-section').textContent();
  expect(section!.split('Not known: some slots do not stand upright')).toHaveLength(2);
});

it('the cable way is drawn beside a door and not through it', async () => {
  await openDemo(page, service.address, 'Window seat');
  const lengths = () =>
    page
      .locator('.cable-way')
      .evaluateAll((lines) =>
        lines.map((line) => Number(line.getAttribute('x2')) - Number(line.getAttribute('x1'))),
      );
  const [whole] = await lengths();
  await page.getByText('Doors and windows').click();
  await page.getByRole('button', { name: 'Add a door or a window' }).click();
  await page.locator('.cable-way').nth(1).waitFor({ state: 'attached' });
  await settled(page);
  // A door to begin from is 540 mm wide in the middle of 1,620 mm: a third of the line is left on each side.
  const parts = await lengths();
  expect(parts.map((length) => length / whole!)).toEqual([
    expect.closeTo(1 / 3, 3),
    expect.closeTo(1 / 3, 3),
  ]);
});
