import type { Page, Request } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { demoJobs } from '../../src/index.ts';
import { askJobCircuit, askJobHeat, askJobLight } from '../../src/inverse/ask-job.ts';
import { eachVisit, objections, openDemo, over, type PageService, settled } from './browser.ts';

type Question = 'circuit' | 'heat' | 'light';
const questions: readonly Question[] = ['circuit', 'heat', 'light'];
const asking = questions.map((question) => `${question}-questions`).join();

let service: PageService;
let page: Page;

eachVisit((now) => {
  ({ page, service } = now);
});

const fold = (question: Question) => page.locator(`${question}-questions > details`);
const answered = (question: Question) =>
  page.waitForSelector(`${question}-questions > [data-asked="current"]`);
const field = (name: string) => page.locator(`[data-field="${name}"]`);

async function opened(question: Question) {
  await fold(question).locator('> summary').click();
  await answered(question);
  return fold(question);
}

function known<Value>(outcome: { ok: true; value: Value } | { ok: false }): Value {
  if (!outcome.ok) throw new Error('the demo job must have an answer');
  return outcome.value;
}

describe('the questions beside the drawing', () => {
  it('are asked when somebody opens them, not before', async () => {
    const asked: string[] = [];
    page.on('request', (request) => {
      if (request.url().includes('/api/ask/')) asked.push(request.url().split('/').at(-1)!);
    });
    await openDemo(page, service.address, 'Window seat');
    expect(asked).toEqual([]);
    for (const question of questions) await opened(question);
    expect(asked).toEqual([...questions]);
  });

  it('answer for the circuit as the engine does; a cable is applied, in the job, and undone', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    const { longest, sizes, leastSize, middle } = known(askJobCircuit(demoJobs[2]!.job));
    const circuit = await opened('circuit');
    const text = (await circuit.textContent())!;
    for (const { byDrop_m, byFall_m } of longest) {
      for (const reach_m of [byDrop_m, byFall_m]) expect(text).toContain(`${reach_m!.toFixed(2)}\u202fm`);
    }
    expect(text).toContain(`${middle!.set_V.toFixed(2)}\u202fV`);
    expect(await circuit.locator('tr.is-least th').first().textContent()).toContain(
      sizes.find(({ entry }) => entry === leastSize)!.name,
    );
    const before = await field('cables.entry').evaluate((s) => (s as HTMLSelectElement).value);
    await circuit.getByRole('button', { name: 'Apply: 2 × 2.5 mm² fine-wire for every cable' }).click();
    await settled(page);
    expect(await field('cables.entry').evaluate((s) => (s as HTMLSelectElement).value)).toMatch(/2\.5 mm²/);
    const inJob = circuit.getByRole('button', { name: 'In the job: 2 × 2.5 mm²' });
    expect(await inJob.count()).toBe(1);
    expect(await inJob.evaluate((button) => button === document.activeElement)).toBe(true);
    await page.keyboard.press('Control+z');
    await settled(page);
    expect(await field('cables.entry').evaluate((s) => (s as HTMLSelectElement).value)).toBe(before);
    expect(await circuit.getByRole('button', { name: /^In the job: 2 × 2\.5 mm²/ }).count()).toBe(0);
    await answered('circuit');
  });

  it('apply a feed arrangement and the volts to set, each one step of undo', async () => {
    await openDemo(page, service.address, 'Window seat');
    const circuit = await opened('circuit');
    const arrangement = () =>
      field('feeds.arrangement').evaluate((s) => (s as HTMLSelectElement).selectedIndex);
    const before = await arrangement();
    await circuit.getByRole('button', { name: 'Apply: runs fed at two points between' }).click();
    await settled(page);
    expect(await field('feeds.betweenCount').first().inputValue()).toBe('2');
    await circuit.getByRole('button', { name: /^Apply: drivers set to/ }).click();
    await settled(page);
    expect(Number(await field('drivers.set_V').inputValue())).toBeGreaterThan(11);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await settled(page);
    expect(await arrangement()).toBe(before);
    expect(await field('drivers.set_V').inputValue()).toBe('');
  });

  it('say that no depth passes, what does help, and mark the part that passes on the plot', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    const answer = known(askJobHeat(demoJobs[2]!.job));
    expect(answer.passing_mm).toEqual([]);
    const heat = await opened('heat');
    expect(await heat.textContent()).toMatch(/No depth from 8 to 60\u202fmm passes\./);
    expect(await heat.locator('.plot').count()).toBe(2);
    expect(await heat.locator('.region').count()).toBe(1);
    expect(await heat.locator('.own-point').count()).toBe(2);
    await heat.getByText('Both plots as tables').click();
    const rows = heat.locator('.fold tbody tr');
    expect(await rows.count()).toBe(answer.byDepth.length + answer.byPower.length);
    expect(await heat.locator('.helps li').count()).toBeGreaterThan(1);
    const wasHot = await page.locator('.finding.is-fails').getByText('Strip at the solder point').count();
    expect(wasHot).toBeGreaterThan(0);
    const offered = await heat.locator('.helps li').allTextContents();
    expect(offered[0]).toMatch(/^\s*Fewer watts of strip/);
    expect(offered.findIndex((help) => help.includes('aluminium flat'))).toBeGreaterThan(0);
    expect(offered.at(-1)).toContain('unable to go above the working level');
    await heat
      .getByRole('button', { name: 'Apply: the wall sized for a dimmer limited to its working level' })
      .click();
    await settled(page);
    await page.waitForFunction(
      () =>
        ![...document.querySelectorAll('.finding.is-fails')].some((finding) =>
          finding.textContent?.includes('Strip at the solder point'),
        ),
    );
    await answered('heat');
    expect(await heat.textContent()).not.toMatch(/No depth/);
    await page.keyboard.press('Control+z');
    await settled(page);
    await answered('heat');
    expect(await heat.textContent()).toMatch(/No depth/);
  });

  it('apply a carrier and a depth of the cavity', async () => {
    await openDemo(page, service.address, 'Window seat');
    const heat = await opened('heat');
    await heat.getByRole('button', { name: /^Apply: the section with an aluminium flat/ }).click();
    await settled(page);
    expect(await field('section.carrierWidth_mm').inputValue()).toBe('20');
    await heat.getByText('Both plots as tables').click();
    await heat.getByRole('button', { name: 'Apply: a cavity of 16\u202fmm' }).click();
    await settled(page);
    expect(await field('section.cavity_mm').inputValue()).toBe('16');
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await settled(page);
    expect(await field('section.cavity_mm').inputValue()).toBe('20');
    expect(await field('section.carrierWidth_mm').count()).toBe(0);
  });

  it('say what the chosen strip costs and put a weaker one into the job, dimmed as it must be', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    const { saving, strips } = known(askJobLight(demoJobs[2]!.job));
    const light = await opened('light');
    const costs = (await light.locator('.is-saving').textContent())!;
    expect(costs).toContain(`${saving.kelvins.toFixed(0)}\u202fK cooler`);
    expect(await light.locator('.is-strips tbody tr').count()).toBe(strips.length);
    await light.getByRole('button', { name: /^Apply: 24 V 2\.4 W\/m/ }).click();
    await settled(page);
    const level = Number(await field('dimming.levels[1]').inputValue());
    expect(level / 100).toBeGreaterThanOrEqual(strips[0]!.level);
    expect(level / 100).toBeLessThan(strips[0]!.level + 0.0011);
    await page.keyboard.press('Control+z');
    await settled(page);
    expect(await field('dimming.levels[1]').inputValue()).toBe('15');
  });

  it('offer the brightness in words before anything else about light', async () => {
    await openDemo(page, service.address, 'Window seat');
    const steps = await page
      .locator('job-form .step')
      .evaluateAll((all) => all.map((s) => s.getAttribute('data-step')));
    expect(steps.indexOf('Light')).toBeLessThan(steps.indexOf('Strip'));
    const words = page.getByRole('group', { name: 'Brightness in words' });
    await words.getByRole('button', { name: /Holds its own against daylight/ }).click();
    await settled(page);
    expect(await field('light.wanted_cd_per_m2').inputValue()).toBe('600');
    const light = await opened('light');
    expect(await light.textContent()).toMatch(
      /600\u202fcd\/m², bright enough to hold its own against daylight/,
    );
  });

  it('never let an answer for an earlier job stand as the current one', async () => {
    await openDemo(page, service.address, 'Window seat');
    const light = await opened('light');
    let held: (() => void) | undefined;
    let question: Request | undefined;
    await page.route('**/api/ask/light', async (route) => {
      if (route.request().postDataJSON().light.wanted_cd_per_m2 === 30) {
        question = route.request();
        await new Promise<void>((release) => {
          held = release;
        });
      }
      await route.continue().catch(() => undefined);
    });
    await field('light.wanted_cd_per_m2').fill('30');
    await expect.poll(() => held !== undefined).toBe(true);
    expect(await light.getAttribute('data-asked')).toBe('asking');
    expect(await light.locator('.asked-answer.is-old').count()).toBe(1);
    await field('light.wanted_cd_per_m2').fill('200');
    await settled(page);
    await answered('light');
    held!();
    await over(page, question!);
    expect(await light.textContent()).toMatch(/Wanted: 200\u202fcd\/m²/);
  });

  it('show a refusal and a failure with what to do, and keep the old figures beside them', async () => {
    await openDemo(page, service.address, 'Window seat');
    const circuit = await opened('circuit');
    let status = 503;
    await page.route('**/api/ask/circuit', (route) =>
      status === 200
        ? route.continue()
        : route.fulfill({
            status,
            contentType: 'application/problem+json',
            body: JSON.stringify({ title: 'Busy', detail: 'Too many calculations are waiting.', status }),
          }),
    );
    await field('panel.width_mm').fill('1640');
    await circuit.locator('.message.is-failed').waitFor();
    expect(await circuit.locator('.message').textContent()).toMatch(/Too many calculations.*earlier state/s);
    expect(await circuit.locator('.asked-answer.is-old table').count()).toBeGreaterThan(1);
    status = 422;
    await circuit.getByText('Ask again').click();
    await circuit.locator('.message.is-refused').waitFor();
    status = 200;
    await field('panel.width_mm').fill('1650');
    await answered('circuit');
    expect(await circuit.locator('.message').count()).toBe(0);
  });

  it('wait while the job cannot be calculated, and say so', async () => {
    await openDemo(page, service.address, 'Window seat');
    const light = await opened('light');
    await field('drivers.entry').evaluate((element) => {
      for (let at = element.closest('details'); at; at = at.parentElement?.closest('details') ?? null)
        at.open = true;
    });
    await field('drivers.entry').selectOption({ label: '48 V 100 W driver' });
    await page.waitForSelector('main[data-standing="refused"]');
    expect(await light.locator('.asked-state').textContent()).toMatch(
      /waits until the job can be calculated/,
    );
    await page.keyboard.press('Control+z');
    await answered('light');
    expect(await light.locator('.asked-state').textContent()).toBe('');
  });
});

