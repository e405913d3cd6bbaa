import { cp, mkdir } from 'node:fs/promises';

/** Copies what the page needs beside its script. */
const from = new URL('./', import.meta.url);
const to = new URL('../build/web/', import.meta.url);

await mkdir(to, { recursive: true });
for (const name of ['index.html', 'mark.svg', 'styles']) {
  await cp(new URL(name, from), new URL(name, to), { recursive: true });
}
