import { readFileSync, writeFileSync } from 'node:fs';
import { numbersDigest } from './numbers.ts';

/** Writes the digest of today's numbers into the file that holds the version of the engine. */
const path = 'src/version.ts';
const before = readFileSync(path, 'utf8');
const after = before.replace(/(export const numbers = ')[0-9a-f]*(';)/, `$1${numbersDigest()}$2`);
writeFileSync(path, after);
console.log(
  before === after
    ? 'The numbers are those of this version.'
    : `The numbers moved: raise the version in ${path} and package.json, and say why in CHANGELOG.md.`,
);
