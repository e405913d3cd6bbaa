/** How the numbers of a table are written: with a decimal point, a decimal comma, or not to be told. */
export type DecimalMark = '.' | ',' | null;

const pointed = /\d\.\d{1,2}(?!\d)|\d\.\d{4,}|(^|[^\d.,])0\.\d|\d,\d{3}\.\d/;
const commaed = /\d,\d{1,2}(?!\d)|\d,\d{4,}|(^|[^\d.,])0,\d|\d\.\d{3},\d/;

/**
 * The decimal mark of a table, from its cells of numbers alone: `24.90` and `0.985` have a point, `24,90` a comma, while
 * `1.200` and `1,200` may be thousands. Null where both are in use, or no cell says.
 */
export function decimalMark(cells: Iterable<string>): DecimalMark {
  let [hasPoint, hasComma] = [false, false];
  for (const cell of cells) {
    hasPoint ||= pointed.test(cell);
    hasComma ||= commaed.test(cell);
  }
  if (hasPoint === hasComma) return null;
  return hasPoint ? '.' : ',';
}

/** A number in plain digits with a point, or why it is none. */
export type PlainNumber = { readonly plain: string } | { readonly why: 'none' | 'unclear' };

const thousands = (text: string, mark: string): boolean =>
  new RegExp(`^-?[1-9]\\d{0,2}(\\${mark}\\d{3})+$`).test(text);

/** Whole and part at the mark that comes last. */
function split(text: string): { whole: string; part: string | undefined; mark: string } {
  const at = Math.max(text.lastIndexOf('.'), text.lastIndexOf(','));
  if (at < 0) return { whole: text, part: undefined, mark: '' };
  return { whole: text.slice(0, at), part: text.slice(at + 1), mark: text[at]! };
}

/**
 * Reads a cell as a number: decimal point or comma, spaces, apostrophes or the other mark between thousands, any minus.
 * `1.200` is unclear unless the table says what its decimal mark is.
 */
export function readCell(cell: string, decimal: DecimalMark): PlainNumber {
  const text = cell
    .trim()
    .replaceAll(/[\s\u00a0\u202f\u2009'’]/g, '')
    .replaceAll(/[\u2212\u2013]/g, '-');
  const grouped = ['.', ','].find((mark) => thousands(text, mark));
  if (grouped !== undefined) {
    const isSeveral = text.indexOf(grouped) !== text.lastIndexOf(grouped);
    if (isSeveral || (decimal !== null && decimal !== grouped))
      return { plain: text.replaceAll(grouped, '') };
    return decimal === grouped ? { plain: text.replace(grouped, '.') } : { why: 'unclear' };
  }
  const { whole, part, mark } = split(text);
  const other = mark === '.' ? ',' : '.';
  const digits = thousands(whole, other) ? whole.replaceAll(other, '') : whole;
  const plain = part === undefined ? digits : `${digits}.${part}`;
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(plain)) return { why: 'none' };
  return { plain };
}

/** A plain number with its point so many places further to the right, digit by digit, so that nothing is rounded. */
export function shifted(plain: string, places: number): string {
  const [, sign = '', whole = '', part = ''] = /^(-?)(\d*)\.?(\d*)$/.exec(plain) ?? [];
  const digits = `${'0'.repeat(Math.max(0, -places))}${whole}${part}${'0'.repeat(Math.max(0, places))}`;
  const at = Math.max(0, -places) + whole.length + places;
  const [left, right] = [digits.slice(0, at).replace(/^0+(?=\d)/, ''), digits.slice(at).replace(/0+$/, '')];
  return `${sign}${left === '' ? '0' : left}${right === '' ? '' : `.${right}`}`;
}
