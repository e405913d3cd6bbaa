import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, inject, it } from 'vitest';

/** What the page weighs before the first figures, compressed as a server would send it; the engine is no part of it. */
const most_B = 130_000;

const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

/** The scripts that the browser needs before the first line of one runs, itself included. */
async function scriptsOf(name: string, known: Map<string, string> = new Map()): Promise<Map<string, string>> {
  if (known.has(name)) return known;
  const text = await readFile(join(inject('pageFolder'), name), 'utf8');
  known.set(name, text);
  for (const [, path] of text.matchAll(/(?:\bfrom|\bimport)\s*"\.\/([^"]+\.js)"/g))
    await scriptsOf(nameOf(path!), known);
  return known;
}

const packed_B = (texts: Iterable<string>): number =>
  [...texts].reduce((sum, text) => sum + gzipSync(text, { level: 9 }).length, 0);

it('begins with scripts below their limit of weight', async () => {
  const scripts = await scriptsOf('main.js');
  expect(scripts.size).toBeGreaterThan(1);
  expect(packed_B(scripts.values())).toBeLessThan(most_B);
});

it('asks at once for everything it begins with, and for nothing else', async () => {
  const index = await readFile(join(inject('pageFolder'), 'index.html'), 'utf8');
  const named = [...index.matchAll(/(?:src|href)="([^"]+\.js)"/g)].map(([, name]) => name);
  expect(named.toSorted()).toEqual([...(await scriptsOf('main.js')).keys()].toSorted());
});

it('leaves shapes of answers, and what shows no figures, to a script of its own', async () => {
  const early = [...(await scriptsOf('main.js')).values()].join('');
  expect(early).toContain('"wall-elevation"');
  for (const late of ['"propose-panel"', '"own-products"', '"drawing-in"', '"schedule-tables"'])
    expect(early).not.toContain(`define(${late}`);
});
