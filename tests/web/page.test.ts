import type { BrowserContext, Page, Request } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { demoJobs, sizeJob } from '../../src/index.ts';
import { sizeJobCarefully } from '../../src/sizing/size-job.ts';
import {
  bytesOf,
  eachVisit,
  objections,
  openDemo,
  over,
  type PageService,
  settled,
  startService,
} from './browser.ts';
import { pdfText } from './pdf-text.ts';

let service: PageService;
let context: BrowserContext;
let page: Page;

eachVisit((now) => {
  ({ context, page, service } = now);
});

const field = (name: string, on = page) => on.locator(`[data-field="${name}"]`);
const news = (on = page) => on.locator('.news').textContent();

/** A field of a step that may be folded: unfolds it first. */
async function unfolded(name: string, on = page) {
  await field(name, on).evaluate((element) => {
    for (let fold = element.closest('details'); fold; fold = fold.parentElement?.closest('details') ?? null) {
      fold.open = true;
    }
  });
  return field(name, on);
}

describe('the job on the page', () => {
  it('opens a demo job, follows a change of the pitch and comes back with undo', async () => {
    await openDemo(page, service.address, 'Window seat');
    expect(await news()).toMatch(/^6 slots\./);
    await page.getByRole('radio', { name: 'Pitch' }).check();
    await field('slots.spacing.pitch_mm').fill('120');
    await settled(page);
    const more = Number.parseInt((await news())!, 10);
    expect(more).toBeGreaterThan(6);
    expect(await page.locator('svg.elevation .slot').count()).toBe(more);
    await field('slots.spacing.pitch_mm').fill('240');
    await settled(page);
    expect(Number.parseInt((await news())!, 10)).toBeLessThan(more);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await settled(page);
    expect(await news()).toMatch(/^6 slots\./);
    await page.keyboard.press('Control+Shift+Z');
    await page.keyboard.press('Control+Shift+Z');
    await settled(page);
    expect(await field('slots.spacing.pitch_mm').inputValue()).toBe('240');
  });

  it('shows the numbers the engine gives, rounded once', async () => {
    await openDemo(page, service.address, 'Window seat');
    await page.waitForSelector('main[data-accuracy="careful"]');
    const sized = sizeJobCarefully(demoJobs[0]!.job);
    if (!sized.ok) throw new Error('the demo job must have an answer');
    const first = sized.value.circuit.runs[0]!;
    const shown = await page.locator('run-profile dl').textContent();
    expect(shown).toContain(`${first.lowest_V.toFixed(2)}\u202fV at unit`);
    expect(await page.locator('finding-list .finding').count()).toBe(sized.value.findings.length);
    expect(await page.locator('run-profile .band').count()).toBe(2);
    expect(await page.locator('.isotherm').count()).toBeGreaterThan(2);
    const heat = (path: Element) => (path as SVGElement).style.getPropertyValue('--heat');
    expect(await page.locator('.isotherms .isotherm').first().evaluate(heat)).toMatch(/^\d+(\.\d+)?%$/);
    for (const { value_degC } of sized.value.heat.temperatures) {
      expect(await page.locator('build-up-section table').first().textContent()).toContain(
        `${value_degC.toFixed(0)}\u202f°C`,
      );
    }
  });

  it('keeps an entry that makes no sense, says why beside it, and goes on with the last sensible value', async () => {
    await openDemo(page, service.address, 'Window seat');
    const width = field('panel.width_mm');
    for (const [text, sentence] of [
      ['-5', /Panel width must lie between 50 mm and 30,000 mm/],
      ['wide', /Panel width must be a number in mm/],
      ['', /Panel width must be a number in mm/],
      ['99999999', /from a shelf edge to a wall of 30 m/],
    ] as const) {
      await width.fill(text);
      await width.blur();
      expect(await width.inputValue()).toBe(text);
      expect(await width.getAttribute('aria-invalid')).toBe('true');
      const told = (await width.getAttribute('aria-describedby'))!
        .split(' ')
        .find((id) => id.endsWith('-why'));
      expect(await page.locator(`#${told}`).textContent()).toMatch(sentence);
    }
    expect(await page.locator('.message.is-entry').textContent()).toContain('1 entry needs correcting');
    expect(await news()).toMatch(/^6 slots\./);
    await page.reload();
    await settled(page);
    expect(await field('panel.width_mm').inputValue()).toBe('99999999');
    await field('panel.width_mm').fill('1 700');
    await field('panel.width_mm').blur();
    expect(await field('panel.width_mm').inputValue()).toBe('1700');
    expect(await page.locator('.message').count()).toBe(0);
  });

  it('has a field for everything a job holds', async () => {
    await openDemo(page, service.address, 'Window seat');
    const { format, title, panel, section, strip, feeds, cables, drivers, dimming, light, site } =
      demoJobs[0]!.job;
    expect(format.version).toBe(2);
    const { anchor, strip_degC } = strip;
    const parts = {
      title,
      panel,
      section,
      strip: { anchor, strip_degC },
      feeds,
      cables,
      drivers,
      dimming,
      light,
      site,
    };
    const leaves = (at: unknown, name: string): string[] => {
      if (typeof at !== 'object' || at === null) return [name];
      if (Array.isArray(at)) return at.flatMap((item, i) => leaves(item, `${name}[${i + 1}]`));
      return Object.entries(at).flatMap(([key, value]) =>
        leaves(value, name === '' ? key : `${name}.${key}`),
      );
    };
    const shown = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('[data-field]')].map((element) => element.dataset.field),
    );
    /** Shown only where another choice makes them count. */
    const hidden = new Set([
      'feeds.betweenCount',
      'section.coverThickness_mm',
      'section.wall',
      'section.carrierWidth_mm',
      'section.carrierThickness_mm',
      'section.carrierFinish',
      'section.carrierFixing',
      'section.carrierContact_m2K_per_W',
      'cables.trunk',
      'drivers.places[1].cable_mm',
      ...['dimming.mixingLimit', 'dimming.dimmer', 'dimming.restName', 'light.room'],
    ]);
    const missing = leaves(parts, '').filter((name) => !shown.includes(name) && !hidden.has(name));
    expect(missing).toEqual([]);
  });

  it('asks for the cable of a trunk and for the length to a remote place where they count', async () => {
    await openDemo(page, service.address, 'Window seat');
    expect(await field('cables.trunk').count()).toBe(0);
    await (await unfolded('cables.layout')).selectOption({ label: 'a trunk with taps' });
    await field('cables.trunk').selectOption({ label: '2 × 4 mm² fine-wire' });
    await settled(page);
    await page.locator('#tab-cables').click();
    expect(await page.locator('#schedule-cables tbody').textContent()).toContain('2 × 4 mm² fine-wire');
    expect(await page.locator('svg.elevation .tap').count()).toBeGreaterThan(0);
    await field('cables.fuses').selectOption({ label: 'electronic channels' });
    expect(await page.locator('#field-cables-fuses-help').textContent()).toMatch(/seal the setting/);
    await (await unfolded('drivers.places[1].kind')).selectOption({ label: 'remote, at the end of a cable' });
    await page.waitForSelector('main[data-standing="refused"]');
    await field('drivers.places[1].cable_mm').fill('2 m');
    await settled(page);
    expect(await page.locator('#schedule-cables tbody').textContent()).toContain('remote');
  });

  it('allows further drivers, and says of each which it is', async () => {
    await openDemo(page, service.address, 'Stair wall');
    // A typical driver does not dim by itself.
    await (await unfolded('dimming.control')).selectOption({ label: 'no part of this job' });
    await (await unfolded('drivers.reserve')).scrollIntoViewIfNeeded();
    await page.getByText('Further drivers').click();
    await page.getByRole('button', { name: 'Allow another driver' }).click();
    const further = await unfolded('drivers.also[1].entry');
    await further.selectOption({ label: '24 V 100 W driver' });
    await settled(page);
    await page.locator('#tab-drivers').click();
    // 94 W in all: one of 100 W is loaded to 80 at most, so it and the 60 W of the job still take two; 60 W is the least.
    const types = () => page.locator('#schedule-drivers tbody').textContent();
    expect(await types()).not.toContain('100 W');
    await (await unfolded('drivers.stock')).fill('1');
    await settled(page);
    expect(await types()).toMatch(/60 W driver.*100 W driver|100 W driver.*60 W driver/s);
  });

  it('puts a dimmer behind the drivers where one is chosen, and takes it away', async () => {
    await openDemo(page, service.address, 'Stair wall');
    const by = await unfolded('dimming.control');
    await by.selectOption({ label: 'Dimmer, one channel of 5 A, push button' });
    await settled(page);
    await page.locator('#tab-dimming').click();
    expect(await page.locator('#schedule-dimming tbody').textContent()).toContain('Push button');
    await by.selectOption({ label: 'no part of this job' });
    await settled(page);
    expect(await page.locator('#tab-dimming').count()).toBe(0);
  });

  it('gives a zone levels and a brightness of its own, and shows each zone beside the others', async () => {
    await openDemo(page, service.address, 'Window seat');
    await (await unfolded('dimming.pwm_Hz')).page().getByText('Zones dimmed together').click();
    await page.getByRole('button', { name: 'New zone with the chosen slot' }).click();
    const own = await unfolded('dimming.zones[1].levels');
    expect(await field('dimming.zones[1].levels[1]').count()).toBe(0);
    await own.selectOption({ label: 'its own' });
    expect(await field('dimming.zones[1].levels[1]').inputValue()).toBe('36');
    await field('dimming.zones[1].levels[1]').fill('50');
    await field('dimming.zones[1].wanted_cd_per_m2').fill('200');
    await field('dimming.zones[1].lowest').fill('2');
    await field('dimming.zones[1].slots').fill('1, 3-5');
    await field('dimming.restName').fill('Niche');
    await settled(page);
    const cells = await page.locator('table.is-zones tbody :is(th, td)').allTextContents();
    const words = cells.map((cell) => cell.replaceAll(/\s+/g, ' ').trim());
    const rows = [words.slice(0, 4), words.slice(4)].map((row) => row.join('; '));
    expect(rows[0]).toMatch(/^Zone 1 4 slots; 200.cd\/m²; \d+.cd\/m² at 50.%; \d+.cd\/m² at 2.%$/);
    expect(rows[1]).toMatch(/^Niche 2 slots; 150.cd\/m²; \d+.cd\/m² at 36.%; /);
    expect(await page.locator('slot-brightness h2').first().textContent()).toContain('Zone 1');
    await own.selectOption({ index: 0 });
    await settled(page);
    expect(await field('dimming.zones[1].levels[1]').count()).toBe(0);
  });

  it('takes sums, other lengths and arrow keys, and the date as the browser writes it', async () => {
    await openDemo(page, service.address, 'Window seat');
    const width = field('panel.width_mm');
    await width.fill('1.6 m + 20');
    await width.blur();
    expect(await width.inputValue()).toBe('1620');
    await width.press('ArrowUp');
    await width.press('Shift+ArrowUp');
    expect(await width.inputValue()).toBe('1631');
    await settled(page);
    const date = await unfolded('title.date');
    expect(await date.getAttribute('type')).toBe('date');
    await date.fill('2031-04-05');
    expect(await page.locator('.title-block .box-date dd').textContent()).toBe('2031-04-05');
    await date.fill('');
    expect(await page.locator('.message').count()).toBe(0);
  });

  it('takes ratios in percent and words their bounds in percent', async () => {
    await openDemo(page, service.address, 'Window seat');
    const reserve = await unfolded('drivers.reserve');
    expect(await reserve.inputValue()).toBe('20');
    await reserve.fill('80');
    expect(await page.locator('.field.is-wrong .sentence').textContent()).toMatch(
      /between 0\u202f% and 60\u202f%/,
    );
  });

  it('marks an overridden data-sheet value and gives the catalogue value back', async () => {
    await openDemo(page, service.address, 'Window seat');
    const name = 'strip.data.channels[1].watts_per_m';
    const power = await unfolded(name);
    const printed = await power.inputValue();
    await power.fill('9.1');
    await settled(page);
    const back = page.locator('.own-value button', { hasText: printed });
    expect(await back.count()).toBe(1);
    await back.click();
    expect(await field(name).inputValue()).toBe(printed);
    expect(await back.count()).toBe(0);
  });

  it('says what cannot be built and leads to the place', async () => {
    await openDemo(page, service.address, 'Window seat');
    await (await unfolded('drivers.entry')).selectOption({ label: '48 V 100 W driver' });
    await page.waitForSelector('main[data-standing="refused"]');
    const refusal = page.locator('.message.is-refused');
    expect(await refusal.textContent()).toMatch(/12 V.*48 V/);
    expect(await page.locator('svg.elevation').count()).toBe(1);
    await refusal.getByText('Change it').first().click();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('field-drivers-entry');
  });

  it('reads a pasted list of lengths and shows what it did not understand', async () => {
    await page.goto(service.address);
    await settled(page);
    await page.getByText('New wall').click();
    await page.waitForSelector('main[data-standing="incomplete"]');
    await field('slots.lengths_mm').fill('Length\n1200\t1,250 mm; 130 cm\n0.9 m | n/a');
    await settled(page);
    expect(await news()).toMatch(/^4 slots\./);
    expect(await page.locator('.field.is-list .sentence:not([hidden])').textContent()).toMatch(
      /left out: “Length”, “n\/a”/,
    );
    const lengths = await page.evaluate(() =>
      [...document.querySelectorAll('svg.elevation .slot')].map((slot) => slot.getAttribute('aria-label')),
    );
    expect(lengths.join()).toMatch(/1,200.*1,250.*1,300.*900/s);
  });
});

