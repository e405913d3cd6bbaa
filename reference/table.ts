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

/** Largest share of its tolerance that any check of a topic uses, in percent. */
function tightest(checks: readonly Check[]): number {
  return Math.round(
    100 * Math.max(...checks.map((check) => Math.abs(difference(check)) / allowance(check) || 0)),
  );
}

function folded(topic: string, checks: readonly Check[]): string {
  const agreeing = checks.filter(agrees).length;
  const summary = `<summary><b>${topic}</b>: ${agreeing} of ${checks.length} agree; the widest uses ${tightest(checks)} % of its tolerance</summary>`;
  const table = [row(heads), row(heads.map(() => '---')), ...checks.map((check) => row(cells(check)))];
  return ['<details>', summary, '', ...table, '', '</details>'].join('\n');
}

/** Checks as Markdown tables, one for each question, folded under a line that counts them. */
export function markdownTable(checks: readonly Check[]): string {
  const topics = [...new Set(checks.map((check) => check.topic))];
  return topics
    .map((topic) =>
      folded(
        topic,
        checks.filter((check) => check.topic === topic),
      ),
    )
    .join('\n\n');
}
