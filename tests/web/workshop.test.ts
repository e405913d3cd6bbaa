import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, BrowserContext, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import {
  objections,
  openDemo,
  type PageService,
  settled,
  sharedBrowser,
  startService,
  visit,
} from './browser.ts';

let service: PageService;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  browser = await sharedBrowser();
});

afterAll(async () => {
  await browser?.close();
});

beforeEach(async () => {
  service = await startService();
  ({ context, page, complaints } = await visit(browser));
});

afterEach(async () => {
  await context.close();
  await service.stop();
  expect(complaints).toEqual([]);
});

const field = (name: string, on = page): Locator => on.locator(`[data-field="${name}"]`);
const press = (name: string | RegExp, on = page): Promise<void> =>
  on.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name }).click();
const keptLine = (on = page): Locator => on.locator('.kept-line');

async function says(at: Locator, words: RegExp): Promise<void> {
  await expect
    .poll(async () => ((await at.count()) > 0 ? await at.first().textContent() : ''))
    .toMatch(words);
}

async function keepIt(on = page): Promise<void> {
  await press('Keep', on);
  await says(keptLine(on), /^As kept/);
}

async function setWidth(width: string, on = page): Promise<void> {
  await field('panel.width_mm', on).fill(width);
  await field('panel.width_mm', on).blur();
  await settled(on);
}

/** The first visit opens the first demo job, the window seat. */
async function openFirst(): Promise<void> {
  await page.goto(service.address);
  await settled(page);
}

async function openFromList(on: Page): Promise<void> {
  await on.goto(service.address);
  await settled(on);
  await press('Jobs', on);
  await press(/^Open: Window seat/, on);
  await says(keptLine(on), /^As kept/);
  await settled(on);
}

/** Every job in the workshop, read from the disk and not from the page. */
async function onDisk(): Promise<Job[]> {
  const list = (await (await fetch(`${service.address}/api/jobs`)).json()) as { id: string }[];
  const texts = list.map(({ id }) => readFile(join(service.jobsFolder, id, 'job.json'), 'utf8'));
  return (await Promise.all(texts)).map((text) => JSON.parse(text));
}

const widths = async (): Promise<number[]> =>
  (await onDisk()).map((job) => job.panel.width_mm).toSorted((a, b) => a - b);

