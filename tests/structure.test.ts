import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';
import { describe, expect, it } from 'vitest';

/** The rules of the house: which folder may import which, and that what is exported is explained. */
const questions = ['set-out', 'light', 'circuit', 'drivers', 'heat', 'hand-over', 'findings'];

const files = ['src', 'server', 'web', 'reference', 'tests'].flatMap((root) =>
  readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => normalize(join(root, name))),
);

interface Import {
  readonly to: string;
  readonly typeOnly: boolean;
}

const importsOf = (file: string): Import[] =>
  [...readFileSync(file, 'utf8').matchAll(/^(?:import|export)( type)?[^;]*?from '(\.[^']+)';/gms)].map(
    (match) => ({
      to: relative('.', join(dirname(file), match[2]!)),
      typeOnly: match[1] !== undefined,
    }),
  );

const folder = (file: string): string => file.split('/').slice(0, 2).join('/');

/** The job document and the shape of the answer, which service and page may both use. */
const isShape = (to: string): boolean =>
  to.startsWith('src/job/') || ['src/sizing.ts', 'src/asked.ts', 'src/outcome.ts'].includes(to);

function forbidden(from: string, { to, typeOnly }: Import): boolean {
  if (from.startsWith('tests/') || from.startsWith('reference/')) return false;
  if (to.startsWith('tests/') || to.startsWith('reference/')) return true;
  if (from.startsWith('web/'))
    return !(to.startsWith('web/') || (typeOnly && to.startsWith('server/contract/')) || isShape(to));
  if (from.startsWith('server/contract/')) {
    return !(to.startsWith('server/contract/') || isShape(to));
  }
  if (from.startsWith('server/')) return to.startsWith('src/') && to !== 'src/index.ts' && !isShape(to);
  if (to.startsWith('server/') || to.startsWith('web/')) return true;
  return forbiddenInEngine(from, to);
}

const shared = ['src/outcome.ts', 'src/sizing.ts', 'src/asked.ts', 'src/words.ts'];

function forbiddenInEngine(from: string, to: string): boolean {
  if (shared.includes(to) || folder(to) === folder(from) || folder(to) === 'src/numeric') return false;
  const [fromFolder, toFolder] = [from.split('/')[1]!, to.split('/')[1]!];
  if (fromFolder === 'job') return true;
  if (fromFolder === 'joining') return toFolder === 'hand-over' || toFolder === 'findings';
  if (questions.includes(fromFolder))
    return toFolder !== 'job' || ['circuit', 'heat', 'light', 'drivers'].includes(fromFolder);
  return fromFolder === 'numeric';
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

  it('keeps the engine free of clock, randomness, files and network', () => {
    const impure = /\b(Date\.now|new Date|Math\.random|process\.|performance\.|fetch\(|from 'node:)/;
    expect(
      files.filter((file) => file.startsWith('src/') && impure.test(readFileSync(file, 'utf8'))),
    ).toEqual([]);
  });

  it('explains every exported function of the physics', () => {
    const bare = files
      .filter((file) =>
        /^src\/(circuit|heat|light|drivers|numeric|set-out|hand-over|findings|joining)\//.test(file),
      )
      .flatMap((file) => bareExports(file));
    expect(bare).toEqual([]);
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
      'web',
    ];
    const ignored = ['node_modules', 'build', 'jobs'];
    const entries = readdirSync('.').filter((name) => !name.startsWith('.') && !ignored.includes(name));
    expect(entries.filter((name) => !allowed.includes(name))).toEqual([]);
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
