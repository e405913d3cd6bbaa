import { nothing, type SVGTemplateResult, svg } from 'lit';
import type { ProfilePart } from '../../src/answer/section.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import { forWidth } from '../../src/job/slot-widths.ts';
import { quantity } from '../format.ts';
import type { Answer } from '../state/store.ts';
import { levelDimension } from './dimensions.ts';
import { isotherms } from './isotherms.ts';

/** The most of the pitch that is drawn; wider sections are broken off at both sides. */
const widest_mm = 120;

/** Room left and right for the depth chain and the temperatures, and above and below for words. */
const edge = { left: 92, right: 210, top: 30, bottom: 46 };

/** From one temperature of the list to the next, in drawing units. */
const readingStep = 29;

/** Below this width the temperatures stand in the table only, and the drawing has their numbers. */
export const isNarrow = (width: number): boolean => width < 560;

type Temperature = Sizing['heat']['temperatures'][number];

interface Cut {
  readonly answer: Answer;
  readonly width: number;
  readonly scale: number;
  /** Half of what is drawn, mm. */
  readonly half_mm: number;
  readonly isBroken: boolean;
  readonly x: (fromMiddle_mm: number) => number;
  readonly y: (fromWall_mm: number) => number;
}

function cutOf(answer: Answer, width: number): Cut {
  const { pitch_mm } = answer.sizing.section;
  const half_mm = Math.min(widest_mm, pitch_mm) / 2;
  const narrow = isNarrow(width);
  const right = narrow ? 16 : edge.right;
  const left = narrow ? 64 : edge.left;
  const scale = Math.min((width - left - right) / (2 * half_mm), 240 / answer.sizing.section.depth_mm);
  const middle = left + (width - left - right) / 2;
  const listed = narrow ? 0 : answer.sizing.heat.temperatures.length * readingStep;
  const top = Math.max(edge.top, (listed - answer.sizing.section.depth_mm * scale) / 2 + 10);
  return {
    answer,
    width,
    scale,
    half_mm,
    isBroken: pitch_mm > widest_mm,
    x: (fromMiddle_mm) => middle + fromMiddle_mm * scale,
    y: (fromWall_mm) => top + fromWall_mm * scale,
  };
}

const hatches = svg`<defs>
  <pattern id="hatch-board" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
    <line class="hatch" x1="0" y1="0" x2="0" y2="7"></line>
  </pattern>
  <pattern id="hatch-front" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
    <line class="hatch" x1="0" y1="0" x2="0" y2="5"></line>
  </pattern>
  <pattern id="hatch-wall" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(20)">
    <circle class="hatch-dot" cx="2" cy="2" r="0.8"></circle><circle class="hatch-dot" cx="6.5" cy="6" r="0.6"></circle>
  </pattern>
</defs>`;

interface Block {
  readonly from_mm: number;
  readonly to_mm: number;
  readonly top_mm: number;
  readonly foot_mm: number;
}

const block = (cut: Cut, kind: string, { from_mm, to_mm, top_mm, foot_mm }: Block): SVGTemplateResult =>
  svg`<rect class=${kind} x=${cut.x(from_mm)} y=${cut.y(top_mm)}
    width=${Math.max(0, (to_mm - from_mm) * cut.scale)} height=${Math.max(0, (foot_mm - top_mm) * cut.scale)}></rect>`;

/** Board, cavity, battens, front and sheet, wall side up and room side down. */
function buildUp(cut: Cut): SVGTemplateResult {
  const { section, slots } = cut.answer.job;
  const b = section.backing.thickness_mm;
  const c = b + section.cavity_mm;
  const d = c + section.front.thickness_mm;
  const h = cut.half_mm;
  const s = slots.width_mm / 2;
  const batten = Math.min(h, section.batten_mm / 2);
  const sheet_mm = Math.min(section.coverThickness_mm, section.front.thickness_mm);
  const showsBatten = section.batten_mm > 0 && !cut.isBroken;
  return svg`${block(cut, 'wall-behind', { from_mm: -h, to_mm: h, top_mm: -14 / cut.scale, foot_mm: 0 })}
    ${block(cut, 'board', { from_mm: -h, to_mm: h, top_mm: 0, foot_mm: b })}
    ${block(cut, 'cavity', { from_mm: -h, to_mm: h, top_mm: b, foot_mm: c })}
    ${showsBatten ? block(cut, 'batten', { from_mm: -h, to_mm: -h + batten, top_mm: b, foot_mm: c }) : nothing}
    ${showsBatten ? block(cut, 'batten', { from_mm: h - batten, to_mm: h, top_mm: b, foot_mm: c }) : nothing}
    ${block(cut, 'front', { from_mm: -h, to_mm: -s, top_mm: c, foot_mm: d })}
    ${block(cut, 'front', { from_mm: s, to_mm: h, top_mm: c, foot_mm: d })}
    ${section.strip === 'recessed' ? block(cut, 'cavity', { from_mm: -s, to_mm: s, top_mm: c, foot_mm: d }) : nothing}
    ${section.cover === 'open' ? nothing : block(cut, 'slot-cover', { from_mm: -s, to_mm: s, top_mm: c, foot_mm: c + sheet_mm })}`;
}

