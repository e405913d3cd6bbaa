import type { Page } from 'playwright-core';
import { beforeEach, describe, expect, it } from 'vitest';
import { newJob } from '../../src/job/new-job.ts';
import { undo } from '../../web/state/history.ts';
import { withProduct } from '../../web/state/sheet.ts';
import { createStore, emptyState } from '../../web/state/store.ts';
import {
  chooseRailSource,
  entriesOf,
  entryShown,
  keepEntries,
  readSheet,
  typeEntry,
} from '../../web/state/strip-sheet.ts';
import { eachVisit, objections, openDemo, type PageService, settled } from './browser.ts';

const begun = (job = newJob()) => createStore({ ...emptyState, draft: { job, entries: {}, parked: {} } });

describe('the entries of a data sheet', () => {
  const entry = (store: ReturnType<typeof begun>, place: string) => {
    const { strip, rails } = entriesOf(store.get().draft!);
    return [...strip, ...rails].find((one) => one.place === place)!;
  };

  it('begin with what the job says, and make the question the service takes', () => {
    const store = begun();
    expect(readSheet(store.get().draft!)).toEqual({
      ok: true,
      sheet: {
        nominal_V: 24,
        watts_per_m: 2.4,
        cut_mm: 50,
        lampsPerMetre: 120,
        law: 'resistor',
        rails: { from: 'longest run', length_mm: 5000 },
      },
    });
  });

  it('are labelled by the schema of the question, ratios in percent', () => {
    const store = begun();
    expect(entry(store, 'cut_mm')).toMatchObject({ label: 'Cut length', unit: 'mm', mayBeEmpty: false });
    expect(entry(store, 'rails.drop')).toMatchObject({ unit: '%', isRatio: true, mayBeEmpty: true });
    typeEntry(store, entry(store, 'rails.drop'), '4');
    expect(readSheet(store.get().draft!)).toMatchObject({ sheet: { rails: { drop: 0.04 } } });
    typeEntry(store, entry(store, 'rails.drop'), '40');
    const read = readSheet(store.get().draft!);
    expect(!read.ok && read.problems.get('rails.drop')).toMatch(/between 0\.5\u202f% and 20\u202f%/);
  });

  it('keep each way to the rails apart, and ask for a regulator only where there is one', () => {
    const store = begun();
    typeEntry(store, entry(store, 'rails.length_mm'), '7000');
    chooseRailSource(store, 'measured volts');
    expect(entryShown(store.get().draft!, entry(store, 'rails.length_mm'))).toBe('');
    const read = readSheet(store.get().draft!);
    expect(!read.ok && [...read.problems.keys()]).toEqual([
      'rails.length_mm',
      'rails.start_V',
      'rails.finish_V',
    ]);
    undo(store);
    expect(entryShown(store.get().draft!, entry(store, 'rails.length_mm'))).toBe('7000');
    expect(entry(store, 'dropout_V')).toBeUndefined();
    typeEntry(store, entry(store, 'law'), 'regulated');
    expect(entry(store, 'dropout_V')).toMatchObject({ unit: 'V', mayBeEmpty: true });
  });

  it('stay as they were asked when the job changes afterwards', () => {
    const store = begun();
    keepEntries(store);
    const { draft } = store.get();
    const before = readSheet(draft!);
    store.set({ draft: { ...draft!, job: withProduct(draft!.job, 'strip', '12V-4.8W') } });
    expect(readSheet(store.get().draft!)).toEqual(before);
    expect(store.get().past).toEqual([]);
  });
});

let service: PageService;
let page: Page;
const sheet = () => page.locator('strip-sheet');
const label = (text: string) => sheet().getByLabel(text);
const work = () => sheet().getByRole('button', { name: 'Work it out' }).click();

/** Volts that the chosen run drops, as the page shows them. */
async function runDrop(): Promise<number> {
  const shown = await page
    .locator('run-profile dt', { hasText: 'Drop from the driver' })
    .locator('+ dd')
    .textContent();
  return Number(/[\d.]+/.exec(shown!)![0]);
}
const jobField = (name: string) => page.locator(`[data-field="${name}"]`);

