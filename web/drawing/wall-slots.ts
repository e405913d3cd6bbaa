import { nothing, type SVGTemplateResult, svg } from 'lit';
import type { CircuitRun } from '../../src/answer/circuit.ts';
import type { Run, SlotLine } from '../../src/answer/set-out.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import { fixed, percent, quantity } from '../format.ts';
import type { WallView } from '../state/store.ts';
import { comparedColour, haloColour, lightColour } from './glow.ts';
import type { WallFrame } from './wall-frame.ts';

/** One slot with everything that is known of it. */
export interface DrawnSlot {
  readonly slot: SlotLine;
  readonly run: Run | undefined;
  readonly circuit: CircuitRun | undefined;
  /** At the working levels of its zone. */
  readonly luminance_cd_per_m2: number;
}

/** Puts slots, runs and circuit together by their ids. */
export function drawnSlots(sizing: Sizing): DrawnSlot[] {
  const runs = new Map(sizing.setOut.runs.map((run) => [run.slot, run]));
  const circuits = new Map(sizing.circuit.runs.map((run) => [run.run, run]));
  const luminances = new Map(
    sizing.light.zones.flatMap(({ slots, luminance_cd_per_m2 }) =>
      slots.map((slot) => [slot, luminance_cd_per_m2] as const),
    ),
  );
  return sizing.setOut.slots.map((slot) => {
    const run = runs.get(slot.id);
    return {
      ...{ slot, run, circuit: run && circuits.get(run.id) },
      luminance_cd_per_m2: luminances.get(slot.id) ?? 0,
    };
  });
}

/** The brightest unit of the wall, relative to nominal; 1 where nothing is lit. */
export const brightestOf = (sizing: Sizing): number =>
  sizing.circuit.runs.reduce((top, run) => run.unit_light.reduce((a, b) => Math.max(a, b), top), 0) || 1;

/** How slots are drawn: the frame, the view, and what turns light into colour. */
export interface SlotStyle {
  readonly frame: WallFrame;
  readonly panel: { readonly width_mm: number; readonly height_mm: number };
  readonly view: WallView;
  readonly hueHex: string;
  readonly brightest: number;
}

const leastWidth = 1.6;
const mostStops = 7;

const widthOf = (slot: SlotLine, frame: WallFrame): number =>
  Math.max(leastWidth, slot.width_mm * frame.scale);

const colourOf = (light: number, { luminance_cd_per_m2 }: DrawnSlot, style: SlotStyle): string =>
  style.view === 'compare'
    ? comparedColour(light / style.brightest)
    : lightColour(style.hueHex, light * luminance_cd_per_m2);

/** A few units evenly along the run: enough for a slow fall of light, and few enough for hundreds of slots. */
function sampled(light: readonly number[]): { readonly at: number; readonly light: number }[] {
  const count = Math.min(mostStops, light.length);
  return Array.from({ length: count }, (_, i) => {
    const index = count === 1 ? 0 : Math.round((i * (light.length - 1)) / (count - 1));
    return { at: (index + 0.5) / light.length, light: light[index]! };
  });
}

function gradient(drawn: DrawnSlot, index: number, style: SlotStyle): SVGTemplateResult | typeof nothing {
  const { run, circuit } = drawn;
  if (!run || !circuit) return nothing;
  const { x, y } = style.frame;
  return svg`<linearGradient
    id="lit-${index}"
    gradientUnits="userSpaceOnUse"
    x1=${x(run.x0_mm)} y1=${y(run.y0_mm)} x2=${x(run.x1_mm)} y2=${y(run.y1_mm)}
  >
    ${sampled(circuit.unit_light).map(
      (stop) => svg`<stop offset=${stop.at} stop-color=${colourOf(stop.light, drawn, style)}></stop>`,
    )}
  </linearGradient>`;
}

const lit = (drawn: DrawnSlot, index: number, width: number, { x, y }: WallFrame): SVGTemplateResult => {
  const run = drawn.run!;
  return svg`<line
    x1=${x(run.x0_mm)} y1=${y(run.y0_mm)} x2=${x(run.x1_mm)} y2=${y(run.y1_mm)}
    stroke="url(#lit-${index})" stroke-width=${width}
  ></line>`;
};

