import { readdirSync } from 'node:fs';

/**
 * Runs every benchmark of this folder, or those whose name holds a word given on the command line; bundled as the
 * service is, so that what is timed is what runs.
 */
const wanted = process.argv.slice(2);
const names = readdirSync(import.meta.dirname)
  .filter((name) => name.endsWith('.bench.js'))
  .filter((name) => wanted.length === 0 || wanted.some((word) => name.includes(word)));

for (const name of names) {
  const module: Record<string, () => Promise<void>> = await import(new URL(name, import.meta.url).href);
  for (const bench of Object.values(module)) {
    console.log(`\n== ${name}`);
    await bench();
  }
}
