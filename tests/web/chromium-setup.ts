import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    /** The browser the page is tested in. */
    readonly chromiumPath: string;
  }
}

/**
 * Finds the browser once for all tests: the one named by CHROMIUM_PATH, else the one from npm, which unpacks
 * itself to the temporary folder. VERCEL=1 makes it unpack its own libraries and fonts too.
 */
export default async function setup(project: TestProject): Promise<void> {
  let path = process.env.CHROMIUM_PATH;
  if (path === undefined) {
    process.env.VERCEL ??= '1';
    path = await (await import('@sparticuz/chromium')).default.executablePath();
  }
  project.provide('chromiumPath', path);
}
