import type { Page, Route } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { eachVisit, later, objections, openDemo, type PageService, settled } from './browser.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

const field = (name: string) => page.locator(`[data-field="${name}"]`);
const news = () => page.locator('.news').textContent();
const condition = async () => (await page.locator('.condition').textContent())!.trim();

const problem = (status: number, more: object = {}) => ({
  status,
  contentType: 'application/problem+json',
  body: JSON.stringify({ type: '', title: 'No', status, detail: 'Not as it stands.', issues: [], ...more }),
});

/** Something else than the service's own answer to one kind of question, until it is let go. */
async function instead(accuracy: 'quick' | 'careful', act: (route: Route) => Promise<void>): Promise<void> {
  await page.route(`**/api/sizing?accuracy=${accuracy}`, act);
}

const issue = (code: string, place: object, sentence: string) => ({ code, place, quantities: {}, sentence });
const short = (i: number) =>
  issue('slot-too-short', { slot: `S${i}`, field: 'slots' }, `Slot S${i} is ${100 + i} mm long: too short.`);

describe('a careful answer that does not come', () => {
  it('is shown as refused with its reasons, and the quick figures say that they are quick', async () => {
    await openDemo(page, service.address, 'Window seat');
    const place = { field: 'section.carrierWidth_mm' };
    const issues = [
      issue('carrier-fills-cavity', place, 'The aluminium flat fills the cavity: make it narrower.'),
    ];
    await instead('careful', (route) => route.fulfill(problem(422, { issues })));
    await field('panel.width_mm').fill('1640');
    await page.waitForSelector('.condition.is-refused');
    expect(await news()).toMatch(/^6 slots\..*Quick calculation only: the careful one found why/);
    const message = page.locator('.message.is-careful');
    expect(await message.textContent()).toMatch(
      /The aluminium flat fills the cavity.*cannot be made\s+until then/s,
    );
    expect(await page.locator('main').getAttribute('class')).toBe('');
    expect(await objections(page)).toEqual([]);
  });

  it('is shown as failed with the reference, and comes when it is asked for again', async () => {
    await openDemo(page, service.address, 'Window seat');
    let asked = 0;
    await instead('careful', (route) => {
      asked += 1;
      return asked > 1 ? route.continue() : route.fulfill(problem(500, { reference: '12ab-34' }));
    });
    await field('panel.width_mm').fill('1640');
    await page.waitForSelector('.condition.is-failed');
    expect(await news()).toMatch(/the careful one failed/);
    expect(await page.locator('.message.is-careful').textContent()).toContain('Reference: 12ab-34');
    await page.getByText('Ask again now').click();
    await page.waitForSelector('.condition.is-careful');
    expect(await page.locator('.message').count()).toBe(0);
    expect(asked).toBe(2);
  });
});

describe('figures that wait', () => {
  it('look and read otherwise than new ones, also after a refusal', async () => {
    await openDemo(page, service.address, 'Window seat');
    expect(await news()).toMatch(/passed/);
    let status = 0;
    const held: (() => void)[] = [];
    await instead('quick', async (route) => {
      if (status === 422) return route.fulfill(problem(422, { issues: [short(1)] }));
      await new Promise<void>((release) => held.push(release));
      await route.continue().catch(() => undefined);
    });
    const old = () =>
      page.evaluate(() => {
        const list = document.querySelector('.findings')!.closest('finding-list')!;
        const { filter } = getComputedStyle(list);
        return [filter, getComputedStyle(list.querySelector('h2')!, '::after').content];
      });
    expect(await old()).toEqual(['none', 'none']);
    await field('slots.spacing.count').fill('5');
    await page.waitForSelector('main.is-waiting[aria-busy="true"]');
    await expect.poll(old).toEqual(['grayscale(1)', '" from before the change"']);
    expect(await news()).toMatch(/The figures are from before it/);
    expect(await news()).not.toMatch(/passed/);
    expect(await condition()).toBe('Waiting');
    expect(await page.locator('.paper-rows button:enabled').count()).toBe(0);
    held.pop()!();
    await settled(page);
    expect(await news()).toMatch(/^5 slots.*passed/);
    status = 422;
    await field('slots.spacing.count').fill('7');
    await page.waitForSelector('.condition.is-refused');
    await expect.poll(old).toEqual(['grayscale(1)', '" of the last job that worked"']);
    expect(await news()).toMatch(/^This cannot be built as it stands\. The figures are of the last/);
    status = 0;
    await field('slots.spacing.count').fill('8');
    await page.waitForSelector('.condition.is-waiting');
    expect(await news()).not.toMatch(/passed/);
    expect(await page.locator('.message.is-former').textContent()).toMatch(
      /Before the last change.*too short/s,
    );
    await expect.poll(() => held.length).toBe(1);
    held.pop()!();
    await settled(page);
    expect(await news()).toMatch(/^8 slots/);
    expect(await page.locator('.message').count()).toBe(0);
  });
});

