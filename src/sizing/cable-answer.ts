import type { Cable, Leg } from '../answer/cables.ts';
import type { CableSolution, CircuitSolution } from '../circuit/solution.ts';
import { limitOverRating } from '../constants.ts';
import { panelsPassed } from '../installation/across-panels.ts';
import { legLength_mm } from '../installation/branches.ts';
import { cornersOf } from '../installation/cable-routes.ts';
import { coresOf } from '../installation/cores.ts';
import { shortAtFarEnd } from '../installation/far-short.ts';
import { opensFuse } from '../installation/fuse-families.ts';
import { hasOneMinus, type PlannedCable, type Leg as PlannedLeg, servedBy } from '../installation/plan.ts';
import { outsideDiameter_mm } from '../installation/way-room.ts';
import { placedPanels } from '../job/panels.ts';
import { setVoltage_V } from '../job/resolve.ts';
import { rememberedFor } from '../numeric/remembered.ts';
import { partnerOf, type WiredJob } from './circuit-of-job.ts';
import { farLoops_ohm, keyOf } from './far-loops.ts';

type Conductors = Cable['conductors'];

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

/** Volts lost on the conductors of a leg, out and home. */
function drop_V(conductors: Conductors, solved: CableSolution): number {
  const out = solved.positive.from_V - solved.positive.to_V;
  const home = Math.max(...solved.returns.map((r) => r.to_V - r.from_V));
  if (conductors === 'both') return out + home;
  return conductors === 'positive' ? out : home;
}

/** Amps of each core of a leg, plus first on its way out, then the minus of each channel on its way home. */
function cores_A(conductors: Conductors, solved: CableSolution): number[] {
  return [
    ...(conductors === 'return' ? [] : [solved.positive.current_A]),
    ...(conductors === 'positive' ? [] : solved.returns.map(({ current_A }) => current_A)),
  ];
}

/** Lost in the contacts of a leg: every core goes through as many of them. */
function contacts_W(cores: readonly number[], leg: PlannedLeg, wired: WiredJob): number {
  const padCount = [leg.from, leg.to].filter(({ kind }) => kind === 'pad').length;
  const pads_ohm = (padCount * wired.job.feeds.terminal_mohm) / 1000;
  const { connectors_ohm } = branchesById(wired).get(leg.id)!;
  return sum(cores.map((current_A) => current_A ** 2)) * (pads_ohm + connectors_ohm);
}

const branchesById = rememberedFor(
  ({ installation }: WiredJob) =>
    new Map(installation.branches.map((branch) => [branch.id, branch] as const)),
);

/** The current that goes there and back: of plus, or of all returns where they lie by themselves. */
function current_A(conductors: Conductors, solved: CableSolution): number {
  if (conductors !== 'return') return Math.abs(solved.positive.current_A);
  return Math.abs(solved.returns.reduce((sum, r) => sum + r.current_A, 0));
}

function loss_W(conductors: Conductors, solved: CableSolution): number {
  const home = solved.returns.reduce((sum, r) => sum + r.lost_W, 0);
  if (conductors === 'both') return solved.lost_W;
  return conductors === 'positive' ? solved.positive.lost_W : home;
}

/** Conductors of a cable one after the other at 20 degC: out and home of a pair, one of a single. */
const loop_ohm = (length_mm: number, { product, conductors }: PlannedCable): number =>
  ((product.conductor_ohm_per_km * length_mm) / 1e6) * (conductors === 'both' ? 2 : 1);

/** The name of a cable begins with its count of cores where it names one; one of another count says its own. */
const withCores = (name: string, coreCount: number): string => name.replace(/^\d+ ×(?= )/, `${coreCount} ×`);

/** Cables by the branch they were solved as. */
type Solved = ReadonlyMap<string, CableSolution>;

interface SolvedLeg {
  readonly leg: Leg;
  readonly solved: CableSolution;
}

function legsOf(cable: PlannedCable, wired: WiredJob, cables: Solved): SolvedLeg[] {
  return cable.legs.map((leg) => {
    const solved = cables.get(partnerOf(leg.id, wired))!;
    const length_mm = legLength_mm(leg, cable);
    const amps = cores_A(cable.conductors, solved);
    return {
      solved,
      leg: {
        id: leg.id,
        from: leg.from,
        to: leg.to,
        serves: [...leg.serves],
        cores_A: amps,
        contacts_W: contacts_W(amps, leg, wired),
        way_mm: leg.paths.reduce((sum, path) => sum + path.length_mm, 0),
        length_mm,
        current_A: current_A(cable.conductors, solved),
        drop_V: drop_V(cable.conductors, solved),
        loss_W: loss_W(cable.conductors, solved),
        loop_ohm: loop_ohm(length_mm, cable),
      },
    };
  });
}