describe('jobs in the workshop', () => {
  it('are kept, listed with what their title blocks say, and opened by somebody else', async () => {
    await openFirst();
    expect(await keptLine().textContent()).toBe('Not kept in the workshop yet.');
    await keepIt();
    expect(await onDisk()).toEqual([demoJobs[0]!.job]);
    await setWidth('1700');
    expect(await keptLine().textContent()).toMatch(/^Differs from what was kept/);
    await keepIt();
    const other = await visit(browser);
    await openFromList(other.page);
    expect(await field('panel.width_mm', other.page).inputValue()).toBe('1700');
    await press('Jobs', other.page);
    const { title } = demoJobs[0]!.job;
    const row = await other.page.locator('.register tbody tr').first().textContent();
    for (const text of [title.job, title.client, title.documentNumber, title.revision]) {
      expect(row).toContain(text);
    }
    await other.context.close();
  });

  it('still belong to the page after a reload and after undo', async () => {
    await openFirst();
    await keepIt();
    await setWidth('1700');
    await keepIt();
    await page.reload();
    await settled(page);
    await says(keptLine(), /^As kept/);
    await setWidth('1750');
    await keepIt();
    await press('Undo');
    await keepIt();
    expect(await widths()).toEqual([1700]);
  });

  it('are duplicated, renamed, deleted to the bin and brought back', async () => {
    await openFirst();
    await keepIt();
    await press('Jobs');
    await press(/^Duplicate: /);
    await page.locator('#naming').fill('North wall');
    await press('Copy');
    await says(page.locator('.register'), /North wall/);
    await press(/^Rename: Window seat/);
    await page.locator('#naming').fill('South wall');
    await page.keyboard.press('Enter');
    await says(page.locator('h1'), /^South wall$/);
    await says(keptLine(), /^As kept/);
    expect((await onDisk()).map((job) => job.title.job).toSorted()).toEqual(['North wall', 'South wall']);
    await press(/^To the bin: North wall/);
    await says(page.locator('.message.is-notice'), /“North wall” is in the bin/);
    await says(page.locator('.register'), /^(?!.*North wall)/s);
    await page.locator('.workshop .folded-list summary').click();
    await press(/^Bring back: North wall/);
    await says(page.locator('.register'), /North wall/);
  });

  it('say why a file cannot be read, and offer the last good copy', async () => {
    await openFirst();
    await keepIt();
    const path = join(service.jobsFolder, 'window-seat-back-panel', 'job.json');
    const whole = await readFile(path, 'utf8');
    await writeFile(path, whole.slice(0, 200));
    await openDemo(page, service.address, 'Stair wall');
    await says(page.locator('h1'), /^Stair wall/);
    await press('Jobs');
    await says(page.locator('.register'), /cannot be read/);
    await press(/^Open: /);
    await says(page.locator('.message.is-notice'), /cannot be read/);
    await press('Open the last good copy');
    await says(page.locator('h1'), /^Window seat/);
    await says(page.locator('.message.is-notice'), /last good copy/);
    expect(await readFile(path, 'utf8')).toBe(whole.slice(0, 200));
    await keepIt();
    expect(await onDisk()).toEqual([demoJobs[0]!.job]);
  });

  it('stand beside what is no job, which says so and has nothing to press', async () => {
    await openFirst();
    await keepIt();
    await mkdir(join(service.jobsFolder, 'lost+found'));
    await press('Jobs');
    const row = page.locator('.register tr', { hasText: 'lost+found' });
    await says(row, /because a job’s folder has a name of small letters/);
    expect(await row.getByRole('button').count()).toBe(0);
    expect(await page.locator('.register tbody tr').count()).toBe(2);
    expect(await objections(page)).toEqual([]);
  });

  it('that were deleted meanwhile are not lost from the page', async () => {
    await openFirst();
    await keepIt();
    const other = await visit(browser);
    await openFromList(other.page);
    await press('Jobs');
    await press(/^To the bin/);
    await says(page.locator('.message.is-notice'), /is in the bin/);
    await setWidth('1650', other.page);
    await press('Keep', other.page);
    await says(other.page.locator('.message.is-notice'), /no longer in the workshop/);
    await press('Keep it as a new job', other.page);
    await says(keptLine(other.page), /^As kept/);
    expect(await widths()).toEqual([1650]);
    await other.context.close();
  });
});

describe('two browsers with the same job', () => {
  let second: Page;
  let secondContext: BrowserContext;

  beforeEach(async () => {
    await openFirst();
    await keepIt();
    ({ context: secondContext, page: second } = await visit(browser));
    await openFromList(second);
    await setWidth('1650', second);
    await setWidth('1700');
    await keepIt();
    await press('Keep', second);
    await second.locator('.message.is-conflict').waitFor();
  });

  afterEach(() => secondContext.close());

  it('tell the second writer what changed and overwrite nothing', async () => {
    const text = await second.locator('.message.is-conflict').textContent();
    expect(text).toMatch(/Somebody else kept this job/);
    expect(text).toMatch(/They changed\s*Panel width: 1,620 mm became 1,700 mm/);
    expect(text).toMatch(/You changed\s*Panel width: 1,620 mm became 1,650 mm/);
    expect(await widths()).toEqual([1700]);
    expect(await field('panel.width_mm', second).inputValue()).toBe('1650');
    await press('Go on without keeping', second);
    await press('Keep', second);
    await second.locator('.message.is-conflict').waitFor();
    expect(await widths()).toEqual([1700]);
  });

  it('let the second keep both versions', async () => {
    await press('Keep yours here and theirs as a copy', second);
    await says(keptLine(second), /^As kept/);
    expect(await widths()).toEqual([1650, 1700]);
    const names = (await onDisk()).map((job) => job.title.job).toSorted();
    expect(names).toEqual(['Window seat, back panel', 'Window seat, back panel, other version']);
    await setWidth('1720');
    await press('Keep');
    await page.locator('.message.is-conflict').waitFor();
    expect(await widths()).toEqual([1650, 1700]);
  });

  it('let the second keep theirs as a new job', async () => {
    await press('Keep yours as a new job', second);
    await says(second.locator('h1'), /my version$/);
    await says(keptLine(second), /^As kept/);
    expect(await widths()).toEqual([1650, 1700]);
  });

  it('let the second look at the other version and come back', async () => {
    await press('Open the other version', second);
    await expect.poll(() => field('panel.width_mm', second).inputValue()).toBe('1700');
    await settled(second);
    await second.locator('.message.is-notice').getByRole('button', { name: 'Undo' }).click();
    await settled(second);
    expect(await field('panel.width_mm', second).inputValue()).toBe('1650');
    await press('Keep', second);
    await second.locator('.message.is-conflict').waitFor();
    expect(await widths()).toEqual([1700]);
  });

  it('find the message accessible and within the window', async () => {
    expect(await objections(second)).toEqual([]);
    for (const width of [1440, 820, 390]) {
      await second.setViewportSize({ width, height: 850 });
      expect(await overhang(second)).toBe(0);
    }
  });
});

