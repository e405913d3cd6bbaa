import { readFileSync } from 'node:fs';
import type { Check } from './check.ts';
import { markdownCounts, markdownTable } from './table.ts';

const start = '<!-- published values: npm run reference -- --write -->';
const end = '<!-- end of published values -->';

function marks(text: string): readonly [number, number] {
  const from = text.indexOf(start);
  const to = text.indexOf(end);
  if (from < 0 || to < from) throw new Error(`a document has lost its marks "${start}" and "${end}"`);
  return [from + start.length, to];
}

/** What stands between the marks of a document. */
function betweenMarks(text: string): string {
  return text.slice(...marks(text)).trim();
}

/** The document with something else between its marks. */
function withBetween(text: string, between: string): string {
  const [from, to] = marks(text);
  return `${text.slice(0, from)}\n\n${between}\n\n${text.slice(to)}`;
}

/** A document that shows checks: whether it shows them as they are, and its text when it does. */
export interface ShowingDocument {
  readonly path: string;
  readonly isCurrent: boolean;
  readonly current: string;
}

/** The documents that show the checks: a line for each topic in the README, every value in the reference's own. */
export function documents(checks: readonly Check[]): ShowingDocument[] {
  const shown = { 'README.md': markdownCounts(checks), 'reference/README.md': markdownTable(checks) };
  return Object.entries(shown).map(([path, between]) => {
    const text = readFileSync(path, 'utf8');
    return { path, isCurrent: betweenMarks(text) === between, current: withBetween(text, between) };
  });
}
