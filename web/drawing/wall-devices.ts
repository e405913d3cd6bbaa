import { nothing, type SVGTemplateResult, svg } from 'lit';
import type { CaseAt } from '../../src/answer/cases.ts';
import type { Driver, PlacedCase } from '../../src/answer/drivers.ts';
import type { Block, Dimmer, Standing } from '../../src/answer/installation.ts';
import type { DriverPlace, Job } from '../../src/job/job.ts';
import { quantity } from '../format.ts';
import type { Answer } from '../state/store.ts';
import type { WallFrame } from './wall-frame.ts';
import { markClass, type WiringChoice } from './wall-wiring.ts';

interface Box {
  readonly x: number;
  readonly y: number;
  readonly wide: number;
  readonly high: number;
}

const boxOf = (at: CaseAt, frame: WallFrame): Box => ({
  x: frame.x(at.x_mm),
  y: frame.y(at.y_mm + at.up_mm),
  wide: at.across_mm * frame.scale,
  high: at.up_mm * frame.scale,
});

/** The side the outgoing terminals are on: a stroke over the middle half of it, as thick as the case leaves room for. */
function terminalSide(at: CaseAt, frame: WallFrame): SVGTemplateResult {
  const isUpright = at.faces === 'left' || at.faces === 'right';
  const half = 0.25 * frame.scale * (isUpright ? at.up_mm : at.across_mm);
  const thick = Math.min(4, Math.max(1, 0.2 * frame.scale * Math.min(at.up_mm, at.across_mm)));
  const [x, y] = [frame.x(at.out_x_mm), frame.y(at.out_y_mm)];
  const [dx, dy] = isUpright ? [0, half] : [half, 0];
  return svg`<line class="terminal-side" data-faces=${at.faces} stroke-width=${thick} x1=${x - dx} y1=${y - dy} x2=${x + dx} y2=${y + dy}></line>`;
}

/** A converter (IEC 60617): a box with a diagonal, alternating in, direct out, drawn to the size of its case. */
function driverSymbol(
  driver: Driver,
  at: PlacedCase,
  frame: WallFrame,
  choice: WiringChoice,
): SVGTemplateResult {
  const { x, y, wide, high } = boxOf(at, frame);
  const mark = markClass(choice.picked.driver === driver.id, choice.belonging.drivers.has(driver.id));
  return svg`<g class="driver ${mark}" data-driver=${driver.id} @click=${() => choice.pick({ driver: driver.id })}>
    <rect class="device-case" x=${x} y=${y} width=${wide} height=${high}></rect>
    <line class="device-case" x1=${x} y1=${y + high} x2=${x + wide} y2=${y}></line>
    ${terminalSide(at, frame)}
    <title>${driver.id}: ${driver.name}, ${quantity(driver.watts, 'W')}; output terminals ${at.faces}</title>
  </g>`;
}

const waysText = ({ ways }: Block): string => {
  const fused = ways.filter(({ fuse }) => fuse !== null).length;
  return `${ways.length} ways, ${fused === 0 ? 'no fuses' : `${fused} fused`}`;
};

/** A distribution block: a box to the size of its case, with a stroke between its ways. */
function blockSymbol(block: Block, at: Standing, answer: Answer, frame: WallFrame, choice: WiringChoice) {
  const { x, y, wide, high } = boxOf(at, frame);
  const feed = answer.sizing.cables.find(({ to }) => to.kind === 'block' && to.id === block.id);
  const share = (i: number): number => (i + 1) / block.ways.length;
  const isUpright = at.faces === 'left' || at.faces === 'right';
  return svg`<g class="block ${markClass(false, choice.belonging.devices.has(block.id))}" data-block=${block.id}
    @click=${() => feed && choice.pick({ cable: feed.id })}>
    <rect class="device-case" x=${x} y=${y} width=${wide} height=${high}></rect>
    ${block.ways
      .slice(0, -1)
      .map((_, i) =>
        isUpright
          ? svg`<line class="way-line" x1=${x} x2=${x + wide} y1=${y + share(i) * high} y2=${y + share(i) * high}></line>`
          : svg`<line class="way-line" x1=${x + share(i) * wide} x2=${x + share(i) * wide} y1=${y} y2=${y + high}></line>`,
      )}
    ${terminalSide(at, frame)}
    <title>${block.id}: distribution block of ${block.output}, ${waysText(block)}</title>
  </g>`;
}

