import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/index.ts';
import { sizeJobCarefully } from '../../src/sizing/size-job.ts';
import { eachVisit, objections, openDemo, type PageService, settled } from './browser.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

const next = () => page.locator('.next-step');
const sums = async () =>
  (await page.locator('.sum').allTextContents()).map((text) => text.replaceAll(/\s+/g, ' ').trim());

async function sizedOf(title: string) {
  const demo = demoJobs.find((each) => each.job.title.job.startsWith(title))!;
  const sized = sizeJobCarefully(demo.job);
  if (!sized.ok) throw new Error(title);
  return sized.value;
}

const careful = () => page.waitForSelector('main[data-standing="current"][data-accuracy="careful"]');

describe('the job in one line', () => {
  it('sums up strip, watts, drivers, cable, heat and depth, and each leads to its place', async () => {
    await openDemo(page, service.address, 'Window seat');
    await careful();
    const { setOut, circuit, drivers, cables, heat } = await sizedOf('Window seat');
    const longest = cables.toSorted((a, b) => b.length_mm - a.length_mm)[0]!;
    const nearest = heat.temperatures.toSorted(
      (a, b) => a.limit_degC! - a.high_degC - (b.limit_degC! - b.high_degC),
    )[0]!;
    // Six slots of 970 mm, cut every 50 mm: 6 x 950 mm. Backing 6, cavity 20, front 12 and 1.5 of tolerance are 39.5.
    expect(setOut.strip_m).toBeCloseTo(5.7, 9);
    expect(await sums()).toEqual([
      'Strip 5.7 m',
      `From the drivers ${circuit.supply_W.toFixed(0)} W at full`,
      `Drivers ${drivers.drivers.length}`,
      `Longest cable ${(longest.length_mm / 1000).toFixed(1)} m ${longest.id}`,
      `${nearest.name} ${nearest.high_degC.toFixed(0)} of ${nearest.limit_degC} °C`,
      'Depth 39.5 of 42 mm',
    ]);
    const at = (name: string) => page.locator('.sum', { hasText: name });
    await at('Strip').first().click();
    expect(await page.locator('#tab-cutting-list').getAttribute('aria-selected')).toBe('true');
    await at('Depth').click();
    expect(await page.evaluate(() => (document.activeElement as HTMLElement).dataset.field)).toBe(
      'section.available_mm',
    );
    await at('Longest cable').click();
    expect(await page.locator('.picked-part').textContent()).toContain(longest.id);
  });

  it('goes grey with the other figures while they wait', async () => {
    await openDemo(page, service.address, 'Window seat');
    await page.route('**/api/sizing?accuracy=quick', () => undefined);
    await page.locator('[data-field="panel.width_mm"]').fill('1640');
    await page.waitForSelector('.where-it-stands.is-waiting');
    expect(await page.locator('.sums').evaluate((line) => getComputedStyle(line).filter)).toBe(
      'grayscale(1)',
    );
    expect(await next().count()).toBe(0);
  });

  it('names the one thing to do next: settle, keep, issue, print', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    const fails = (await sizedOf('Foyer wall')).findings.filter(({ status }) => status === 'fails');
    await careful();
    expect(await next().textContent()).toBe(
      `Next: settle “${fails[0]!.title}”, then ${fails.length - 1} more`,
    );
    await next().click();
    expect(await page.evaluate(() => document.activeElement!.id)).toBe(`finding-${fails[0]!.id}`);
    await openDemo(page, service.address, 'Window seat');
    await next().filter({ hasText: 'Next: keep the job' }).click();
    await next()
      .filter({ hasText: /^Next: issue revision A$/ })
      .click();
    await expect.poll(() => page.evaluate(() => document.activeElement!.id)).toBe('issue-note');
    await page.getByRole('button', { name: 'Issue revision A', exact: true }).click();
    await next().filter({ hasText: 'Next: print the papers' }).click();
    expect(await page.evaluate(() => document.activeElement!.closest('paper-tools') !== null)).toBe(true);
    await page.locator('[data-field="panel.width_mm"]').fill('1640');
    await next()
      .filter({ hasText: /^Next: issue revision B$/ })
      .waitFor();
  });
});

