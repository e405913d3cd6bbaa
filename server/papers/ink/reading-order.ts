import bidiFactory from 'bidi-js';

const bidi = bidiFactory();

/** Below the Hebrew letters no character runs from right to left. */
const mayTurn = /[\u0590-\u{10ffff}]/u;
const letter = /\p{Letter}/u;

interface Piece {
  readonly indices: number[];
  readonly isTurned: boolean;
}

const isSpace = (character: string | undefined): boolean => character !== undefined && /\s/.test(character);

/** Characters that follow one another in the text as they do on the line; a space parts what runs to the left. */
function piecesOf(text: string, order: readonly number[], levels: Uint8Array): Piece[] {
  const pieces: Piece[] = [];
  for (const index of order) {
    const isTurned = levels[index]! % 2 === 1;
    const last = pieces.at(-1);
    const before = last?.indices.at(-1);
    const isNext =
      before !== undefined &&
      last!.isTurned === isTurned &&
      index - before === (isTurned ? -1 : 1) &&
      !(isTurned && (isSpace(text[index]) || isSpace(text[before])));
    if (isNext) last!.indices.push(index);
    else pieces.push({ indices: [index], isTurned });
  }
  return pieces;
}

/** The papers are written from left to right; only a line without a letter of that kind runs the other way. */
function directionOf(text: string): 'ltr' | 'auto' {
  return Array.from(text).some((each) => bidi.getBidiCharTypeName(each) === 'L') ? 'ltr' : 'auto';
}

/**
 * A line of text as pieces in the order they stand in from left to right, each with its own characters in the order of
 * reading (Unicode Standard Annex 9 through bidi-js): the shaper of the PDF turns a word that runs to the left by
 * itself, but it knows neither the order of words nor what runs the other way among them. Check:
 * `tests/papers/lettering.test.ts`.
 */
export function inReadingOrder(text: string): string[] {
  if (!mayTurn.test(text)) return [text];
  const embedding = bidi.getEmbeddingLevels(text, directionOf(text));
  const mirrored = bidi.getMirroredCharactersMap(text, embedding.levels);
  const order = bidi.getReorderedIndices(text, embedding);
  return piecesOf(text, order, embedding.levels).map(({ indices, isTurned }) => {
    const shown = indices.map((index) => mirrored.get(index) ?? text[index]!);
    return isTurned && shown.some((each) => letter.test(each)) ? shown.reverse().join('') : shown.join('');
  });
}
