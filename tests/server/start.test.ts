import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { temporaryFolder } from './support.ts';

let root: string;
let remove: () => Promise<void>;
beforeEach(async () => {
  ({ folder: root, remove } = await temporaryFolder());
  for (const name of ['server', 'src', 'build/server']) mkdirSync(join(root, name), { recursive: true });
  copyFileSync('server/start.mjs', join(root, 'server/start.mjs'));
  const build = `node -e "require('fs').writeFileSync('build/server/main.js', 'console.log(1+1)')"`;
  writeFileSync(join(root, 'package.json'), JSON.stringify({ type: 'module', scripts: { build } }));
  writeFileSync(join(root, 'src/a.ts'), '');
});
afterEach(() => remove());

/** A build that says so, older or newer than every source by an hour. */
function build(hours: number): void {
  const file = join(root, 'build/server/main.js');
  writeFileSync(file, "console.log('as it was built')");
  const at = Date.now() / 1000 + 3600 * hours;
  utimesSync(file, at, at);
}

const tools = (): void => void mkdirSync(join(root, 'node_modules/esbuild'), { recursive: true });

/** Starts it from elsewhere, as a service manager would. */
function start() {
  const { stdout, stderr, status } = spawnSync(process.execPath, [join(root, 'server/start.mjs')], {
    cwd: '/',
    encoding: 'utf8',
  });
  return { stdout: stdout.trim(), stderr, status };
}

describe('npm start', () => {
  it('uses a build that is there and up to date', () => {
    build(1);
    tools();
    expect(start()).toMatchObject({ stdout: 'as it was built', status: 0 });
  });
  it('builds first where a source is newer', () => {
    build(-1);
    tools();
    expect(start()).toMatchObject({ stdout: '2', status: 0 });
  });
  it('builds where nothing is built', () => {
    tools();
    expect(start()).toMatchObject({ stdout: '2', status: 0 });
  });
  it('serves what is built where the tools that build are not installed', () => {
    build(-1);
    expect(start()).toMatchObject({ stdout: 'as it was built', status: 0 });
  });
  it('says what to do where there is neither', () => {
    const { stderr, status } = start();
    expect(status).toBe(1);
    expect(stderr).toContain('npm ci');
  });
});