describe('files', () => {
  it('saves the job and reads the same job back', async () => {
    await openDemo(page, service.address, 'Stair wall');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByText('Save file', { exact: true }).click(),
    ]);
    expect(download.suggestedFilename()).toMatch(/\.slotwatt\.json$/);
    const buffer = await bytesOf(download);
    expect(JSON.parse(buffer.toString())).toEqual(demoJobs[1]!.job);
    await openDemo(page, service.address, 'Window seat');
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      page.getByText('Open file', { exact: true }).click(),
    ]);
    await chooser.setFiles({ name: download.suggestedFilename(), mimeType: 'application/json', buffer });
    await page.waitForFunction(() => document.querySelector('h1')?.textContent?.startsWith('Stair wall'));
    await settled(page);
    expect(await news()).toMatch(/^28 slots\./);
  });

  it('lists why a file is no job and leaves the job alone', async () => {
    await openDemo(page, service.address, 'Window seat');
    const whole = JSON.stringify(demoJobs[0]!.job);
    const later = JSON.stringify({ ...demoJobs[0]!.job, format: { name: 'slotwatt-job', version: 99 } });
    for (const [content, reason] of [
      [whole.slice(0, 300), /cut short/],
      ['{"hello": 1}', /not a Slotwatt job/],
      [whole.replace('"width_mm":1620', '"width_mm":-1'), /Panel width must lie between/],
      [later, /later Slotwatt/],
      ['x'.repeat(2_100_000), /larger than 2 MB/],
    ] as const) {
      const [chooser] = await Promise.all([
        page.waitForEvent('filechooser'),
        page.getByText('Open file', { exact: true }).click(),
      ]);
      await chooser.setFiles({
        name: 'wall.json',
        mimeType: 'application/json',
        buffer: Buffer.from(content),
      });
      const notice = page.locator('.message.is-notice');
      await notice.waitFor();
      expect(await notice.textContent()).toMatch(reason);
      await notice.getByText('Close this message').click();
      expect(await page.locator('h1').textContent()).toBe('Window seat, back panel');
    }
  });

  it('saves a schedule for the spreadsheet', async () => {
    await openDemo(page, service.address, 'Window seat');
    const save = page.locator('.schedule:not(.is-away)').getByText('Save as CSV');
    const [download] = await Promise.all([page.waitForEvent('download'), save.click()]);
    const text = (await bytesOf(download)).toString();
    expect(text.startsWith('\ufeff')).toBe(true);
    expect(text).toContain('D1');
  });
});

