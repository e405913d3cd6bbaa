import { type CodeRange, codeOf, isInFonts, isSpaceOrUnseen } from '../../src/job/printed-characters.ts';

/** Codes in one text before further characters are only counted, so that a text still fits its place on paper. */
const mostCodes = 6;

/** What is printed of a character: itself, a plain space, nothing of what is not seen, null where it is missing. */
function printedAs(character: string, ranges: readonly CodeRange[]): string | null {
  if (isInFonts(character, ranges)) return character;
  if (!isSpaceOrUnseen(character)) return null;
  return /\s/.test(character) ? ' ' : '';
}

/** Missing characters that follow one another: the codes there is still room for, and how many more there are. */
function inBrackets(characters: readonly string[], room: number): string {
  const codes = characters.slice(0, room).map(codeOf);
  const more = characters.length - codes.length;
  return `[${[...codes, ...(more > 0 ? [`+${more}`] : [])].join(' ')}]`;
}

/** A text with codes in brackets for its missing characters: [U+6728 U+5DE5]. */
function standIn(text: string, ranges: readonly CodeRange[]): string {
  let [shown, codeCount] = ['', 0];
  let missing: string[] = [];
  const close = (): void => {
    if (missing.length > 0) shown += inBrackets(missing, Math.max(0, mostCodes - codeCount));
    codeCount += missing.length;
    missing = [];
  };
  for (const character of text) {
    const printed = printedAs(character, ranges);
    if (printed === null) missing.push(character);
    else if (printed !== '') {
      close();
      shown += printed;
    }
  }
  close();
  return shown;
}

/** Texts that need no looking up. */
const plain = /^[\x20-\x7e]*$/;

/** The same value with the characters that no font has replaced in every text of it, keys as they are. */
export function withStandIns<Value>(value: Value, ranges: readonly CodeRange[]): Value {
  if (typeof value === 'string') return (plain.test(value) ? value : standIn(value, ranges)) as Value;
  if (Array.isArray(value)) return value.map((each) => withStandIns(each, ranges)) as Value;
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, inner]) => [key, withStandIns(inner, ranges)]);
  return Object.fromEntries(entries) as Value;
}
