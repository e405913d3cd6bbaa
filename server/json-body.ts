import { ProblemError } from './problem.ts';

const notNumber = /"((?:[^"\\]|\\.)*)"\s*:\s*(-?Infinity|NaN|undefined)\b/;

function sentenceFor(text: string): string {
  const bare = notNumber.exec(text);
  if (bare) return `"${bare[1]}" holds ${bare[2]}, which JSON does not have: give a number.`;
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
