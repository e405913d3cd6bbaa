import type { CableEnd } from '../answer/cables.ts';
import { fuseResistance_ohm } from './fuse-families.ts';
import { type SharedWay, type Supply, shareWays } from './fuse-ways.ts';
import { calledAfter } from './layouts.ts';
import {
  type LaidCable,
  type Leg,
  type PlannedBlock,
  type PlannedDimmer,
  type PlannedFuse,
  type PlannedWay,
  servedBy,
} from './plan.ts';
import type { PlannedSource } from './protection-plan.ts';

/** What stands between a driver output and its cables: a dimmer, a block with its ways, and the short cables between. */
export interface HeadEnd {
  readonly dimmer: PlannedDimmer | null;
  readonly block: PlannedBlock | null;
  readonly links: readonly LaidCable[];
  /** The cables of the output, made off to what hands on its current. */
  readonly cables: readonly LaidCable[];
}

export interface HeadEndToPlan {
  readonly output: string;
  /** Cables of the output, from the hole in its place on. */
  readonly cables: readonly LaidCable[];
  /** By cable: what it may carry. */
  readonly capacity_A: ReadonlyMap<string, number>;
  /** By cable: what it must carry should any other leg, run or feed be dead. */
  readonly design_A: ReadonlyMap<string, number>;
  readonly source: PlannedSource;
  /** Conductors one terminal of the output takes. */
  readonly terminalConductors: number;
  readonly hasDimmer: boolean;
}

const isOutput = (end: CableEnd): boolean => end.kind === 'output';

/** Ends of a cable at the output: one, or both of a ring. */
const endsAtOutput = ({ legs }: LaidCable): number =>
  (isOutput(legs[0]!.from) ? 1 : 0) + (isOutput(legs.at(-1)!.to) ? 1 : 0);

/** The run a single conductor of a crossed feed belongs to: its plus and its return feed the same. */
const runServed = (cable: LaidCable): string => {
  const end = cable.legs.at(-1)!.to;
  return end.kind === 'pad' ? end.run : cable.id;
};

/** The cable made off to an output or its block that another hangs on; itself where it is one. */
export function supplyOf(cable: LaidCable, cables: readonly LaidCable[]): LaidCable {
  const { from } = cable.legs[0]!;
  const passes = ({ kind, legs }: LaidCable): boolean =>
    kind === 'trunk' && legs.some(({ to }) => from.kind === 'tap' && to.kind === 'tap' && to.id === from.id);
  if (from.kind === 'tap') return cables.find(passes)!;
  return cable.kind === 'run to run' ? cables.find(({ kind }) => kind === 'feed')! : cable;
}

/** The plus that a return brings home; itself for any other. */
const plusOf = (cable: LaidCable, cables: readonly LaidCable[]): LaidCable =>
  cable.conductors === 'return'
    ? cables.find((other) => other.conductors === 'positive' && feedsOf(other) === feedsOf(cable))!
    : cable;

/** The fuse that protects a cable: in the plus of what it hangs on. */
export function fuseBefore(
  cable: LaidCable,
  cables: readonly LaidCable[],
  block: PlannedBlock | null,
): PlannedFuse | null {
  const { id } = plusOf(supplyOf(cable, cables), cables);
  return block?.ways.find((way) => way.cables.includes(id))?.fuse ?? null;
}

const feedsOf = (cable: LaidCable): string => (cable.conductors === 'both' ? cable.id : runServed(cable));

/** The least that each supply, and every cable that hangs on it, may carry. */
function leastBehind_A({ cables, capacity_A }: HeadEndToPlan): ReadonlyMap<LaidCable, number> {
  const least_A = new Map<LaidCable, number>();
  for (const cable of cables) {
    const supply = supplyOf(cable, cables);
    const before_A = least_A.get(supply) ?? Number.POSITIVE_INFINITY;
    least_A.set(supply, Math.min(before_A, capacity_A.get(cable.id)!));
  }
  return least_A;
}

/** Supplies of the output, one for each end of a cable there: both legs of a ring feed the same. */
function suppliesOf(given: HeadEndToPlan): Supply[] {
  const counts = new Map<string, number>();
  for (const cable of given.cables)
    if (cable.conductors !== 'return') counts.set(runServed(cable), (counts.get(runServed(cable)) ?? 0) + 1);
  const least_A = leastBehind_A(given);
  return given.cables.flatMap((cable) =>
    Array.from({ length: endsAtOutput(cable) }, (_, end) => ({
      id: `${cable.id} ${end}`,
      cable: cable.id,
      end,
      feeds: feedsOf(cable),
      together: counts.get(runServed(cable))! > 1 ? runServed(cable) : null,
      conductors: cable.conductors,
      design_A: given.design_A.get(cable.id)!,
      capacity_A: least_A.get(cable)!,
    })),
  );
}

