import type { AskedLayouts } from '../answer/asked.ts';
import { layouts } from '../job/cables.ts';
import type { Job } from '../job/job.ts';
import { resolveProducts } from '../job/resolve.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { placedInJob } from '../sizing/job-fields.ts';
import { type SizingIssue, sizeJob } from '../sizing/size-job.ts';
import { failingIn, whyNot } from './failing.ts';

type Layout = Job['cables']['layout'];

/** The same job with its cables laid another way: those of one zone, or of all that no zone lays another way. */
export function withLayout(job: Job, zone: string | null, layout: Layout): Job {
  if (zone === null) return { ...job, cables: { ...job.cables, layout } };
  const zones = job.dimming.zones.map((each) => (each.id === zone ? { ...each, layout } : each));
  return { ...job, dimming: { ...job.dimming, zones } };
}

/** Zones asked about one by one. */
const mostZones = 4;

interface Asked {
  readonly job: Job;
  /** What fails as the job is. */
  readonly before: ReadonlySet<string>;
}

function rowOf({ job, before }: Asked, zone: string | null, layout: Layout): AskedLayouts['rows'][number] {
  const own = job.dimming.zones.find(({ id }) => id === zone);
  const isJobs = layout === (own?.layout ?? job.cables.layout);
  const scope = { zone, zoneName: own?.name ?? null, layout, isJobs };
  const sized = sizeJob(withLayout(job, zone, layout));
  if (!sized.ok)
    return { ...scope, cable_m: null, drop: null, passes: false, why: sized.issues[0]!.sentence };
  const { cables, circuit, findings } = sized.value;
  const why = whyNot(findings, ['circuit', 'cables'], before);
  return {
    ...scope,
    cable_m: cables.reduce((sum, { length_mm }) => sum + length_mm, 0) / 1000,
    drop: Math.max(0, ...circuit.runs.map(({ drop }) => drop)),
    passes: why === null,
    why,
  };
}

/**
 * Which layout would do, for the wall and for each of its first zones: metres of all cables cut, worst drop of the wall, and
 * what fails of the checks on cables and volts. Refuses unknown products.
 * Check: `tests/inverse/layouts.test.ts`, each row against the job sized with it.
 */
export function askJobLayouts(job: Job): Outcome<AskedLayouts, SizingIssue> {
  const products = resolveProducts(job);
  if (!products.ok) return refused(...placedInJob(products.issues));
  const { zones } = job.dimming;
  const of = { job, before: failingIn(job) };
  const asked = [null, ...zones.slice(0, mostZones).map(({ id }) => id)];
  const rows = asked.flatMap((zone) => layouts.map((layout) => rowOf(of, zone, layout)));
  return found({
    rows,
    remarks: [
      'Each is the whole job sized quickly with this layout and nothing else changed. It passes where no check on cables and volts fails, nor any other that does not fail as the job is.',
      ...(zones.length > mostZones
        ? [`Of ${zones.length} zones the first ${mostZones} are asked about one by one.`]
        : []),
    ],
  });
}
