import { ProblemError } from './problem.ts';

const notNumber = /:\s*(-?Infinity|NaN|undefined)\b/;

/** Longest name of a field that is looked for before a value, in characters. */
const longestName = 200;

/** The name that stands in quotation marks right before a colon; null where there is none. */
function nameBefore(text: string, colon: number): string | null {
  const before = text.slice(Math.max(0, colon - longestName), colon).trimEnd();
  if (!before.endsWith('"')) return null;
  const from = before.lastIndexOf('"', before.length - 2);
  return from < 0 ? null : before.slice(from + 1, -1);
}

function sentenceFor(text: string): string {
  const bare = notNumber.exec(text);
  const name = bare && nameBefore(text, bare.index);
  if (name) return `"${name}" holds ${bare[1]}, which JSON does not have: give a number.`;
  return 'The request is not complete JSON: it may have been cut short, or a comma, bracket or quotation mark is missing. Send it again, or open an earlier copy.';
}

/** Parses the text of a JSON body; nothing at all gives undefined. Throws a problem with the remedy. */
export async function parseJsonBody(_request: unknown, text: string): Promise<unknown> {
  if (text === '') return undefined;
  try {
    return JSON.parse(text);
  } catch {
    const sentence = sentenceFor(text);
    const issue = { code: 'not-json', place: {}, quantities: {}, sentence };
    throw new ProblemError('malformed-request', sentence, { issues: [issue] });
  }
}
