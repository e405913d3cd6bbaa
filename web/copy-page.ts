import { cp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { gzipSync } from 'node:zlib';

/** Puts what the page needs beside its script, packs it, names the scripts it begins with, and clears away those of earlier builds. */
const from = new URL('./', import.meta.url);
const to = new URL('../build/web/', import.meta.url);

interface Built {
  readonly outputs: Readonly<Record<string, { readonly imports: readonly { path: string; kind: string }[] }>>;
}

const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

const { outputs } = JSON.parse(await readFile(new URL('../web.json', to), 'utf8')) as Built;

/** What a script cannot begin without: asked for at once, not when it has been read that far. */
const needed = (outputs['build/web/main.js']?.imports ?? [])
  .filter(({ kind }) => kind === 'import-statement')
  .map(({ path }) => nameOf(path));

const index = await readFile(new URL('index.html', from), 'utf8');
const early = needed.map((name) => `<link rel="modulepreload" href="${name}" />\n    `);
await writeFile(
  new URL('index.html', to),
  index.replace('<script type="module"', `${early.join('')}<script type="module"`),
);
await cp(new URL('mark.svg', from), new URL('mark.svg', to));

const plain = [...Object.keys(outputs).map(nameOf), 'index.html', 'mark.svg', 'on-site.js'];
const packed = plain.filter((name) => /\.(js|css|html)$/.test(name));
for (const name of packed) {
  const content = await readFile(new URL(name, to));
  await writeFile(new URL(`${name}.gz`, to), gzipSync(content, { level: 9 }));
}

const kept = new Set([...plain, ...packed.map((name) => `${name}.gz`)]);
for (const name of await readdir(to)) {
  if (!kept.has(name)) await rm(new URL(name, to), { recursive: true });
}
