import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
import { demoJobs, type Job } from '../../src/index.ts';
import { browserPath, quiet } from '../web/browser-path.ts';
import { startService } from './service.ts';
import { line } from './times.ts';

const pageFolder = fileURLToPath(new URL('../../web/', import.meta.url));
const visits = 5;
const keys = 12;
/** Longer than this nobody types on, so long as there are a few times to go by. */
const most_ms = 8000;
const fewest = 4;
/** A field that no heat rests on, and one that has the section solved anew. */
const fields = ['cables.tail_mm', 'section.cavity_mm'] as const;

const demo = (id: string): Job => demoJobs.find((each) => each.id === id)!.job;

/** The foyer wall with more slots at the same pitch. */
function wide(count: number): Job {
  const { panel, slots, ...foyer } = demo('foyer-wall');
  const width_mm = Math.round((panel.width_mm * count) / 60);
  const spaced = { ...slots, spacing: { by: 'count', count } } as Job['slots'];
  return { ...foyer, panel: { ...panel, width_mm: Math.min(30_000, width_mm) }, slots: spaced };
}

const jobs: readonly (readonly [number, Job])[] = [
  [6, demo('window-seat')],
  [28, demo('stair-wall')],
  [60, demo('foyer-wall')],
  [200, wide(200)],
];

/** What the page notes of itself, kept by the script that runs before its own. */
interface Notes {
  /** From an entry to the frame after the figures that answer it. */
  readonly quick: number[];
  readonly careful: number[];
  /** Of every task above 50 ms since the notes were last emptied. */
  readonly long: number[];
}

/** Runs in the page, before its own script. */
function takeNotes(): void {
  const notes: Notes = { quick: [], careful: [], long: [] };
  Object.assign(globalThis, { notes });
  let entered = 0;
  let carefulFrom = 0;
  addEventListener(
    'keydown',
    () => {
      entered = performance.now();
      carefulFrom = entered;
    },
    true,
  );
  const afterFrame = (act: () => void): void => {
    requestAnimationFrame(() => setTimeout(act));
  };
  const look = (): void => {
    const { standing, accuracy } = document.querySelector('main')?.dataset ?? {};
    if (standing !== 'current') return;
    if (entered > 0) {
      const from = entered;
      entered = 0;
      afterFrame(() => notes.quick.push(performance.now() - from));
    }
    if (accuracy === 'careful' && carefulFrom > 0) {
      const from = carefulFrom;
      carefulFrom = 0;
      afterFrame(() => notes.careful.push(performance.now() - from));
    }
  };
  new MutationObserver(look).observe(document, { subtree: true, attributes: true, childList: true });
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) notes.long.push(duration);
  }).observe({ type: 'longtask' });
}

const notesOf = (page: Page): Promise<Notes> =>
  page.evaluate(() => (globalThis as unknown as { notes: Notes }).notes);

const counted = (page: Page, key: 'quick' | 'careful', least: number): Promise<unknown> =>
  page.waitForFunction(
    ([name, count]) =>
      (globalThis as unknown as { notes: Record<string, number[]> }).notes[name]!.length >= count,
    [key, least] as const,
  );

/** Opens the page with a job in the browser's storage, as somebody does who comes back to it. */
async function opened(browser: Browser, origin: string, job: Job): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  await context.addInitScript(takeNotes);
  const draft = JSON.stringify({ job, entries: {}, parked: {} });
  await context.addInitScript((text) => localStorage.setItem('slotwatt-draft', text), draft);
  const page = await context.newPage();
  page.setDefaultTimeout(120_000);
  await page.goto(origin);
  await page.waitForSelector('main[data-standing="current"]');
  return page;
}

interface Visit {
  readonly paint_ms: number;
  readonly figures_ms: number;
  readonly nodes: number;
  readonly answers_kB: number;
  readonly script_kB: number;
}

async function visited(browser: Browser, origin: string, job: Job): Promise<Visit> {
  const page = await opened(browser, origin, job);
  const visit = await page.evaluate(() => {
    const resources = performance.getEntriesByType('resource') as PerformanceResourceTiming[];
    const kB = (entries: PerformanceResourceTiming[]): number =>
      entries.reduce((sum, { encodedBodySize }) => sum + encodedBodySize, 0) / 1000;
    return {
      paint_ms: performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0,
      figures_ms: performance.now(),
      nodes: document.querySelectorAll('*').length,
      answers_kB: kB(resources.filter(({ name }) => name.includes('/api/sizing'))),
      script_kB: kB(resources.filter(({ name }) => name.endsWith('.js'))),
    };
  });
  await page.context().close();
  return visit;
}

/** Presses the arrow key in a field, each press once the figures of the one before are shown. */
async function typed(page: Page, field: string): Promise<Notes> {
  await page.evaluate((name) => {
    const input = document.querySelector<HTMLInputElement>(`[data-field="${name}"]`)!;
    for (let fold = input.closest('details'); fold; fold = fold.parentElement!.closest('details'))
      fold.open = true;
    input.focus();
    const { notes } = globalThis as unknown as { notes: Notes };
    for (const list of [notes.quick, notes.careful, notes.long]) list.length = 0;
  }, field);
  const start = performance.now();
  for (let count = 1; count <= keys; count++) {
    if (count > fewest && performance.now() - start > most_ms) break;
    await page.keyboard.press(count % 2 === 1 ? 'ArrowUp' : 'ArrowDown');
    await counted(page, 'quick', count);
  }
  await counted(page, 'careful', 1);
  return notesOf(page);
}

/** How many answers are shown of twelve keys 120 ms apart. */
async function shownWhileTyping(page: Page): Promise<number> {
  const answers = (): Promise<number> =>
    page.evaluate(
      () =>
        performance.getEntriesByType('resource').filter(({ name }) => name.endsWith('accuracy=quick')).length,
    );
  const before = await answers();
  for (let count = 0; count < keys; count++) {
    await page.keyboard.press('ArrowUp');
    await page.waitForTimeout(120);
  }
  return (await answers()) - before;
}

/** Drives the built page in the browser of the tests: what a maker waits for, for walls of more and more slots. */
export async function benchPage(): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'slotwatt-bench-'));
  const service = await startService(folder, { pageFolder });
  const browser = await chromium.launch({ executablePath: await browserPath(), args: quiet });
  try {
    await visited(browser, service.origin, demo('window-seat'));
    for (const [slotCount, job] of jobs) {
      const seen: Visit[] = [];
      for (let count = 0; count < visits; count++) seen.push(await visited(browser, service.origin, job));
      const [{ nodes, answers_kB, script_kB }] = seen as [Visit];
      console.log(
        `${slotCount} slots: ${nodes} elements, answer ${answers_kB.toFixed(0)} kB, scripts ${script_kB.toFixed(0)} kB as sent`,
      );
      line(
        '  first paint',
        seen.map(({ paint_ms }) => paint_ms),
      );
      line(
        '  first figures',
        seen.map(({ figures_ms }) => figures_ms),
      );
      const page = await opened(browser, service.origin, job);
      for (const field of fields) {
        const { quick, careful, long } = await typed(page, field);
        line(`  ${field}, key to numbers`, quick);
        line(`  ${field}, last key to careful`, careful);
        console.log(
          `  tasks above 50 ms meanwhile: ${long.length}${long.length > 0 ? `, longest ${Math.max(...long).toFixed(0)} ms` : ''}`,
        );
      }
      console.log(`  ${await shownWhileTyping(page)} answers while ${keys} keys came 120 ms apart`);
      await page.context().close();
    }
  } finally {
    await browser.close();
    await service.stop();
    await rm(folder, { recursive: true });
  }
}