/** A dimmer: a box to the size of its case with an arrow across it, what can be set (IEC 60617). */
function dimmerSymbol(dimmer: Dimmer, at: Standing, answer: Answer, frame: WallFrame, choice: WiringChoice) {
  const { x, y, wide, high } = boxOf(at, frame);
  const feed = answer.sizing.cables.find(({ to }) => to.kind === 'dimmer' && to.id === dimmer.id);
  const head = 0.3 * Math.min(wide, high);
  return svg`<g class="dimmer ${markClass(false, choice.belonging.devices.has(dimmer.id))}" data-dimmer=${dimmer.id}
    @click=${() => feed && choice.pick({ cable: feed.id })}>
    <rect class="device-case" x=${x} y=${y} width=${wide} height=${high}></rect>
    <polyline class="dimmer-arrow" points=${`${x},${y + high} ${x + wide},${y} ${x + wide - head},${y}`}></polyline>
    <line class="dimmer-arrow" x1=${x + wide} y1=${y} x2=${x + wide} y2=${y + head}></line>
    ${terminalSide(at, frame)}
    <title>${dimmer.id}: ${dimmer.name}, dims ${dimmer.output}</title>
  </g>`;
}

const dimmersIn = ({ sizing }: Answer, place: DriverPlace): (readonly [Dimmer, Standing])[] =>
  sizing.installation.dimmers.flatMap((dimmer) =>
    dimmer.standing?.place === place.name ? [[dimmer, dimmer.standing] as const] : [],
  );

const blocksIn = ({ sizing }: Answer, place: DriverPlace): (readonly [Block, Standing])[] =>
  sizing.installation.blocks.flatMap((block) =>
    block.standing?.place === place.name ? [[block, block.standing] as const] : [],
  );

/** Names of the devices of a place; a remote one says how much cable it is away. */
function placeLabel(ids: readonly string[], { kind, cable_mm }: DriverPlace): string {
  const names = ids.length > 2 ? `${ids[0]} to ${ids.at(-1)}` : ids.join(', ');
  if (kind === 'box') return names;
  return `${names}, ${cable_mm === null ? 'remote' : `${quantity(cable_mm / 1000, 'm')} of cable away`}`;
}

interface Stand {
  readonly anchor: 'start' | 'middle' | 'end';
  readonly at: string;
}

/**
 * Beneath the top of its place where it fits there; else beside it: level, towards the panel's middle, where the place
 * lies above or below the panel, else upright on the side away from it.
 */
function standOf(text: string, place: DriverPlace, { panel }: Job, frame: WallFrame): Stand {
  const { x_mm, y_mm, width_mm, height_mm } = place;
  const middle_mm = x_mm + width_mm / 2;
  const [left, right, foot] = [frame.x(x_mm), frame.x(x_mm + width_mm), frame.y(y_mm)];
  const head = frame.y(y_mm + height_mm);
  if (right - left > 7 * text.length && foot - head > 16)
    return { anchor: 'middle', at: `translate(${frame.x(middle_mm)} ${head + 12})` };
  const isLeft = middle_mm < panel.width_mm / 2;
  if (y_mm + height_mm <= 0 || y_mm >= panel.height_mm) {
    const beside = isLeft ? right + 6 : left - 6;
    return { anchor: isLeft ? 'start' : 'end', at: `translate(${beside} ${(head + foot) / 2 + 4})` };
  }
  return { anchor: 'start', at: `translate(${isLeft ? left - 4 : right + 11} ${foot}) rotate(-90)` };
}

/** Where drivers, dimmers and blocks go: drawn before the cables, which run through it. */
export function placeOutlines({ job }: Answer, frame: WallFrame): SVGTemplateResult[] {
  return job.drivers.places.map(
    (place) => svg`<rect class="place-outline is-${place.kind}"
      x=${frame.x(place.x_mm)} y=${frame.y(place.y_mm + place.height_mm)}
      width=${place.width_mm * frame.scale} height=${place.height_mm * frame.scale}></rect>`,
  );
}

function devicesIn(
  place: DriverPlace,
  answer: Answer,
  frame: WallFrame,
  choice: WiringChoice,
): SVGTemplateResult {
  const here = answer.sizing.drivers.drivers.filter((driver) => driver.place === place.name);
  const cases = answer.sizing.drivers.places.find(({ name }) => name === place.name)?.cases ?? [];
  const label = placeLabel(
    here.map((driver) => driver.id),
    place,
  );
  const stand = standOf(label, place, answer.job, frame);
  return svg`<g class="driver-place">
    ${here.map((driver) => {
      const at = cases.find((each) => each.driver === driver.id);
      return at ? driverSymbol(driver, at, frame, choice) : nothing;
    })}
    ${dimmersIn(answer, place).map(([dimmer, at]) => dimmerSymbol(dimmer, at, answer, frame, choice))}
    ${blocksIn(answer, place).map(([block, at]) => blockSymbol(block, at, answer, frame, choice))}
    <text class="driver-label" text-anchor=${stand.anchor} transform=${stand.at}>${label}</text>
  </g>`;
}

/** Drivers, dimmers and distribution blocks where they stand, each with the side its outgoing terminals are on. */
export function wallDevices(answer: Answer, frame: WallFrame, choice: WiringChoice): SVGTemplateResult {
  return svg`<g class="wiring">
    ${answer.job.drivers.places.map((place) => devicesIn(place, answer, frame, choice))}
  </g>`;
}
