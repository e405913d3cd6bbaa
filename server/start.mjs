// Starts the service from the build that is there; builds first where a source is newer than it, or none is there.
// Plain JavaScript, since it has to run where the tools that build are not installed.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = fileURLToPath(new URL('../', import.meta.url));
const built = join(root, 'build/server/main.js');
const sources = ['src', 'server', 'web', 'package.json'];

/** When the newest file at a path was written, ms; 0 where there is nothing. */
function newest(path) {
  if (!existsSync(path)) return 0;
  const { mtimeMs } = statSync(path);
  if (!statSync(path).isDirectory()) return mtimeMs;
  return Math.max(0, ...readdirSync(path).map((name) => newest(join(path, name))));
}

const isThere = existsSync(built);
const isCurrent = isThere && sources.every((name) => newest(join(root, name)) <= statSync(built).mtimeMs);
const canBuild = existsSync(join(root, 'node_modules/esbuild'));

if (!isCurrent && canBuild) {
  const build = spawnSync('npm', ['run', '--silent', 'build'], { cwd: root, stdio: 'inherit' });
  if (build.status !== 0) process.exit(build.status ?? 1);
} else if (!isThere) {
  console.error('Nothing is built yet, and what builds it is not installed: run npm ci, then npm start again.');
  process.exit(1);
}
await import(pathToFileURL(built).href);
