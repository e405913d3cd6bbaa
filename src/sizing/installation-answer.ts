import type { Cable, CableEnd } from '../answer/cables.ts';
import type { CaseAt } from '../answer/cases.ts';
import type { DriversAnswer } from '../answer/drivers.ts';
import type { InstallationAnswer, Standing } from '../answer/installation.ts';
import { besidePanels } from '../installation/across-panels.ts';
import { breakingCapacity_A, fuseFamilies, fuseVoltage_V, opens_A } from '../installation/fuse-families.ts';
import type { PlaceLayout } from '../installation/place-layout.ts';
import type { Installation, PlannedFuse } from '../installation/plan.ts';
import { cablesThrough } from '../installation/round-openings.ts';
import { fullestSpot } from '../installation/way-room.ts';
import { placedPanels } from '../job/panels.ts';
import type { WiredJob } from './circuit-of-job.ts';
import { dimmerLoss_W, type SolvedDimmer, solvedDimmers } from './dimmer-answer.ts';
import { averageOfOutputs } from './dimming-of-job.ts';
import type { Settled } from './settle.ts';

type Cases = Pick<DriversAnswer['places'][number], 'cases' | 'without' | 'fitNote'>;

const caseAt = ({ id: _id, out, in: _in, ...at }: PlaceLayout['standing'][number]): CaseAt => ({
  ...at,
  out_x_mm: out.x_mm,
  out_y_mm: out.y_mm,
});

/** Where the drivers of a place stand, and what has no room there, drivers or not. */
export function casesOf({ standing, without, note }: PlaceLayout, drivers: ReadonlySet<string>): Cases {
  const cases = standing
    .filter(({ id }) => drivers.has(id))
    .map((one) => ({ driver: one.id, ...caseAt(one) }));
  return { cases, without: [...without], fitNote: note };
}

/** Where every device stands, by its name; what has no room is missing. */
function standingOf({ installation: { layouts }, job }: WiredJob): ReadonlyMap<string, Standing> {
  const each = layouts.flatMap(({ standing }, i) =>
    standing.map((one): [string, Standing] => [
      one.id,
      {
        place: job.drivers.places[i]!.name,
        ...caseAt(one),
        ...{ in_x_mm: one.in.x_mm, in_y_mm: one.in.y_mm },
      },
    ]),
  );
  return new Map(each);
}

/** Current of the pluses made off to a way of a block: what its fuse carries. */
function wayCurrent_A(block: string, way: number, cables: readonly Cable[]): number {
  const leaves = (end: CableEnd): boolean => end.kind === 'block' && end.id === block && end.way === way;
  const pluses = cables.filter(({ conductors }) => conductors !== 'return').flatMap(({ legs }) => legs);
  return pluses.reduce(
    (sum, { from, to, cores_A }) => sum + (Number(leaves(from)) - Number(leaves(to))) * cores_A[0]!,
    0,
  );
}

function fuseAnswer(fuse: PlannedFuse, current_A: number, { products }: WiredJob) {
  const { resistance_ohm, ...rest } = fuse;
  const { name, standard, remark } = fuseFamilies[fuse.family];
  return {
    ...rest,
    ...{ name, standard, remark },
    rated_V: fuseVoltage_V(fuse.family, products.driver.output_V),
    opens_A: opens_A(fuse),
    breaking_A: breakingCapacity_A(fuse),
    resistance_mohm: 1000 * resistance_ohm,
    current_A,
    loss_W: current_A ** 2 * resistance_ohm,
  };
}

function blockAnswer(
  { ways, ...block }: Installation['blocks'][number],
  standing: ReadonlyMap<string, Standing>,
  wired: WiredJob,
  solved: readonly Cable[],
): InstallationAnswer['blocks'][number] {
  return {
    ...block,
    standing: standing.get(block.id) ?? null,
    ways: ways.map(({ number, fuse, cables }) => ({
      number,
      fuse: fuse && fuseAnswer(fuse, wayCurrent_A(block.id, number, solved), wired),
      cables: [...cables],
    })),
  };
}

function dimmerAnswer(
  dimmer: SolvedDimmer,
  standing: ReadonlyMap<string, Standing>,
  share: number,
): InstallationAnswer['dimmers'][number] {
  const { id, name, output, channel_A } = dimmer;
  return {
    ...{ id, name, output, channel_A },
    standing: standing.get(id) ?? null,
    current_A: Math.max(...dimmer.current_A),
    loss_W: dimmerLoss_W(dimmer, share),
  };
}

/**
 * What stands between driver outputs and cables, and where.
 * @param cables of the answer, for the current of each fuse and the room they take
 */
export function installationAnswer(
  { wired, solution, allocation }: Pick<Settled, 'wired' | 'solution' | 'allocation'>,
  cables: readonly Cable[],
): InstallationAnswer {
  const { blocks, taps } = wired.installation;
  const standing = standingOf(wired);
  const shares = averageOfOutputs(allocation, wired);
  return {
    blocks: blocks.map((block) => blockAnswer(block, standing, wired, cables)),
    dimmers: solvedDimmers(wired, solution).map((dimmer) =>
      dimmerAnswer(dimmer, standing, shares.get(dimmer.output)!),
    ),
    taps: taps.map((tap) => ({ ...tap })),
    fullestWay: fullestSpot(cables),
    throughOpenings: cablesThrough(wired.job.openings, cables),
    besidePanels: besidePanels(placedPanels(wired.job), cables),
  };
}
