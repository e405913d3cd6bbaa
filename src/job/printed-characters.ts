import { counted } from '../words.ts';
import { fieldName, type Path } from './field-name.ts';
import type { Job } from './job.ts';
import { schemaAt } from './schema-path.ts';

/** Characters from a first code point to a last, both included. */
export type CodeRange = readonly [first: number, last: number];

/** A text that goes onto the papers, and what people call its place. */
export interface PaperText {
  /** Its field in the job, lists counted from 1; null for what is not in the job. */
  readonly field: string | null;
  readonly label: string;
  readonly text: string;
}

/** A text with characters that no font of the papers has. */
export interface Unprintable {
  readonly field: string | null;
  readonly label: string;
  /** Each character once, in the order of the text. */
  readonly characters: readonly string[];
  readonly sentence: string;
}

/** Whether the fonts of the papers have a character. */
export function isInFonts(character: string, ranges: readonly CodeRange[]): boolean {
  const code = character.codePointAt(0)!;
  return ranges.some(([first, last]) => first <= code && code <= last);
}

/** A space of whatever kind, or what is not to be seen, such as a joiner: nothing is missing where no font has it. */
export const isSpaceOrUnseen = (character: string): boolean =>
  /^[\s\p{Default_Ignorable_Code_Point}]$/u.test(character);

/** The code of a character as the Unicode standard writes it: U+6728. */
export const codeOf = (character: string): string =>
  `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;

function textsBelow(value: unknown, path: Path): { path: Path; text: string }[] {
  if (typeof value === 'string') return [{ path, text: value }];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    textsBelow(inner, [...path, Array.isArray(value) ? Number(key) : key]),
  );
}

function labelOf(path: Path): string {
  const label = schemaAt(path)?.title ?? fieldName(path);
  const index = path.find((step) => typeof step === 'number');
  return index === undefined ? label : `${label} ${index + 1}`;
}

/** Every text of a job with its field and what people call it. */
export function textsOfJob(job: Job): PaperText[] {
  return textsBelow(job, []).map(({ path, text }) => ({
    field: fieldName(path),
    label: labelOf(path),
    text,
  }));
}

function sentenceOf(label: string, characters: readonly string[]): string {
  const codes = characters.map(codeOf).join(', ');
  return `${label}: ${counted(characters.length, 'character')} cannot be printed with the fonts at hand, and their codes stand on the papers instead: ${codes}. Write it in characters that print, or by hand on the papers.`;
}

/** The texts that hold characters no font of the papers has, with a sentence each. */
export function unprintable(texts: readonly PaperText[], ranges: readonly CodeRange[]): Unprintable[] {
  return texts.flatMap(({ field, label, text }) => {
    const characters = [...new Set(text)].filter(
      (each) => !isInFonts(each, ranges) && !isSpaceOrUnseen(each),
    );
    return characters.length === 0
      ? []
      : [{ field, label, characters, sentence: sentenceOf(label, characters) }];
  });
}
