import { groups } from '../numeric/groups.ts';
import type { CircuitDescription, Terminal } from './description.ts';
import type { CircuitIssue } from './issues.ts';

/** What hangs together, conductor by conductor. A rail is `positive` or `return <channel>`. */
export interface Reach {
  /** Sources that copper alone joins to this rail at this place. */
  readonly sourcesOf: (terminal: Terminal, rail: string) => ReadonlySet<number>;
  /** First source of all that are joined to this rail through copper and through other sources; -1 for none. */
  readonly islandOf: (terminal: Terminal, rail: string) => number;
}

/** Name of the rail that carries a channel back. */
export function returnRail(channel: string): string {
  return `return ${channel}`;
}

/**
 * Runs and cables without a closed way to a driver: every channel needs one driver that reaches both its positive
 * rail and its own return rail through conductors. Where nothing is unfed the network has exactly one answer.
 */
export function findUnfed(description: CircuitDescription, reach: Reach): readonly CircuitIssue[] {
  const unfedRuns = description.runs.flatMap((run): CircuitIssue[] => {
    const start: Terminal = { run: run.id, cutLine: 0 };
    const plus = reach.sourcesOf(start, 'positive');
    const dark = run.channels.filter(({ id }) => {
      const minus = reach.sourcesOf(start, returnRail(id));
      return ![...plus].some((source) => minus.has(source));
    });
    if (dark.length === 0) return [];
    const which = run.channels.length > 1 ? ` (${dark.map(({ id }) => id).join(', ')})` : '';
    const sentence = `No driver reaches both rails of run ${run.id}${which}. Connect it to a driver with a cable, plus and minus.`;
    return [{ code: 'unfed-run', place: { run: run.id }, quantities: {}, sentence }];
  });
  const unfedCables = description.cables.flatMap((cable): CircuitIssue[] => {
    const strands = [
      { end: cable.positive.from, rail: 'positive' },
      ...cable.returns.map(({ from, channel }) => ({ end: from, rail: returnRail(channel) })),
    ];
    if (strands.every(({ end, rail }) => reach.sourcesOf(end, rail).size > 0)) return [];
    const sentence = `Cable ${cable.id} is not connected to any driver. Connect it, or take it out.`;
    return [{ code: 'unfed-cable', place: { cable: cable.id }, quantities: {}, sentence }];
  });
  return [...unfedRuns, ...unfedCables];
}

const noSources: ReadonlySet<number> = new Set();

/**
 * Follows the copper. A run's rail is one piece of copper from end to end, and lamps join nothing. Presumes that
 * every name in the description exists.
 */
export function followCopper(description: CircuitDescription): Reach {
  const number = new Map<string, number>();
  const strand = (terminal: Terminal, rail: string): number => {
    const key = strandKey(terminal, rail);
    const known = number.get(key);
    if (known !== undefined) return known;
    number.set(key, number.size);
    return number.size - 1;
  };
  const copper: [number, number][] = [];
  for (const { positive, returns } of description.cables) {
    copper.push([strand(positive.from, 'positive'), strand(positive.to, 'positive')]);
    for (const { from, to, channel } of returns) {
      copper.push([strand(from, returnRail(channel)), strand(to, returnRail(channel))]);
    }
  }
  const poles = description.sources.map(({ id }): [number, number] => [
    strand({ source: id }, 'positive'),
    strand({ source: id }, 'return'),
  ]);
  const net = groups(number.size, copper);
  const sources = new Map<number, Set<number>>();
  for (const [index, both] of poles.entries()) {
    for (const pole of both) sources.set(net[pole]!, (sources.get(net[pole]!) ?? new Set()).add(index));
  }
  const island = groups(number.size, [...copper, ...poles]);
  const first = new Map<number, number>();
  for (let s = poles.length - 1; s >= 0; s--) first.set(island[poles[s]![0]]!, s);
  const lookUp =
    <T>(found: (at: number) => T | undefined, none: T) =>
    (terminal: Terminal, rail: string): T => {
      const at = number.get(strandKey(terminal, rail));
      return at === undefined ? none : (found(at) ?? none);
    };
  return {
    sourcesOf: lookUp((at) => sources.get(net[at]!), noSources),
    islandOf: lookUp((at) => first.get(island[at]!), -1),
  };
}

function strandKey(terminal: Terminal, rail: string): string {
  if ('source' in terminal) return `source ${rail === 'positive' ? 'plus' : 'minus'} ${terminal.source}`;
  return 'tap' in terminal ? `tap ${terminal.tap} ${rail}` : `run ${terminal.run} ${rail}`;
}