/** Spread of the halo in drawing units: it shrinks where slots stand close, so that walls of any size stay legible. */
function spreadOf(drawn: readonly DrawnSlot[], frame: WallFrame): number {
  const [first, second] = drawn;
  if (!first || !second) return 16;
  const dx = second.slot.x0_mm - first.slot.x0_mm;
  const dy = second.slot.y0_mm - first.slot.y0_mm;
  return Math.min(16, Math.max(2.5, 0.3 * Math.hypot(dx, dy) * frame.scale));
}

/** The halo of one slot takes the colour of its mean light: one solid stroke, blurred with all the others. */
function haloLine(drawn: DrawnSlot, width: number, style: SlotStyle): SVGTemplateResult | typeof nothing {
  const { run, circuit } = drawn;
  if (!run || !circuit) return nothing;
  const { x, y } = style.frame;
  const luminance = meanOf(circuit.unit_light) * drawn.luminance_cd_per_m2;
  return svg`<line
    x1=${x(run.x0_mm)} y1=${y(run.y0_mm)} x2=${x(run.x1_mm)} y2=${y(run.y1_mm)}
    stroke=${haloColour(style.hueHex, luminance)} stroke-width=${width}
  ></line>`;
}

function haloLayer(
  drawn: readonly DrawnSlot[],
  style: SlotStyle,
  spread: number,
  width: number,
): SVGTemplateResult {
  const id = `halo-${Math.round(spread * 10)}`;
  return svg`<filter id=${id} filterUnits="userSpaceOnUse" x="0" y="0" width=${style.frame.width} height=${style.frame.height}>
      <feGaussianBlur stdDeviation=${spread}></feGaussianBlur>
    </filter>
    <g filter="url(#${id})">${drawn.map((one) => haloLine(one, width, style))}</g>`;
}

/** A wide and a near halo, cut off at the edge of the panel. */
function halo(drawn: readonly DrawnSlot[], style: SlotStyle): SVGTemplateResult {
  const spread = spreadOf(drawn, style.frame);
  return svg`<g class="halo" clip-path="url(#panel-clip)">
    ${haloLayer(drawn, style, spread, spread * 0.7)} ${haloLayer(drawn, style, spread / 3.5, spread * 0.4 + 2)}
  </g>`;
}

/** The openings, the light in them and its halo: everything of the slots that is not to be clicked. */
export function slotLight(drawn: readonly DrawnSlot[], style: SlotStyle): SVGTemplateResult {
  const { frame } = style;
  return svg`<defs>${drawn.map((one, i) => gradient(one, i, style))}</defs>
    ${style.view === 'glow' ? halo(drawn, style) : nothing}
    <g class="openings">
      ${drawn.map(
        ({ slot }) => svg`<line
          x1=${frame.x(slot.x0_mm)} y1=${frame.y(slot.y0_mm)} x2=${frame.x(slot.x1_mm)} y2=${frame.y(slot.y1_mm)}
          stroke-width=${widthOf(slot, frame)}
        ></line>`,
      )}
    </g>
    <g class="lights">
      ${drawn.map((one, i) => (one.run ? lit(one, i, widthOf(one.slot, frame), frame) : nothing))}
    </g>`;
}

const slotNumber = (slot: SlotLine): string => slot.id.replace(/^S0*/, '');

/** A sentence about a slot for those who do not see the drawing. */
function slotSentence({ slot, circuit }: DrawnSlot): string {
  const length = `Slot ${slotNumber(slot)}, ${quantity(slot.length_mm, 'mm', 0)}`;
  if (!circuit) return `${length}, no strip`;
  return `${length}, lowest ${quantity(circuit.lowest_V, 'V')}, brightness drops off by ${percent(circuit.fall)}`;
}

const meanOf = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

function labelOf(drawn: DrawnSlot, style: SlotStyle): string {
  if (style.view !== 'compare' || !drawn.circuit) return slotNumber(drawn.slot);
  return fixed((100 * meanOf(drawn.circuit.unit_light)) / style.brightest, 0);
}

/** Slots to be chosen: where they are, which is chosen, and what happens. */
export interface SlotChoice {
  readonly chosenRun: string | undefined;
  /** Numbers of the slots that are picked to be changed together. */
  readonly picked: readonly number[];
  readonly choose: (drawn: DrawnSlot, event: MouseEvent) => void;
  readonly move: (event: KeyboardEvent, index: number) => void;
}