describe('answers and their order', () => {
  it('never lets a stale answer overwrite a newer one', async () => {
    await openDemo(page, service.address, 'Window seat');
    let held: (() => void) | undefined;
    let question: Request | undefined;
    await page.route('**/api/sizing?*', async (route) => {
      const { slots } = route.request().postDataJSON();
      if (slots.spacing.count === 9) {
        question = route.request();
        await new Promise<void>((release) => {
          held = release;
        });
      }
      await route.continue().catch(() => undefined);
    });
    await field('slots.spacing.count').fill('9');
    await expect.poll(() => held !== undefined).toBe(true);
    await field('slots.spacing.count').fill('4');
    await page.waitForFunction(() => document.querySelector('.news')?.textContent?.startsWith('4 slots'));
    held!();
    await over(page, question!);
    expect(await news()).toMatch(/^4 slots\./);
    expect(await page.locator('svg.elevation .slot').count()).toBe(4);
  });

  it('asks once for a burst of typing', async () => {
    await openDemo(page, service.address, 'Window seat');
    let asked = 0;
    page.on('request', (request) => {
      if (request.url().endsWith('/api/sizing?accuracy=quick')) asked += 1;
    });
    await page.evaluate(() => {
      const input = document.querySelector<HTMLInputElement>('[data-field="panel.width_mm"]')!;
      for (const width of ['1630', '1640', '1650', '1660']) {
        input.value = width;
        input.dispatchEvent(new InputEvent('input', { bubbles: true }));
      }
    });
    await settled(page);
    expect(asked).toBe(1);
  });

  it('keeps the old answer and the entries when the service is gone, and goes on when it is back', async () => {
    const mortal = await startService();
    await openDemo(page, mortal.address, 'Window seat');
    const { port } = new URL(mortal.address);
    await mortal.stop();
    await field('slots.spacing.count').fill('5');
    await page.waitForSelector('main[data-standing="offline"]');
    expect(await page.locator('.message.is-offline').textContent()).toMatch(/does not answer/);
    expect(await page.locator('svg.elevation .slot').count()).toBe(6);
    expect(await page.locator('main.is-stale').count()).toBe(1);
    expect(await field('slots.spacing.count').inputValue()).toBe('5');
    const again = await startService(Number(port));
    try {
      await page.getByText('Ask again now').click();
      await settled(page);
      expect(await news()).toMatch(/^5 slots\./);
    } finally {
      await again.stop();
    }
  });
});

