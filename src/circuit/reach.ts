import { connectedComponents } from '../numeric/connected-components.ts';
import type { CircuitDescription, Conductor, Terminal } from './description.ts';
import type { CircuitIssue } from './issues.ts';

/** A rail at some place: the return of the channel of that name, or, without a name, the positive rail. */
export type Rail = string | undefined;

/** What hangs together, conductor by conductor. */
export interface Reach {
  /** Sources that copper alone joins to this rail at this place. */
  readonly sourcesOf: (terminal: Terminal, rail: Rail) => ReadonlySet<number>;
  /** First source of all that are joined to this rail through copper and through other sources; -1 for none. */
  readonly islandOf: (terminal: Terminal, rail: Rail) => number;
}

/**
 * Runs and cables without a closed way to a driver: every channel needs one driver that reaches both its positive
 * rail and its own return rail through conductors. Where nothing is unfed the network has exactly one answer.
 */
export function findUnfed(description: CircuitDescription, reach: Reach): readonly CircuitIssue[] {
  const unfedRuns = description.runs.flatMap((run): CircuitIssue[] => {
    const start: Terminal = { run: run.id, cutLine: 0 };
    const plus = reach.sourcesOf(start, undefined);
    const dark = run.channels.filter(({ id }) => {
      const minus = reach.sourcesOf(start, id);
      return ![...plus].some((source) => minus.has(source));
    });
    if (dark.length === 0) return [];
    const which = run.channels.length > 1 ? ` (${dark.map(({ id }) => id).join(', ')})` : '';
    const sentence = `No driver reaches both rails of run ${run.id}${which}. Connect it to a driver with a cable, plus and minus.`;
    return [{ code: 'unfed-run', place: { run: run.id }, quantities: {}, sentence }];
  });
  const unfedCables = description.cables.flatMap((cable): CircuitIssue[] => {
    const isReached = ({ from }: Conductor, rail: Rail): boolean => reach.sourcesOf(from, rail).size > 0;
    if (isReached(cable.positive, undefined) && cable.returns.every((one) => isReached(one, one.channel)))
      return [];
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
  const nodes = new RailNodes(description);
  const copper: [number, number][] = [];
  for (const { positive, returns } of description.cables) {
    copper.push([nodes.number(positive.from, undefined), nodes.number(positive.to, undefined)]);
    for (const { from, to, channel } of returns) {
      copper.push([nodes.number(from, channel), nodes.number(to, channel)]);
    }
  }
  const poles = description.sources.map(({ id }): [number, number] => [
    nodes.number({ source: id }, undefined),
    nodes.number({ source: id }, minus),
  ]);
  const net = connectedComponents(nodes.count, copper);
  const sources = new Map<number, Set<number>>();
  for (const [index, both] of poles.entries()) {
    for (const pole of both) sources.set(net[pole]!, (sources.get(net[pole]!) ?? new Set()).add(index));
  }
  const island = connectedComponents(nodes.count, [...copper, ...poles]);
  const first = new Map<number, number>();
  for (let s = poles.length - 1; s >= 0; s--) first.set(island[poles[s]![0]]!, s);
  const lookUp =
    <T>(found: (at: number) => T | undefined, none: T) =>
    (terminal: Terminal, rail: Rail): T => {
      const at = nodes.find(terminal, rail);
      return at === undefined ? none : (found(at) ?? none);
    };
  return {
    sourcesOf: lookUp((at) => sources.get(net[at]!), noSources),
    islandOf: lookUp((at) => first.get(island[at]!), -1),
  };
}

/** A source has one minus, whatever channel comes home to it, and so have some taps. */
const minus = 'minus';

export const oneMinusTaps = (taps: CircuitDescription['taps']): ReadonlySet<string> =>
  new Set(taps.flatMap(({ id, hasOneMinus }) => (hasOneMinus ? [id] : [])));

/** The rail of a tap that a conductor lands on: all returns on one where the tap has one minus. */
export const railAtTap = (tap: string, rail: Rail, oneMinus: ReadonlySet<string>): Rail =>
  rail !== undefined && oneMinus.has(tap) ? minus : rail;

/** Numbers every rail of every place as it is met. */
class RailNodes {
  count = 0;
  private readonly sources = new Map<string, Map<Rail, number>>();
  private readonly taps = new Map<string, Map<Rail, number>>();
  private readonly runs = new Map<string, Map<Rail, number>>();
  private readonly oneMinus: ReadonlySet<string>;

  constructor({ taps }: CircuitDescription) {
    this.oneMinus = oneMinusTaps(taps);
  }

  number(terminal: Terminal, rail: Rail): number {
    const known = this.find(terminal, rail);
    if (known !== undefined) return known;
    const [places, id, name] = this.place(terminal, rail);
    const rails = places.get(id);
    if (rails === undefined) places.set(id, new Map([[name, this.count]]));
    else rails.set(name, this.count);
    return this.count++;
  }

  find(terminal: Terminal, rail: Rail): number | undefined {
    const [places, id, name] = this.place(terminal, rail);
    return places.get(id)?.get(name);
  }

  private place(terminal: Terminal, rail: Rail): [Map<string, Map<Rail, number>>, string, Rail] {
    if ('source' in terminal) return [this.sources, terminal.source, rail === undefined ? rail : minus];
    if ('tap' in terminal) return [this.taps, terminal.tap, railAtTap(terminal.tap, rail, this.oneMinus)];
    return [this.runs, terminal.run, rail];
  }
}
