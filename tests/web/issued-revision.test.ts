import { createHash } from 'node:crypto';
import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { beforeEach, describe, expect, it } from 'vitest';
import type { ListedJob } from '../../server/contract/kept-jobs.ts';
import { bytesOf, eachVisit, objections, type PageService, settled, startService, visit } from './browser.ts';

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
/** Presses a button that saves a file, and reads the file. */
async function savedBy(name: string, on = page) {
  const [download] = await Promise.all([on.waitForEvent('download'), press(name, on)]);
  return JSON.parse((await bytesOf(download)).toString());
}

async function openFile(content: unknown, on = page): Promise<void> {
  const [chooser] = await Promise.all([on.waitForEvent('filechooser'), press('Open file', on)]);
  const buffer = Buffer.from(JSON.stringify(content));
  await chooser.setFiles({ name: 'site.json', mimeType: 'application/json', buffer });
}

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
    // Volts stand in the sheet, and nothing dead was ticked off.
    await says(
      page.locator('.too-early'),
      /^Volts or amps are written down while .*V1, V2, V3, V4, V5 are not ticked off/s,
    );
    expect(await objections(page)).toEqual([]);
    await page.setViewportSize({ width: 390, height: 850 });
    const low = () =>
      [
        ...document.querySelectorAll<HTMLElement>(
          '#schedule-test-sheet :is(button, input[type="text"], label.tick-box)',
        ),
      ]
        .filter((control) => control.offsetParent !== null && control.getBoundingClientRect().height < 43.5)
        .map((control) => control.outerHTML.slice(0, 120));
    expect(await page.evaluate(low)).toEqual([]);
    const overhang = () => document.documentElement.scrollWidth - document.documentElement.clientWidth;
    expect(await page.evaluate(overhang)).toBe(0);
    await page.setViewportSize({ width: 1440, height: 900 });

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

  it('is saved with its readings, and opened where it is known or not: nothing is lost, and what differs is shown', async () => {
    await lookAtA(page);
    await box(0).locator('input').fill('0.5');
    const loop = page.locator('.reading-box:has(.over-range)').first();
    await loop.locator('.over-range').click();
    await says(loop.locator('.judged'), /open circuit/);
    await box(1).locator('input').fill('about 9');
    await kept();
    const file = await savedBy('Revision A to be opened again, with its readings: Job file');
    expect(file.revision).toMatchObject({ id: 'a', revision: 'A' });
    expect(file.readings.map(({ value, by }: Record<string, unknown>) => [value, by])).toEqual([
      [0.5, 'Ida Blom'],
      ['OL', 'Ida Blom'],
    ]);
    expect(Object.values(file.typed)).toEqual(['about 9']);
    // The draft of the same revision saves the same readings, though none of them was typed on it.
    await press('Back to the job on the page');
    expect((await savedBy('Save file')).readings).toEqual(file.readings);

    // Elsewhere somebody measured another box and went over the first; here, box 0 was measured again.
    const [first, open] = file.readings;
    const away = { ...first, value: 0.9, by: 'Örn', at: '2026-03-01T08:00:00.000Z' };
    const more = { ...away, row: open.row, quantity: 'loaded_V', value: 11.9 };
    await openFile({ ...file, readings: [away, open, more] });
    await says(page.locator('.message.is-frozen'), /as it was issued/);
    await says(page.locator('.message.is-notice'), /1 reading is new .* 1 as here, 1 otherwise/);
    const clash = page.locator('.message.is-conflict');
    await says(clash, /Ida Blom wrote 0\.5 .*Örn, 1 Mar.*, in the file:\s+0\.9/s);
    await says(loop.locator('.judged'), /open circuit.*Ida Blom/s);
    await clash.getByRole('button', { name: /^Write 0\.9/ }).click();
    await clash.waitFor({ state: 'detached' });
    await says(page.locator('issued-readings'), /1 reading was typed that this revision does not have/);
    const path = `${service.address}/api/jobs/${file.revision.jobId}/revisions/a/readings`;
    const held = async () => {
      const { readings } = await fetch(path).then((reply) => reply.json());
      return readings.map(({ value, by, at }: typeof away) => [value, by, at === away.at]);
    };
    await expect.poll(held).toEqual([
      [0.9, 'Örn', true],
      ['OL', 'Ida Blom', false],
      [11.9, 'Örn', true],
    ]);

    // A workshop that does not have the revision takes job and readings as a draft, and saves all of it again.
    const elsewhere = await startService();
    const other = await visit(page.context().browser()!);
    await other.page.goto(elsewhere.address);
    await settled(other.page);
    await openFile(
      { ...file, job: { ...file.job, title: { ...file.job.title, job: 'Brought' } } },
      other.page,
    );
    await says(other.page.locator('h1'), /^Brought/);
    await settled(other.page);
    await says(other.page.locator('.message.is-notice'), /3 readings came with the job.*revision A/s);
    const again = await savedBy('Save file', other.page);
    expect([again.readings, again.typed]).toEqual([file.readings, file.typed]);
    await other.context.close();
    await elsewhere.stop();
  });

  it('of an earlier Slotwatt says what can be done with it: its figures as a file, its job as a new draft', async () => {
    const seat = JSON.parse(
      await readFile(new URL('../job/format-1/window-seat.json', import.meta.url), 'utf8'),
    );
    const then = '0.2.0+6482fcb';
    const content = {
      ...{ id: 'a', revision: 'A', issued: '2026-03-03T10:00:00.000Z', engine: then, note: 'first' },
      ...{ job: seat, sizing: { engine: then } },
    };
    const seal = createHash('sha256').update(JSON.stringify(content)).digest('hex');
    const listed: ListedJob[] = await fetch(`${service.address}/api/jobs`).then((reply) => reply.json());
    const [newest] = listed.toSorted((a, b) => b.saved.localeCompare(a.saved));
    const folder = join(service.jobsFolder, newest!.id!);
    const revisions = join(folder, 'revisions');
    await rm(join(folder, 'revisions-issued.json'));
    await rm(revisions, { recursive: true });
    await mkdir(revisions);
    const format = { name: 'slotwatt-revision', version: 1 };
    await writeFile(join(revisions, 'a.json'), JSON.stringify({ format, seal, content }));
    await press('Jobs');
    await press('Jobs');
    await says(page.locator('job-revisions'), /0\.2\.0\+6482fcb/);
    await press('Look at it: revision A');
    const notice = page.locator('.message.is-notice');
    await says(notice, /Revision A was issued by Slotwatt 0\.2\.0, whose papers this page cannot lay out/);
    await says(notice, /nothing of it is lost.*Slotwatt 0\.2\.0 prints it as it was/s);
    expect((await savedBy('Save it as JSON')).job).toEqual(seat);
    await press('Open its job as a new draft');
    await says(notice, /The job of revision A is on the page, as a new draft/);
    await settled(page);
    await says(page.locator('.kept-line'), /Not kept in the workshop yet/);
  });
});
