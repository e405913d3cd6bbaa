import type { Note } from '../answer/notes.ts';

/** What the questions remark, each with the sheet it has to be printed on. */
export function notesOn(
  sheet: Note['sheet'],
  sentences: readonly string[],
  { onCover }: Pick<Note, 'onCover'> = { onCover: false },
): Note[] {
  return sentences.map((sentence) => ({ sheet, onCover, sentence }));
}

/** Each sentence once. */
export function eachOnce(notes: readonly Note[]): Note[] {
  return notes.filter((note, i) => notes.findIndex(({ sentence }) => sentence === note.sentence) === i);
}