describe('the section', () => {
  it('leads from each heat finding to its mark and its row', async () => {
    await openDemo(page, service.address, 'Foyer wall');
    await page.waitForSelector('main[data-accuracy="careful"]');
    await page.locator('.finding h3 button').getByText('Hottest timber').click();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('reading-timber');
    expect(await page.locator('.section-cut .reading.is-marked').textContent()).toContain('Hottest timber');
    expect(await page.locator('.isotherm-scale li').count()).toBeGreaterThan(2);
  });

  it('numbers its marks on a telephone as the rows of the table are numbered', async () => {
    await page.setViewportSize({ width: 390, height: 850 });
    await openDemo(page, service.address, 'Foyer wall');
    await page.waitForSelector('main[data-accuracy="careful"]');
    const marks = await page.locator('.section-cut .reading-number').allTextContents();
    const numbers = marks.flatMap((mark) => mark.split(', ')).sort();
    const rows = await page.locator('tr[id^="reading-"] th').allTextContents();
    expect(rows.flatMap((row) => /^\s*(\d+) /.exec(row)?.[1] ?? []).sort()).toEqual(numbers);
    expect(numbers.length).toBeGreaterThan(4);
  });
});

describe('for everybody', () => {
  it.each([
    [1440, 'Foyer wall'],
    [820, 'Window seat'],
    [390, 'Foyer wall'],
  ])(
    'has open questions that axe-core does not object to, and that never scroll sideways, %i px wide',
    async (width, title) => {
      await page.setViewportSize({ width, height: 900 });
      await openDemo(page, service.address, title);
      for (const question of questions) await opened(question);
      await page.locator('heat-questions .fold > summary').click();
      const over = await page.evaluate(() => {
        const { scrollWidth, clientWidth } = document.documentElement;
        const tables = [...document.querySelectorAll('.asked table')];
        const wide = tables.filter((table) => table.getBoundingClientRect().right > clientWidth + 0.5);
        return {
          page: scrollWidth - clientWidth,
          tables: wide.map((t) => t.querySelector('caption')?.textContent),
        };
      });
      expect(over).toEqual({ page: 0, tables: [] });
      expect(await objections(page, width === 390 ? undefined : asking)).toEqual([]);
      if (width !== 390) return;
      const low = await page
        .locator('.asked button, .asked summary')
        .evaluateAll((all) =>
          all
            .filter((one) => one.getClientRects().length > 0 && one.getBoundingClientRect().height < 40)
            .map((one) => one.outerHTML),
        );
      expect(low).toEqual([]);
    },
  );
});
