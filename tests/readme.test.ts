import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allChecks } from '../reference/all-checks.ts';
import { documents } from '../reference/documents.ts';

const readme = readFileSync('README.md', 'utf8');
const developers = readFileSync('DEVELOPERS.md', 'utf8');
const scripts: Record<string, string> = JSON.parse(readFileSync('package.json', 'utf8')).scripts;

describe('the README', () => {
  it('opens with the job in one paragraph', () => {
    const [title, job] = readme.split('\n\n');
    expect(title).toBe('# Slotwatt');
    expect(job!.length).toBeGreaterThan(300);
  });

  it('is what a newcomer needs and no more', () => {
    expect(readme.split('\n').length).toBeLessThanOrEqual(120);
  });

  it('and the table of published values show the checks as they are now', () => {
    const old = documents(allChecks).filter(({ isCurrent }) => !isCurrent);
    expect(
      old.map(({ path }) => path),
      'run "npm run reference -- --write"',
    ).toEqual([]);
  });

  it('shows files that are there', () => {
    for (const [, path] of [...readme.matchAll(/\]\(((?!http)[^)#]+)\)/g)])
      expect(existsSync(path!), path).toBe(true);
  });
});

describe('README and DEVELOPERS', () => {
  it('name only scripts that exist, and CI runs the README test command', () => {
    const own = ['ci', 'install'];
    const named = [...`${readme}\n${developers}`.matchAll(/npm (?:run )?([a-z:]+)/g)].map(
      (match) => match[1]!,
    );
    expect(named.filter((name) => !own.includes(name) && !(name in scripts) && name !== 'registry')).toEqual(
      [],
    );
    expect(readme).toContain('npm ci && npm test');
    expect(readFileSync('.ci/run', 'utf8')).toMatch(/npm ci .*&& npm test/);
  });

  it('names only files and folders that exist', () => {
    const paths = [...developers.matchAll(/`((?:src|server|web|tests|reference)\/[a-z0-9/.-]*)`/g)].map(
      (m) => m[1]!,
    );
    expect(paths.filter((path) => !existsSync(path))).toEqual([]);
  });

  it('lists every code a refusal can carry', () => {
    const folders = ['job', 'set-out', 'circuit', 'installation', 'drivers', 'heat', 'light'];
    const codes = folders.flatMap((folder) => {
      const text = readFileSync(`src/${folder}/issues.ts`, 'utf8');
      return [...text.matchAll(/'([a-z]+(?:-[a-z]+)+)'/g)].map((match) => match[1]!);
    });
    expect([...new Set(codes)].filter((code) => !developers.includes(`\`${code}\``))).toEqual([]);
  });
});
