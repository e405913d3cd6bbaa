import { type SVGTemplateResult, svg } from 'lit';
import type { Job } from '../../src/job/job.ts';
import type { Opening } from '../../src/job/opening.ts';
import { fixed } from '../format.ts';
import type { WallFrame } from './wall-frame.ts';

/** An opening as drawings have it: an outline with its diagonals, of a keep-out dashed with one of them, its name and clear measures. */
function openingMark(opening: Opening, { x, y, scale }: WallFrame): SVGTemplateResult {
  const [left, top] = [x(opening.x_mm), y(opening.y_mm + opening.height_mm)];
  const [wide, high] = [opening.width_mm * scale, opening.height_mm * scale];
  const measures = `${fixed(opening.width_mm, 0)} × ${fixed(opening.height_mm, 0)} mm`;
  const isRoomy = wide > 96 && high > 44;
  return svg`<g class="opening-in-panel ${opening.kind === 'keep-out' ? 'is-keep-out' : ''}" role="img" aria-label="${opening.name || 'Opening'}, ${measures}">
    <rect x=${left} y=${top} width=${wide} height=${high}></rect>
    <path d="M${left} ${top}l${wide} ${high}${opening.kind === 'keep-out' ? '' : `M${left} ${top + high}l${wide} ${-high}`}"></path>
    ${
      isRoomy
        ? svg`<text text-anchor="middle" x=${left + wide / 2} y=${top + high / 2 - 3}>${opening.name}</text>
          <text text-anchor="middle" x=${left + wide / 2} y=${top + high / 2 + 11}>${measures}</text>`
        : ''
    }
    <title>${opening.name || 'Opening'}: ${measures}</title>
  </g>`;
}

/** Doors and windows in the panel. */
export const panelOpenings = ({ openings }: Job, frame: WallFrame): SVGTemplateResult[] =>
  openings.map((opening) => openingMark(opening, frame));
