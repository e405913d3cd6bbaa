import { writeFileSync } from 'node:fs';
import { allChecks } from './all-checks.ts';
import { agrees } from './check.ts';
import { documents } from './documents.ts';
import { markdownTable } from './table.ts';

/** Prints every check; with `--write` also puts them into the documents that show them. */
console.log(markdownTable(allChecks));
for (const { path, isCurrent, current } of documents(allChecks)) {
  if (process.argv.includes('--write')) writeFileSync(path, current);
  else if (!isCurrent) console.log(`\n${path} shows older values: run "npm run reference -- --write".`);
}
const failed = allChecks.filter((check) => !agrees(check)).length;
console.log(`\n${allChecks.length - failed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
