import { appendFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

/** What happened while changes were tried, line by line, so that a run that had to be ended goes on where it was. */
type Line =
  | { readonly process: number }
  /** Changes that are gone through while files are loaded, or by a test. */
  | { readonly loaded: readonly string[] }
  | { readonly covered: readonly string[] }
  /** A change is being tried; what became of it follows. */
  | { readonly tried: string }
  | { readonly noticed: boolean }
  /** A test is through; an unsteady one does not hold when it is asked again, and judges nothing. */
  | { readonly done: string; readonly steady: boolean };

export const write = (file: string, line: Line): void => appendFileSync(file, `${JSON.stringify(line)}\n`);

export function begin(file: string): void {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, '');
}

export interface Told {
  process: number | null;
  readonly loaded: Set<string>;
  readonly covered: Set<string>;
  readonly killed: Set<string>;
  readonly done: Set<string>;
  readonly unsteady: Set<string>;
  /** The change that is being tried. */
  trying: string | null;
}

function add(told: Told, line: Line): void {
  if ('process' in line) told.process = line.process;
  if ('loaded' in line) for (const id of line.loaded) told.loaded.add(id);
  if ('covered' in line) for (const id of line.covered) told.covered.add(id);
  if ('done' in line) told.done.add(line.done);
  if ('done' in line && !line.steady) told.unsteady.add(line.done);
  if ('noticed' in line && line.noticed) told.killed.add(told.trying!);
  told.trying = 'tried' in line ? line.tried : null;
}

export function read(file: string): Told {
  const [loaded, covered, killed, done, unsteady] = Array.from({ length: 5 }, () => new Set<string>());
  const told: Told = {
    ...{ process: null, trying: null },
    ...{ loaded: loaded!, covered: covered!, killed: killed!, done: done!, unsteady: unsteady! },
  };
  const lines = readFileSync(file, 'utf8').split('\n').slice(0, -1);
  for (const line of lines) add(told, JSON.parse(line) as Line);
  return told;
}
