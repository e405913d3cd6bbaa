import { readFileSync } from 'node:fs';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { shuffled } from '../fuzz/random.ts';
import type { Piece } from './plant.ts';

/** What begins at the margin and can be changed; imports, types and interfaces cannot. */
const beginsCode = /^(?:export )?(?:async )?(?:function|const|class)\b/;

/** Every function, constant and class at the top of a file, its docblock and the blank lines included. */
function piecesOf(folder: string, file: string): Piece[] {
  const lines = readFileSync(`src/${folder}/${file}`, 'utf8').split('\n');
  const starts = lines.flatMap((line, i) => (/^\w/.test(line) ? [i + 1] : []));
  return starts.flatMap((from, i) =>
    beginsCode.test(lines[from - 1]!)
      ? [{ file, lines: { from, to: (starts[i + 1] ?? lines.length + 1) - 1 } }]
      : [],
  );
}

/** A seeded sample of files of a folder: `count` whole functions or constants, all alike likely, whatever their size. */
export function sampleOf(
  folder: string,
  files: readonly string[],
  count: number,
  seed: number,
): { drawn: Piece[]; of: number } {
  const pieces = files.flatMap((file) => piecesOf(folder, file));
  return { drawn: shuffled(seededRandom(seed), pieces).slice(0, count), of: pieces.length };
}