async function unfold() {
  const summary = page.locator('summary').getByText('Work the strip out from its data sheet');
  if (!(await summary.isVisible())) await page.locator('.step[data-step="Strip"] > summary').click();
  await summary.click();
  await sheet().locator('form').waitFor();
}

describe('a strip worked out on the page', () => {
  eachVisit((now) => {
    ({ page, service } = now);
  });

  beforeEach(async () => {
    await openDemo(page, service.address, 'Foyer wall');
    await unfold();
  });

  it('is asked for, applied, sized with, and undone', async () => {
    const rails = async () => Number(await jobField('strip.data.railPositive_mohm_per_m').inputValue());
    const [rail, before] = [await rails(), await runDrop()];
    await label('Strip power').fill('14,4');
    await label('Cut length').fill('41.67');
    await label('LEDs per metre').fill('168');
    await label('Longest run from one end').fill('5000');
    await label('Longest run from one end').press('Enter');
    const answer = sheet().locator('.asked-answer');
    await answer.waitFor();
    expect(await answer.locator('table tbody tr').count()).toBe(3);
    expect(await answer.textContent()).toMatch(/What was taken from what.*24 cut units a metre/s);
    await answer.getByRole('button', { name: /^Apply: 24 V 14\.4 W\/m, 168 LEDs\/m, with 291/ }).click();
    await settled(page);
    expect(await rails()).toBe(291);
    expect(await runDrop()).toBeGreaterThan(before);
    expect(await answer.getByRole('button', { name: /^In the job: .* 291/ }).count()).toBe(1);
    expect(await sheet().getByRole('status').textContent()).toBe('Worked out from the figures above.');
    await page.keyboard.press('Control+z');
    await settled(page);
    expect(await rails()).toBe(rail);
    expect(await runDrop()).toBe(before);
    expect(await label('Strip power').inputValue()).toBe('14,4');
  });

  it('is refused with what to check; what was typed stays, over a reload too', async () => {
    await sheet().getByRole('radio', { name: 'Two volts' }).check();
    await work();
    expect(await label('Length that was measured').evaluate((e) => e === document.activeElement)).toBe(true);
    expect(await sheet().locator('.sentence').count()).toBe(3);
    await label('Length that was measured').fill('5000');
    await label('Volts at the fed end').fill('22.8');
    await label('Volts at the far end').fill('24');
    await work();
    const message = sheet().getByRole('alert');
    await message.waitFor();
    expect(await message.textContent()).toMatch(/24\.00 V at the far end.*Check which reading is which/s);
    await page.reload();
    await settled(page);
    await unfold();
    expect(await label('Volts at the far end').inputValue()).toBe('24');
    await label('Volts at the fed end').fill('24');
    await label('Volts at the far end').fill('23.2');
    await work();
    await sheet().locator('.asked-answer').waitFor();
    expect(await sheet().locator('.asked-answer table').count()).toBe(0);
    await label('Volts at the far end').fill('23');
    expect(await sheet().getByRole('status').textContent()).toMatch(/changed since/);
    expect(await sheet().locator('.asked-answer.is-old').count()).toBe(1);
  });

  it('is not asked of a strip of several channels, which says what to do instead', async () => {
    await jobField('strip.entry').evaluate((select) => {
      const list = select as HTMLSelectElement;
      list.selectedIndex = [...list.options].findIndex((option) => option.text.includes('two-channel'));
      list.dispatchEvent(new Event('change', { bubbles: true }));
    });
    await page.waitForFunction(() => !document.querySelector('strip-sheet form'));
    expect(await sheet().textContent()).toMatch(/2 channels.*Enter the resistance of each/s);
  });

  it('is something axe-core does not object to, and never scrolls sideways', async () => {
    for (const width of [1440, 820, 390]) {
      await page.setViewportSize({ width, height: 900 });
      await work();
      await sheet().locator('.asked-answer').waitFor();
      expect(
        await sheet().evaluate((part) => ({
          page: document.documentElement.scrollWidth - document.documentElement.clientWidth,
          part: part.scrollWidth - part.clientWidth,
        })),
      ).toEqual({ page: 0, part: 0 });
      expect(await objections(page, width === 390 ? undefined : 'strip-sheet')).toEqual([]);
    }
    await page.emulateMedia({ media: 'print' });
    expect(await sheet().isVisible()).toBe(false);
  });
});
