import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';
import { describe, expect, it } from 'vitest';

/** The rules of the house: which folder may import which, and that what is exported is explained. */

/** What each room of the engine may import besides itself, `numeric` and the shared words and shapes. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  job: [],
  numeric: [],
  circuit: [],
  drivers: [],
  heat: [],
  installation: ['job'],
  light: [],
  'set-out': ['job'],
  findings: ['job'],
  'hand-over': ['job'],
  sizing: ['job', 'set-out', 'light', 'circuit', 'installation', 'drivers', 'heat', 'findings', 'hand-over'],
  inverse: ['job', 'set-out', 'light', 'circuit', 'drivers', 'heat', 'sizing'],
  proposing: [
    ...['job', 'set-out', 'light', 'circuit', 'installation', 'drivers', 'heat', 'findings', 'hand-over'],
    'sizing',
  ],
  readings: ['job', 'set-out', 'circuit', 'installation', 'hand-over', 'sizing'],
};

/** Rooms whose exported functions are physics, set-out or papers: each says what it computes. */
const explained = Object.keys(mayImport).filter((room) => room !== 'job');

const files = ['src', 'server', 'web', 'reference', 'tests'].flatMap((root) =>
  readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => normalize(join(root, name))),
);

interface Import {
  readonly to: string;
  readonly typeOnly: boolean;
}

/** Imports at the head of a file, and those of what is loaded when it is wanted. */
const importing = /(?:^(?:import|export)( type)?[^;]*?from |\bimport\()'(\.[^']+)'/gms;

const importsOf = (file: string): Import[] =>
  [...readFileSync(file, 'utf8').matchAll(importing)].map((match) => ({
    to: relative('.', join(dirname(file), match[2]!)),
    typeOnly: match[1] !== undefined,
  }));

const folder = (file: string): string => file.split('/').slice(0, 2).join('/');

/** The job document and the shape of the answer, which service and page may both use. */
const isShape = (to: string): boolean =>
  to.startsWith('src/job/') || to.startsWith('src/answer/') || to === 'src/outcome.ts';

/** Rooms of the page from the ground up: none imports from one above it. */
const storeys = [['web/state'], ['web/fields', 'web/drawing'], ['web/parts']];
const storeyOf = (file: string): number => storeys.findIndex((rooms) => rooms.includes(folder(file)));

function isUpward(from: string, to: string): boolean {
  return storeyOf(from) >= 0 && storeyOf(to) > storeyOf(from);
}

function forbidden(from: string, { to, typeOnly }: Import): boolean {
  if (from.startsWith('tests/') || from.startsWith('reference/')) return false;
  if (to.startsWith('tests/') || to.startsWith('reference/')) return true;
  if (isUpward(from, to)) return true;
  if (from.startsWith('web/'))
    return !(
      to.startsWith('web/') ||
      to.startsWith('src/numeric/') ||
      (typeOnly && to.startsWith('server/contract/')) ||
      isShape(to)
    );
  if (from.startsWith('server/contract/')) {
    return !(to.startsWith('server/contract/') || isShape(to));
  }
  if (from.startsWith('server/')) return to.startsWith('src/') && to !== 'src/index.ts' && !isShape(to);
  if (to.startsWith('server/') || to.startsWith('web/')) return true;
  return forbiddenInEngine(from, to);
}

const shared = ['src/clauses.ts', 'src/outcome.ts', 'src/words.ts', 'src/constants.ts', 'src/version.ts'];

function forbiddenInEngine(from: string, to: string): boolean {
  if (from === 'src/index.ts' || shared.includes(to) || folder(to) === folder(from)) return false;
  if (from.startsWith('src/answer/')) return folder(to) !== 'src/job';
  if (to.startsWith('src/answer/')) return folder(from) === 'src/numeric' || folder(from) === 'src/job';
  if (folder(to) === 'src/numeric') return folder(from) === 'src/job';
  return !(mayImport[from.split('/')[1]!] ?? []).includes(to.split('/')[1]!);
}

