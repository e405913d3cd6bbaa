import { longestPerson, personHeader } from './contract/person.ts';
import { ProblemError } from './problem.ts';

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    throw new ProblemError(
      'malformed-request',
      'The name of who works here holds a broken % sequence: send it as encodeURIComponent writes it.',
    );
  }
}

/** Who asks, by the header of the request; empty where nobody said. Throws a problem for what is no name. */
export function personOf(headers: Readonly<Record<string, unknown>>): string {
  const header = headers[personHeader];
  const name = decoded(typeof header === 'string' ? header : '').trim();
  if (name.length <= longestPerson && !/\p{C}/u.test(name)) return name;
  throw new ProblemError(
    'malformed-request',
    `The name of who works here must have at most ${longestPerson} letters and no control characters: shorten it.`,
  );
}