/** Current of all that a way feeds, each load once. */
const loadOf = ({ supplies }: SharedWay): number =>
  [...new Map(supplies.map(({ feeds, design_A }) => [feeds, design_A])).values()].reduce((a, b) => a + b, 0);

function fuseOf(way: SharedWay, id: string): PlannedFuse | null {
  if (way.fuse === null) return null;
  return {
    id,
    ...way.fuse,
    resistance_ohm: fuseResistance_ohm(way.fuse).typical_ohm,
    design_A: loadOf(way),
    least_A: Math.min(...way.supplies.map(({ capacity_A }) => capacity_A)),
  };
}

function blockOf(output: string, ways: readonly SharedWay[]): PlannedBlock {
  const name = calledAfter('F', output);
  return {
    id: calledAfter('B', output),
    output,
    ways: ways.map(
      (way, i): PlannedWay => ({
        number: i + 1,
        fuse: fuseOf(way, `${name}-${i + 1}`),
        cables: [...new Set(way.supplies.map(({ cable }) => cable))],
      }),
    ),
  };
}

/** Number of the way each end of a cable is made off to; a return goes to the way of its plus. */
function waysOf(cable: LaidCable, ways: readonly SharedWay[], cables: readonly LaidCable[]): number[] {
  const { id } = plusOf(cable, cables);
  const at = (end: number): number =>
    ways.findIndex(({ supplies }) => supplies.some((supply) => supply.cable === id && supply.end === end)) +
    1;
  return [at(0), at(1)];
}

/** A cable whose ends at the output are made off to the block, or to the dimmer, instead. */
function madeOff(cable: LaidCable, endOf: (index: number) => CableEnd): LaidCable {
  let index = 0;
  const legs = cable.legs.map((leg) => ({
    ...leg,
    from: isOutput(leg.from) ? endOf(index++) : leg.from,
    to: isOutput(leg.to) ? endOf(index++) : leg.to,
  }));
  return { ...cable, legs };
}

function link(id: string, of: Pick<Leg, 'from' | 'to' | 'serves'> & { output: string }): LaidCable {
  const { output, ...ends } = of;
  return { id, kind: 'link', output, conductors: 'both', legs: [{ id, ...ends, paths: [], tailCount: 2 }] };
}

/** What leaves a device that something comes to. */
const outOf = (end: CableEnd): CableEnd => (end.kind === 'dimmer' ? { ...end, side: 'out' } : end);

/** The short cables from the output over a dimmer to a block, as many of them as there are. */
function linksOf(
  given: HeadEndToPlan,
  dimmer: PlannedDimmer | null,
  block: PlannedBlock | null,
): LaidCable[] {
  const serves = given.cables.flatMap(servedBy);
  const stops: CableEnd[] = [
    { kind: 'output', id: given.output },
    ...(dimmer ? [{ kind: 'dimmer', id: dimmer.id, side: 'in' } as const] : []),
    ...(block ? [{ kind: 'block', id: block.id, way: null } as const] : []),
  ];
  const name = calledAfter('L', given.output);
  return stops.slice(1).map((to, i) => {
    const id = stops.length > 2 ? `${name}${'ab'[i]}` : name;
    return link(id, { output: given.output, from: outOf(stops[i]!), to, serves: [...new Set(serves)] });
  });
}

/**
 * What a driver output hands its current on by. A dimmer stands first where the output is dimmed by one. A block follows
 * where more cables leave than a terminal takes, or where the source could give more than a cable may carry, so that
 * fuses are needed (IEC 60364-4-43, 433 and 436): each on a way of its own, shared by as many cables as it carries and
 * protects, in the plus and never in a return.
 */
export function planHeadEnd(given: HeadEndToPlan): HeadEnd {
  const { output, cables } = given;
  const supplies = suppliesOf(given);
  const ways = shareWays(supplies, given.source);
  const needsBlock =
    ways.some(({ fuse }) => fuse !== null) ||
    supplies.filter(({ conductors }) => conductors !== 'return').length > given.terminalConductors;
  const block = needsBlock ? blockOf(output, ways) : null;
  const dimmer = given.hasDimmer ? { id: calledAfter('K', output), output } : null;
  const last: CableEnd = dimmer
    ? { kind: 'dimmer', id: dimmer.id, side: 'out' }
    : { kind: 'output', id: output };
  const endOf = (cable: LaidCable) => {
    const numbers = waysOf(cable, ways, cables);
    return (index: number): CableEnd =>
      block ? { kind: 'block', id: block.id, way: numbers[index]! } : last;
  };
  return {
    dimmer,
    block,
    links: linksOf(given, dimmer, block),
    cables: cables.map((cable) => madeOff(cable, endOf(cable))),
  };
}
