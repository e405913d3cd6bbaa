import type { ProposalProgress, Proposals } from '../answer/proposals.ts';
import type { Job } from '../job/job.ts';
import { type Openable, openables } from '../job/open-choices.ts';
import { resolveProducts } from '../job/resolve.ts';
import { compareLists } from '../numeric/priority-queue.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { placedInJob } from '../sizing/job-fields.ts';
import { prepare } from '../sizing/prepare.ts';
import { settle } from '../sizing/settle.ts';
import { type Judged, judged, type SizingIssue } from '../sizing/size-job.ts';
import { engineVersion } from '../version.ts';
import { counted, percent } from '../words.ts';
import type { Worded } from './changes.ts';
import type { Within } from './choices.ts';
import { designOf, type Measured, unbeaten, withMeasures, wordedOf, wordedOfRefused } from './designs.ts';
import { costOf, figuresOf, measuresOf } from './figures.ts';
import { type Asked, looked, type Wish } from './looking.ts';
import { nearestMiss } from './nearest-miss.ts';
import type { Found } from './search.ts';
import type { Passing } from './search-parts.ts';
import { type Fallen, type Known, nothingKnown } from './search-state.ts';
import { type Space, spaceOf } from './space.ts';

/** So much is looked at before the answer says that it is not proved: sized runs, some half a millisecond each. */
const efforts = { first: 6000, leanest: 16000, cheapest: 24000, other: 5000 } as const;

const mostDesigns = 6;

const withFeeds = (job: Job): Job => ({
  ...job,
  feeds: { ...job.feeds, arrangement: 'both', exceptions: [] },
});
const withAluminium = (job: Job): Job => ({ ...job, section: { ...job.section, carrier: 'flat aluminium' } });

/** Besides the cheapest: less of one thing, or the cheapest with a choice made that helps in one. */
const wishes: readonly (Wish & {
  /** Choices without which all designs are alike in it. */
  readonly needs?: readonly Openable[];
  /** A choice that is made for it, and the job with that. */
  readonly made?: { readonly of: Openable; readonly job: (job: Job) => Job };
})[] = [
  {
    stage: 'Looking for one with fewer warnings',
    aim: (figures) => [figures.warningCount, ...costOf(figures)],
  },
  {
    stage: 'Looking for a thinner one',
    aim: (figures) => [figures.depth_mm, ...costOf(figures)],
    needs: ['depth'],
  },
  {
    stage: 'Looking for one with fewer drivers',
    aim: (figures) => [figures.driverCount, ...costOf(figures)],
    needs: ['drivers', 'strip'],
  },
  {
    stage: 'Looking for one with fewer joints',
    aim: (figures) => [figures.jointCount, ...costOf(figures)],
    needs: ['feeds', 'layout', 'strip'],
  },
  {
    stage: 'Looking for a cooler one, with aluminium under the strip',
    aim: costOf,
    needs: ['carrier'],
    made: { of: 'carrier', job: withAluminium },
  },
  {
    stage: 'Looking for one with more even light, fed at both ends',
    aim: costOf,
    needs: ['feeds'],
    made: { of: 'feeds', job: withFeeds },
  },
];

const then =
  'fewer watts of strip, fewer drivers, fewer rated watts of drivers, fewer parts of the build-up added or changed, less copper in the cables (in steps of a tenth), fewer feed points';

/** What cheaper means, in words. */
function rankedBy({ isPriced, present: { prices } }: Space): string {
  if (!isPriced)
    return `Not everything that may be chosen has a price, so that cheaper means, the first that differs: ${then}.`;
  const whose = prices.note === '' ? '' : ` Prices: ${prices.note}.`;
  return `Cheaper is a lower price of strip, cable, drivers and dimmers, spares included; where that is the same, the first that differs: ${then}.${whose}`;
}

/** Fewest amps, thick cables and the most willing protection first, which pass soonest: what passes bounds what is looked for then. */
const soonest: Wish = {
  stage: 'Looking for a first design that passes',
  aim: (figures) => [figures.strip_A, figures.driverCount, figures.feedPointCount, figures.thinness],
};

/** Without prices: what is then bounded best, and hardly dearer. */
const leanest: Wish = {
  stage: 'Looking for the one with the least in it',
  aim: (figures) => costOf({ ...figures, price_cents: 0 }),
};