/** The profile with the strip in it, part by part. */
function profile(cut: Cut, parts: readonly ProfilePart[]): SVGTemplateResult {
  const {
    job: { section },
    sizing,
  } = cut.answer;
  const { depth_mm, pitch_mm } = sizing.section;
  // On the side of a wide section the flank of the batten is drawn at the edge.
  const shift_mm =
    section.strip === 'side' && cut.isBroken ? cut.half_mm - (pitch_mm - section.batten_mm) / 2 : 0;
  return svg`${parts.map(({ part, x0_mm, x1_mm, y0_mm, y1_mm }) =>
    block(cut, { base: 'carrier', wall: 'carrier', cover: 'slot-cover', strip: 'strip' }[part], {
      ...{ from_mm: x0_mm + shift_mm, to_mm: x1_mm + shift_mm },
      ...{ top_mm: depth_mm - y1_mm, foot_mm: depth_mm - y0_mm },
    }),
  )}`;
}

/** Where the strip sits, as its middle on its face and the face it sits on. */
function strip(cut: Cut): SVGTemplateResult {
  const drawn = cut.answer.sizing.section.profile;
  if (drawn) return profile(cut, drawn);
  const { section, slots } = cut.answer.job;
  const width_mm = cut.answer.sizing.products.strip.width_mm;
  const b = section.backing.thickness_mm;
  const c = b + section.cavity_mm;
  const thick_mm = Math.max(1.2, 3 / cut.scale);
  const carrier_mm = section.carrier === 'none' ? 0 : section.carrierThickness_mm;
  const carrierHalf = section.carrierWidth_mm / 2;
  const half = width_mm / 2;
  const at = section.stripOffset_mm;
  if (section.strip === 'side') {
    const side = cut.half_mm - (cut.isBroken ? 0 : section.batten_mm / 2);
    const middle = (b + c) / 2;
    const place = { from_mm: side - thick_mm - carrier_mm, to_mm: side - carrier_mm };
    return block(cut, 'strip', { ...place, top_mm: middle - half, foot_mm: middle + half });
  }
  const onBack = section.strip === 'backing';
  const middle = onBack || at !== 0 ? at : slots.width_mm / 2 + half + 5;
  const faces = onBack
    ? { carrier: [b, b + carrier_mm], strip: [b + carrier_mm, b + carrier_mm + thick_mm] }
    : { carrier: [c - carrier_mm, c], strip: [c - carrier_mm - thick_mm, c - carrier_mm] };
  const part = (kind: string, reach: number, [top_mm, foot_mm]: readonly number[]) =>
    block(cut, kind, { from_mm: middle - reach, to_mm: middle + reach, top_mm: top_mm!, foot_mm: foot_mm! });
  return svg`${carrier_mm > 0 ? part('carrier', carrierHalf, faces.carrier) : nothing} ${part('strip', half, faces.strip)}`;
}

/** What hangs in a slot, as deep as the deepest of it comes: taken to fill its slot across. */
function hungParts(cut: Cut): SVGTemplateResult | typeof nothing {
  const { hung, section } = cut.answer.sizing;
  const reach_mm = Math.max(0, ...(hung ?? []).map((thing) => thing.reach_mm));
  if (reach_mm === 0) return nothing;
  const half = cut.answer.job.slots.width_mm / 2;
  const depth_mm = section.depth_mm;
  return block(cut, 'hung-body', {
    ...{ from_mm: -half, to_mm: half, top_mm: Math.max(0, depth_mm - reach_mm), foot_mm: depth_mm },
  });
}

