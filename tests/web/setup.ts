import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { TestProject } from 'vitest/node';

const root = fileURLToPath(new URL('../../', import.meta.url));

declare module 'vitest' {
  interface ProvidedContext {
    /** The browser the page is tested in. */
    readonly chromiumPath: string;
    /** The page as `npm run build` makes it of the source as it stands. */
    readonly pageFolder: string;
  }
}

/**
 * Builds page and service and finds the browser once for all tests: the one named by CHROMIUM_PATH, else the one from npm, which unpacks
 * itself to the temporary folder. VERCEL=1 makes it unpack its own libraries and fonts too.
 */
export default async function setup(project: TestProject): Promise<void> {
  let path = process.env.CHROMIUM_PATH;
  if (path === undefined) {
    process.env.VERCEL ??= '1';
    path = await (await import('@sparticuz/chromium')).default.executablePath();
  }
  project.provide('chromiumPath', path);
  await promisify(execFile)('npm', ['run', '--silent', 'build'], { cwd: root });
  project.provide('pageFolder', `${root}build/web`);
}
