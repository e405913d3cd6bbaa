import { nothing, type SVGTemplateResult, svg } from 'lit';
import type { SetOut, SlotLine } from '../../src/answer/set-out.ts';
import type { Job } from '../../src/job/job.ts';
import { fixed, quantity } from '../format.ts';
import type { WallFrame } from './wall-frame.ts';

const tick = (x: number, y: number): SVGTemplateResult =>
  svg`<line class="tick" x1=${x - 3.5} y1=${y + 3.5} x2=${x + 3.5} y2=${y - 3.5}></line>`;

interface Level {
  readonly from: number;
  readonly to: number;
  readonly at: number;
  readonly text: string;
}

/** A level dimension with oblique ticks; the figure stands above the line, or beside it where there is no room. */
export function levelDimension({ from, to, at, text }: Level): SVGTemplateResult {
  const wide = to - from > text.length * 6.4;
  return svg`<g class="dimension">
    <line x1=${from} y1=${at - 8} x2=${from} y2=${at + 4}></line>
    <line x1=${to} y1=${at - 8} x2=${to} y2=${at + 4}></line>
    <line x1=${from - 4} y1=${at} x2=${to + 4} y2=${at}></line>
    ${tick(from, at)} ${tick(to, at)}
    <text x=${wide ? (from + to) / 2 : to + 8} y=${wide ? at - 4 : at + 4} text-anchor=${wide ? 'middle' : 'start'}>${text}</text>
  </g>`;
}

/** An upright dimension, read from the right of the sheet. */
export function uprightDimension({ from, to, at, text }: Level): SVGTemplateResult {
  const middle = (from + to) / 2;
  return svg`<g class="dimension">
    <line x1=${at - 4} y1=${from} x2=${at + 8} y2=${from}></line>
    <line x1=${at - 4} y1=${to} x2=${at + 8} y2=${to}></line>
    <line x1=${at} y1=${from - 4} x2=${at} y2=${to + 4}></line>
    ${tick(at, from)} ${tick(at, to)}
    <text text-anchor="middle" transform="translate(${at - 5} ${middle}) rotate(-90)">${text}</text>
  </g>`;
}

const isUpright = (slot: SlotLine): boolean => Math.abs(slot.x0_mm - slot.x1_mm) < 0.5;

/** The least pitch above the piece, between the first two slots that stand so close, where both are upright. */
export function pitchDimension(
  { slots, neighbours }: SetOut,
  panel: Job['panel'],
  frame: WallFrame,
): SVGTemplateResult | typeof nothing {
  const closest = neighbours.toSorted((a, b) => a.fromDistance_mm - b.fromDistance_mm)[0];
  const pair = slots.filter(({ id }) => id === closest?.slot || id === closest?.beside);
  if (!closest || !pair.every(isUpright)) return nothing;
  const [from_mm, to_mm] = pair.map((slot) => slot.x0_mm).sort((a, b) => a - b);
  const pitch_mm = closest.fromDistance_mm;
  return levelDimension({
    from: frame.x(from_mm!),
    to: frame.x(to_mm!),
    at: frame.y(panel.height_mm) - 28,
    text: fixed(pitch_mm, Number.isInteger(pitch_mm) ? 0 : 1),
  });
}

const roundLengths_mm = [10, 20, 50, 100, 200, 500, 1000, 2000, 5000];

/** A scale bar: true however large the drawing is shown or printed. */
function scaleBar(frame: WallFrame): SVGTemplateResult {
  const length_mm = roundLengths_mm.find((length) => length * frame.scale >= 60) ?? 5000;
  const length = length_mm * frame.scale;
  const x = frame.width - length - 24;
  const y = frame.height - 14;
  return svg`<g class="scale-bar">
    <rect x=${x} y=${y} width=${length / 2} height="4" class="scale-dark"></rect>
    <rect x=${x + length / 2} y=${y} width=${length / 2} height="4" class="scale-light"></rect>
    <text x=${x} y=${y - 4}>0</text>
    <text x=${x + length} y=${y - 4} text-anchor="end">${quantity(length_mm, 'mm')}</text>
  </g>`;
}

/** Overall measures, the corner everything is measured from, and the scale. */
export function overallDimensions(
  { width_mm, height_mm }: Job['panel'],
  frame: WallFrame,
): SVGTemplateResult {
  const [left, right] = [frame.x(0), frame.x(width_mm)];
  const [foot, head] = [frame.y(0), frame.y(height_mm)];
  return svg`${levelDimension({ from: left, to: right, at: frame.height - 36, text: quantity(width_mm, 'mm') })}
    ${uprightDimension({ from: head, to: foot, at: frame.left - 26, text: quantity(height_mm, 'mm') })}
    <g class="origin">
      <circle cx=${left} cy=${foot} r="4"></circle>
      <line x1=${left - 7} x2=${left + 7} y1=${foot} y2=${foot}></line>
      <line x1=${left} x2=${left} y1=${foot - 7} y2=${foot + 7}></line>
    </g>
    ${scaleBar(frame)}`;
}
