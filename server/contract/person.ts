import * as z from 'zod';

/** The most letters a name of somebody who works here may have. */
export const longestPerson = 40;

/** The name of a header that says who works here: percent-encoded UTF-8, since a header holds no other letters. */
export const personHeader = 'slotwatt-person';

/** The name of a header that says who saved what is answered, percent-encoded too. */
export const savedByHeader = 'slotwatt-saved-by';

/** Who asks, as a header of a request; left out by who does not want to say. */
export const person = z
  .string()
  .max(9 * 4 * longestPerson, { error: 'the name of who works here is too long: shorten it.' })
  .regex(/^[\w.!~*'()% -]*$/, {
    error: 'the name of who works here must be percent-encoded: send it as encodeURIComponent writes it.',
  })
  .optional()
  .describe('who works here, percent-encoded; kept with what is saved, issued and measured');
