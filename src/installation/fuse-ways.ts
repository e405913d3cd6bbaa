import type { Fuse } from './fuse-families.ts';
import {
  type CableToPlan,
  type PlannedSource,
  protectionPlan,
  usualConductorsPerWay,
  withoutFuse,
} from './protection-plan.ts';

/** What leaves an output: an end of a cable there. */
export interface Supply extends CableToPlan {
  readonly cable: string;
  /** Of the ends the cable has there, from 0: a ring has two. */
  readonly end: number;
  /** The run it feeds together with another supply; null where it feeds alone what it feeds. */
  readonly together: string | null;
}

/** One way of a block: the supplies made off to it, in their order, and the fuse they share. */
export interface SharedWay {
  readonly supplies: readonly Supply[];
  /** Null where they need none, or where none fits. */
  readonly fuse: Fuse | null;
}

/** Supplies no fuse protects, each on a way of its own, with what it takes to plan the others. */
function planWhatFits(supplies: readonly Supply[], source: PlannedSource) {
  const unfused = new Set(withoutFuse(supplies, source));
  const feeds = new Set(supplies.filter(({ id }) => unfused.has(id)).map((supply) => supply.feeds));
  const rest = protectionPlan(
    supplies.filter((supply) => !feeds.has(supply.feeds)),
    source,
  );
  if (!rest.ok) throw new RangeError(`a fuse fits alone and not among others: ${rest.issues[0]!.sentence}`);
  const bare = supplies.filter(({ feeds: of, conductors }) => feeds.has(of) && conductors !== 'return');
  return { plan: rest.value, bare };
}

/** A row cut into parts of at most so many. */
const inParts = <Item>(items: readonly Item[], most: number): Item[][] =>
  Array.from({ length: Math.ceil(items.length / most) }, (_, i) => items.slice(i * most, (i + 1) * most));

/**
 * Ways of a block for the supplies of one output in their order along the wall: what the limit of the source holds first,
 * as many on a way as its terminals take; then what shares a fuse; then what none protects, each by itself. What feeds
 * one run together shares no way with anything else.
 */
export function shareWays(supplies: readonly Supply[], source: PlannedSource): SharedWay[] {
  return rowsOf(supplies).flatMap((row) => waysOfRow(row, source));
}

/**
 * Supplies cut where those of a run begin or end that is fed by several: a fuse they shared with others could blow, and
 * the others would be fed backwards through that run.
 */
function rowsOf(supplies: readonly Supply[]): Supply[][] {
  const rows: Supply[][] = [];
  for (const supply of supplies) {
    const row = rows.at(-1);
    if (row && row[0]!.together === supply.together) row.push(supply);
    else rows.push([supply]);
  }
  return rows;
}

function waysOfRow(supplies: readonly Supply[], source: PlannedSource): SharedWay[] {
  const { plan, bare } = planWhatFits(supplies, source);
  const pluses = supplies.filter(({ conductors }) => conductors !== 'return');
  const held = pluses.filter(({ id }) => plan.bySource.includes(id));
  return [
    ...inParts(held, usualConductorsPerWay).map((part) => ({ supplies: part, fuse: null })),
    ...plan.ways.map(({ fuse, cables }) => ({
      supplies: cables.map((id) => pluses.find((supply) => supply.id === id)!),
      fuse,
    })),
    ...bare.map((supply) => ({ supplies: [supply], fuse: null })),
  ];
}
