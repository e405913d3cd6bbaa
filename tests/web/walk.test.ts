import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { eachVisit, objections, type PageService, settled } from './browser.ts';
import { makerOn } from './maker.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

it('a newcomer is led from the empty page to an issued revision of 44 slots in at most 25 entries', async () => {
  const { done, press, fill, choose } = makerOn(page);
  await page.goto(service.address);
  await settled(page);
  await press('New wall');
  await page.getByRole('heading', { name: 'Begin with the wall' }).waitFor();
  expect(await objections(page)).toEqual([]);
  await fill('Width of the wall', '3600');
  await fill('Height of the wall', '2400');
  await fill('Number of slots', '44');
  await choose('Brightness wanted', /Evening glow/i);
  await press('Draw the wall');
  await settled(page);
  expect(await page.locator('.slot').count()).toBe(44);
  expect(await objections(page)).toEqual([]);
  expect(await page.evaluate(() => document.activeElement!.textContent!.trim())).toBe(
    'Propose designs for this wall',
  );
  await press('Propose designs for this wall');
  await page.locator('table.designs').waitFor();
  await press(/^Apply: Design A/);
  await settled(page);
  await page.waitForSelector('main[data-standing="current"][data-accuracy="careful"]');
  expect(await page.locator('.finding.is-fails').count()).toBe(0);
  await press('Next: keep the job');
  await press('Next: issue revision A');
  await press('Issue revision A');
  await press('Next: print the papers');
  expect(await page.evaluate(() => document.activeElement!.closest('paper-tools') !== null)).toBe(true);
  expect(await page.getByRole('row', { name: /^A / }).count()).toBeGreaterThan(0);
  expect(done.length, done.join('\n')).toBeLessThanOrEqual(25);
});

it('the first minute says of a wrong entry what it takes, and keeps what was typed', async () => {
  const { press, fill } = makerOn(page);
  await page.goto(service.address);
  await settled(page);
  await press('New wall');
  await fill('Width of the wall', 'wide');
  await fill('Number of slots', '0');
  await press('Draw the wall');
  const width = page.getByRole('textbox', { name: 'Width of the wall', exact: true });
  expect(await width.getAttribute('aria-invalid')).toBe('true');
  expect(await page.locator('#first-width-why').textContent()).toContain('Panel width');
  expect(await page.locator('#first-count-why').textContent()).toContain('Number of slots');
  expect(await width.inputValue()).toBe('wide');
  expect(await page.evaluate(() => document.activeElement!.id)).toBe('first-width');
  expect(await objections(page)).toEqual([]);
  await width.fill('2.4 m');
  await fill('Number of slots', '6');
  await press('Draw the wall');
  await settled(page);
  expect(await page.locator('.slot').count()).toBe(6);
  await press('Undo');
  await page.getByRole('heading', { name: 'Begin with the wall' }).waitFor();
});

it('every demo job is one press away from the empty page', async () => {
  const { press } = makerOn(page);
  await page.goto(service.address);
  await settled(page);
  await press('New wall');
  await page
    .locator('.first-demos')
    .getByRole('button', { name: /^Stair wall/ })
    .click();
  await page.locator('h1', { hasText: /Stair wall/ }).waitFor();
  expect(await page.locator('.first-minute').count()).toBe(0);
});
