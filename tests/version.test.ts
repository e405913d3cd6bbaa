import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { numbersDigest } from '../reference/numbers.ts';
import { engineVersion, numbers } from '../src/version.ts';

it('has a version that the package and the change log know', () => {
  const version = JSON.parse(readFileSync('package.json', 'utf8')).version;
  expect(engineVersion).toBe(`${version}+${numbers}`);
  expect(readFileSync('CHANGELOG.md', 'utf8')).toContain(`\n## ${version}\n`);
});

it('has the numbers of its version', () => {
  expect(
    numbersDigest(),
    'numbers moved: raise the version and say why in CHANGELOG.md, then run "npm run version:numbers"',
  ).toBe(numbers);
});
