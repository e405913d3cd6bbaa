import type { CableEnd } from '../answer/cables.ts';
import {
  type Branch,
  hasOneMinus,
  type Leg,
  type PlannedBlock,
  type PlannedCable,
  type PlannedWay,
} from './plan.ts';

/** What stands in the way of the current besides copper. */
export interface Resistances {
  /** Of one connection at a tap or a block, one conductor. */
  readonly connector_ohm: number;
  /** Of one channel of a dimmer, in its return; 0 for none. */
  readonly dimmer_ohm: number;
}

/** A way of a block, and how many ends of cables are made off to it. */
interface UsedWay extends PlannedWay {
  readonly endCount: number;
}

type Ways = ReadonlyMap<string, UsedWay>;

const keyOf = (block: string, way: number): string => `${block} ${way}`;

/** Whether a fuse is an element of its own, because several ends draw through it, or lies in series with the one. */
const isShared = ({ endCount }: UsedWay): boolean => endCount > 1;

/** Pluses made off to each way: a ring is made off with both its ends. */
function waysUsed(cables: readonly PlannedCable[], blocks: readonly PlannedBlock[]): Ways {
  const ends = cables
    .filter(({ conductors }) => conductors !== 'return')
    .flatMap(({ legs }) => legs.flatMap(({ from, to }) => [from, to]));
  const counts = new Map<string, number>();
  for (const end of ends) {
    if (end.kind !== 'block' || end.way === null) continue;
    const key = keyOf(end.id, end.way);
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  const used = (block: string, way: PlannedWay): readonly [string, UsedWay] => {
    const key = keyOf(block, way.number);
    return [key, { ...way, endCount: counts.get(key) ?? 0 }];
  };
  return new Map(blocks.flatMap(({ id, ways }) => ways.map((way) => used(id, way))));
}

/** Where a conductor really begins: at its way's fuse where that is an element of its own, else at the bar of the block. */
function atBlock(end: CableEnd, ways: Ways): CableEnd {
  if (end.kind !== 'block' || end.way === null) return end;
  const way = ways.get(keyOf(end.id, end.way))!;
  return way.fuse !== null && isShared(way) ? end : { ...end, way: null };
}

/** The fuse in series with a cable that has its way to itself. */
function ownFuse_ohm(end: CableEnd, ways: Ways): number {
  if (end.kind !== 'block' || end.way === null) return 0;
  const way = ways.get(keyOf(end.id, end.way))!;
  return isShared(way) ? 0 : (way.fuse?.resistance_ohm ?? 0);
}

/** Connections of a leg besides pads: at a block, at the tap a branch leaves or a trunk ends at; it passes others uncut. */
function connectorCount({ id, from, to }: Leg, { kind, legs }: PlannedCable): number {
  const isLast = legs.at(-1)!.id === id;
  const at = [from, to].filter((end) => end.kind === 'block').length;
  return at + (from.kind === 'tap' && kind !== 'trunk' ? 1 : 0) + (to.kind === 'tap' && isLast ? 1 : 0);
}

function branchOf(leg: Leg, cable: PlannedCable, ways: Ways, { connector_ohm }: Resistances): Branch {
  const ends = [leg.from, leg.to];
  const connectors_ohm = connectorCount(leg, cable) * connector_ohm;
  const fuses_ohm = ends.reduce((sum, end) => sum + ownFuse_ohm(end, ways), 0);
  const isReturn = cable.conductors === 'return';
  const bar = (end: CableEnd): CableEnd =>
    isReturn && end.kind === 'block' ? { ...end, way: null } : atBlock(end, ways);
  return {
    id: leg.id,
    cable: cable.id,
    from: bar(leg.from),
    to: bar(leg.to),
    conductors: cable.conductors,
    hasOneMinus: hasOneMinus(cable),
    serves: leg.serves,
    length_mm: legLength_mm(leg, cable),
    conductor_ohm_per_km: cable.product.conductor_ohm_per_km,
    connectors_ohm,
    positive_ohm: connectors_ohm + (isReturn ? 0 : fuses_ohm),
    return_ohm: connectors_ohm,
  };
}

/** A leg's part of the cut length: its way and its tails, with the allowance of the cable. */
export function legLength_mm(
  { paths, tailCount }: Leg,
  { way_mm, tails_mm, length_mm }: Pick<PlannedCable, 'way_mm' | 'tails_mm' | 'length_mm'>,
): number {
  const own_mm = paths.reduce((sum, path) => sum + path.length_mm, (tailCount * tails_mm) / 2);
  return way_mm + tails_mm > 0 ? (own_mm / (way_mm + tails_mm)) * length_mm : 0;
}

/** What is no cable: an element of some ohms between two ends. */
const lump = {
  conductors: 'both',
  hasOneMinus: false,
  length_mm: 0,
  conductor_ohm_per_km: 0,
  connectors_ohm: 0,
} as const;

/** A dimmer, from the terminals it is fed by to those it feeds from: its channels part there, each with its switch. */
function dimmerBranches(cables: readonly PlannedCable[], { dimmer_ohm }: Resistances): Branch[] {
  const fed = cables.flatMap(({ legs: [leg] }) =>
    leg!.to.kind === 'dimmer' ? [{ ...leg!, to: leg!.to }] : [],
  );
  return fed.map(({ to, serves }) => ({
    id: to.id,
    cable: null,
    from: to,
    to: { ...to, side: 'out' },
    serves,
    ...lump,
    positive_ohm: 0,
    return_ohm: dimmer_ohm,
  }));
}

/** A fuse that carries several cables, as an element from the bar of its block to its way. */
function fuseBranch(block: PlannedBlock, way: UsedWay, cables: readonly PlannedCable[]): Branch[] {
  if (way.fuse === null || !isShared(way)) return [];
  const serves = way.cables.flatMap((id) => cables.find((cable) => cable.id === id)!.legs[0]!.serves);
  return [
    {
      id: way.fuse.id,
      cable: null,
      from: { kind: 'block', id: block.id, way: null },
      to: { kind: 'block', id: block.id, way: way.number },
      serves: [...new Set(serves)],
      ...lump,
      positive_ohm: way.fuse.resistance_ohm,
      return_ohm: 0,
    },
  ];
}

/**
 * The circuit elements of an installation: every leg of every cable, with connectors and a fuse of its own in series, every
 * dimmer, and every fuse that several ends share. The return of a fused way is the bar of its block: no fuse lies in it.
 */
export function branchesOf(
  cables: readonly PlannedCable[],
  blocks: readonly PlannedBlock[],
  resistances: Resistances,
): Branch[] {
  const ways = waysUsed(cables, blocks);
  const fuses = blocks.flatMap((block) =>
    block.ways.flatMap(({ number }) => fuseBranch(block, ways.get(keyOf(block.id, number))!, cables)),
  );
  return [
    ...fuses,
    ...dimmerBranches(cables, resistances),
    ...cables.flatMap((cable) => cable.legs.map((leg) => branchOf(leg, cable, ways, resistances))),
  ];
}