/** A way of imports that comes back to where it began, types included; null where there is none. */
function circle(): string[] | null {
  const targets = new Map(files.map((file) => [file, importsOf(file).map(({ to }) => to)]));
  const clear = new Set<string>();
  const way: string[] = [];
  const walk = (file: string): string[] | null => {
    if (clear.has(file)) return null;
    if (way.includes(file)) return [...way.slice(way.indexOf(file)), file];
    way.push(file);
    for (const to of targets.get(file) ?? []) {
      const found = walk(to);
      if (found) return found;
    }
    way.pop();
    clear.add(file);
    return null;
  };
  for (const file of files) {
    const found = walk(file);
    if (found) return found;
  }
  return null;
}

describe('the house', () => {
  it('imports one way', () => {
    const wrong = files.flatMap((from) =>
      importsOf(from)
        .filter((target) => forbidden(from, target))
        .map((target) => `${from} -> ${target.to}`),
    );
    expect(wrong).toEqual([]);
  });

  it('imports in no circle', () => {
    expect(circle()).toBeNull();
  });

  it('keeps the engine free of clock, randomness, files and network', () => {
    const impure = /\b(Date\.now|new Date|Math\.random|process\.|performance\.|fetch\(|from 'node:)/;
    expect(
      files.filter((file) => file.startsWith('src/') && impure.test(readFileSync(file, 'utf8'))),
    ).toEqual([]);
  });

  it('explains every exported function of the physics', () => {
    const bare = files
      .filter((file) => explained.some((room) => file.startsWith(`src/${room}/`)))
      .flatMap((file) => bareExports(file));
    expect(bare).toEqual([]);
  });

  it('names only checks that are there', () => {
    const named = files.flatMap((file) =>
      [...readFileSync(file, 'utf8').matchAll(/tests\/[\w/-]+\.test\.ts/g)].map(([name]) => ({ file, name })),
    );
    expect(named.filter(({ name }) => !files.includes(name))).toEqual([]);
  });

  it('has one fetch and one place that rounds on the page', () => {
    const web = files.filter((file) => file.startsWith('web/'));
    expect(web.filter((f) => /\bfetch\(/.test(readFileSync(f, 'utf8')) && f !== 'web/api.ts')).toEqual([]);
    expect(
      web.filter(
        (f) => /\.toFixed\(|toLocaleString\(/.test(readFileSync(f, 'utf8')) && f !== 'web/format.ts',
      ),
    ).toEqual([]);
  });

  it('has only the top-level entries it should', () => {
    const allowed = [
      'CHANGELOG.md',
      'DEVELOPERS.md',
      'LICENSE',
      'README.md',
      'package-lock.json',
      'package.json',
      'reference',
      'server',
      'src',
      'tests',
      'tsconfig.json',
      'vitest.config.ts',
      'web',
    ];
    const ignored = ['node_modules', 'build', 'jobs'];
    const entries = readdirSync('.').filter((name) => !name.startsWith('.') && !ignored.includes(name));
    expect(entries.filter((name) => !allowed.includes(name))).toEqual([]);
  });

  it('takes zod as a namespace, since by its name `z` the page would carry its sentences in fifty languages', () => {
    const byName = files.filter((file) =>
      /^import \{[^}]*\bz\b[^}]*\} from 'zod'/m.test(readFileSync(file, 'utf8')),
    );
    expect(byName.filter((file) => /^(src|web|server\/contract)\//.test(file))).toEqual([]);
  });
});

/** Exported functions whose line before is not the end of a docblock. */
function bareExports(file: string): string[] {
  const lines = readFileSync(file, 'utf8').split('\n');
  return lines.flatMap((line, i) => {
    if (!/^export (async )?function /.test(line)) return [];
    const before = lines[i - 1]?.trim() ?? '';
    const overload = /^export function /.test(before);
    return before.endsWith('*/') || overload ? [] : [`${file}:${i + 1} ${line}`];
  });
}