describe('two tabs', () => {
  it('says when another tab changed the draft and keeps both until somebody chooses', async () => {
    await openDemo(page, service.address, 'Window seat');
    const other = await context.newPage();
    await other.goto(service.address);
    await settled(other);
    await field('panel.width_mm', other).fill('1500');
    const notice = page.locator('.message.is-other-tab');
    await notice.waitFor();
    await field('panel.width_mm').fill('1800');
    await settled(page);
    expect(await field('panel.width_mm', other).inputValue()).toBe('1500');
    expect(await other.locator('.message.is-other-tab').count()).toBe(0);
    await notice.getByText('Take the other tab’s').click();
    await settled(page);
    expect(await field('panel.width_mm').inputValue()).toBe('1500');
    await page.keyboard.press('Control+z');
    expect(await field('panel.width_mm').inputValue()).toBe('1800');
  });
});

describe('on paper', () => {
  it('prints every row of every schedule, with no controls', async () => {
    await openDemo(page, service.address, 'Stair wall');
    const sized = sizeJob(demoJobs[1]!.job);
    if (!sized.ok) throw new Error('the demo job must have an answer');
    for (const format of ['A4', 'A3'] as const) {
      const text = pdfText(await page.pdf({ format }));
      for (const schedule of sized.value.schedules) {
        expect(text).toContain(schedule.title.replaceAll(' ', ''));
        for (const [reference] of schedule.rows) {
          expect(text).toContain(String(reference).replaceAll(/\s+/g, ''));
        }
      }
      expect(text).toContain('LB-0388');
      expect(text).not.toMatch(/Demojobs|SaveasCSV/);
    }
  });

  it('clips nothing at the edge of the sheet', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 1032, height: 700 });
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    const over = await page.evaluate(() =>
      [...document.querySelectorAll('.schedule table')]
        .filter((table) => table.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
        .map((table) => table.querySelector('caption')?.textContent),
    );
    expect(over).toEqual([]);
  });
});