/** Lines of equal temperature, once the careful answer has come with its field. */
function fieldLines(cut: Cut): SVGTemplateResult | typeof nothing {
  const { field } = cut.answer.sizing.heat;
  const { depth_mm } = cut.answer.sizing.section;
  return field ? isotherms(field, { ...cut, depth_mm, taken: readingsOf(cut).map(({ at }) => at) }) : nothing;
}

/** Zigzags where a wide section is broken off. */
function breaks(cut: Cut): SVGTemplateResult | typeof nothing {
  if (!cut.isBroken) return nothing;
  const [top, foot] = [cut.y(0) - 10, cut.y(cut.answer.sizing.section.depth_mm) + 10];
  const line = (x: number) => {
    const middle = (top + foot) / 2;
    return `M${x} ${top}V${middle - 8}l-5 4l10 8l-5 4V${foot}`;
  };
  return svg`<path class="break" d="${line(cut.x(-cut.half_mm))}${line(cut.x(cut.half_mm))}"></path>`;
}

/** Where the panel ends beside the slot, nearer than half way to the next one; beyond it nothing is drawn. */
function panelEnd(cut: Cut): SVGTemplateResult | typeof nothing {
  const { edge_mm, depth_mm } = cut.answer.sizing.section;
  if (!edge_mm || Math.abs(edge_mm) >= cut.half_mm) return nothing;
  const [x, far] = [cut.x(edge_mm), cut.x(Math.sign(edge_mm) * (cut.half_mm + 6 / cut.scale))];
  const [top, foot] = [cut.y(0) - 15, cut.y(depth_mm) + 6];
  return svg`<rect class="beyond-panel" x=${Math.min(x, far)} y=${top} width=${Math.abs(far - x)} height=${foot - top}></rect>
    <line class="panel-end" x1=${x} x2=${x} y1=${cut.y(0)} y2=${foot}></line>
    <text class="side-word" x=${x} y=${foot + 12} text-anchor="middle">panel ends</text>`;
}

/** The depth chain at the left: every layer, then the whole beside what is available. */
function depthChain(cut: Cut): SVGTemplateResult {
  const { layers, depth_mm } = cut.answer.sizing.section;
  const x = cut.x(-cut.half_mm) - 18;
  const heights = [0];
  for (const layer of layers) heights.push(heights.at(-1)! + layer.thickness_mm);
  return svg`<g class="dimension">
    <line x1=${x} x2=${x} y1=${cut.y(0) - 4} y2=${cut.y(depth_mm) + 4}></line>
    ${heights.map(
      (at) => svg`<line x1=${x - 4} x2=${x + 12} y1=${cut.y(at)} y2=${cut.y(at)}></line>
        <line class="tick" x1=${x - 3.5} x2=${x + 3.5} y1=${cut.y(at) + 3.5} y2=${cut.y(at) - 3.5}></line>`,
    )}
    ${layers.map((layer, i) => {
      const middle = (cut.y(heights[i]!) + cut.y(heights[i + 1]!)) / 2;
      return svg`<text x=${x - 8} y=${middle} dy="0.35em" text-anchor="end">${quantity(layer.thickness_mm, '')}</text>`;
    })}
  </g>`;
}

interface Reading {
  readonly temperature: Temperature;
  /** Number of its row in the table of temperatures. */
  readonly number: number;
  /** Where it is on the paper. */
  readonly at: readonly [number, number];
}

/** Temperatures that are at one place of what is drawn, from the wall to the room. */
function readingsOf(cut: Cut): Reading[] {
  const { temperatures } = cut.answer.sizing.heat;
  const { depth_mm } = cut.answer.sizing.section;
  const read = temperatures.flatMap((temperature, i) => {
    const { x_mm, y_mm } = temperature;
    if (x_mm === null || y_mm === null || Math.abs(x_mm) > cut.half_mm) return [];
    return [{ temperature, number: i + 1, at: [cut.x(x_mm), cut.y(depth_mm - y_mm)] as const }];
  });
  return read.sort((a, b) => a.at[1] - b.at[1] || a.at[0] - b.at[0]);
}

const isHot = ({ limit_degC, high_degC }: Temperature): boolean =>
  limit_degC !== null && high_degC > limit_degC;

