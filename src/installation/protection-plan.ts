import { found, type Outcome, refused } from '../outcome.ts';
import { amps } from '../words.ts';
import { type Fuse, type FuseFamilyName, fuseBetween, fuseFamilies, mostRating_A } from './fuse-families.ts';
import type { InstallationIssue } from './issues.ts';

/** Cables behind one way of a distribution block (common practice: what its terminals take). */
export const usualConductorsPerWay = 4;

/** A cable of one driver output, as its protection sees it. */
export interface CableToPlan {
  readonly id: string;
  /** What it feeds: both legs of a ring feed the same, and so do a plus and the return that brings its current home. */
  readonly feeds: string;
  readonly conductors: 'both' | 'positive' | 'return';
  /** Current it has to carry, Ib: of what is fed from two sides the whole load, since either side may be open. */
  readonly design_A: number;
  /** What it may carry after all factors, Iz. */
  readonly capacity_A: number;
}

export interface PlannedSource {
  /** The most the output gives before it limits or stops. */
  readonly limit_A: number;
  readonly fuses: FuseFamilyName;
  /** Cables one way of the block takes, 1 and more. */
  readonly conductorsPerWay?: number;
}

/** A fused way of the block: one fuse, in the plus, for every cable behind it. */
export interface FusedWay {
  readonly fuse: Fuse;
  /** Cables on the way, in their order along the wall. */
  readonly cables: readonly string[];
  /** Returns that the fuse protects as well; none has a device of its own. */
  readonly returns: readonly string[];
  /** Current of all that it feeds, each load once. */
  readonly load_A: number;
  /** The least any conductor behind it may carry. */
  readonly least_A: number;
}

export interface ProtectionPlan {
  /** Cables that need no device, since the source cannot give more than they may carry. */
  readonly bySource: readonly string[];
  readonly ways: readonly FusedWay[];
}

/**
 * What protects the cables of one output with the fewest fuses. A cable needs no device where the source gives no more
 * than it may carry (IEC 60364-4-43, clause 436); neighbours among the others share a fused way as long as one fuse
 * carries the sum of their loads for ever, is no larger than the thinnest allows (clause 433.1), and the block has room.
 * Ways are filled one after the other: part of what one fuse protects it protects too, so a fuller way never costs one.
 * A return has no fuse; it is protected by the one in the plus of what it feeds, which is held to the return as well, and
 * where several pluses come home through it, each to its even share.
 * @param cables in their order along the wall, from the output; a trunk is one cable with its whole load and its thinnest
 *   part; amperes 0 and more, or `RangeError`
 * Refusals: `no-fuse-fits` for each cable that no fuse protects.
 * Valid for the cables behind the block: its own supply has to carry what the source gives.
 * Source: IEC 60364-4-43:2008 (secondary). Check: every partition tried in `tests/installation/protection-plan.test.ts`.
 */
export function protectionPlan(
  cables: readonly CableToPlan[],
  source: PlannedSource,
): Outcome<ProtectionPlan, InstallationIssue> {
  assertAmps(cables, source);
  const branches = branchesOf(cables);
  const open = branches.filter((branch) => !heldBySource(branch, source));
  const unfused = unfusedOf(branches, source);
  if (unfused.length > 0) return refused(...unfused.map((branch) => noFuseFits(branch, source)));
  return found({
    bySource: cables.map(({ id }) => id).filter((id) => !open.some((branch) => namesOf(branch).includes(id))),
    ways: fullWays(open, source).map((branch) => wayOf(branch, source)),
  });
}

/** Branches that need a fuse, and that none fits. */
const unfusedOf = (branches: readonly Branch[], source: PlannedSource): Branch[] =>
  branches.filter((branch) => !heldBySource(branch, source) && fuseFor([branch], source) === null);

/** Cables that `protectionPlan` refuses: they need a fuse, and none fits. */
export const withoutFuse = (cables: readonly CableToPlan[], source: PlannedSource): string[] =>
  unfusedOf(branchesOf(cables), source).map(({ cable }) => cable.id);

