import { agrees, allowance, type Check, difference } from './check.ts';

/** A number with six significant digits at most, as both tables print it. */
const digits = (x: number): string => (Number.isFinite(x) ? Number(x.toPrecision(6)).toString() : String(x));

const heads = ['result', 'quantity', 'source', 'known by', 'printed', 'computed', 'difference', 'tolerance'];

/** One check as cells, in the order of the heads. */
function cells(check: Check): string[] {
  return [
    agrees(check) ? 'agrees' : 'DIFFERS',
    `${check.quantity}, ${check.unit}`,
    check.source,
    check.standing,
    digits(check.printed),
    digits(check.computed),
    digits(difference(check)),
    `± ${digits(allowance(check))}`,
  ];
}

const row = (texts: readonly string[]): string =>
  `| ${texts.map((t) => t.replaceAll('|', '/')).join(' | ')} |`;

/** Checks as a Markdown table, one part for each question. */
export function markdownTable(checks: readonly Check[]): string {
  const topics = [...new Set(checks.map((check) => check.topic))];
  return topics
    .map((topic) => {
      const rows = checks.filter((check) => check.topic === topic).map((check) => row(cells(check)));
      return [`**${topic}**`, '', row(heads), row(heads.map(() => '---')), ...rows].join('\n');
    })
    .join('\n\n');
}
