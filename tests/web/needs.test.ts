import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { objections, openDemo, type PageService, sharedBrowser, startService } from './browser.ts';

let service: PageService;
let browser: Browser;
beforeAll(async () => {
  service = await startService();
  browser = await sharedBrowser();
});
afterAll(async () => {
  await browser?.close();
  await service?.stop();
});

/** Opens a demo job in a window of some kind, with every fold open, and closes it after. */
async function within(
  kind: Parameters<Browser['newContext']>[0],
  look: (page: Page) => Promise<void>,
): Promise<void> {
  const context = await browser.newContext(kind);
  const page = await context.newPage();
  await openDemo(page, service.address, 'Window seat');
  await page.locator('schedule-tables table').first().waitFor();
  await look(page);
  await context.close();
}

const openFolds = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const fold of document.querySelectorAll<HTMLDetailsElement>('details:not(.asked)')) fold.open = true;
  });

/** What is pressed and is smaller than a finger, 44 px either way (WCAG 2.2, 2.5.5). */
const small = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('button, summary, select')]
      .filter((one) => one.getBoundingClientRect().width > 0 && !one.closest('.unseen'))
      .filter((one) => {
        const { width, height } = one.getBoundingClientRect();
        return height < 43.5 || width < 43.5;
      })
      .map((one) => `${one.className}: ${one.textContent.trim()}`),
  );

for (const width of [820, 390])
  it(`leaves fingers room for everything that is pressed, ${width} px wide`, async () => {
    await within({ viewport: { width, height: 900 }, hasTouch: true, isMobile: true }, async (page) => {
      await openFolds(page);
      expect(await small(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
    });
  });

it('shows what is pressed and chosen under forced colours, and drawings in their own', async () => {
  await within({ viewport: { width: 1440, height: 900 }, forcedColors: 'active' }, async (page) => {
    const ground = (selector: string): Promise<string> =>
      page
        .locator(selector)
        .first()
        .evaluate((one) => getComputedStyle(one).backgroundColor);
    expect(await ground('.switch [aria-pressed="true"]')).not.toBe(
      await ground('.switch [aria-pressed="false"]'),
    );
    expect(await ground('.radios input:checked + span')).not.toBe(
      await ground('.radios input:not(:checked) + span'),
    );
    expect(await page.locator('.switch [aria-pressed="true"]').count()).toBeGreaterThan(0);
    expect(await objections(page)).toEqual([]);
  });
});

it('lets its line go with the page where a magnified window is low', async () => {
  await within({ viewport: { width: 720, height: 450 }, deviceScaleFactor: 2 }, async (page) => {
    await page.evaluate(() => scrollTo(0, 1000));
    const { bottom } = await page
      .locator('.where-it-stands')
      .evaluate((one) => one.getBoundingClientRect().toJSON());
    expect(bottom).toBeLessThan(0);
  });
});

it('leads whoever prints to the pack, by the button and by the keys, and says when there is none', async () => {
  await within({ viewport: { width: 1440, height: 900 } }, async (page) => {
    const focused = (): Promise<string> =>
      page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
    const pack = 'Everything on paper, one PDF: PDF, A4';
    await page.getByRole('button', { name: 'Print', exact: true }).click();
    expect(await focused()).toBe(pack);
    await page.getByRole('button', { name: 'Jobs', exact: true }).focus();
    await page.keyboard.press('Control+p');
    expect(await focused()).toBe(pack);
    await page.getByRole('button', { name: 'New wall', exact: true }).click();
    await page.getByText('There are no slots yet: begin with the wall.').waitFor();
    // The form below asks for them: nothing says so twice.
    expect(await page.getByText('Not complete yet').count()).toBe(0);
    await page.keyboard.press('Control+p');
    await page.getByRole('heading', { name: 'There are no papers to print yet.' }).waitFor();
  });
});
