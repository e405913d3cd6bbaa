import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { demoJobs, sizeJob } from '../../src/index.ts';
import { type Movable, movablesOf, snapped } from '../../web/state/moving.ts';
import { eachVisit, objections, openDemo, type PageService, settled } from './browser.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

const field = (name: string) => page.locator(`[data-field="${name}"]`);
const entryOf = (name: string) => field(name).inputValue().then(Number);

async function openSteps(): Promise<void> {
  await page.locator('job-form details').evaluateAll((folds) => {
    for (const fold of folds) (fold as HTMLDetailsElement).open = true;
  });
}

/** Drags from somewhere near the lower left corner of something by so many pixels. */
async function drag(selector: string, [dx, dy]: readonly [number, number], letGo = true): Promise<void> {
  await page.evaluate(() => document.querySelector('wall-elevation')!.scrollIntoView());
  const box = (await page.locator(selector).boundingBox())!;
  const [x, y] = [box.x + 3, box.y + box.height - 3];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx / 2, y + dy / 2);
  await page.mouse.move(x + dx, y + dy, { steps: 3 });
  if (letGo) await page.mouse.up();
}

const place = '[data-move="drivers.places[1]"]';

describe('on the wall', () => {
  it('a driver place is dragged, with where it is beside it, in one step of undo', async () => {
    await openDemo(page, service.address, 'Window seat');
    await openSteps();
    const [x, y] = [await entryOf('drivers.places[1].x_mm'), await entryOf('drivers.places[1].y_mm')];
    await drag(place, [60, -10], false);
    expect(await page.locator('.dragged-where').textContent()).toMatch(/from the left, .* from the foot$/);
    await page.mouse.up();
    await settled(page);
    expect(await entryOf('drivers.places[1].x_mm')).toBeGreaterThan(x);
    expect(await page.locator('.dragged').count()).toBe(0);
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    expect(await entryOf('drivers.places[1].x_mm')).toBe(x);
    expect(await entryOf('drivers.places[1].y_mm')).toBe(y);
    await drag(place, [60, -10], false);
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect(await entryOf('drivers.places[1].x_mm')).toBe(x);
  });

  it('it is moved by the arrow keys, keeps the focus, and is read out', async () => {
    await openDemo(page, service.address, 'Window seat');
    await openSteps();
    const x = await entryOf('drivers.places[1].x_mm');
    await page.locator(place).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('ArrowRight');
    expect(await entryOf('drivers.places[1].x_mm')).toBe(x + 12);
    await settled(page);
    expect(await page.evaluate(() => (document.activeElement as HTMLElement).dataset.move)).toBe(
      'drivers.places[1]',
    );
    const said = page.locator('wall-elevation > p[role="status"]');
    expect((await said.textContent())!.replaceAll('\u202f', ' ')).toContain(`${x + 12} mm from the left`);
    expect(await objections(page)).toEqual([]);
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    expect(await entryOf('drivers.places[1].x_mm')).toBe(x);
  });

  it('an opening goes no further than its field takes, and the page says why', async () => {
    await openDemo(page, service.address, 'Window seat');
    await openSteps();
    await page.getByRole('button', { name: 'Add a door or a window' }).click();
    await settled(page);
    const opening = page.locator('[data-move="openings[1]"]');
    await opening.focus();
    await page.keyboard.press('ArrowUp');
    expect(await entryOf('openings[1].y_mm')).toBe(1);
    await field('openings[1].y_mm').fill('-5000');
    await opening.focus();
    await page.keyboard.press('ArrowDown');
    expect(await entryOf('openings[1].y_mm')).toBe(-5000);
    expect(await page.locator('wall-elevation > p[role="status"]').textContent()).toContain(
      'Opening from the bottom',
    );
  });

  it('slots given as lines are dragged, and moved with Ctrl and an arrow key', async () => {
    await openDemo(page, service.address, 'Window seat');
    await page.locator('label', { hasText: /^\s*Lines\s*$/ }).click();
    await settled(page);
    const lines = () => field('slots.segments').inputValue();
    const before = (await lines()).split('\n');
    await page.locator('[data-slot="S02"]').focus();
    await page.keyboard.press('Control+ArrowRight');
    await settled(page);
    const after = (await lines()).split('\n');
    expect(after.filter((line, i) => line !== before[i])).toHaveLength(1);
    const numbers = (line: string) => line.split(/[^\d.]+/).map(Number);
    expect(numbers(after[1]!)[0]! - numbers(before[1]!)[0]!).toBeCloseTo(1, 6);
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    expect((await lines()).split('\n')).toEqual(before);
  });
});

describe('what is moved', () => {
  const { job } = demoJobs.find((demo) => demo.job.title.job.startsWith('Window seat'))!;
  const sized = sizeJob(job);
  if (!sized.ok) throw new Error('the demo job is sized');
  const near = { job, setOut: sized.value.setOut, reach_mm: 10 };
  const box = (over: Partial<Movable>): Movable => ({
    ...{ key: 'box', name: 'Box', x_mm: 100, y_mm: 100, width_mm: 50, height_mm: 40, across: [], up: [] },
    ...over,
  });

  it('keeps to the edge of the panel it comes near, by whichever edge of its own is nearest', () => {
    const { width_mm, height_mm } = job.panel;
    // 100 less 96 is 4 from the left edge; 1620 - 150 = 1470 takes its right edge to the right one.
    expect(snapped(box({}), { across_mm: -96, up_mm: 0 }, near).across_mm).toBe(-100);
    expect(snapped(box({}), { across_mm: width_mm - 153, up_mm: 0 }, near).across_mm).toBe(width_mm - 150);
    expect(snapped(box({}), { across_mm: 0, up_mm: height_mm - 137 }, near).up_mm).toBe(height_mm - 140);
  });

  it('keeps to the middle of a slot, and elsewhere to whole millimetres', () => {
    const { x0_mm } = near.setOut.slots[2]!;
    const shift = x0_mm - 125;
    expect(snapped(box({}), { across_mm: shift + 3, up_mm: 0 }, { ...near, reach_mm: 4 }).across_mm).toBe(
      shift,
    );
    const free = snapped(box({ x_mm: 0.4 }), { across_mm: 333.3, up_mm: 0 }, { ...near, reach_mm: 0 });
    expect((0.4 + free.across_mm) % 1).toBeCloseTo(0, 9);
  });

  it('is every driver place and opening, and lines only where slots are lines', () => {
    expect(movablesOf(job).map(({ key }) => key)).toEqual(
      job.drivers.places.map((_, i) => `drivers.places[${i + 1}]`),
    );
  });
});
