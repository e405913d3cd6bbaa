import type { FeedPoint, Run } from '../answer/set-out.ts';
import type { Arrangement, Job } from '../job/job.ts';
import { middlesOfShares } from '../numeric/equal-shares.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { counted } from '../words.ts';
import type { SetOutIssue } from './issues.ts';

interface Feeding {
  readonly arrangement: Arrangement;
  readonly betweenCount: number;
  /** Fed where `chosen`, counted in cut units from the start. */
  readonly cutLines: readonly number[];
}

/** How one slot is fed: the job's arrangement, or the exception named for it (slots are numbered from 1). */
export function feedingOf(feeds: Job['feeds'], slotNumber: number): Feeding {
  return feeds.exceptions.find((exception) => exception.slot === slotNumber) ?? feeds;
}

interface Pad {
  readonly cutLine: number;
  readonly conductors: FeedPoint['conductors'];
}

/**
 * Cut lines fed between the ends, at (2k-1)N/2n rounded to a cut line: the spacing with the least drop for a
 * uniform load (Gönen, Electric Power Distribution Engineering, uniform feeder; secondary copy).
 */
function betweenPads(unitCount: number, feedCount: number): Pad[] {
  const lines = middlesOfShares(feedCount, unitCount).map(Math.round);
  const inside = lines.map((line) => Math.min(Math.max(line, 1), unitCount - 1));
  return [...new Set(inside)].map((cutLine) => ({ cutLine, conductors: 'both' }));
}

const chosenPads = ({ cutLines }: Feeding): Pad[] =>
  [...new Set(cutLines)].sort((a, b) => a - b).map((cutLine) => ({ cutLine, conductors: 'both' }));

function padsOf(unitCount: number, feeding: Feeding): Pad[] {
  const start: Pad = { cutLine: 0, conductors: 'both' };
  const finish: Pad = { cutLine: unitCount, conductors: 'both' };
  switch (feeding.arrangement) {
    case 'start':
      return [start];
    case 'finish':
      return [finish];
    case 'both':
      return [start, finish];
    case 'between':
      return betweenPads(unitCount, feeding.betweenCount);
    case 'chosen':
      return chosenPads(feeding);
    case 'crossed':
      return [
        { cutLine: 0, conductors: 'positive' },
        { cutLine: unitCount, conductors: 'return' },
      ];
  }
}

function placed(run: Run, pad: Pad, i: number): FeedPoint {
  const share = pad.cutLine / run.unitCount;
  return {
    id: `${run.id}-F${i + 1}`,
    run: run.id,
    ...pad,
    at: pad.cutLine === 0 ? 'start' : pad.cutLine === run.unitCount ? 'finish' : 'between',
    x_mm: run.x0_mm + (run.x1_mm - run.x0_mm) * share,
    y_mm: run.y0_mm + (run.y1_mm - run.y0_mm) * share,
  };
}

/** Why a run cannot be fed at the cut lines chosen for it. */
function chosenIssue(run: Run, { arrangement, cutLines }: Feeding): SetOutIssue | undefined {
  const beyond = cutLines.find((line) => line > run.unitCount);
  if (arrangement !== 'chosen' || (cutLines.length > 0 && beyond === undefined)) return undefined;
  return {
    code: 'no-such-cut-line',
    place: { slot: run.slot, field: 'feeds.cutLines' },
    quantities: { unitCount: run.unitCount, ...(beyond === undefined ? {} : { cutLine: beyond }) },
    sentence:
      beyond === undefined
        ? `Slot ${run.slot} is to be fed at chosen cut lines and none is given: give at least one, from 0 at its start to ${run.unitCount} at its finish.`
        : `Slot ${run.slot} holds ${counted(run.unitCount, 'cut unit')}, so there is no cut line ${beyond}: choose from 0 at its start to ${run.unitCount} at its finish, or feed this slot another way.`,
  };
}

/**
 * Where cables meet a run. Refuses a feed between the units of a run that has only one, and a chosen cut line that a
 * run does not have, by name.
 */
export function feedPointsOf(run: Run, feeding: Feeding): Outcome<FeedPoint[], SetOutIssue> {
  if (feeding.arrangement === 'between' && run.unitCount < 2) {
    return refused({
      code: 'no-cut-line-between',
      place: { slot: run.slot, field: 'feeds.arrangement' },
      quantities: { unitCount: run.unitCount },
      sentence: `Slot ${run.slot} holds a single cut unit, so there is no cut line between its ends: feed it at the start.`,
    });
  }
  const unchosen = chosenIssue(run, feeding);
  if (unchosen) return refused(unchosen);
  return found(padsOf(run.unitCount, feeding).map((pad, i) => placed(run, pad, i)));
}
