import type { Job } from '../job/job.ts';
import {
  fewestVolts_V,
  leastCables_cents,
  leastCopper_mm2_m,
  leastDelivered_W,
  leastDrivers,
  leastVolts_V,
  mostRunsOfOutput,
} from './bounds.ts';
import { type CablingChoice, pricesOf } from './choices.ts';
import { coldly } from './cold-sizing.ts';
import type { Figures } from './figures.ts';
import { isWholeWall } from './open-families.ts';
import { type Group, isNoThicker } from './search-parts.ts';
import { putLeaf, type SearchState } from './search-state.ts';
import { feedsAt } from './space.ts';

/** Groups of more cables than this are asked first whether the thickest is enough. */
const probedFrom = 3;

/** Site-run conductors below this are a warning whatever their length. */
const surelyThin_mm2 = 1;

interface Laying {
  readonly group: Group;
  readonly least: Figures;
  readonly layout: Job['cables']['layout'];
  readonly job: Job;
  /** Whether every zone is laid as the wall, so that the least of its cables is known. */
  readonly isPlain: boolean;
  readonly isPriced: boolean;
}

/** The least a cabling of a group comes to, by bounds alone. */
function cablingFigures(
  { group, least, layout, job, isPlain, isPriced }: Laying,
  one: CablingChoice,
): Figures {
  const { driven, lying, cabling, laid } = group;
  const { runs } = lying.setOut;
  const least_V = isPlain
    ? fewestVolts_V(job, driven.products, runs, { ...one, layout })
    : leastVolts_V(job, driven.products);
  const delivered_W = leastDelivered_W(job, driven.products, runs, least_V);
  const { drivers_cents, ...drivers } = leastDrivers(job, driven.products, delivered_W);
  const mostRuns = mostRunsOfOutput(job, driven.products, runs, least_V);
  const way = { layout, ways: lying.ways, mostRuns };
  const cables_cents = isPlain ? leastCables_cents(way, pricesOf(job, one)) : 0;
  return {
    ...{ ...least, ...drivers },
    price_cents: isPriced ? laid.reels_cents + drivers_cents + cables_cents : 0,
    copper_mm2_m: isPlain ? leastCopper_mm2_m(way, one) : 0,
    warningCount: least.warningCount + (one.area_mm2 < surelyThin_mm2 ? 1 : 0),
    thinness: cabling.filter((other) => other !== one && isNoThicker(one, other)).length,
  };
}

/** Opens strip, drivers, feeds and layout: each cabling with the least it comes to. */
export function openGroup(state: SearchState, group: Group, least: Figures): void {
  const { cabling, driven, f, l } = group;
  const { choices, isPriced } = state.space;
  const thickest = cabling.findIndex((one) => cabling.every((other) => isNoThicker(other, one)));
  if (cabling.length > probedFrom && thickest >= 0) coldly(state, { group, c: thickest, u: 0 });
  const laying: Laying = {
    ...{ group, least, isPriced, layout: choices.layouts[l]!, isPlain: isWholeWall(driven.job) },
    job: { ...driven.job, feeds: { ...driven.job.feeds, ...feedsAt(choices, f) } },
  };
  for (const [c, one] of cabling.entries())
    putLeaf(state, { group, c, u: 0, least: cablingFigures(laying, one) });
}
