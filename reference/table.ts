import { agrees, allowance, type Check, difference } from './check.ts';

/** A number with six significant digits at most, as both tables print it. */
const digits = (x: number): string => (Number.isFinite(x) ? Number(x.toPrecision(6)).toString() : String(x));

/** A difference in the last bits of the arithmetic is none. */
function shownDifference(check: Check): number {
  const value = difference(check);
  return Math.abs(value) <= 1e-13 * Math.abs(check.printed) ? 0 : value;
}

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
    digits(shownDifference(check)),
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

interface Topic {
  readonly name: Check['topic'];
  readonly checks: readonly Check[];
}

function topicsOf(checks: readonly Check[]): Topic[] {
  const names = [...new Set(checks.map((check) => check.topic))];
  return names.map((name) => ({ name, checks: checks.filter((check) => check.topic === name) }));
}

const count = ({ checks }: Topic): string => `${checks.filter(agrees).length} of ${checks.length} agree`;

function folded(topic: Topic): string {
  const summary = `<summary><b>${topic.name}</b>: ${count(topic)}; the widest uses ${tightest(topic.checks)} % of its tolerance</summary>`;
  const table = [row(heads), row(heads.map(() => '---')), ...topic.checks.map((check) => row(cells(check)))];
  return ['<details>', summary, '', ...table, '', '</details>'].join('\n');
}

/** Checks as Markdown tables, one for each question, folded under a line that counts them. */
export function markdownTable(checks: readonly Check[]): string {
  return topicsOf(checks).map(folded).join('\n\n');
}

/** Checks counted, a row for each question: how many agree, how they are known, how much of a tolerance is used. */
export function markdownCounts(checks: readonly Check[]): string {
  const standings = ['read', 'secondary', 'memory', 'derived'] as const;
  const rows = topicsOf(checks).map((topic) => {
    const known = standings.map((s) => topic.checks.filter((check) => check.standing === s).length);
    return row([topic.name, count(topic), ...known.map(String), `${tightest(topic.checks)} %`]);
  });
  const columns = ['question', 'checks', ...standings, 'most of a tolerance used'];
  return [row(columns), row(columns.map(() => '---')), ...rows].join('\n');
}
