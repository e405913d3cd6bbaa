import { wayHeight_mm } from '../../../src/job/cable-way.ts';
import type { DriverPlace, Job } from '../../../src/job/job.ts';
import { wrapped } from '../ink/lettering.ts';
import { corners, lettering, line, type Mark, outline } from '../ink/mark.ts';
import { shown } from '../shown.ts';

/** Size of the box that stands for a remote place, its distance from what is nearest, and its lettering, mm of the paper. */
const box_mm = { width: 30, height: 7 } as const;
const away_mm = 10;
const em_mm = 2.5;
const line_mm = 56;

/** Paper each remote place takes beyond the one before. */
const pitch_mm = away_mm + box_mm.height + 10;

const isBox = ({ kind }: DriverPlace): boolean => kind === 'box';

/** Where the panel and the places beside it end on the side of the cable way. */
function edgeOf({ panel, cables, drivers }: Job): number {
  const boxes = drivers.places.filter(isBox);
  return cables.way === 'head'
    ? Math.max(panel.height_mm, ...boxes.map(({ y_mm, height_mm }) => y_mm + height_mm))
    : Math.min(0, ...boxes.map(({ y_mm }) => y_mm));
}

/** How a remote place lies to the panel, known by its length of cable only. */
export const awayText = ({ cable_mm, x_mm }: DriverPlace): string =>
  `${shown((cable_mm ?? 0) / 1000, 1)} m of cable to the panel at x ${shown(x_mm, 0)}`;

const remoteText = (place: DriverPlace): string => `remote, not to scale: ${awayText(place)}`;

/** An upright line that is broken at a height between its ends. */
function brokenLine(x: number, [from, gap, to]: readonly [number, number, number], perPaper: number): Mark[] {
  const [step, over] = [0.8 * perPaper, 1.6 * perPaper];
  return [
    line('CABLES', [x, from], [x, gap + step]),
    line('CABLES', [x, gap - step], [x, to]),
    line('BREAKS', [x - over, gap + step - over / 2], [x + over, gap + step + over / 2]),
    line('BREAKS', [x - over, gap - step - over / 2], [x + over, gap - step + over / 2]),
  ];
}

/**
 * A remote place as a box beside the panel, its line broken because what lies between is not drawn.
 *
 * @param names the place and its drivers
 * @param index of the place among the remote ones
 */
export function remotePlaceMarks(
  job: Job,
  place: DriverPlace,
  { names, index, perPaper }: { readonly names: string; readonly index: number; readonly perPaper: number },
): Mark[] {
  const isHead = job.cables.way === 'head';
  const on = isHead ? 1 : -1;
  const way = wayHeight_mm(job.panel.height_mm, job.cables);
  const near = edgeOf(job) + on * (away_mm + index * pitch_mm) * perPaper;
  const far = near + on * box_mm.height * perPaper;
  const x = place.x_mm;
  const half = (box_mm.width / 2) * perPaper;
  const em = em_mm * perPaper;
  const texts = [names, remoteText(place)].flatMap((text) => wrapped(text, line_mm * perPaper, { em }));
  return [
    ...brokenLine(x, [way, near - on * 5 * perPaper, near], perPaper),
    outline(
      'DRIVER_PLACES',
      ...corners({ x0: x - half, x1: x + half, y0: Math.min(near, far), y1: Math.max(near, far) }),
    ),
    ...texts.map((text, i) =>
      lettering({
        layer: 'DRIVER_NAMES',
        at: [x - half, isHead ? far + (texts.length - 1 - i + 0.4) * 1.3 * em : far - (i + 1) * 1.3 * em],
        text,
        em,
      }),
    ),
  ];
}
