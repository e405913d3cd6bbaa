import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { Instrumenter } from '@stryker-mutator/instrumenter';

/** Lines of a file of a folder that are changed, both ends included; all of them where none are named. */
export interface Piece {
  readonly file: string;
  readonly lines?: { readonly from: number; readonly to: number };
}

export interface Change {
  readonly id: string;
  readonly file: string;
  readonly line: number;
  /** What kind of change, and what stands there instead. */
  readonly kind: string;
  readonly was: string;
  readonly is: string;
}

export interface Planted {
  /** The code with every change in it, each behind a switch, by the whole path of its file. */
  readonly code: ReadonlyMap<string, string>;
  readonly changes: readonly Change[];
}

const silent = () => {};
const logger = {
  ...{ isTraceEnabled: () => false, isDebugEnabled: () => false, isInfoEnabled: () => false },
  ...{ isWarnEnabled: () => false, isErrorEnabled: () => false, isFatalEnabled: () => false },
  ...{ trace: silent, debug: silent, info: silent, warn: silent, error: silent, fatal: silent },
};

const options = {
  plugins: null,
  ignorers: [],
  excludedMutations: ['StringLiteral'],
} as unknown as Parameters<Instrumenter['instrument']>[1];

/** Lines and columns count from nought here. */
const rangeOf = ({ lines }: Piece) =>
  lines && { start: { line: lines.from - 1, column: 0 }, end: { line: lines.to, column: 0 } };

function textAt(source: string, { start, end }: { start: Place; end: Place }): string {
  const lines = source.split('\n').slice(start.line, end.line + 1);
  lines[lines.length - 1] = lines.at(-1)!.slice(0, end.column);
  lines[0] = lines[0]!.slice(start.column);
  return lines.join('\n');
}

interface Place {
  readonly line: number;
  readonly column: number;
}

/** Plants all small changes of the given pieces of code at once, each asleep until its number is called. */
export async function plant(folder: string, pieces: readonly Piece[]): Promise<Planted> {
  const names = [...new Set(pieces.map(({ file }) => file))];
  const files = names.map((file) => {
    const ranges = pieces.filter((piece) => piece.file === file).map(rangeOf);
    const all = ranges.some((range) => range === undefined);
    return {
      name: resolve('src', folder, file),
      content: readFileSync(`src/${folder}/${file}`, 'utf8'),
      mutate: all || ranges.filter((range) => range !== undefined),
    };
  });
  const planted = await new Instrumenter(logger).instrument(files, options);
  const sources = new Map(files.map(({ name, content }, i) => [name, { content, file: names[i]! }]));
  return {
    code: new Map(planted.files.map(({ name, content }) => [name, content])),
    changes: planted.mutants.flatMap(({ id, fileName, location, mutatorName, replacement, status }) => {
      const { content, file } = sources.get(fileName)!;
      const was = textAt(content, location);
      if (status !== undefined) return [];
      return [{ id, file, line: location.start.line + 1, kind: mutatorName, was, is: replacement ?? '' }];
    }),
  };
}