/** From the first end of a cable to where its volts are lowest: its far end, or amid a ring, whose ends are one. */
function greatestDrop_V(legs_V: readonly number[]): number {
  const sums_V = legs_V.map((_, i) => sum(legs_V.slice(0, i + 1)));
  return Math.max(...sums_V);
}

type Protected = Pick<Cable, 'fuse' | 'fuse_A' | 'fuseOpens' | 'farShort_A' | 'farShortNoticed'>;

/** To the far end of what a cable feeds; of a link to its own end, since what begins there answers for itself. */
function farLoop_ohm(cable: PlannedCable, loops: ReadonlyMap<string, number>): number {
  if (cable.kind === 'link') return loops.get(keyOf(cable.legs[0]!.to))!;
  return Math.max(...servedBy(cable).map((feedPoint) => loops.get(feedPoint)!));
}

/** The fuse of a cable, and whether a short at the far end of what it feeds is noticed. */
function protectedAnswer(
  cable: PlannedCable,
  wired: WiredJob,
  loops: ReadonlyMap<string, number>,
): Protected {
  const short = shortAtFarEnd({
    set_V: setVoltage_V(wired.job, wired.products),
    loop_ohm: farLoop_ohm(cable, loops),
    sourceLimit_A: limitOverRating * cable.source_A,
    ...(cable.fuse ? { fuse: cable.fuse } : {}),
  });
  return {
    fuse: cable.fuse?.id ?? null,
    fuse_A: cable.fuse?.rating_A ?? null,
    fuseOpens: cable.fuse !== null && opensFuse(cable.fuse, cable.source_A),
    farShort_A: short.fault_A,
    farShortNoticed: !short.couldSitUnnoticed,
  };
}

/** A block that an output feeds without a dimmer has one minus, whatever channel comes home to it. */
const isDimmed = ({ output }: PlannedCable, { installation }: WiredJob): boolean =>
  installation.dimmers.some((dimmer) => dimmer.output === output);

function answer(
  cable: PlannedCable,
  wired: WiredJob,
  solutions: Solved,
  loops: ReadonlyMap<string, number>,
): Cable {
  const legs = legsOf(cable, wired, solutions);
  const busiest = legs.reduce((a, b) => (b.leg.current_A > a.leg.current_A ? b : a));
  const [from, to] = [cable.legs[0]!.from, cable.legs.at(-1)!.to];
  const all = wired.products.strip.channels.map(({ name }) => name);
  const { conductors } = cable;
  const named = coresOf({
    conductors,
    channels: hasOneMinus(cable) ? all.slice(0, 1) : all,
    from,
    to,
    fromOneMinus: from.kind === 'block' && !isDimmed(cable, wired),
    sold: cable.product.coreCounts,
    currents_A: busiest.leg.cores_A.map(Math.abs),
  });
  return {
    id: cable.id,
    kind: cable.kind,
    name: withCores(cable.product.name, named.cores.length + named.spareCoreCount),
    output: cable.output,
    from,
    to,
    conductors,
    serves: [...servedBy(cable)],
    legs: legs.map(({ leg }) => leg),
    cores: named.cores,
    soldCoreCount: named.soldCoreCount,
    spareCoreCount: named.spareCoreCount,
    stretches: cable.stretches.map((stretch) => ({ ...stretch })),
    panels: panelsPassed(cable.stretches, placedPanels(wired.job)),
    route: cornersOf(cable.stretches),
    way_mm: cable.way_mm,
    tails_mm: cable.tails_mm,
    length_mm: cable.length_mm,
    conductorCount: named.cores.length,
    area_mm2: cable.product.area_mm2,
    outer_mm: outsideDiameter_mm(cable.product.outer_mm, named.cores.length + named.spareCoreCount),
    current_A: busiest.leg.current_A,
    design_A: Math.max(cable.design_A, busiest.leg.current_A),
    drop_V: greatestDrop_V(legs.map(({ leg }) => leg.drop_V)),
    loss_W: sum(legs.map(({ leg }) => leg.loss_W)),
    contacts_W: sum(legs.map(({ leg }) => leg.contacts_W)),
    capacity_A: cable.capacity_A,
    rating: { ...cable.rating },
    worstStretch: cable.worstStretch,
    capacityNote: cable.capacityNote,
    protectedBy: cable.protectedBy,
    loop_ohm: loop_ohm(cable.length_mm, cable),
    ...protectedAnswer(cable, wired, loops),
  };
}

/** The cables of the answer, output by output, each as laid and solved. */
export function cableAnswers(solution: CircuitSolution, wired: WiredJob): Cable[] {
  const solved: Solved = new Map(solution.cables.map((cable) => [cable.id, cable]));
  const loops = farLoops_ohm(wired);
  return wired.installation.cables.map((cable) => answer(cable, wired, solved, loops));
}