/** One mark may stand for several temperatures at one place. */
function markClass(group: readonly Reading[], marked: string | undefined): string {
  const hot = group.some(({ temperature }) => isHot(temperature));
  const chosen = group.some(({ temperature }) => temperature.id === marked);
  return `reading ${hot ? 'is-hot' : ''} ${chosen ? 'is-marked' : ''}`;
}

/** Temperatures led out to the right, one under the other. */
function ledOut(cut: Cut, marked: string | undefined): SVGTemplateResult {
  const read = readingsOf(cut);
  const unknown = cut.answer.sizing.heat.unknown !== null;
  const x = cut.x(cut.half_mm) + 26;
  const top = cut.y(cut.answer.sizing.section.depth_mm / 2) - (read.length * readingStep) / 2 + 12;
  return svg`<g class="readings">
    ${read.map((reading, i) => {
      const { temperature, at } = reading;
      const y = top + i * readingStep;
      return svg`<g class=${markClass([reading], marked)}>
        <path d="M${at[0]} ${at[1]}L${x - 12} ${y}H${x - 3}"></path>
        <circle cx=${at[0]} cy=${at[1]} r="2.4"></circle>
        <text class="reading-value" x=${x} y=${y} dy="0.1em">${unknown ? 'not known' : quantity(temperature.value_degC, '°C')}${isHot(temperature) ? ' over its limit' : ''}</text>
        <text class="reading-name" x=${x} y=${y + 13}>${temperature.name}</text>
      </g>`;
    })}
  </g>`;
}

/** How near two places are one on a narrow drawing, so that their numbers share a mark. */
const sameMark = 14;

/** Where there is no room for words: the places with the numbers of their rows in the table below. */
function numbered(cut: Cut, marked: string | undefined): SVGTemplateResult {
  const groups: Reading[][] = [];
  for (const reading of readingsOf(cut)) {
    const near = groups.find(([first]) => {
      const [dx, dy] = [first!.at[0] - reading.at[0], first!.at[1] - reading.at[1]];
      return Math.hypot(dx, dy) < sameMark;
    });
    if (near) near.push(reading);
    else groups.push([reading]);
  }
  return svg`<g class="readings">
    ${groups.map((group) => {
      const [first] = group;
      const numbers = group.map(({ number }) => number).sort((a, b) => a - b);
      return svg`<g class=${markClass(group, marked)}>
        <circle cx=${first!.at[0]} cy=${first!.at[1]} r="2.8"></circle>
        <text class="reading-number" x=${first!.at[0] + 6} y=${first!.at[1]} dy="0.35em">${numbers.join(', ')}</text>
      </g>`;
    })}
  </g>`;
}

/** The horizontal cut through the build-up, to scale, with its temperatures. */
export function sectionCut(given: Answer, width: number, marked: string | undefined): SVGTemplateResult {
  const { job, sizing } = given;
  const answer = { ...given, job: forWidth(job, sizing.section.slotWidth_mm ?? job.slots.width_mm) };
  const cut = cutOf(answer, width);
  const foot = cut.y(answer.sizing.section.depth_mm);
  const s = answer.job.slots.width_mm / 2;
  const height = Math.max(foot + edge.bottom, foot + cut.y(0) - 10);
  return svg`<svg class="section-cut" width=${width} height=${height} viewBox="0 0 ${width} ${height}" role="img"
    aria-label=${sectionWords(answer.sizing)}>
    ${hatches}
    <text class="side-word" x=${cut.x(0)} y=${cut.y(0) - 18} text-anchor="middle">wall</text>
    ${buildUp(cut)} ${fieldLines(cut)} ${strip(cut)} ${hungParts(cut)} ${breaks(cut)} ${panelEnd(cut)} ${depthChain(cut)}
    ${levelDimension({ from: cut.x(-s), to: cut.x(s), at: foot + 18, text: quantity(2 * s, '') })}
    <text class="side-word" x=${cut.x(0)} y=${foot + 40} text-anchor="middle">room</text>
    ${isNarrow(width) ? numbered(cut, marked) : ledOut(cut, marked)}
  </svg>`;
}

function sectionWords({ heat, section }: Sizing): string {
  if (heat.unknown !== null)
    return `Section through the build-up, ${quantity(section.depth_mm, 'mm')} deep: temperatures not known`;
  const read = heat.temperatures.map((t) => `${t.name} ${quantity(t.value_degC, '°C')}`).join(', ');
  return `Section through the build-up, ${quantity(section.depth_mm, 'mm')} deep: ${read}`;
}