const cheapest: Wish = { stage: 'Looking for the cheapest', aim: costOf };

/** Whether a wish can be granted otherwise than by the cheapest. */
const isOpenFor = ({ needs }: (typeof wishes)[number], open: ReadonlySet<Openable>): boolean =>
  needs === undefined || needs.some((each) => open.has(each));

/** How much dearer the best can be than the cheapest there is. */
function gapOf({ isPriced }: Space, { figures }: Passing, bound: Found['bound']): string {
  const least = bound?.[0] ?? 0;
  if (!isPriced || least <= 0) return ' One of them may be cheaper.';
  const gap = Math.max(0, figures.price_cents / least - 1);
  return ` The design shown is at most ${percent(gap)} dearer than the cheapest possible.`;
}

function proofOf(space: Space, known: Known, { proved, fell, best, bound }: Found): Proposals['proof'] {
  const { allowedCount } = space;
  const fellCount = Math.min(
    allowedCount,
    [...fell.values()].reduce((sum, { count }) => sum + count, 0),
  );
  const rest = allowedCount - fellCount - (best ? 1 : 0);
  const all = counted(allowedCount, 'design');
  const sentence = proved
    ? best
      ? `No cheaper design that passes exists among the ${all} that the open choices allow.`
      : `None of the ${all} that the open choices allow passes.`
    : best
      ? `Not proved: of the ${all} that the open choices allow, ${counted(rest, 'was', 'were')} not ruled out.${gapOf(space, best, bound)}`
      : `Not proved: of the ${all} that the open choices allow, ${counted(rest, 'was', 'were')} not looked at, and one of them may pass.`;
  return {
    allowedCount,
    sizedCount: known.cold.size,
    fellCount,
    dearerCount: proved ? Math.max(0, rest) : 0,
    openCount: proved ? 0 : Math.max(0, rest),
    proved,
    sentence,
  };
}

const fellRows = (fell: Fallen): Proposals['fell'] =>
  [...fell.values()]
    .map(({ fall: { check, title, sentence }, count }) => ({ check, title, count, sentence }))
    .sort((a, b) => b.count - a.count);

/** The job as it stands. */
function presentOf(job: Job): {
  readonly judged: Judged | null;
  readonly worded: Worded | null;
  readonly answer: Proposals['present'];
} {
  const prepared = prepare(job, 'careful');
  const settled = prepared.ok ? settle(prepared.value) : prepared;
  const answer = prepared.ok && settled.ok ? judged(prepared.value, settled.value) : settled;
  if (!answer.ok)
    return {
      judged: null,
      worded: wordedOfRefused(job),
      answer: { measures: null, fails: answer.issues.map(({ sentence }) => sentence) },
    };
  const present = answer.value as Judged;
  const failing = present.findings.filter(({ status }) => status === 'fails');
  return {
    judged: failing.length === 0 ? present : null,
    worded: wordedOf(present),
    answer: { measures: measuresOf(present), fails: failing.map(({ title }) => title) },
  };
}

/** The same design found on two ways is one. */
const idOf = ({ job }: Passing): string => JSON.stringify(job);

interface Given {
  readonly job: Job;
  readonly opened: ReadonlySet<Openable>;
  readonly within: Within;
  readonly asked: Asked;
}

/** The best design for a wish; where a choice is made for it, among those with that choice. */
function* granted(
  { made, ...wish }: (typeof wishes)[number],
  { job, opened, within, asked }: Given,
  known: readonly Passing[],
): Generator<ProposalProgress, Found> {
  if (made) {
    const kept = new Set([...opened].filter((each) => each !== made.of));
    const space = { ...spaceOf(made.job(job), kept, within), present: job };
    const other = { ...asked, space, known: nothingKnown() };
    return yield* looked(other, wish, { effort: efforts.other, start: null });
  }
  const start = known.reduce((a, b) => (compareLists(wish.aim(b.figures), wish.aim(a.figures)) < 0 ? b : a));
  return yield* looked(asked, wish, { effort: efforts.other, start });
}

const byCost = (a: Passing, b: Passing): number => compareLists(costOf(a.figures), costOf(b.figures));

