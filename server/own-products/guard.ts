/** What a spreadsheet may take for the beginning of a formula, in either width, behind apostrophes that were put there. */
const formula = /^'*[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/;

/** Text that a spreadsheet would run as a formula, with an apostrophe before it; one more where it has some already. */
export const guarded = (text: string): string => (formula.test(text) ? `'${text}` : text);

/** The text before it was guarded. */
export const unguarded = (text: string): string =>
  text.startsWith("'") && formula.test(text) ? text.slice(1) : text;