describe('for everybody', () => {
  it('gives axe-core nothing to object to, in any view', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll('details')) fold.open = true;
    });
    expect(await objections(page)).toEqual([]);
    await openDemo(page, service.address, 'Window seat');
    await page.getByText('Light compared').click();
    await field('panel.width_mm').fill('x');
    expect(await objections(page)).toEqual([]);
    await page.getByText('Line drawing').click();
    expect(await objections(page)).toEqual([]);
  });

  it('moves between slots with the arrow keys and keeps one stop for Tab', async () => {
    await openDemo(page, service.address, 'Window seat');
    expect(await page.locator('svg.elevation .slot[tabindex="0"]').count()).toBe(1);
    await page.locator('svg.elevation .slot[tabindex="0"]').focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    const slot = () => page.evaluate(() => document.activeElement?.getAttribute('data-slot'));
    expect(await slot()).toBe('S03');
    expect(await page.locator('run-profile h2').textContent()).toContain('S03');
    await page.keyboard.press('End');
    expect(await slot()).toBe('S06');
    await page.keyboard.press('Home');
    expect(await slot()).toBe('S01');
  });

  it('keeps the chosen slot in sight in every size of the drawing', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    await page.selectOption('#chosen-slot', 'S45');
    for (const size of ['2 ×', '4 ×']) {
      await page.getByRole('button', { name: size, exact: true }).click();
      const inSight = () =>
        page.evaluate(() => {
          const box = document.querySelector('.drawing-scroll')!.getBoundingClientRect();
          const slot = document.querySelector('.chosen-outline')!.getBoundingClientRect();
          return (
            slot.left > box.left && slot.right < box.right && slot.bottom > box.top && slot.top < box.bottom
          );
        });
      await expect.poll(inSight).toBe(true);
    }
  });

  it('leads from a finding to its place', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    // The careful answer puts findings in another order.
    await page.waitForSelector('main[data-accuracy="careful"]');
    await page.locator('.finding.is-fails h3 button').getByText('Depth of the build-up').click();
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-field'))).toBe(
      'section.cavity_mm',
    );
  });

  it('marks a cable that a finding names, and all that belongs to a part picked on the wall or in a schedule', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    const sized = sizeJob(demoJobs[2]!.job);
    if (!sized.ok) throw new Error('the demo job must have an answer');
    const { cables, drivers } = sized.value;
    const named = (at: 'cable' | 'driver' | 'block', mark: string) =>
      page
        .locator(`svg.elevation .${mark}[data-${at}]`)
        .evaluateAll((all, name) => all.map((one) => one.getAttribute(name)), `data-${at}`);
    await page.locator('.finding.is-fails h3 button').getByText('Protection of each cable').click();
    const unprotected = cables.find(({ protectedBy }) => protectedBy === 'nothing')!;
    expect(await named('cable', 'is-marked')).toEqual([unprotected.id]);
    expect(await page.locator('picked-part h3').textContent()).toBe(unprotected.id);
    // A driver of this wall has one output; the first has five runs, and so a block behind its terminals.
    const first = drivers.drivers[0]!;
    await page.locator(`[data-driver="${first.id}"]`).click();
    expect(await named('driver', 'is-marked')).toEqual([first.id]);
    const own = cables.filter(({ output }) => output === first.outputs[0]!.id).map(({ id }) => id);
    expect((await named('cable', 'is-along')).sort()).toEqual(own.sort());
    expect(await named('block', 'is-along')).toHaveLength(1);
    expect(await page.locator('svg.elevation .is-along.feed-point').count()).toBe(
      first.outputs[0]!.runs.length,
    );
    expect(await page.locator('#schedule-drivers tr.is-marked').count()).toBe(1);
    await page.getByRole('button', { name: 'Unmark' }).click();
    expect(await page.locator('svg.elevation :is(.is-marked, .is-along)').count()).toBe(0);
    await page.locator('#tab-cables').click();
    const row = page.locator('#schedule-cables tbody tr').last();
    await row.locator('button').click();
    expect(await named('cable', 'is-marked')).toEqual([cables.at(-1)!.id]);
    expect(await row.getAttribute('class')).toBe('is-marked');
    expect(await page.locator('.terminal-side').first().getAttribute('data-faces')).toBe('up');
  });

  it('never scrolls sideways, and gives fingers room on a telephone', async () => {
    for (const [width, title] of [
      [1440, 'Foyer wall'],
      [820, 'Stair wall'],
      [390, 'Foyer wall'],
    ] as const) {
      await page.setViewportSize({ width, height: 850 });
      await openDemo(page, service.address, title);
      const sizes = await page.evaluate(() => {
        const { scrollWidth, clientWidth } = document.documentElement;
        const controls = [
          ...document.querySelectorAll<HTMLElement>('button, select, input:not([type="radio"]), summary'),
        ];
        const low = controls.filter((control) => {
          const { height, width: across } = control.getBoundingClientRect();
          return across > 0 && height > 0 && height < 40 && control.getAttribute('type') !== 'checkbox';
        });
        return {
          over: scrollWidth - clientWidth,
          low: low.map((control) => control.outerHTML.slice(0, 120)),
        };
      });
      expect(sizes.over).toBe(0);
      if (width === 390) expect(sizes.low).toEqual([]);
    }
  });

  it('dims the far end of a slot exactly as far as its light falls', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    const stops = await page.evaluate(() =>
      [...document.querySelectorAll('#lit-0 stop')].map((stop) => stop.getAttribute('stop-color')!),
    );
    const brightness = stops.map((hex) => Number.parseInt(hex.slice(5), 16));
    const sized = sizeJob(demoJobs[2]!.job);
    if (!sized.ok) throw new Error('the demo job must have an answer');
    const light = sized.value.circuit.runs[0]!.unit_light;
    const falls = light[0]! > light.at(-1)!;
    expect(brightness[0]! > brightness.at(-1)!).toBe(falls);
  });
});