describe('a mistake of the service', () => {
  it('shows its reference and is not asked for again and again', async () => {
    await page.clock.install();
    await openDemo(page, service.address, 'Window seat');
    let asked = 0;
    await instead('quick', (route) => {
      asked += 1;
      return route.fulfill(problem(500, { reference: 'ff-01', detail: 'Report the reference.' }));
    });
    await field('panel.width_mm').fill('1640');
    await page.waitForSelector('main[data-standing="failed"]');
    expect(await page.locator('.message.is-failed').textContent()).toMatch(
      /made a mistake.*Reference: ff-01/s,
    );
    await later(page, 600_000);
    expect(asked).toBe(1);
  });
});

describe('reasons', () => {
  it('that are equal are said once with their count, the rest fold, and each leads to place and field', async () => {
    await openDemo(page, service.address, 'Window seat');
    const many = Array.from({ length: 30 }, (_, i) => short(i + 1));
    const others = ['a', 'b', 'c', 'd', 'e'].map((x) => issue(x, { field: 'section' }, `Reason ${x}.`));
    const hot = issue('runs-away', { run: 'R01', field: 'strip.entry' }, 'Run R01 gets hotter.');
    const issues = [...many, hot, ...others];
    await instead('quick', (route) => route.fulfill(problem(422, { issues })));
    await field('panel.width_mm').fill('1640');
    const message = page.locator('.message.is-refused');
    await message.waitFor();
    expect(await message.locator('> ul > li').count()).toBe(4);
    expect(await message.textContent()).toMatch(
      /Slot S1 is 101 mm long.*The same holds for S2, S3.*: 30 in all/s,
    );
    expect(await message.locator('summary').textContent()).toBe('3 more reasons');
    await message.locator('li').filter({ hasText: 'gets hotter' }).getByText('Change it').click();
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-field'))).toBe('strip.entry');
    await message.locator('summary').click();
    expect((await message.boundingBox())!.height).toBeLessThan(900);
    expect(await objections(page)).toEqual([]);
  });
});

describe('findings', () => {
  it('lead to the place they mean, not to the first of its kind', async () => {
    await instead('quick', async (route) => {
      const response = await route.fetch();
      const { findings, ...sizing } = await response.json();
      const moved = {
        ...findings[0],
        id: 'moved',
        title: 'Of the second place',
        place: { field: 'drivers.places[2]' },
      };
      await route.fulfill({ response, json: { ...sizing, findings: [{ ...moved, status: 'fails' }] } });
    });
    await openDemo(page, service.address, 'Foyer wall');
    await page.getByRole('button', { name: 'Of the second place', exact: true }).click();
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-field'))).toBe(
      'drivers.places[2].name',
    );
    await page.unrouteAll({ behavior: 'ignoreErrors' });
  });
});