/** A cable that may have a fuse, with the returns that have none. */
interface Branch {
  readonly cable: CableToPlan;
  readonly returns: readonly CableToPlan[];
  readonly least_A: number;
}

const namesOf = ({ cable, returns }: Branch): string[] => [cable.id, ...returns.map(({ id }) => id)];

function branchesOf(cables: readonly CableToPlan[]): Branch[] {
  const homes = cables.filter(({ conductors }) => conductors === 'return');
  const pluses = cables.filter(({ conductors }) => conductors !== 'return');
  const lone = homes.find((home) => !pluses.some(({ feeds }) => feeds === home.feeds));
  if (lone !== undefined) throw new RangeError(`return ${lone.id} brings no plus home`);
  return pluses.map((cable) => {
    const returns = homes.filter(({ feeds }) => feeds === cable.feeds);
    const shares = pluses.filter(({ feeds }) => feeds === cable.feeds).length;
    const least_A = Math.min(cable.capacity_A, ...returns.map(({ capacity_A }) => capacity_A / shares));
    return { cable, returns, least_A };
  });
}

function heldBySource({ cable, returns }: Branch, { limit_A }: PlannedSource): boolean {
  const conductors = [cable, ...returns];
  return conductors.every(({ design_A, capacity_A }) => limit_A <= capacity_A && design_A <= capacity_A);
}

/** Currents of what is fed, each load once. */
function load_A(branches: readonly Branch[]): number {
  const loads = new Map<string, number>();
  for (const { cable } of branches)
    loads.set(cable.feeds, Math.max(cable.design_A, loads.get(cable.feeds) ?? 0));
  return [...loads.values()].reduce((sum, load) => sum + load, 0);
}

const leastOf = (branches: readonly Branch[]): number => Math.min(...branches.map(({ least_A }) => least_A));

/** The fuse of a way for these branches, or null where none fits or the block has no room. */
function fuseFor(branches: readonly Branch[], source: PlannedSource): Fuse | null {
  if (branches.length > (source.conductorsPerWay ?? usualConductorsPerWay)) return null;
  return fuseBetween(source.fuses, load_A(branches), leastOf(branches));
}

function fullWays(branches: readonly Branch[], source: PlannedSource): Branch[][] {
  const ways: Branch[][] = [];
  for (const branch of branches) {
    const last = ways.at(-1);
    if (last !== undefined && fuseFor([...last, branch], source) !== null) last.push(branch);
    else ways.push([branch]);
  }
  return ways;
}

function wayOf(branches: readonly Branch[], source: PlannedSource): FusedWay {
  const returns = branches.flatMap((branch) => branch.returns.map(({ id }) => id));
  return {
    fuse: fuseFor(branches, source)!,
    cables: branches.map(({ cable }) => cable.id),
    returns: [...new Set(returns)],
    load_A: load_A(branches),
    least_A: leastOf(branches),
  };
}

function noFuseFits({ cable, least_A }: Branch, { fuses }: PlannedSource): InstallationIssue {
  const { name, carries } = fuseFamilies[fuses];
  const from_A = cable.design_A / carries;
  const most_A = mostRating_A(fuses, least_A);
  const sentence = `Cable ${cable.id} carries ${amps(cable.design_A)} and may carry ${amps(least_A)}: a ${name} would have to be rated from ${amps(from_A)} to ${amps(most_A)}, and there is none. Take a thicker cable, feed less through it, or choose another kind of fuse.`;
  return {
    code: 'no-fuse-fits',
    place: { cable: cable.id },
    quantities: { design_A: cable.design_A, capacity_A: least_A },
    sentence,
  };
}

function assertAmps(cables: readonly CableToPlan[], { limit_A, conductorsPerWay = 1 }: PlannedSource): void {
  const amounts = [limit_A, ...cables.flatMap(({ design_A, capacity_A }) => [design_A, capacity_A])];
  if (!amounts.every((amount) => amount >= 0)) throw new RangeError('amperes are 0 and more');
  if (!(conductorsPerWay >= 1)) throw new RangeError('a way takes at least one cable');
}
