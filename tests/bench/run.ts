import { readdirSync } from 'node:fs';

/** Runs every benchmark of this folder, or those whose name holds a word given on the command line. */
const wanted = process.argv.slice(2);
const names = readdirSync(import.meta.dirname)
  .filter((name) => name.endsWith('.bench.ts'))
  .filter((name) => wanted.length === 0 || wanted.some((word) => name.includes(word)));

for (const name of names) {
  const module: Record<string, () => Promise<void>> = await import(`./${name}`);
  for (const bench of Object.values(module)) {
    console.log(`\n== ${name}`);
    await bench();
  }
}
