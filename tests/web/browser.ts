import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import {
  type Browser,
  type BrowserContext,
  chromium,
  type Download,
  type Page,
  type Request,
} from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { hang_ms } from '../hang.ts';
import { temporaryFolder, testOptions } from '../server/support.ts';

/** The service with the built page, on a free port of this computer. */
export interface PageService {
  readonly address: string;
  /** The workshop's folder of jobs. */
  readonly jobsFolder: string;
  /** Stops listening; `start` with the same port brings it back. */
  stop(): Promise<void>;
}

/** Starts the service with the page at 127.0.0.1, on a free port unless one is named. */
export async function startService(port = 0): Promise<PageService> {
  const { folder, remove } = await temporaryFolder();
  const app = await buildApp({ ...testOptions(folder), pageFolder: inject('pageFolder') });
  const address = await app.listen({ host: '127.0.0.1', port });
  return {
    address,
    jobsFolder: folder,
    async stop() {
      await app.close();
      await remove();
    },
  };
}

/** The headless browser of all tests, which asks nothing of the network; closing it closes what was opened through it. */
export const sharedBrowser = (): Promise<Browser> =>
  chromium.connect(inject('browserAddress'), { timeout: hang_ms });

/** A visit to the page in a browser context of its own, which nobody else's storage reaches. */
export interface Visit {
  readonly context: BrowserContext;
  readonly page: Page;
  /** Errors the page met: in its code, and on its console but for failed requests. */
  readonly complaints: string[];
}

/** Opens a context and a page that notes every error it meets. */
export async function visit(browser: Browser, { width = 1440 } = {}): Promise<Visit> {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    locale: 'en-GB',
    acceptDownloads: true,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(hang_ms);
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error' && !message.text().startsWith('Failed to load'))
      complaints.push(message.text());
  });
  return { context, page, complaints };
}

/**
 * One service and one browser for the tests of a file or of a `describe`, and for each test a visit of its own, which
 * must end without complaints.
 * @param begin gets the visit before each test
 */
export function eachVisit(begin: (visit: Visit & { readonly service: PageService }) => void): void {
  let service: PageService;
  let browser: Browser;
  let now: Visit;
  beforeAll(async () => {
    service = await startService();
    browser = await sharedBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    await service?.stop();
  });
  beforeEach(async () => {
    now = await visit(browser);
    begin({ ...now, service });
  });
  afterEach(async () => {
    await now.context.close();
    expect(now.complaints).toEqual([]);
  });
}

/**
 * Waits until the answer to everything entered so far is on the page: what changes the job says in the same step that the
 * figures wait. What is fetched first is to be waited for by itself.
 * The parts of the page that load after the first figures are waited for as well.
 */
export async function settled(page: Page): Promise<void> {
  await page.waitForSelector('main[data-standing="current"]:not(:has(:not(:defined)))');
}

/** Sets the clock of a page on by so much, and waits until the service has heard whatever that set off. */
export async function later(page: Page, by_ms: number): Promise<void> {
  await page.clock.fastForward(by_ms);
  await page.evaluate(() => fetch('/api/health').then((reply) => reply.text()));
}

/** Waits until the answer to a question of the page has come, or the page has given the question up. */
export async function over(page: Page, question: Request): Promise<void> {
  await (await question.response())?.finished();
  await page.evaluate(() => fetch('/api/health').then((reply) => reply.text()));
}

/** What was downloaded, as a buffer: the browser stands elsewhere, so that there is no path to it. */
export async function bytesOf(download: Download): Promise<Buffer> {
  return Buffer.concat(await (await download.createReadStream()).toArray());
}

/** Opens the page, which shows the first demo job, and chooses another by the beginning of its name in the menu. */
export async function openDemo(page: Page, address: string, title: string): Promise<void> {
  await page.goto(address);
  await page.locator('#demo-jobs option').first().waitFor({ state: 'attached' });
  if ((await page.locator('h1').textContent())?.trim().startsWith(title)) return settled(page);
  const label = await page
    .locator('#demo-jobs option')
    .filter({ hasText: new RegExp(`^${title}`) })
    .textContent();
  await page.selectOption('#demo-jobs', { label: label!.trim() });
  await page.locator('h1', { hasText: new RegExp(`^\\s*${title}`) }).waitFor();
  await settled(page);
}

export interface Violation {
  readonly id: string;
  readonly nodes: readonly string[];
}

/**
 * What axe-core objects to on the page as it is shown now.
 * @param within the part to look at where only that is new, as a selector, which must match something; else the whole page
 */
export async function objections(page: Page, within?: string): Promise<Violation[]> {
  const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(await readFile(axe, 'utf8'));
  return page.evaluate(async (selector) => {
    const { run } = (
      globalThis as unknown as {
        axe: { run: (context: Document | string, options: object) => Promise<{ violations: never[] }> };
      }
    ).axe;
    const { violations } = (await run(selector ?? document, { resultTypes: ['violations'] })) as unknown as {
      violations: { id: string; nodes: { html: string }[] }[];
    };
    return violations.map(({ id, nodes }) => ({ id, nodes: nodes.map((node) => node.html.slice(0, 160)) }));
  }, within);
}