describe('schedules', () => {
  it('that are not looked at have no rows, and all have them on paper', async () => {
    await openDemo(page, service.address, 'Window seat');
    const drawn = () => page.locator('.schedule:has(tbody tr)').count();
    const all = await page.locator('.schedule').count();
    expect(await drawn()).toBe(1);
    await page.getByRole('tab').nth(2).click();
    expect(await drawn()).toBe(1);
    expect(await page.locator('.schedule:not(.is-away) tbody tr').count()).toBeGreaterThan(1);
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    expect(await drawn()).toBe(all);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    await expect.poll(drawn).toBe(1);
  });
});

describe('the title block', () => {
  it('asks the service nothing', async () => {
    await page.clock.install();
    await openDemo(page, service.address, 'Window seat');
    await page.waitForSelector('main[data-accuracy="careful"]');
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await field('title.client').evaluate((element) => {
      element.closest('details')!.open = true;
    });
    await field('title.client').fill('A. Client');
    await later(page, 600_000);
    expect(asked).toEqual([`${service.address}/api/health`]);
    expect(await page.locator('.title-block .box-client dd').textContent()).toBe('A. Client');
    expect(await page.locator('.condition').textContent()).toContain('Careful');
  });

  it('of a stored draft is asked for once', async () => {
    await openDemo(page, service.address, 'Window seat');
    const asked: string[] = [];
    page.on('request', (request) => asked.push(new URL(request.url()).search));
    await page.reload();
    await page.waitForSelector('main[data-accuracy="careful"]');
    expect(asked.filter((search) => search.includes('accuracy='))).toEqual([
      '?accuracy=quick',
      '?accuracy=careful',
    ]);
  });
});

describe('focus', () => {
  /** Every stop of Tab or of Shift and Tab through the page, and whether the line that stays covers it. */
  async function coveredStops(key: 'Tab' | 'Shift+Tab'): Promise<{ stops: number; covered: string[] }> {
    const covered: string[] = [];
    let stops = 0;
    for (; stops < 600; stops++) {
      await page.keyboard.press(key);
      const stop = await page.evaluate(() => {
        const at = document.activeElement;
        if (!at || at === document.body) return 'end';
        const line = document.querySelector('.where-it-stands')!;
        if (line.contains(at)) return '';
        const box = at.getBoundingClientRect();
        const bar = line.getBoundingClientRect();
        const isTall = box.height > window.innerHeight / 2;
        const reaches = box.bottom > bar.top + 1 && box.top < bar.bottom - 1;
        const isCovered = isTall ? reaches && box.bottom < bar.bottom + 40 : reaches;
        const isAway = box.top > window.innerHeight - 4 || box.bottom < 4;
        return isCovered || isAway
          ? `${at.outerHTML.slice(0, 90)} ${box.top} to ${box.bottom}, ${bar.bottom}`
          : '';
      });
      if (stop === 'end') break;
      if (stop !== '') covered.push(stop);
    }
    return { stops, covered };
  }

  for (const width of [1440, 820, 390]) {
    it(`is never behind the line that stays, ${width} px wide`, async () => {
      await page.setViewportSize({ width, height: 800 });
      await openDemo(page, service.address, 'Foyer wall');
      const issues = Array.from({ length: 29 }, (_, i) => short(i + 1));
      await instead('quick', (route) => route.fulfill(problem(422, { issues })));
      await page.evaluate(() => {
        const input = document.querySelector<HTMLInputElement>('[data-field="panel.width_mm"]')!;
        input.value = '3100';
        input.dispatchEvent(new InputEvent('input', { bubbles: true }));
      });
      await page.waitForSelector('.message.is-refused');
      const bar = (await page.locator('.where-it-stands').boundingBox())!;
      expect(bar.height).toBeLessThan(width > 1000 ? 80 : 120);
      for (const key of ['Tab', 'Shift+Tab'] as const) {
        await page.evaluate(() => {
          (document.activeElement as HTMLElement | null)?.blur();
          getSelection()?.removeAllRanges();
        });
        const { stops, covered } = await coveredStops(key);
        expect(stops).toBeGreaterThan(60);
        expect(covered).toEqual([]);
      }
    });
  }
});
