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
  await page.getByText('Doors, windows and keep-outs').click();
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

it('a margin is the difference of the two figures beside it, within half a last digit of each of the three', async () => {
  await openDemo(page, service.address, 'Stair wall');
  const rows = await page
    .locator('.measures')
    .evaluateAll((lists) =>
      lists.map((list) => [...list.querySelectorAll('dd')].map((each) => each.textContent ?? '')),
    );
  const number = (text: string): number => Number.parseFloat(text.replaceAll(',', '').replace('\u2212', '-'));
  // A whole number is exact, or to one.
  const step = (text: string): number => 10 ** -(/\.(\d+)/.exec(text)?.[1]?.length ?? 0);
  const complete = rows.filter(({ length }) => length === 3);
  expect(complete.length).toBeGreaterThan(8);
  for (const three of complete) {
    const [value, limit, margin] = three.map(number) as [number, number, number];
    const off = Math.abs(Math.abs(limit - value) - Math.abs(margin));
    expect(off, three.join(', ')).toBeLessThanOrEqual(0.5 * three.map(step).reduce((a, b) => a + b) + 1e-9);
  }
  // Of 13.9 A there were 11.91 A left beside 1.94 A: a digit that the limit does not have.
  expect(await page.locator('#finding-cable-capacity .measures dd').allTextContents()).toEqual([
    ...['1.94\u202fA', '13.9\u202fA', '11.9\u202fA'],
  ]);
});

it('a profile on a wall whose heat is not known says that its own temperatures are not known', async () => {
  await openDemo(page, service.address, 'Stair wall');
  await page.getByText('50 mm available, cavity 26 mm').click();
  await page.locator('select[data-field="section.profile"]').selectOption({ index: 2 });
  const remark = page.locator('build-up-section .remark', { hasText: 'of the light' });
  await remark.waitFor();
  const text = (await remark.textContent())!.replaceAll(/\s+/g, ' ');
  expect(text).toMatch(
    /^ ?Its temperatures are not known. In an upright slot the profile would be, on average, \d/,
  );
});