/** The job as it stands, as a design. */
const passingOf = (present: Judged, space: Space): Passing => ({
  ...{ id: 'present', job: space.present, judged: present, figures: figuresOf(present, space) },
});

/** The same strip, drivers and section, fed and laid at the least cost. */
function* rewired(
  first: Passing,
  { job, opened, within, asked }: Given,
): Generator<ProposalProgress, Passing> {
  const wiring = (['feeds', 'cables', 'protection'] as const).filter((each) => opened.has(each));
  const space = {
    ...spaceOf(first.job, new Set(wiring), within),
    present: job,
    isPriced: asked.space.isPriced,
  };
  const wish = { stage: 'Laying the first one that passes at less', aim: costOf };
  const found = yield* looked({ ...asked, space, known: nothingKnown() }, wish, {
    ...{ effort: efforts.other, start: first },
  });
  return found.best ?? first;
}

/** Fewest warnings first, then the cheapest. */
const inOrder = (designs: readonly Measured[]): Measured[] =>
  designs.toSorted((a, b) => {
    const key = ({ passing: { figures } }: Measured): number[] => [figures.warningCount, ...costOf(figures)];
    return compareLists(key(a), key(b));
  });

/**
 * Whole designs for a job in which some choices are open: up to six that pass every check, none of which another of them
 * beats in everything, the first the one with the fewest warnings and then the cheapest; what was ruled out by which
 * check; and how far it is proved that nothing cheaper passes. Where nothing passes, the nearest miss and the least
 * change that would make it pass. Yields how far it has come after each piece of work, and can be left at any of them.
 *
 * @param open what may be chosen; everything else is kept as the job has it
 * @param within what there is to choose from, where that is less than the catalogue
 * The designs are searched by bounds and each that is shown is sized with care. Deterministic: work is counted, not timed.
 * Refuses a job whose products are not in the catalogue. Check: `tests/proposing/propose.test.ts`.
 */
export function* propose(
  job: Job,
  open: readonly Openable[],
  within: Within = {},
): Generator<ProposalProgress, Outcome<Proposals, SizingIssue>> {
  const resolved = resolveProducts(job);
  if (!resolved.ok) return refused(...placedInJob(resolved.issues));
  const opened = new Set(open);
  const present = presentOf(job);
  const whole = spaceOf(job, opened, within);
  const asked: Asked = {
    space: whole,
    allowedCount: whole.allowedCount,
    known: nothingKnown(),
    present: present.worded,
  };
  const { choices, isPriced } = asked.space;
  const willing = { ...asked.space, choices: { ...choices, fuses: choices.fuses.toReversed() } };
  const begun = present.judged && passingOf(present.judged, asked.space);
  const first =
    begun ??
    (yield* looked({ ...asked, space: willing, known: nothingKnown() }, soonest, {
      ...{ effort: efforts.first, start: null },
    })).best;
  const better = first && (yield* rewired(first, { job, opened, within, asked }));
  const lean = isPriced
    ? (yield* looked(asked, leanest, { effort: efforts.leanest, start: better })).best
    : better;
  const start = [lean, better].flatMap((each) => each ?? []).sort(byCost)[0] ?? null;
  const best = yield* looked(asked, cheapest, { effort: efforts.cheapest, start });
  const passing = new Map<string, Passing>();
  if (best.best !== null && asked.space.allowedCount > 1) {
    for (const wish of wishes.filter((each) => isOpenFor(each, opened))) {
      const other = yield* granted(wish, { job, opened, within, asked }, [...passing.values(), best.best]);
      if (other.best !== null) passing.set(idOf(other.best), other.best);
    }
  }
  if (best.best !== null) passing.set(idOf(best.best), best.best);
  const all = inOrder(unbeaten([...passing.values()].map(withMeasures))).slice(0, mostDesigns);
  const miss =
    best.best === null ? yield* nearestMiss({ job, opened, within, asked, fell: best.fell }) : null;
  return found({
    engine: engineVersion,
    open: openables.filter((each) => opened.has(each)),
    rankedBy: rankedBy(asked.space),
    designs: all.map((each) => designOf(each, { all, present: present.worded })),
    present: present.answer,
    fell: fellRows(best.fell),
    proof: proofOf(asked.space, asked.known, best),
    nearestMiss: miss,
  });
}
