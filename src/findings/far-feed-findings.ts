import type { Cable } from '../answer/cables.ts';
import type { Remedy } from '../answer/findings.ts';
import type { Run } from '../answer/set-out.ts';
import { counted, metres, naming } from '../words.ts';
import { type Check, remedy, type Sized } from './context.ts';

/** A run that has one feed, at the end away from where its cable comes from. */
interface FarFeed {
  readonly run: Run;
  readonly cable: string;
  /** Cable beside its strip. */
  readonly beside_mm: number;
}

const besideStrip_mm = ({ stretches }: Cable): number =>
  stretches.reduce((sum, stretch) => sum + (stretch.in === 'slot' ? stretch.length_mm : 0), 0);

/** From one end and from the other the cable would lie beside the strip for all its height together: more than half is far. */
const isFar = ({ run, beside_mm }: FarFeed): boolean =>
  beside_mm > Math.abs(run.y1_mm - run.y0_mm) / 2 + 1e-6;

function farFeeds({ cables, setOut }: Sized): FarFeed[] {
  const alone = new Map(
    setOut.runs
      .filter(({ feedPoints }) => feedPoints.length === 1 && feedPoints[0]!.at !== 'between')
      .map((run) => [run.id, run] as const),
  );
  return cables
    .flatMap((cable) => {
      const run = cable.to.kind === 'pad' ? alone.get(cable.to.run) : undefined;
      return run ? [{ run, cable: cable.id, beside_mm: besideStrip_mm(cable) }] : [];
    })
    .filter(isFar);
}

/** All at the other end where all are fed alike and far; else those that are, by an exception each. */
function fedOtherwise(far: readonly FarFeed[], { job, setOut }: Sized): Remedy[] {
  const ends = new Set(far.map(({ run }) => run.feedPoints[0]!.at));
  const { arrangement, exceptions } = job.feeds;
  const isAll = far.length === setOut.runs.length && ends.size === 1 && exceptions.length === 0;
  if (isAll && (arrangement === 'start' || arrangement === 'finish'))
    return [
      remedy('feeds.arrangement', `Feed the runs at the ${arrangement === 'start' ? 'finish' : 'start'}.`),
      remedy('cables.way', `Or lay the cable way along the ${job.cables.way === 'head' ? 'foot' : 'head'}.`),
    ];
  const ids = far.map(({ run }) => run.id);
  return [remedy('feeds.exceptions', `Feed ${naming('run', ids)} at the other end.`)];
}

/**
 * Runs fed at the end away from the cable way: their cables lie beside the warm strip the length of the slot, where they need
 * not.
 */
export function farFeedFindings(sized: Sized): Check[] {
  const far = farFeeds(sized);
  if (far.length === 0) return [];
  const total_mm = far.reduce((sum, { beside_mm }) => sum + beside_mm, 0);
  const longest_mm = Math.max(...far.map(({ beside_mm }) => beside_mm));
  const isOne = far.length === 1;
  const [first] = far;
  const remedies = fedOtherwise(far, sized);
  return [
    {
      id: 'far-feed',
      question: 'cables',
      status: 'watch',
      place: { cable: first!.cable, feedPoint: first!.run.feedPoints[0]!.id, field: remedies[0]!.field! },
      title: 'Feeds at the far end from the cable way',
      value: total_mm,
      limit: null,
      margin: null,
      unit: 'mm',
      basis: 'common practice: beside the strip a cable is warmed by it, takes room and adds to the drop',
      sentence: `${counted(far.length, 'run')} ${isOne ? 'is' : 'are'} fed at the end away from the cable way: ${isOne ? 'its cable lies' : 'their cables lie'} beside the strip for ${metres(total_mm)}${isOne ? '' : ` in all, up to ${metres(longest_mm)} each`}.`,
      remedies,
    },
  ];
}
