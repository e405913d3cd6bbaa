import { nothing, type SVGTemplateResult, svg } from 'lit';
import type { HungThingAnswer } from '../../src/answer/hung.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import { quantity } from '../format.ts';
import type { WallFrame } from './wall-frame.ts';

/** A band of a slot about a middle, across and along it, in the drawing. */
function band(
  { x0_mm, y0_mm, x1_mm, y1_mm }: HungThingAnswer,
  length_mm: number,
  wide: number,
  { x, y, scale }: WallFrame,
): string {
  const whole = Math.hypot(x1_mm - x0_mm, y1_mm - y0_mm);
  const [ex, ey] = [(x1_mm - x0_mm) / whole, -(y1_mm - y0_mm) / whole];
  const [mx, my] = [x((x0_mm + x1_mm) / 2), y((y0_mm + y1_mm) / 2)];
  const [along, across] = [(length_mm * scale) / 2, wide / 2];
  const corner = (a: number, b: number): string =>
    `${mx + a * along * ex - b * across * ey} ${my + a * along * ey + b * across * ex}`;
  return `M${corner(-1, -1)}L${corner(1, -1)}L${corner(1, 1)}L${corner(-1, 1)}Z`;
}

function words({ name, width_mm, slides, dark_mm }: HungThingAnswer): string {
  const dark = dark_mm === null ? '' : `, darkens ${quantity(dark_mm, 'mm', 0)}`;
  return `${name || 'Hung'}: ${quantity(width_mm, 'mm')} wide${slides ? ', slides' : ''}${dark}`;
}

function hungMark(
  thing: HungThingAnswer,
  slotWidth_mm: number,
  frame: WallFrame,
): SVGTemplateResult | typeof nothing {
  if (thing.slot === null) return nothing;
  const wide = Math.max(3, slotWidth_mm * frame.scale);
  const taken_mm = Math.hypot(thing.x1_mm - thing.x0_mm, thing.y1_mm - thing.y0_mm);
  const dark = thing.dark_mm === null ? '' : band(thing, thing.dark_mm, wide, frame);
  return svg`<g class="hung" role="img" aria-label=${words(thing)}>
    ${thing.slides ? svg`<path class="hung-way" d=${band(thing, taken_mm, wide + 4, frame)}></path>` : nothing}
    ${dark === '' ? nothing : svg`<path class="hung-shade" d=${dark}></path>`}
    <path class="hung-body" d=${band(thing, thing.width_mm, wide + 2, frame)}></path>
    <title>${words(thing)}</title>
  </g>`;
}

/** What hangs in the slots, with the piece of the slot it darkens; what slides in the middle of its way. Answers issued earlier have none. */
export const wallHung = (
  { hung, setOut }: Sizing,
  frame: WallFrame,
): (SVGTemplateResult | typeof nothing)[] =>
  (hung ?? []).map((thing) =>
    hungMark(thing, setOut.slots.find(({ id }) => id === thing.slot)?.width_mm ?? 0, frame),
  );