const overhang = (on: Page): Promise<number> =>
  on.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

describe('revisions', () => {
  const formOf = (): Locator => page.locator('.issue-form');

  async function issueIt(note: string, revision: string): Promise<void> {
    await page.locator('#issue-note').fill(note);
    await press(`Issue revision ${revision}`);
    await says(page.locator('.message.is-notice'), new RegExp(`Revision ${revision} is issued`));
  }

  it('are issued, frozen, read with their own figures, and compared row by row', async () => {
    await openFirst();
    await press('Jobs');
    await says(page.locator('job-revisions'), /Keep the job first/);
    await keepIt();
    await issueIt('For tender', 'A');
    await says(formOf(), /Revision A has been issued and stays as it is/);
    await setWidth('1800');
    await says(formOf(), /The page differs from what is kept, so it is kept first/);
    await issueIt('Wider panel', 'B');
    expect(await widths()).toEqual([1800]);

    await press('Look at it: revision A');
    await says(page.locator('.message.is-frozen'), /Revision A .*as it was issued.*engine .*For tender/s);
    expect(await field('panel.width_mm').inputValue()).toBe('1620');
    expect(await field('panel.width_mm').isDisabled()).toBe(true);
    expect(await page.getByRole('button', { name: 'Keep', exact: true }).isDisabled()).toBe(true);
    await page.keyboard.press('Control+z');
    expect(await field('panel.width_mm').inputValue()).toBe('1620');
    expect(await objections(page)).toEqual([]);
    await press('Back to the job on the page');
    expect(await field('panel.width_mm').inputValue()).toBe('1800');

    await press('Jobs');
    await press('Look at it: revision B');
    // What the maker changed leads; nothing of it is buried under what followed.
    await says(
      page.locator('.message.is-frozen'),
      /Changed since revision A\s*Panel width: 1,620 mm became 1,800 mm\s*What became of it/,
    );
    await page.getByText(/^Every row that is otherwise/).click();
    expect(await page.locator('.schedule-changes tbody tr').count()).toBeGreaterThan(3);
    expect(await page.locator('.schedule-changes').textContent()).toMatch(/From left: 395 became/);
    for (const width of [820, 390]) {
      await page.setViewportSize({ width, height: 850 });
      expect(await overhang(page)).toBe(0);
    }
    const reply = await fetch(`${service.address}/api/jobs/window-seat-back-panel/revisions/a`);
    expect(((await reply.json()) as { job: Job }).job).toEqual(demoJobs[0]!.job);
  });

  it('are not issued while an entry makes no sense, or without a letter', async () => {
    await openFirst();
    await keepIt();
    await press('Jobs');
    await field('panel.width_mm').fill('wide');
    await says(formOf(), /1 entry needs correcting/);
    await field('panel.width_mm').fill('1620');
    await field('title.revision').evaluate((element) => {
      element.closest('details')!.open = true;
    });
    await field('title.revision').fill('');
    await says(formOf(), /no revision yet/);
    await formOf().getByRole('button', { name: 'Write one into it' }).click();
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-field'))).toBe(
      'title.revision',
    );
  });

  it('leave fingers room in the list on a telephone, and axe nothing to object to', async () => {
    await openFirst();
    await keepIt();
    await press('Jobs');
    await page.locator('.register').first().waitFor();
    expect(await objections(page)).toEqual([]);
    await page.setViewportSize({ width: 390, height: 850 });
    expect(await overhang(page)).toBe(0);
    const low = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('.workshop :is(button, input, summary)')]
        .filter((control) => control.getBoundingClientRect().height < 43.5)
        .map((control) => control.outerHTML.slice(0, 120)),
    );
    expect(low).toEqual([]);
  });
});