describe('the picture of a step', () => {
  const pictureOf = {
    'The piece': 'wall',
    Slots: 'wall',
    Light: 'slot',
    'Build-up': 'section',
    Strip: 'run',
    'Feeds and cables': 'wall',
    Drivers: 'wall',
    'Site and limits': 'section',
  };

  /** How much of the first 300 px of a picture is in sight, below the line that stays and above the end of the window. */
  const seen = (id: string) =>
    page.evaluate((id) => {
      const box = document.getElementById(`picture-${id}`)!.getBoundingClientRect();
      const top = document.querySelector('.where-it-stands')!.getBoundingClientRect().bottom;
      return Math.min(window.innerHeight, box.top + 300) - Math.max(top, box.top);
    }, id);

  async function work(step: string): Promise<void> {
    const fold = page.locator(`details[data-step="${step}"]`);
    await fold.evaluate((element) => {
      (element as HTMLDetailsElement).open = true;
    });
    await fold.locator('input, select').first().focus();
  }

  for (const width of [1440, 820])
    it(`comes into sight beside its fields at ${width} px`, async () => {
      await page.emulateMedia({ reducedMotion: 'reduce' });
      await page.setViewportSize({ width, height: 900 });
      await openDemo(page, service.address, 'Window seat');
      for (const [step, picture] of Object.entries(pictureOf)) {
        await work(step);
        await expect.poll(() => seen(picture), { message: step }).toBeGreaterThan(280);
        const entry = await page.evaluate(() => document.activeElement!.getBoundingClientRect().toJSON());
        expect(entry.top, step).toBeGreaterThan(0);
        expect(entry.bottom, step).toBeLessThan(900);
      }
    });

  it('stays while others pass below it, and is let go of', async () => {
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await openDemo(page, service.address, 'Window seat');
    await page.locator('#picture-wall .keep-in-sight').click();
    await work('Build-up');
    await expect.poll(() => seen('section')).toBeGreaterThan(150);
    expect(await seen('wall')).toBeGreaterThan(280);
    expect(await objections(page)).toEqual([]);
    await page.locator('#picture-wall .keep-in-sight').click();
    await page.evaluate(() => window.scrollTo(0, 0));
    await work('Build-up');
    await expect.poll(() => seen('section')).toBeGreaterThan(280);
    expect(await seen('wall')).toBeLessThan(0);
  });

  it('is gone to by a button of the step on a phone, where nothing moves by itself', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await openDemo(page, service.address, 'Window seat');
    await work('Build-up');
    expect(await seen('section')).toBeLessThan(0);
    await page.getByRole('button', { name: 'See the section' }).first().click();
    await expect.poll(() => seen('section')).toBeGreaterThan(280);
    await settled(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  });
});

describe('several slots', () => {
  const field = (name: string) => page.locator(`[data-field="${name}"]`);
  const said = () => page.locator('.picked-slots p').textContent();
  const make = (menu: string, what: string) =>
    page.locator(`.picked-slots select[aria-label="${menu}…"]`).selectOption({ label: what });

  const middle = async (slot: string) => {
    const box = (await page.locator(`[data-slot="${slot}"]`).boundingBox())!;
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  };

  async function click(slot: string, ...held: string[]): Promise<void> {
    const { x, y } = await middle(slot);
    for (const key of held) await page.keyboard.down(key);
    await page.mouse.click(x, y);
    for (const key of held) await page.keyboard.up(key);
  }

  it('are picked by a box drawn over the wall and put into a zone, in one step of undo', async () => {
    await openDemo(page, service.address, 'Window seat');
    const [second, fourth] = [await middle('S02'), await middle('S04')];
    await page.mouse.move(second.x - 30, second.y - 20);
    await page.mouse.down();
    await page.mouse.move(fourth.x + 30, fourth.y + 20, { steps: 4 });
    expect(await page.locator('.pick-box').count()).toBe(1);
    await page.mouse.up();
    expect(await said()).toBe('3 slots picked: 2\u20134, fed at the start');
    expect(await page.locator('.slot.is-picked').count()).toBe(3);
    await make('Put them into', 'a new zone');
    expect(await field('dimming.zones[1].slots').inputValue()).toBe('2\u20134');
    await click('S06', 'Control');
    await click('S03', 'Control');
    expect(await said()).toBe('3 slots picked: 2, 4, 6, in different zones, fed at the start');
    await make('Put them into', 'a new zone');
    expect(await field('dimming.zones[1].slots').inputValue()).toBe('3');
    expect(await field('dimming.zones[2].slots').inputValue()).toBe('2, 4, 6');
    expect(await objections(page)).toEqual([]);
    await page.keyboard.press('Control+z');
    expect(await field('dimming.zones[1].slots').inputValue()).toBe('2\u20134');
    expect(await field('dimming.zones[2].slots').count()).toBe(0);
  });

  it('are picked with Shift and the arrow keys and fed another way', async () => {
    await openDemo(page, service.address, 'Window seat');
    await click('S02');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    expect(await said()).toBe('3 slots picked: 2\u20134, fed at the start');
    await page.keyboard.press('Shift+ArrowLeft');
    expect(await said()).toBe('2 slots picked: 2, 3, fed at the start');
    await make('Feed them', 'at both ends');
    await settled(page);
    expect(await said()).toBe('2 slots picked: 2, 3, fed at both ends');
    expect(await page.locator('[data-field^="feeds.exceptions"][data-field$=".slot"]').count()).toBe(2);
    expect(await page.locator('.feed-point').count()).toBe(8);
    await make('Feed them', 'as the wall');
    await settled(page);
    expect(await page.locator('.feed-point').count()).toBe(6);
    await page.getByRole('button', { name: 'Let go' }).click();
    expect(await page.locator('.picked-slots').count()).toBe(0);
  });
});

describe('steps of undo', () => {
  it('survive a reload, both ways', async () => {
    await openDemo(page, service.address, 'Window seat');
    const width = page.locator('[data-field="panel.width_mm"]');
    for (const entry of ['1700', '1800', '1900']) {
      await width.fill(entry);
      await width.blur();
    }
    await page.keyboard.press('Control+z');
    expect(await width.inputValue()).toBe('1800');
    await page.reload();
    await settled(page);
    expect(await width.inputValue()).toBe('1800');
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await width.inputValue()).toBe('1700');
    await page.getByRole('button', { name: 'Redo' }).click();
    await page.getByRole('button', { name: 'Redo' }).click();
    expect(await width.inputValue()).toBe('1900');
  });
});
