import type { Cable, CableEnd } from '../../../src/answer/cables.ts';
import type { Driver } from '../../../src/answer/drivers.ts';
import type { Block, BlockWay, Dimmer } from '../../../src/answer/installation.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';

/** One level line of the single-line diagram: a cable, or the end of a ring that comes back. */
export interface WiringRow {
  readonly cable: Cable;
  readonly draws: 'feed' | 'trunk' | 'branch' | 'chain' | 'back';
  /** The trunk this is part of, or leaves; null for a cable that has to do with none. */
  readonly trunk: Cable | null;
  /** The tap a branch leaves. */
  readonly tap: string | null;
}

/** Whether a row begins at the way it hangs on, rather than at a tap or a run. */
export const isMadeOff = ({ tap, draws }: WiringRow): boolean => tap === null && draws !== 'chain';

/** What hangs on one way of a block; on the terminals of a dimmer or an output where there is no block. */
export interface WiringWay {
  readonly way: BlockWay | null;
  readonly rows: readonly WiringRow[];
}

/** What hangs on a driver output: short cables over a dimmer to a block, then way by way. */
export interface WiringOutput {
  readonly id: string;
  readonly links: readonly Cable[];
  readonly dimmer: Dimmer | null;
  readonly block: Block | null;
  readonly ways: readonly WiringWay[];
}

const wayOf = (end: CableEnd): number | null => (end.kind === 'block' ? end.way : null);

const tapOf = (end: CableEnd): string | null => (end.kind === 'tap' ? end.id : null);

const runOf = (end: CableEnd): string | null => (end.kind === 'pad' ? end.run : null);

const isRing = ({ kind, to }: Cable): boolean => kind === 'trunk' && to.kind !== 'tap';

/** The branches of a trunk, tap by tap as it passes them. */
function branchesOf(trunk: Cable, cables: readonly Cable[]): WiringRow[] {
  const taps = trunk.legs.flatMap(({ to }) => tapOf(to) ?? []);
  return taps.flatMap((tap) =>
    cables
      .filter(({ kind, from }) => kind === 'branch' && tapOf(from) === tap)
      .map((cable): WiringRow => ({ cable, draws: 'branch', trunk, tap })),
  );
}

/** The cables that go on from run to run behind one that is fed. */
function chainOf(feed: Cable, cables: readonly Cable[]): WiringRow[] {
  const next = cables.find(({ kind, from }) => kind === 'run to run' && runOf(from) === runOf(feed.to));
  if (!next) return [];
  return [{ cable: next, draws: 'chain', trunk: null, tap: null }, ...chainOf(next, cables)];
}

/** A cable of a way with all that hangs on it. */
function hangingOn(cable: Cable, cables: readonly Cable[]): WiringRow[] {
  if (cable.kind !== 'trunk')
    return [{ cable, draws: 'feed', trunk: null, tap: null }, ...chainOf(cable, cables)];
  return [{ cable, draws: 'trunk', trunk: cable, tap: null }, ...branchesOf(cable, cables)];
}

/** Returns after the plus conductors, so that the fuse in the plus is seen to pass them by. */
const returnsLast = (cables: readonly Cable[]): Cable[] => [
  ...cables.filter(({ conductors }) => conductors !== 'return'),
  ...cables.filter(({ conductors }) => conductors === 'return'),
];

function wayRows(number: number | null, cables: readonly Cable[]): WiringRow[] {
  const supplies = cables.filter(({ kind }) => kind === 'feed' || kind === 'trunk');
  const out = returnsLast(supplies.filter(({ from }) => wayOf(from) === number));
  const back = supplies.filter((cable) => isRing(cable) && wayOf(cable.to) === number);
  return [
    ...out.flatMap((cable) => hangingOn(cable, cables)),
    ...back.map((cable): WiringRow => ({ cable, draws: 'back', trunk: cable, tap: null })),
  ];
}

function outputOf(id: string, { cables, installation }: Sizing): WiringOutput {
  const here = cables.filter(({ output }) => output === id);
  const block = installation.blocks.find(({ output }) => output === id) ?? null;
  const ways = block ? block.ways : [null];
  return {
    id,
    links: here.filter(({ kind }) => kind === 'link'),
    dimmer: installation.dimmers.find(({ output }) => output === id) ?? null,
    block,
    ways: ways.map((way) => ({ way, rows: wayRows(way ? way.number : null, here) })),
  };
}

/** The wiring of a driver as the tree it is, output by output: every cable stands in it once, a ring with both ends. */
export const wiringOf = (driver: Driver, sizing: Sizing): WiringOutput[] =>
  driver.outputs.map(({ id }) => outputOf(id, sizing));