/** Every how many slots a number is written, so that numbers keep clear of one another. */
function numberEvery(drawn: readonly DrawnSlot[], { frame, view }: SlotStyle): number {
  const [first, second] = drawn;
  if (!first || !second) return 1;
  const pitch =
    Math.hypot(second.slot.x1_mm - first.slot.x1_mm, second.slot.y1_mm - first.slot.y1_mm) * frame.scale;
  const needed = Math.ceil((view === 'compare' ? 26 : 20) / Math.max(0.5, pitch));
  return [1, 2, 5, 10, 20, 50, 100].find((step) => step >= needed) ?? 100;
}

function chosenOutline(slot: SlotLine, frame: WallFrame): SVGTemplateResult {
  const length = slot.length_mm * frame.scale;
  const width = widthOf(slot, frame) + 8;
  const angle = (Math.atan2(slot.y0_mm - slot.y1_mm, slot.x1_mm - slot.x0_mm) * 180) / Math.PI;
  return svg`<rect
    class="chosen-outline" x="-4" y=${-width / 2} width=${length + 8} height=${width}
    transform="translate(${frame.x(slot.x0_mm)} ${frame.y(slot.y0_mm)}) rotate(${angle})"
  ></rect>`;
}

interface Mark {
  readonly x: number;
  readonly y: number;
  readonly isOutside: boolean;
}

/** Beyond the finish of the slot, or beyond the edge of the panel where the margin is too narrow for a number. */
function markOf(slot: SlotLine, style: SlotStyle): Mark {
  const { frame, panel } = style;
  const ux = (slot.x1_mm - slot.x0_mm) / slot.length_mm;
  const uy = (slot.y1_mm - slot.y0_mm) / slot.length_mm;
  const x = frame.x(slot.x1_mm) + 11 * ux;
  const y = frame.y(slot.y1_mm) - 9 * uy;
  const head = frame.y(panel.height_mm);
  const right = frame.x(panel.width_mm);
  if (y < head + 7) return { x, y: head - 8, isOutside: true };
  if (x > right - 8) return { x: right + 10, y, isOutside: true };
  return { x, y, isOutside: false };
}

function numberMark(drawn: DrawnSlot, style: SlotStyle, chosen: boolean): SVGTemplateResult {
  const { x, y, isOutside } = markOf(drawn.slot, style);
  return svg`<text
    class="slot-number ${isOutside ? 'is-outside' : ''} ${chosen ? 'is-chosen' : ''}" x=${x} y=${y} dy="0.35em" text-anchor="middle"
  >${labelOf(drawn, style)}</text>`;
}

/** The number of every few slots, and of the chosen one. What a slot is called stands on the slot itself. */
export function slotNumbers(
  drawn: readonly DrawnSlot[],
  style: SlotStyle,
  chosenRun: string | undefined,
): SVGTemplateResult {
  const every = numberEvery(drawn, style);
  return svg`<g aria-hidden="true">
    ${drawn.map((one, i) => {
      const chosen = one.run !== undefined && one.run.id === chosenRun;
      const shown = chosen || i === 0 || (i + 1) % every === 0;
      return shown ? numberMark(one, style, chosen) : nothing;
    })}
  </g>`;
}

/** The clickable side of the slots: one stop for the Tab key, arrow keys from slot to slot. */
export function slotTargets(
  drawn: readonly DrawnSlot[],
  style: SlotStyle,
  choice: SlotChoice,
): SVGTemplateResult {
  const { frame } = style;
  const stop = Math.max(
    0,
    drawn.findIndex((one) => one.run?.id === choice.chosenRun),
  );
  return svg`${drawn.map((one, i) => {
    const chosen = i === stop && one.run?.id === choice.chosenRun;
    const isPicked = choice.picked.includes(one.slot.number);
    return svg`<g
      class="slot ${chosen ? 'is-chosen' : ''} ${isPicked ? 'is-picked' : ''}" role="button" data-slot=${one.slot.id} data-number=${one.slot.number}
      tabindex=${i === stop ? 0 : -1} aria-pressed=${chosen || isPicked ? 'true' : 'false'} aria-label=${slotSentence(one)}
      @click=${(event: MouseEvent) => choice.choose(one, event)}
      @keydown=${(event: KeyboardEvent) => choice.move(event, i)}
    >
      <line class="slot-target"
        x1=${frame.x(one.slot.x0_mm)} y1=${frame.y(one.slot.y0_mm)}
        x2=${frame.x(one.slot.x1_mm)} y2=${frame.y(one.slot.y1_mm)} stroke-width=${Math.max(10, widthOf(one.slot, frame))}
      ></line>
      ${chosen || isPicked ? chosenOutline(one.slot, frame) : nothing}
    </g>`;
  })}`;
}
