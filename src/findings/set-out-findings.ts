import { mm, naming } from '../words.ts';
import { type Check, limited, remedy, type Sized, sheet, worst } from './context.ts';

/** What the set-out is judged by. */
type Pieces = Pick<Sized, 'setOut' | 'products' | 'job'>;

/** A dark end longer than this shows as a gap beside its neighbours (judgement, no source). */
const visibleDarkEnd_mm = 25;

const darkEnd_mm = (run: { darkStart_mm: number; darkFinish_mm: number }): number =>
  Math.max(run.darkStart_mm, run.darkFinish_mm);

function darkEnds({ setOut, products }: Pieces): Check {
  const run = worst(setOut.runs, darkEnd_mm);
  const value = darkEnd_mm(run);
  const unit_mm = 1000 / products.strip.unitsPerMetre;
  const over = value > visibleDarkEnd_mm;
  return limited({
    id: 'dark-end',
    question: 'set-out',
    status: over ? 'watch' : 'passes',
    place: { slot: run.slot, field: 'strip.entry' },
    title: 'Longest dark end',
    value,
    limit: visibleDarkEnd_mm,
    unit: 'mm',
    basis: 'judgement: longer gaps show beside a lit neighbour',
    sentence: over
      ? `In slot ${run.slot} the last ${mm(value)} stay dark, because strip can only be cut every ${mm(unit_mm)}.`
      : value < 0.5
        ? 'The strip fills every slot from end to end.'
        : `The longest dark end is ${mm(value)}, in slot ${run.slot}.`,
    remedies: over
      ? [
          remedy('slots', 'Make the slot a whole number of cut units long.'),
          remedy('strip.entry', `Choose a strip with a shorter cut unit than ${mm(unit_mm)}.`),
        ]
      : [],
  });
}

function joints({ setOut }: Pieces): Check[] {
  const joined = setOut.runs.filter((run) => run.jointLines.length > 0);
  if (joined.length === 0) return [];
  return [
    {
      id: 'joints',
      question: 'set-out',
      status: 'watch',
      place: { slot: joined[0]!.slot, field: 'strip.entry' },
      title: 'Strip joined inside a slot',
      value: setOut.jointCount,
      limit: 0,
      margin: -setOut.jointCount,
      unit: '',
      basis: 'common practice: a joint is a place to fail, and the reels on both sides must be of one batch',
      sentence: `${naming(
        'Slot',
        joined.map((run) => run.slot),
      )} ${joined.length === 1 ? 'is' : 'are'} longer than a reel, so pieces are joined at a cut line: solder the joints, mark them on the drawing and leave them reachable.`,
      remedies: [remedy('strip.entry', 'Take the strip on a longer reel.')],
    },
  ];
}

/** What one feed has to carry: the stretch of strip from a feed point to the furthest unit it is nearest to. */
function stretch_mm(run: Sized['setOut']['runs'][number]): number {
  const fed = run.feedPoints.filter((p) => p.conductors === 'both').map((p) => p.cutLine / run.unitCount);
  if (fed.length === 0) return run.strip_mm;
  const ends = [fed[0]!, 1 - fed.at(-1)!, ...fed.slice(1).map((p, i) => (p - fed[i]!) / 2)];
  return Math.max(...ends) * run.strip_mm;
}

function longestRun({ setOut, products, job }: Pieces): Check[] {
  const limit = products.strip.longestRun_mm;
  if (limit === null) return [];
  const run = worst(setOut.runs, stretch_mm);
  const value = stretch_mm(run);
  const over = value > limit;
  return [
    limited({
      id: 'longest-run',
      question: 'set-out',
      status: over ? 'watch' : 'passes',
      place: { slot: run.slot, field: 'feeds.arrangement' },
      title: 'Strip fed from one point',
      value,
      limit,
      unit: 'mm',
      basis: sheet(job.strip.data, 'longestRun_mm', 'strip'),
      sentence: over
        ? `In slot ${run.slot} one feed point serves ${mm(value)} of strip; ${mm(limit)} are given as the longest.`
        : `No feed point serves more than ${mm(value)} of strip.`,
      remedies: over
        ? [remedy('feeds.arrangement', 'Feed it from both ends or between, or ask the maker.')]
        : [],
    }),
  ];
}

/** Checks of the set-out: dark ends, joints, and the longest stretch from one feed point. */
export function setOutFindings(sized: Pieces): Check[] {
  return [darkEnds(sized), ...joints(sized), ...longestRun(sized)];
}
