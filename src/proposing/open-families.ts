import type { Job } from '../job/job.ts';
import { type Candidate, isFedAtEnd } from './candidate.ts';
import type { Fall } from './fallen.ts';
import type { Figures } from './figures.ts';
import { type DrivenPart, isFall } from './search-parts.ts';
import { heatFall, note, put, type SearchState, standing } from './search-state.ts';
import type { Laid, Standing } from './space.ts';
import { nothingShared } from './trial.ts';

/** Light of a section costs about so many sized runs. */
const lightEffort = 5;

/** Of a design of which nothing is chosen. */
export const nothingYet: Figures = {
  ...{ price_cents: 0, strip_W: 0, strip_A: 0, driverCount: 1, rated_W: 0, buildUpCount: 0 },
  ...{ copper_mm2_m: 0, feedPointCount: 0, depth_mm: 0, jointCount: 0, warningCount: 0, thinness: 0 },
};

/** The least of everything with a strip, in any of these sections. */
const familyFigures = (laid: Laid, left: readonly Standing[], isPriced: boolean): Figures => ({
  ...nothingYet,
  price_cents: isPriced ? laid.reels_cents : 0,
  strip_W: laid.strip_W,
  strip_A: laid.strip_W / laid.base.products.strip.nominal_V,
  buildUpCount: Math.min(...left.map((section) => section.buildUpCount)),
  depth_mm: Math.min(...left.map(({ at }) => at.depth_mm)),
  jointCount: laid.base.stripJointCount,
  warningCount: Math.min(...left.map(({ at }) => at.warningCount)),
});

/** Drivers of the strip's volts, each with the least it comes to. */
function putDrivers(state: SearchState, p: number, laid: Laid, figures: Figures): void {
  const { choices, families, isPriced, wiringCount } = state.space;
  for (const [d, drivers] of choices.drivers.entries()) {
    if (drivers.output_V !== families[p]!.nominal_V) continue;
    const driven = laid.driven(d);
    if (isFall(driven)) {
      note(state, driven, standing(state, laid).length * wiringCount);
      continue;
    }
    const price_cents = figures.price_cents + (isPriced ? driven.drivers_cents : 0);
    const least = { ...figures, price_cents, driverCount: driven.driverCount, rated_W: driven.rated_W };
    put(state, { kind: 'drivers', part: { p, d, laid, driven, least } }, least, [p, d]);
  }
}

/** Opens a strip: light, depth and heat rule out sections; what stands goes on with each choice of drivers. */
export function openFamily(state: SearchState, p: number): void {
  const { space } = state;
  const { nominal_V, picks } = space.families[p]!;
  const each = space.driverCount(nominal_V) * space.wiringCount;
  const { value: laid, falls } = space.laid(p);
  state.spent += lightEffort * picks.length;
  for (const fall of falls) note(state, fall, each);
  if (laid === null) return;
  for (const section of laid.standing) {
    const fall = heatFall(state, section);
    if (!fall) break;
    note(state, fall, each);
  }
  const left = standing(state, laid);
  if (left.length > 0) putDrivers(state, p, laid, familyFigures(laid, left, space.isPriced));
}

const needsEnd: Fall = {
  check: 'layout-needs-end-feed',
  title: 'Run to run goes with one feed at an end',
  sentence: 'Cables that go from run to run enter each run at one end and leave it at the other.',
};

/** Whether every zone is laid as the wall. */
export const isWholeWall = ({ dimming }: Job): boolean =>
  dimming.zones.every(({ layout }) => layout === null);

/** What no cable changes: run to run with feeds that are not at one end. */
const groupFall = (layout: string, feeds: Candidate['feeds'], job: Job): Fall | undefined =>
  layout === 'run to run' && !isFedAtEnd(feeds) && isWholeWall(job) ? needsEnd : undefined;

/** Opens a strip with its drivers: every way of feeding and laying it. */
export function openDrivers(state: SearchState, { p, d, laid, driven, least }: DrivenPart): void {
  const { choices } = state.space;
  for (const [f, feeds] of choices.feeds.entries()) {
    const lying = laid.lying(f);
    for (const [l, layout] of choices.layouts.entries()) {
      const cabling = choices.cabling(layout);
      const fall = isFall(lying) ? lying : groupFall(layout, feeds, laid.base.job);
      if (fall) note(state, fall, cabling.length * choices.fuses.length * standing(state, laid).length);
      if (fall || isFall(lying)) continue;
      const { feedPointCount } = lying;
      const figures = { ...least, feedPointCount, jointCount: least.jointCount + feedPointCount };
      const shared = nothingShared();
      const group = { p, d, f, l, laid, driven, lying, cabling, known: [], shared };
      put(state, { kind: 'group', group, least: figures }, figures, [p, d, f, l]);
    }
  }
}
