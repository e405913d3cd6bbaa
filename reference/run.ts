import { readFileSync, writeFileSync } from 'node:fs';
import { allChecks } from './all-checks.ts';
import { agrees } from './check.ts';
import { betweenMarks, withTable } from './readme.ts';
import { markdownTable } from './table.ts';

/** Prints every check; with `--readme` also puts the table into the README. */
const table = markdownTable(allChecks);
console.log(table);
if (process.argv.includes('--readme')) {
  const readme = readFileSync('README.md', 'utf8');
  writeFileSync('README.md', withTable(readme, table));
} else if (betweenMarks(readFileSync('README.md', 'utf8')) !== table) {
  console.log('\nThe table in README.md is older than this one: run "npm run reference -- --readme".');
}
const failed = allChecks.filter((check) => !agrees(check)).length;
console.log(`\n${allChecks.length - failed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
