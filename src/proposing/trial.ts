import type { Finding } from '../answer/findings.ts';
import type { SetOut } from '../answer/set-out.ts';
import type { Sizing } from '../answer/sizing.ts';
import type { Job } from '../job/job.ts';
import { resolveProducts } from '../job/resolve.ts';
import { setOutJob } from '../set-out/set-out.ts';
import { type Settled, settle } from '../sizing/settle.ts';
import { type Judged, judged } from '../sizing/size-job.ts';
import { percent } from '../words.ts';
import { type Fall, fallOfFindings, fallOfIssue } from './fallen.ts';
import type { StandingSection } from './section-stage.ts';

/** What a design fell by, and how near it was. */
interface Falling {
  readonly verdict: 'falls';
  readonly fall: Fall;
  /** Its answers, where it got so far. */
  readonly judged: Judged | null;
  /** The drop over its limit, where it fell by that. */
  readonly dropOverLimit: number | null;
  readonly driverCount: number;
}

/** What sizing a design showed. */
export type Trial = Falling | { readonly verdict: 'passes'; readonly judged: Judged };

const falls = (fall: Fall, known: Partial<Falling> = {}): Falling => ({
  ...{ judged: null, dropOverLimit: null, driverCount: 1, ...known },
  ...{ verdict: 'falls', fall },
});

/** The drop of a settled circuit over its limit, and the fall where it is more. */
function dropOf({ solution }: Settled, job: Job): { readonly over: number; readonly fall: Fall } {
  const worst = solution.runs.reduce((a, b) => (b.dropRatio > a.dropRatio ? b : a));
  const { dropLimit } = job.site;
  const said = `${percent(worst.dropRatio)} drop on ${worst.id}, where ${percent(dropLimit)} is the limit.`;
  return {
    over: worst.dropRatio / dropLimit,
    fall: { check: 'voltage-drop', title: 'Voltage drop to the furthest LED', sentence: said },
  };
}

const overLimit = (findings: readonly Finding[]): number | null => {
  const drop = findings.find(({ id, status }) => id === 'voltage-drop' && status === 'fails');
  return drop ? drop.value! / drop.limit! : null;
};

/** How a design is tried: what counts, and how carefully. */
interface Asked {
  /** Of the job's strip and feeds. */
  readonly setOut: SetOut;
  readonly accuracy: Sizing['accuracy'];
  /** Whether temperatures of the section count. */
  readonly withHeat: boolean;
}

/** Sizes a design whose section is solved already, and stops where the drop alone rules it out. */
export function tryJob(job: Job, at: StandingSection, { setOut, accuracy, withHeat }: Asked): Trial {
  const law = at.law(accuracy);
  if ('check' in law) return falls(law);
  const products = resolveProducts(job);
  if (!products.ok) return falls(fallOfIssue(products.issues[0]!));
  const prepared = {
    job,
    products: products.value,
    setOut,
    light: at.light,
    section: at.section,
    law,
    accuracy,
  };
  const settled = settle(prepared);
  if (!settled.ok) return falls(fallOfIssue(settled.issues[0]!));
  const driverCount = settled.value.allocation.drivers.length;
  const drop = dropOf(settled.value, job);
  if (drop.over > 1 + 1e-9) return falls(drop.fall, { dropOverLimit: drop.over, driverCount });
  const answer = judged(prepared, settled.value);
  if (!answer.ok) return falls(fallOfIssue(answer.issues[0]!), { driverCount });
  const { findings } = answer.value;
  const fall = fallOfFindings(findings.filter(({ question }) => withHeat || question !== 'heat'));
  if (!fall) return { verdict: 'passes', judged: answer.value };
  const dropOverLimit = fall.check === 'voltage-drop' ? overLimit(findings) : null;
  return falls(fall, { judged: answer.value, driverCount, dropOverLimit });
}

/** Where the strip of a section lies and is fed; the fall where it cannot be. */
export function setOutFor(job: Job, at: StandingSection): SetOut | Fall {
  const setOut = setOutJob(job, at.products.strip, at.products.profile?.endCap_mm ?? 0);
  return setOut.ok ? setOut.value : fallOfIssue(setOut.issues[0]!);
}
