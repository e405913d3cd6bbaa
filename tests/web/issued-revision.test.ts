import type { Locator, Page } from 'playwright-core';
import { beforeEach, describe, expect, it } from 'vitest';
import { eachVisit, objections, type PageService, settled, visit } from './browser.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

const field = (name: string, on = page): Locator => on.locator(`[data-field="${name}"]`);
const press = (name: string | RegExp, on = page): Promise<void> =>
  on
    .getByRole('button', typeof name === 'string' ? { name, exact: true } : { name })
    .first()
    .click();

async function says(at: Locator, words: RegExp): Promise<void> {
  await expect
    .poll(async () => ((await at.count()) > 0 ? await at.first().textContent() : ''))
    .toMatch(words);
}

/** Says who works in this browser, in the list of jobs. */
async function sayWho(name: string, on = page): Promise<void> {
  const form = on.locator('.workshop form.person');
  await form.locator('input').fill(name);
  await form.getByRole('button').click();
  await says(on.locator('.workshop .person'), new RegExp(`${name} works here`));
}

async function lookAtA(on: Page): Promise<void> {
  await press('Look at it: revision A', on);
  await says(on.locator('.message.is-frozen'), /as it was issued/);
  await on.locator('#tab-test-sheet').click();
  await on.locator('.reading-box input').first().waitFor();
}

const box = (k: number, on = page): Locator => on.locator('.reading-box').nth(k);
const kept = (on = page): Promise<void> => says(on.locator('.readings-kept'), /are kept in the workshop/);

describe('an issued revision', () => {
  beforeEach(async () => {
    await page.goto(service.address);
    await settled(page);
    await press('Jobs');
    await sayWho('Ida Blom');
    await press('Keep');
    await says(page.locator('.kept-line'), /^As kept/);
    await press('Issue revision A');
    await says(
      page.locator('.message.is-notice'),
      /Revision A is issued and frozen.*revision B, which it becomes/s,
    );
  });

  it('is left behind by the first change, keeps readings for every device, and shows where two meet', async () => {
    await says(page.locator('.kept-line'), /The same as revision A, issued/);
    await field('panel.width_mm').fill('1800');
    await field('panel.width_mm').blur();
    await settled(page);
    expect(await field('title.revision').inputValue()).toBe('B');
    await says(page.locator('.title-block .box-revision dd'), /^B\s*draft, not issued$/);
    await says(page.locator('job-revisions'), /by Ida Blom/);

    await lookAtA(page);
    await says(page.locator('.title-block .box-revision dd'), /^A\s*issued 20\d\d-\d\d-\d\d$/);
    const input = box(0).locator('input');
    await input.fill('0.5');
    await kept();
    await says(box(0), /Ida Blom/);
    expect(await objections(page)).toEqual([]);

    const other = await visit(page.context().browser()!);
    await other.page.goto(service.address);
    await settled(other.page);
    await press('Jobs', other.page);
    await sayWho('Örn', other.page);
    await press(/^Open: Window seat/, other.page);
    await says(other.page.locator('.kept-line'), /^As kept/);
    await press('Jobs', other.page);
    await says(other.page.locator('.register'), /by Ida Blom/);
    await lookAtA(other.page);
    await expect.poll(() => box(0, other.page).locator('input').inputValue()).toBe('0.5');
    await says(box(0, other.page), /Ida Blom/);

    // The second device changes the box; the first, which has not seen that, types something else.
    await box(0, other.page).locator('input').fill('0.6');
    await kept(other.page);
    await says(box(0, other.page), /Örn/);
    await input.fill('0.7');
    const clash = page.locator('.message.is-conflict');
    await says(clash, /Örn wrote 0\.6 .*you typed\s+0\.7/s);
    await clash.getByRole('button', { name: /^Write 0\.7/ }).click();
    await clash.waitFor({ state: 'detached' });
    await says(box(0), /Ida Blom/);
    await other.context.close();

    await press('Back to the job on the page');
    const notice = page.locator('.message.is-notice');
    await says(notice, /Revision A is frozen.*Revision B is a draft, not issued; issued last: A/s);
  });
});
