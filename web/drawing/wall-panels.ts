import { nothing, type SVGTemplateResult, svg } from 'lit';
import type { Job } from '../../src/job/job.ts';
import { cornersOfWall, type PlacedPanel, placedPanels } from '../../src/job/panels.ts';
import { fixed, quantity } from '../format.ts';
import { levelDimension } from './dimensions.ts';
import type { WallFrame } from './wall-frame.ts';

type Box = Pick<PlacedPanel, 'left_mm' | 'right_mm' | 'bottom_mm' | 'top_mm'>;

const rectOf = ({ left_mm, right_mm, bottom_mm, top_mm }: Box, { x, y, scale }: WallFrame) => ({
  x: x(left_mm),
  y: y(top_mm),
  width: (right_mm - left_mm) * scale,
  height: (top_mm - bottom_mm) * scale,
});

const wholeWall = ({ panel }: Job): Box => ({
  ...{ left_mm: 0, bottom_mm: 0 },
  ...{ right_mm: panel.width_mm, top_mm: panel.height_mm },
});

const measures = ({ width_mm, height_mm }: PlacedPanel): string =>
  `${fixed(width_mm, 0)} × ${quantity(height_mm, 'mm')}`;

/** A panel in words: its mark, its name, its measures and how it meets the one before. */
function panelSentence(panel: PlacedPanel, i: number): string {
  const name = panel.name === '' ? panel.id : `${panel.id}, ${panel.name}`;
  const joined = i === 0 ? '' : `, ${panel.joint}, gap ${quantity(panel.gap_mm, 'mm')}`;
  return `Panel ${name}, ${measures(panel)}${joined}`;
}

function panelMark(panel: PlacedPanel, i: number, frame: WallFrame): SVGTemplateResult {
  const { x, y, width, height } = rectOf(panel, frame);
  const sentence = panelSentence(panel, i);
  return svg`<rect class="panel" role="img" aria-label=${sentence} x=${x} y=${y} width=${width} height=${height}>
    <title>${sentence}</title>
  </rect>`;
}

/** Where the wall turns: an upright chain line with which way. */
function cornerMarks(job: Job, frame: WallFrame): SVGTemplateResult[] {
  return cornersOfWall(job).map(({ x_mm, joint }) => {
    const [at, head, foot] = [frame.x(x_mm), frame.y(job.panel.height_mm), frame.y(0)];
    return svg`<g class="wall-corner" role="img" aria-label="The wall turns: ${joint}">
      <line x1=${at} x2=${at} y1=${head - 12} y2=${foot + 6}></line>
      <text x=${at} y=${foot + 17} text-anchor="middle">${joint}</text>
      <title>The wall turns here: ${joint}. The drawing shows it unfolded.</title>
    </g>`;
  });
}

/** The face of the piece: its panels with the gaps between them, or the one it is. */
export function panelFaces(job: Job, frame: WallFrame): SVGTemplateResult {
  const all = placedPanels(job);
  const boxes: readonly Box[] = all.length === 0 ? [wholeWall(job)] : all;
  const rects = boxes.map((box) => rectOf(box, frame));
  return svg`<clipPath id="panel-clip">
      ${rects.map(({ x, y, width, height }) => svg`<rect x=${x} y=${y} width=${width} height=${height}></rect>`)}
    </clipPath>
    ${
      all.length === 0
        ? rects.map(
            ({ x, y, width, height }) =>
              svg`<rect class="panel" x=${x} y=${y} width=${width} height=${height}></rect>`,
          )
        : all.map((panel, i) => panelMark(panel, i, frame))
    }
    ${cornerMarks(job, frame)}`;
}

/** A text that fits its span of the drawing, the longest first; none where none does. */
const fitting = (span: number, ...texts: string[]): string =>
  texts.find((text) => span > text.length * 6.4) ?? '';

/** The panels one after the other with their marks and widths, and the gaps where there is room for their figures. */
export function panelDimensions(job: Job, frame: WallFrame): SVGTemplateResult | typeof nothing {
  const all = placedPanels(job);
  if (all.length === 0) return nothing;
  const at = frame.height - 56;
  return svg`<g class="panel-dimensions">${all.map((panel, i) => {
    const [from, to] = [frame.x(panel.left_mm), frame.x(panel.right_mm)];
    const width = fixed(panel.width_mm, Number.isInteger(panel.width_mm) ? 0 : 1);
    const gap = i === 0 ? '' : fixed(panel.gap_mm, Number.isInteger(panel.gap_mm) ? 0 : 1);
    const before = i === 0 ? from : frame.x(all[i - 1]!.right_mm);
    const gapText = fitting(from - before, gap);
    return svg`${levelDimension({ from, to, at, text: fitting(to - from, `${panel.id}: ${width}`, panel.id) })}
      ${gapText === '' ? nothing : levelDimension({ from: before, to: from, at, text: gapText })}`;
  })}</g>`;
}
