import type { ProposalProgress, Proposals } from '../answer/proposals.ts';
import type { Job } from '../job/job.ts';
import { type Openable, openables } from '../job/open-choices.ts';
import { listing } from '../words.ts';
import type { Within } from './choices.ts';
import { designOf, withMeasures } from './designs.ts';
import { costOf } from './figures.ts';
import { type Asked, looked } from './looking.ts';
import { type Fallen, nothingKnown } from './search-state.ts';
import { spaceOf } from './space.ts';

type Miss = NonNullable<Proposals['nearestMiss']>;

/** A job in which nothing passes, and why. */
interface Missed {
  readonly job: Job;
  readonly opened: ReadonlySet<Openable>;
  readonly within: Within;
  readonly asked: Asked;
  readonly fell: Fallen;
}

/** Looked at for each further choice, in sized runs. */
const effort = 12000;

/** A way out that is looked for: what would be opened, and all that is open then. */
interface Way {
  readonly further: readonly Openable[];
  readonly open: readonly Openable[];
}

/**
 * What is opened to find a way out, the least trouble first: one further choice with all others kept, the same with what is
 * open already, and at last everything.
 */
function waysOut(opened: ReadonlySet<Openable>): Way[] {
  const closed = openables.filter((each) => !opened.has(each));
  const already = [...opened];
  const alone = closed.map((each) => ({ further: [each], open: [each] }));
  const beside = closed.map((each) => ({ further: [each], open: [...already, each] }));
  return [
    ...alone,
    ...(already.length > 0 ? beside : []),
    ...(closed.length > 1 ? [{ further: closed, open: openables }] : []),
  ];
}

/** What the nearest design fails by, or else what most designs fell by. */
function failsOf({ asked, fell }: Missed): Miss['fails'] {
  const nearest = asked.known.nearest?.findings.filter(({ status }) => status === 'fails') ?? [];
  const most = [...fell.values()].sort((a, b) => b.count - a.count).slice(0, 3);
  const rows = nearest.length > 0 ? nearest : most.map(({ fall }) => fall);
  return rows.map(({ title, sentence }) => ({ title, sentence }));
}

/** In the middle of a sentence. */
const lowered = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

function sentenceOf(fails: Miss['fails'], design: Miss['design']): string {
  const why =
    fails.length > 0
      ? `Nothing passes with what is open: ${listing(fails.map(({ title }) => lowered(title)))}.`
      : 'Nothing passes with what is open.';
  if (design === null)
    return `${why} Nor does anything that was found with the other choices opened: change the drawing, the wanted brightness or the places for drivers.`;
  const changes = design.changes.map(
    ({ label, before, after }) => `${lowered(label)} ${after} instead of ${before}`,
  );
  return `${why} The least change found that makes it pass: ${listing(changes)}.`;
}

/**
 * What stands in the way where nothing passes, and the least change that would make it pass: each further choice is opened by
 * itself, the least trouble first, then all of them. Check: `tests/proposing/propose.test.ts`.
 */
export function* nearestMiss(missed: Missed): Generator<ProposalProgress, Miss> {
  const { job, opened, within, asked } = missed;
  const fails = failsOf(missed);
  for (const { further, open } of waysOut(opened)) {
    const space = spaceOf(job, new Set(open), within);
    const wish = { stage: 'Looking for the least change that would pass', aim: costOf };
    const there = { space, allowedCount: space.allowedCount, known: nothingKnown(), present: asked.present };
    const { best } = yield* looked(there, wish, { effort, start: null });
    if (best === null) continue;
    const one = withMeasures(best);
    const design = designOf(one, { all: [one], present: asked.present });
    const changed = further.filter((each) => design.changes.some(({ of }) => of === each));
    return { sentence: sentenceOf(fails, design), fails, opened: changed, design };
  }
  return { sentence: sentenceOf(fails, null), fails, opened: [], design: null };
}
