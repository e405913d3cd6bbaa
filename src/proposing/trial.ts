import type { Finding } from '../answer/findings.ts';
import type { SetOut } from '../answer/set-out.ts';
import type { Sizing } from '../answer/sizing.ts';
import type { Job } from '../job/job.ts';
import { resolveProducts } from '../job/resolve.ts';
import { forWidth } from '../job/slot-widths.ts';
import { setOutJob } from '../set-out/set-out.ts';
import type { Described } from '../sizing/prepared.ts';
import { type Settled, settle, shareNominally } from '../sizing/settle.ts';
import { type Judged, judged, judgedButForHeat } from '../sizing/size-job.ts';
import { lightOfWidths } from '../sizing/slots-by-width.ts';
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

/** How a design is tried. */
interface Asked {
  /** Of the job's strip and feeds. */
  readonly setOut: SetOut;
  /** With care, or quickly and without asking how warm the section gets. */
  readonly accuracy: Sizing['accuracy'];
  readonly shared: SharedLoads;
}

/** Nominal loads as shared out in each section, which is alike however a group's cables are chosen: worked out once. */
export type SharedLoads = Readonly<Record<Sizing['accuracy'], Map<StandingSection, Nominally>>>;
type Nominally = ReturnType<typeof shareNominally>;

export const nothingShared = (): SharedLoads => ({ quick: new Map(), careful: new Map() });

function sharedOnce(described: Described, at: StandingSection, shared: SharedLoads): Nominally {
  const kept = shared[described.accuracy];
  const nominally = kept.get(at) ?? shareNominally(described);
  kept.set(at, nominally);
  return nominally;
}

/** Sizes a design whose section is solved already, and stops where the drop alone rules it out. */
export function tryJob(job: Job, at: StandingSection, { setOut, accuracy, shared }: Asked): Trial {
  const withHeat = accuracy === 'careful';
  const warm = at.warm(accuracy);
  if ('check' in warm) return falls(warm);
  const [{ width_mm, section, law }, ...others] = warm;
  const products = resolveProducts(job);
  if (!products.ok) return falls(fallOfIssue(products.issues[0]!));
  const described = {
    job: forWidth(job, width_mm),
    products: products.value,
    setOut,
    light: others.length === 0 ? at.light : lightOfWidths(warm),
    section,
    accuracy,
  };
  const nominally = sharedOnce(described, at, shared);
  if (!nominally.ok) return falls(fallOfIssue(nominally.issues[0]!));
  const prepared = {
    ...described,
    ...{ law, nominally: nominally.value },
    ...(others.length > 0 && { others }),
  };
  const settled = settle(prepared);
  if (!settled.ok) return falls(fallOfIssue(settled.issues[0]!));
  const driverCount = settled.value.allocation.drivers.length;
  const drop = dropOf(settled.value, job);
  if (drop.over > 1 + 1e-9) return falls(drop.fall, { dropOverLimit: drop.over, driverCount });
  const answer = (withHeat ? judged : judgedButForHeat)(prepared, settled.value);
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
