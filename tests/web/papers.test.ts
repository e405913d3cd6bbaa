import type { Download, Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/index.ts';
import { bytesOf, eachVisit, objections, type PageService, settled } from './browser.ts';

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

const field = (name: string): Locator => page.locator(`[data-field="${name}"]`);
const overhang = (): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** The first visit opens the first demo job, the window seat. */
async function openFirst(): Promise<void> {
  await page.goto(service.address);
  await settled(page);
}

async function says(at: Locator, words: RegExp): Promise<void> {
  await expect
    .poll(async () => ((await at.count()) > 0 ? await at.first().textContent() : ''))
    .toMatch(words);
}

async function saved(name: RegExp): Promise<{ download: Download; text: string }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name }).click(),
  ]);
  return { download, text: (await bytesOf(download)).toString('latin1') };
}

describe('papers as files', () => {
  it('are a PDF, drawings for other programs, and data', async () => {
    await openFirst();
    for (const size of ['A4', 'A3']) {
      const { download, text } = await saved(new RegExp(`one PDF: PDF, ${size}`));
      expect(text.slice(0, 5)).toBe('%PDF-');
      expect(download.suggestedFilename()).toMatch(/\.pdf$/);
    }
    for (const drawing of ['Elevation', 'Section']) {
      expect((await saved(new RegExp(`^${drawing}: SVG`))).text).toMatch(/<svg[\s>]/);
      expect((await saved(new RegExp(`^${drawing}: DXF`))).text).toMatch(/^\s*(0|999)\r?\n/);
    }
    const { job, sizing } = JSON.parse(
      Buffer.from((await saved(/as data: JSON/)).text, 'latin1').toString('utf8'),
    );
    expect(job).toEqual(demoJobs[0]!.job);
    expect(sizing.accuracy).toBe('careful');
  });

  it('say that they are being made, and why one was not', async () => {
    await openFirst();
    let release: (() => void) | undefined;
    await page.route('**/api/papers/**', async (route) => {
      await new Promise<void>((go) => {
        release = go;
      });
      await route.abort();
    });
    const button = page.getByRole('button', { name: /one PDF: PDF, A4/ });
    await button.click();
    await says(page.locator('.paper-state'), /is being made/);
    expect(await button.isDisabled()).toBe(true);
    await expect.poll(() => release !== undefined).toBe(true);
    release!();
    await says(page.locator('paper-tools .sentence'), /was not made\. The service does not answer/);
    expect(await button.isDisabled()).toBe(false);
    expect(await objections(page)).toEqual([]);
  });
});

describe('slots from a drawing', () => {
  async function chooseFile(path: string): Promise<void> {
    await page.locator('label', { hasText: /^Lines$/ }).click();
    await page.locator('drawing-in summary', { hasText: 'From a drawing' }).click();
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      page.getByText('Choose a DXF file').click(),
    ]);
    await chooser.setFiles(path);
  }

  it('asks for the unit and the layer, shows what it left out, and is taken over by a click', async () => {
    await openFirst();
    await chooseFile('tests/server/drawing-in/fixtures/ezdxf-r12.dxf');
    await says(page.locator('drawing-in .sentence'), /does not say in what unit/);
    await page.selectOption('#dxf-unit', 'mm');
    await says(page.locator('.layers'), /NOTES.*PANEL.*SLOTS.*1 line, 4 polylines, 1 other thing/s);
    expect(await page.locator('.read-slots').count()).toBe(0);
    await page.locator('.layers label', { hasText: 'SLOTS' }).click();
    await says(page.locator('.read-slots'), /5 slots read from layer SLOTS, drawn in mm/);
    await page.locator('.read-slots summary').click();
    expect(await page.locator('.ignored').textContent()).toMatch(/CIRCLE on layer SLOTS: not a line/);
    expect(await page.locator('.news').textContent()).toMatch(/^6 slots/);
    expect(await objections(page, 'drawing-in')).toEqual([]);
    for (const width of [820, 390, 1440]) {
      await page.setViewportSize({ width, height: 850 });
      expect(await overhang()).toBe(0);
    }
    await page.getByText('Take over 5 slots').click();
    await settled(page);
    expect(await page.locator('.news').textContent()).toMatch(/^5 slots/);
    expect(await field('slots.width_mm').inputValue()).toBe('20');
    expect((await field('slots.segments').inputValue()).split('\n')).toHaveLength(5);
    await page.getByText('Undo', { exact: true }).click();
    await settled(page);
    expect(await page.locator('.news').textContent()).toMatch(/^6 slots/);
  });

  it('moves the corner, and says when slots lie outside', async () => {
    await openFirst();
    await chooseFile('tests/server/drawing-in/fixtures/ezdxf-r12.dxf');
    await page.selectOption('#dxf-unit', 'mm');
    await page.locator('.layers label', { hasText: 'SLOTS' }).click();
    await says(page.locator('.read-slots'), /5 slots read/);
    await page.locator('#dxf-cornerX').fill('5000');
    await page.locator('#dxf-cornerX').blur();
    await says(page.locator('drawing-in .sentence'), /lie outside 0 to 30,000 mm/);
    expect(await page.locator('.read-slots').count()).toBe(0);
    await page.locator('#dxf-cornerX').fill('90');
    await page.locator('#dxf-cornerX').blur();
    await page.getByText('Take over 5 slots').click();
    await settled(page);
    expect(await field('slots.segments').inputValue()).toMatch(/^10 /);
  });

  it('refuses what is no drawing, with a sentence and without a change', async () => {
    await openFirst();
    await chooseFile('package.json');
    await says(page.locator('drawing-in .sentence'), /not a DXF file/);
    expect(await page.locator('.news').textContent()).toMatch(/^6 slots/);
  });

  it('reads a pasted table likewise', async () => {
    await openFirst();
    await page.locator('label', { hasText: /^Lines$/ }).click();
    await page.locator('drawing-in summary', { hasText: 'From a table' }).click();
    const table = page.locator('#coordinate-table');
    await table.fill('x0\ty0\tx1\ty1\n100\t90\t100\t1000\n300\t90\tbroken\t1000');
    await page.getByText('Read the table').click();
    await says(page.locator('drawing-in .sentence'), /Row 3/);
    await table.fill('x0\ty0\tx1\ty1\n100\t90\t100\t1000\n300\t90\t300\t1000');
    await page.getByText('Read the table').click();
    await says(page.locator('.read-slots'), /2 slots read from the table/);
    expect(await page.locator('.read-slots').textContent()).toMatch(/row 1: has no numbers/);
    await page.getByText('Take over 2 slots').click();
    await settled(page);
    expect(await page.locator('.news').textContent()).toMatch(/^2 slots/);
  });
});

