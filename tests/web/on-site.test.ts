import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Locator, Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { demoJobs, sizeJob } from '../../src/index.ts';
import { rowsOf } from '../hand-over/rows.ts';
import { bytesOf, eachVisit, objections, type PageService, settled } from './browser.ts';

let service: PageService;
let page: Page;
let folder: string;

eachVisit((now) => {
  ({ page, service } = now);
});

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'slotwatt-site-'));
});
afterEach(() => rm(folder, { recursive: true }));

async function says(at: Locator, words: RegExp): Promise<void> {
  await expect
    .poll(async () => ((await at.count()) > 0 ? await at.first().textContent() : ''))
    .toMatch(words);
}

const press = (name: string): Promise<void> =>
  page.getByRole('button', { name, exact: true }).first().click();

/** Issues revision A of the first demo job on the page. */
async function issueA(): Promise<void> {
  await page.goto(service.address);
  await settled(page);
  await press('Jobs');
  await press('Keep');
  await says(page.locator('.kept-line'), /^As kept/);
  await press('Issue revision A');
  await says(page.locator('.message.is-notice'), /Revision A is issued and frozen/);
}

/** A paper of that revision, from the service. */
async function paperOf(name: string): Promise<Buffer> {
  const listed = await (await page.request.get(`${service.address}/api/jobs`)).json();
  const { id } = (listed.jobs ?? listed)[0];
  const reply = await page.request.get(`${service.address}/api/jobs/${id}/revisions/a/${name}`);
  expect(reply.status(), await reply.text().then((text) => text.slice(0, 200))).toBe(200);
  return reply.body();
}

describe('the page for the site', () => {
  it('opens from a disk without a network, judges readings and names a bad joint, and its file comes into the revision', async () => {
    await issueA();
    const file = join(folder, 'hand-over.html');
    await writeFile(file, await paperOf('hand-over.html'));

    const context = await page
      .context()
      .browser()!
      .newContext({ viewport: { width: 390, height: 844 }, offline: true });
    const site = await context.newPage();
    const asked: string[] = [];
    const errors: string[] = [];
    site.on('request', (request) => asked.push(request.url()));
    site.on('pageerror', (error) => errors.push(error.message));
    await site.goto(pathToFileURL(file).href);
    await site.getByLabel('Look at').selectOption('S03');
    await says(site.locator('#facts'), /Feed S03-F1.*Cable .*Cores of .*Protection of .*Driver D1/s);

    // Sound loops but one: half an ohm more than predicted at the feed of S03, and at its far end behind it.
    const sized = sizeJob(demoJobs[0]!.job);
    if (!sized.ok) throw new Error('the first demo was refused');
    const sheet = rowsOf(sized.value.schedules.find(({ id }) => id === 'test-sheet')!);
    const loopOf = (ref: string): number => Number(sheet.find((row) => row.ref === ref)!.loop);
    const type = async (ref: string, ohm: number): Promise<void> => {
      await site
        .getByRole('group', { name: ref, exact: true })
        .getByLabel(/^Loop/)
        .fill(ohm.toFixed(2).replace('.', ','));
    };
    await site.getByLabel('Your name').fill('Ida Blom');
    await type('S03-F1', loopOf('S03-F1') + 0.5);
    await says(site.getByRole('group', { name: 'S03-F1', exact: true }), /above its band/);
    await type('S03 finish', loopOf('S03 finish') + 0.5);
    await site.getByLabel('Look at').selectOption('S04');
    await type('S04-F1', loopOf('S04-F1'));
    await says(site.getByRole('group', { name: 'S04-F1', exact: true }), /in its band/);
    await says(site.locator('#counts'), /^3 of \d+ boxes filled in, 2 outside their bands/);
    await says(site.locator('#verdict'), /extra 0\.[45]\d Ω .*S03-F1/);

    expect(await objections(site)).toEqual([]);
    expect(await site.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
    // By keyboard alone: from the list of slots to the next one.
    await site.getByLabel('Look at').focus();
    await site.keyboard.press('Tab');
    await site.keyboard.press('Enter');
    await says(site.locator('#facts'), /Feed S05-F1/);

    const [download] = await Promise.all([
      site.waitForEvent('download'),
      site.getByRole('button', { name: 'Save the readings as a file' }).click(),
    ]);
    const buffer = await bytesOf(download);
    expect(asked.filter((url) => !/^(file|blob|data):/.test(url))).toEqual([]);
    expect(errors).toEqual([]);
    // What was typed is there again when the file is opened again.
    await site.reload();
    await says(site.locator('#counts'), /^3 of/);
    await context.close();

    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), press('Open file')]);
    await chooser.setFiles({ name: 'site.json', mimeType: 'application/json', buffer });
    await says(page.locator('.message.is-frozen'), /as it was issued/);
    await page.locator('#tab-test-sheet').click();
    const values = () =>
      page
        .locator('.reading-box input')
        .evaluateAll((boxes) =>
          boxes.map((box) => (box as HTMLInputElement).value).filter((value) => value !== ''),
        );
    const sent = [loopOf('S03-F1') + 0.5, loopOf('S03 finish') + 0.5, loopOf('S04-F1')];
    await expect.poll(values).toEqual(sent.map((ohm) => String(Number(ohm.toFixed(2)))));
  });

  it('comes back as a PDF that carries the job', async () => {
    await issueA();
    const pdf = await paperOf('pack.pdf');
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), press('Open file')]);
    await chooser.setFiles({ name: 'pack.pdf', mimeType: 'application/pdf', buffer: pdf });
    await says(page.locator('.message.is-frozen'), /as it was issued/);
    await press('Back to the job on the page');
    const [again] = await Promise.all([page.waitForEvent('filechooser'), press('Open file')]);
    await again.setFiles({
      name: 'other.pdf',
      mimeType: 'application/pdf',
      buffer: Buffer.from('%PDF-1.4\n%%EOF'),
    });
    await says(page.locator('.message.is-notice'), /“other\.pdf” was not opened.*This PDF carries no job/s);
  });
});
