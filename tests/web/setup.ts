import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { chromium } from 'playwright-core';
import type { TestProject } from 'vitest/node';
import { hang_ms } from '../hang.ts';
import { browserPath, quiet } from './browser-path.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

declare module 'vitest' {
  interface ProvidedContext {
    /** Where the browser that all tests share is spoken to. */
    readonly browserAddress: string;
    /** The page as `npm run build` makes it of the source as it stands. */
    readonly pageFolder: string;
  }
}

/** The name of a foreign page leads to this computer, as a name server can arrange. */
const foreign = '--host-resolver-rules=MAP wall.example 127.0.0.1';

/** Builds page and service, and starts the browser, once for all tests; what it returns ends the browser. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const built = promisify(execFile)('npm', ['run', '--silent', 'build'], { cwd: root });
  const executablePath = await browserPath();
  const browser = await chromium.launchServer({
    executablePath,
    args: [...quiet, foreign],
    timeout: hang_ms,
  });
  project.provide('browserAddress', browser.wsEndpoint());
  await built;
  project.provide('pageFolder', `${root}build/web`);
  return () => browser.close();
}
