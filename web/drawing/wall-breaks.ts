import { type SVGTemplateResult, svg } from 'lit';
import type { Cable } from '../../src/answer/cables.ts';
import type { Answer } from '../state/store.ts';
import type { WallFrame } from './wall-frame.ts';

/** Half of the gap in a broken line, and half of the slanted stroke at either side of it, in drawing units. */
const gap = 3;
const stroke = 6;

type Stretch = Cable['stretches'][number];

/** The stretches in which cables come from remote places, those that lie on one another once. */
function fromAfar({ sizing }: Answer): Stretch[] {
  const all = sizing.cables.flatMap(({ stretches }) =>
    stretches.filter((stretch) => stretch.in === 'remote'),
  );
  const ends = ({ from, to }: Stretch): string => [from.x_mm, from.y_mm, to.x_mm, to.y_mm].join(' ');
  return [...new Map(all.map((stretch) => [ends(stretch), stretch])).values()];
}

/** A gap in the middle of a line between two slanted strokes: what lies between is not drawn, and not to scale. */
function breakMark({ from, to }: Stretch, frame: WallFrame): SVGTemplateResult {
  const [x0, y0, x1, y1] = [frame.x(from.x_mm), frame.y(from.y_mm), frame.x(to.x_mm), frame.y(to.y_mm)];
  const turned = (180 / Math.PI) * Math.atan2(y1 - y0, x1 - x0);
  return svg`<g class="cable-break" transform=${`translate(${(x0 + x1) / 2} ${(y0 + y1) / 2}) rotate(${turned})`}>
    <rect class="break-gap" x=${-gap} y=${-stroke} width=${2 * gap} height=${2 * stroke}></rect>
    <line x1=${-gap - 2} y1=${stroke} x2=${-gap + 2} y2=${-stroke}></line>
    <line x1=${gap - 2} y1=${stroke} x2=${gap + 2} y2=${-stroke}></line>
    <title>From a remote place, not to scale</title>
  </g>`;
}

/** Breaks in the cables that come from remote places. */
export const cableBreaks = (answer: Answer, frame: WallFrame): SVGTemplateResult[] =>
  fromAfar(answer).map((stretch) => breakMark(stretch, frame));