describe('readings on the test sheet', () => {
  interface Box {
    readonly id: string;
    readonly predicted: number;
  }

  async function boxes(): Promise<Box[]> {
    await page.waitForSelector('main[data-accuracy="careful"]');
    await page.getByRole('tab', { name: 'Test sheet' }).click();
    return page.evaluate(() =>
      [...document.querySelectorAll<HTMLInputElement>('.reading-box input')].map((input) => {
        const cell = input.closest('td')!;
        const cells = [...cell.parentElement!.children];
        return { id: input.id, predicted: Number(cells[cells.indexOf(cell) - 3]!.textContent!.trim()) };
      }),
    );
  }

  const judged = async (id: string): Promise<string> =>
    ((await page.locator(`#${id}-judged`).textContent()) ?? '').trim();
  const verdict = (): Locator => page.locator('reading-verdict');

  async function typeLoops(all: readonly Box[], extra: (id: string) => number): Promise<void> {
    for (const { id, predicted } of all.filter((box) => box.id.includes('loop')))
      await page.fill(`#${id}`, (predicted + extra(id)).toFixed(2));
  }

  it('are judged as typed, kept through a reload, no part of the job, and cleared', async () => {
    await openFirst();
    const all = await boxes();
    const volts = all.find(({ id }) => id.includes('noLoad'))!;
    await page.fill(`#${volts.id}`, '9,5');
    expect(await judged(volts.id)).toBe('below');
    await page.fill(`#${volts.id}`, '13');
    expect(await judged(volts.id)).toBe('above');
    expect(await page.locator(`#${volts.id}-judged svg`).count()).toBe(1);
    await page.fill(`#${volts.id}`, 'lots');
    expect(await judged(volts.id)).toBe('no reading');
    await page.fill(`#${volts.id}`, String(volts.predicted));
    expect(await judged(volts.id)).toBe('in band');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe(all[all.indexOf(volts) + 1]!.id);
    await page.reload();
    await boxes();
    expect(await page.inputValue(`#${volts.id}`)).toBe(String(volts.predicted));
    const { text } = await saved(/^Save file$/);
    const { job, typed } = JSON.parse(Buffer.from(text, 'latin1').toString('utf8'));
    expect(job).toEqual(demoJobs[0]!.job);
    expect(Object.values(typed)).toEqual([String(volts.predicted)]);
    await page.getByText('Clear the readings').click();
    expect(await page.inputValue(`#${volts.id}`)).toBe('');
    await page.getByText('Undo', { exact: true }).click();
    expect(await page.inputValue(`#${volts.id}`)).toBe(String(volts.predicted));
  });

  it('agree with the prediction where they are what it says', async () => {
    await openFirst();
    await typeLoops(await boxes(), () => 0);
    await says(verdict(), /As predicted\s*The readings agree/);
  });

  it('point to the cable with ohms too many, which is shown on the drawing', async () => {
    await openFirst();
    await typeLoops(await boxes(), (id) => (id.includes('S03') ? 0.3 : 0));
    await says(verdict(), /Found\s*The readings point to an extra 0\.30 Ω .*C03/);
    expect(await objections(page)).toEqual([]);
    for (const width of [820, 390]) {
      await page.setViewportSize({ width, height: 850 });
      expect(await overhang()).toBe(0);
    }
    await page.setViewportSize({ width: 1440, height: 900 });
    await verdict().getByText('Show on the drawing').click();
    expect(await page.locator('svg.elevation .is-marked').count()).toBeGreaterThan(0);
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-slot'))).toBe('S03');
  });

  it('say that they cannot tell where no single fault explains them', async () => {
    await openFirst();
    await typeLoops(await boxes(), (id) => (/S03|S05/.test(id) ? 0.3 : 0));
    await says(verdict(), /Cannot tell/);
  });
});
