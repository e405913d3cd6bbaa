import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { type Browser, chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { temporaryFolder, testOptions } from '../server/support.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** Builds the page as `npm run build` does, so that what is tested is the source as it stands. */
export async function buildPage(): Promise<string> {
  await promisify(execFile)('npm', ['run', '--silent', 'build:web'], { cwd: root });
  return `${root}build/web`;
}

/** The service with the built page, on a free port of this computer. */
export interface PageService {
  readonly address: string;
  /** The workshop's folder of jobs. */
  readonly jobsFolder: string;
  /** Stops listening; `start` with the same port brings it back. */
  stop(): Promise<void>;
}

/** Starts the service with the page at 127.0.0.1, on a free port unless one is named. */
export async function startService(pageFolder: string, port = 0): Promise<PageService> {
  const { folder, remove } = await temporaryFolder();
  const app = await buildApp({ ...testOptions(folder), pageFolder });
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

/** A headless browser that asks nothing of the network. */
export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: inject('chromiumPath'),
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--no-first-run'],
  });
}

/** Waits until the answer to everything entered so far is on the page. */
export async function settled(page: Page): Promise<void> {
  await page.waitForTimeout(120);
  await page.waitForSelector('main[data-standing="current"]');
}

/** Opens the page and chooses a demo job by the beginning of its name in the menu. */
export async function openDemo(page: Page, address: string, title: string): Promise<void> {
  await page.goto(address);
  await settled(page);
  const label = await page
    .locator('#demo-jobs option')
    .filter({ hasText: new RegExp(`^${title}`) })
    .textContent();
  await page.selectOption('#demo-jobs', { label: label!.trim() });
  await settled(page);
}

export interface Violation {
  readonly id: string;
  readonly nodes: readonly string[];
}

/** What axe-core objects to on the page as it is shown now. */
export async function objections(page: Page): Promise<Violation[]> {
  const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
  await page.evaluate(await readFile(axe, 'utf8'));
  return page.evaluate(async () => {
    const run = (globalThis as unknown as { axe: { run: () => Promise<{ violations: never[] }> } }).axe.run;
    const { violations } = (await run()) as unknown as {
      violations: { id: string; nodes: { html: string }[] }[];
    };
    return violations.map(({ id, nodes }) => ({ id, nodes: nodes.map((node) => node.html.slice(0, 160)) }));
  });
}
