import type { Sizing } from '../../../src/answer/sizing.ts';
import type { Job } from '../../../src/job/job.ts';
import { profileWidth_mm } from '../../../src/job/profile.ts';
import { forWidth } from '../../../src/job/slot-widths.ts';
import { dimension_em, dimensions } from '../ink/dimension.ts';
import { hatched } from '../ink/hatch.ts';
import { legible } from '../ink/legible.ts';
import { leading, wrapped } from '../ink/lettering.ts';
import {
  circle,
  corners,
  type Extents,
  filled,
  lettering,
  line,
  type Mark,
  outline,
  type Point,
} from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { behindShortly } from '../wall-behind.ts';
import type { Drawing } from './scale.ts';

/** How far from the middle of the slot the section is drawn, mm; the boards are broken off there. */
const usual_mm = 58;
/** As far as it reaches to show a batten, and how much of the batten is shown, mm. */
const widest_mm = 80;
const battenShown_mm = 12;
/** Strip with its lamps is drawn this thick; data sheets print 1.5 to 3 mm. */
const stripThickness_mm = 2;

/** A part of the section, as drawn and as named beside it. */
interface Part {
  readonly box: Extents;
  readonly name: string;
  readonly marks: readonly Mark[];
}

/** Levels from the room face (0) to the back of the backing, and how far to the sides the section is drawn, mm. */
interface Levels {
  readonly rear: number;
  readonly cavity: number;
  readonly back: number;
  readonly half: number;
  readonly batten: number;
}

/** Wide enough for the slot, the carrier and, where it is near, a part of the batten. */
function halfWidth_mm({ section, slots }: Job, { profile }: Sizing['products'], batten_mm: number): number {
  const carrier_mm =
    section.carrier === 'none' ? (profile ? profileWidth_mm(profile) / 2 : 0) : section.carrierWidth_mm / 2;
  const needed = Math.max(usual_mm, slots.width_mm, carrier_mm + Math.abs(section.stripOffset_mm) + 8);
  const withBatten = batten_mm + Math.min(section.batten_mm, battenShown_mm);
  return section.batten_mm > 0 && withBatten <= Math.max(widest_mm, needed) ? withBatten : needed;
}

function levelsOf(job: Job, sizing: Sizing): Levels {
  const { front, cavity_mm, backing, batten_mm } = job.section;
  const { pitch_mm } = sizing.section;
  const rear = front.thickness_mm;
  const batten = (pitch_mm - batten_mm) / 2;
  return {
    rear,
    cavity: rear + cavity_mm,
    back: rear + cavity_mm + backing.thickness_mm,
    half: halfWidth_mm(job, sizing.products, batten),
    batten,
  };
}

const figure = (value: number): string => shown(value, Number.isInteger(value) ? 0 : 1);
const mm = (value: number): string => `${figure(value)} mm`;

function boardPart(box: Extents, name: string, step: number, slope: 'rising' | 'falling'): Part {
  return { box, name, marks: [...hatched(box, step, slope), outline('BOARDS', ...corners(box))] };
}

function boards(job: Job, sizing: Sizing, levels: Levels): Part[] {
  const { front, backing } = job.section;
  const { half, rear, cavity, back } = levels;
  const edge = job.slots.width_mm / 2;
  const frontName = `Front, ${front.material}, ${mm(front.thickness_mm)}`;
  const left = boardPart({ x0: -half, y0: 0, x1: -edge, y1: rear }, '', 3, 'rising');
  return [
    { ...left, name: '' },
    boardPart({ x0: edge, y0: 0, x1: half, y1: rear }, frontName, 3, 'rising'),
    boardPart(
      { x0: -half, y0: cavity, x1: half, y1: back },
      `Backing, ${backing.material}, ${mm(backing.thickness_mm)}; behind it ${behindShortly(job, sizing)}`,
      2,
      'falling',
    ),
  ];
}

function battens(job: Job, levels: Levels): Part[] {
  const { batten_mm } = job.section;
  const { half, rear, cavity, batten } = levels;
  if (batten_mm === 0 || batten >= half) return [];
  const name = `Batten between the slots, ${mm(batten_mm)} wide`;
  return [-1, 1].map((side) => {
    const near = side * batten;
    const far = side * Math.min(half, batten + batten_mm);
    const box = { x0: Math.min(near, far), y0: rear, x1: Math.max(near, far), y1: cavity };
    const [a, b, c, d] = corners(box);
    // Crossed corners: timber cut across its grain.
    const marks = [outline('BATTENS', a, b, c, d), line('HATCHING', a, c), line('HATCHING', b, d)];
    return { box, name: side === 1 ? name : '', marks };
  });
}

function cover(job: Job, { rear }: Levels): Part[] {
  const { section, slots } = job;
  if (section.cover === 'open') return [];
  const box = {
    x0: -slots.width_mm / 2,
    y0: rear - section.coverThickness_mm,
    x1: slots.width_mm / 2,
    y1: rear,
  };
  const name = `${section.cover.charAt(0).toUpperCase()}${section.cover.slice(1)}, ${mm(section.coverThickness_mm)}, flush with the rear of the front`;
  return [{ box, name, marks: [outline('COVER', ...corners(box))] }];
}

/** A box on the face the strip is stuck to: so far along the face, so far from it. */
function onFace(
  job: Job,
  levels: Levels,
  along: readonly [number, number],
  off: readonly [number, number],
): Extents {
  const { strip } = job.section;
  if (strip === 'backing')
    return { x0: along[0], x1: along[1], y0: levels.cavity - off[1], y1: levels.cavity - off[0] };
  if (strip === 'front')
    return { x0: along[0], x1: along[1], y0: levels.rear + off[0], y1: levels.rear + off[1] };
  const wall = Math.min(levels.half, levels.batten);
  return { x0: wall - off[1], x1: wall - off[0], y0: along[0], y1: along[1] };
}

/** The profile with its cover, and the strip in it; at the side of a wide section it is drawn at the edge. */
function profileParts(job: Job, { products, section }: Sizing, levels: Levels): Part[] {
  const { strip, profile } = products;
  const isSide = job.section.strip === 'side';
  const shift = isSide ? Math.min(levels.half, levels.batten) - levels.batten : 0;
  const layers = {
    base: 'ALUMINIUM_PROFILE',
    wall: 'ALUMINIUM_PROFILE',
    cover: 'COVER',
    strip: 'STRIP',
  } as const;
  const { inside_mm, height_mm, wall_mm, base_mm, cover } = profile!;
  const names = {
    base: `${profile!.name}: walls ${mm(wall_mm)}, base ${mm(base_mm)}, ${profile!.finish ?? 'anodised'}, fixed by ${profile!.fixing}`,
    wall: '',
    cover: cover ? `Cover of the profile, ${cover.kind}, ${mm(cover.thickness_mm)}` : '',
    strip: `Strip, ${strip.name}, ${mm(strip.width_mm)} wide, in the profile, ${figure(inside_mm)} × ${mm(height_mm)} inside`,
  };
  return section.profile!.map(({ part, x0_mm, x1_mm, y0_mm, y1_mm }) => {
    const box = { x0: x0_mm + shift, y0: y0_mm, x1: x1_mm + shift, y1: y1_mm };
    const marks = [
      part === 'strip' ? filled('STRIP', ...corners(box)) : outline(layers[part], ...corners(box)),
    ];
    return { box, name: names[part], marks };
  });
}

function stripAndCarrier(job: Job, sizing: Sizing, levels: Levels): Part[] {
  // Revisions issued before there were profiles have no such key.
  if (sizing.section.profile) return profileParts(job, sizing, levels);
  const { strip } = sizing.products;
  const { section } = job;
  const middle =
    section.strip === 'side'
      ? levels.rear + section.cavity_mm / 2 - section.stripOffset_mm
      : section.stripOffset_mm;
  const span = (width: number): [number, number] => [middle - width / 2, middle + width / 2];
  const thick = section.carrier === 'none' ? 0 : section.carrierThickness_mm;
  const stripBox = onFace(job, levels, span(strip.width_mm), [thick, thick + stripThickness_mm]);
  const on = thick > 0 ? 'aluminium flat' : section.strip;
  const stripPart = {
    box: stripBox,
    name: `Strip, ${strip.name}, ${mm(strip.width_mm)} wide, on the ${on}${section.strip === 'side' ? `, its middle ${mm(middle - levels.rear)} behind the front` : ''}`,
    marks: [filled('STRIP', ...corners(stripBox))],
  };
  if (thick === 0) return [stripPart];
  const carrierBox = onFace(job, levels, span(section.carrierWidth_mm), [0, thick]);
  const { carrierFinish, carrierFixing } = section;
  const name = `Aluminium flat, ${mm(section.carrierWidth_mm)} × ${mm(thick)}${carrierFinish === 'bare' ? ', bare' : ''}${carrierFixing ? `, fixed by ${carrierFixing}` : ''}`;
  return [{ box: carrierBox, name, marks: [outline('ALUMINIUM_FLAT', ...corners(carrierBox))] }, stripPart];
}

function cavityPart(job: Job, { rear, cavity, batten, half }: Levels): Part {
  const x = Math.min(batten, half) * 0.75;
  const middle = (rear + cavity) / 2;
  const box = { x0: x - 1, y0: middle - 1, x1: x + 1, y1: middle + 1 };
  const { backFinish, sideFinish, frontFinish, revealFinish, cavity_mm } = job.section;
  const finishes = [...new Set([backFinish, sideFinish, frontFinish])].join(', ');
  const reveal = revealFinish && revealFinish !== frontFinish ? `; sides of the slot: ${revealFinish}` : '';
  return { box, name: `Cavity, ${mm(cavity_mm)}, inside: ${finishes}${reveal}`, marks: [] };
}

/** The deepest of what hangs in the slots, taken to fill its slot across. Answers issued earlier have none. */
function hungPart({ slots }: Job, { hung }: Sizing): Part[] {
  const deepest = (hung ?? []).reduce<Sizing['hung'][number] | null>(
    (most, thing) => (most === null || thing.reach_mm > most.reach_mm ? thing : most),
    null,
  );
  if (deepest === null || deepest.reach_mm === 0) return [];
  const box = { x0: -slots.width_mm / 2, y0: 0, x1: slots.width_mm / 2, y1: deepest.reach_mm };
  const name = `${deepest.name || 'Hung in a slot'}, ${mm(deepest.reach_mm)} behind the face`;
  return [{ box, name, marks: [outline('HUNG', ...corners(box))] }];
}

/** Widest line of a name, mm of the paper. */
const label_mm = 52;

/** Names in a column at the right, each with a leader to its part, in the order of the parts from the room up. */
function leaders(parts: readonly Part[], levels: Levels, perPaper: number): Mark[] {
  const em = dimension_em * perPaper;
  const middleOf = ({ box }: Part): number => (box.y0 + box.y1) / 2;
  const named = parts
    .filter((part) => part.name !== '')
    .toSorted((a, b) => middleOf(a) - middleOf(b) || a.box.x1 - b.box.x1)
    .map((part) => ({ part, lines: wrapped(part.name, label_mm * perPaper, { em }) }));
  const height = (lines: readonly string[]): number => Math.max(2.4, lines.length * leading + 0.8) * em;
  const x = levels.half + 25 * perPaper;
  let top = levels.back / 2 - named.reduce((sum, { lines }) => sum + height(lines), 0) / 2;
  return named.flatMap(({ part, lines }): Mark[] => {
    top += height(lines);
    const y = top - 0.5 * em;
    const inside = Math.min(part.box.x1 - Math.min(1, (part.box.x1 - part.box.x0) / 4), levels.half - 6);
    const point: Point = [inside, middleOf(part)];
    const elbow: Point = [levels.half + 20 * perPaper, y];
    return [
      circle('DIMENSIONS', point, 0.45 * perPaper, true),
      line('DIMENSIONS', point, elbow, [x - perPaper, y]),
      ...lines.map((text, k) =>
        lettering({ layer: 'LETTERING', at: [x, y - 0.36 * em - k * leading * em], text, em }),
      ),
    ];
  });
}

/** Wavy edges would be prettier; a zigzag says the same: the boards go on. */
function breakMarks({ half, back }: Levels, perPaper: number): Mark[] {
  const over = 2.5 * perPaper;
  const zig = 1.2 * perPaper;
  const middle = back / 2;
  return [-half, half].map((x) =>
    line(
      'BREAKS',
      [x, -over],
      [x, middle - zig],
      [x - zig, middle - zig / 3],
      [x + zig, middle + zig / 3],
      [x, middle + zig],
      [x, back + over],
    ),
  );
}

/** Whether the strip lies to one side of its slot, on a face along which that can be measured. */
const isBeside = ({ strip, stripOffset_mm }: Job['section']): boolean =>
  strip !== 'side' && stripOffset_mm !== 0;

/** From the middle of the slot to the middle of the strip. */
function offsetMarks(section: Job['section'], perPaper: number): Mark[] {
  if (!isBeside(section)) return [];
  const { stripOffset_mm } = section;
  return dimensions({
    axis: 'level',
    stops: [Math.min(0, stripOffset_mm), Math.max(0, stripOffset_mm)],
    texts: [`${figure(Math.abs(stripOffset_mm))} to the middle of the strip`],
    from: 0,
    // Below the width of the slot, whose figure stands in its middle.
    past: (stop) => (stop === 0 ? -7 * perPaper : null),
    at: -14 * perPaper,
    perPaper,
  });
}

/** Where the panel ends beside the slot, nearer than half way to the next one. */
function panelEnd({ section: { edge_mm } }: Sizing, { half, back }: Levels, perPaper: number): Mark[] {
  // Revisions issued before edges were looked at have no such key.
  if (!edge_mm || Math.abs(edge_mm) >= half) return [];
  return [
    line('BOARDS', [edge_mm, -5 * perPaper], [edge_mm, back + 2 * perPaper]),
    lettering({
      layer: 'LETTERING',
      at: [edge_mm, -19 * perPaper],
      text: `the panel ends here, ${mm(Math.abs(edge_mm))} from the middle of the slot`,
      em: dimension_em * perPaper,
      align: 'middle',
    }),
  ];
}

function depthMarks(job: Job, levels: Levels, perPaper: number): Mark[] {
  const { section } = job;
  const { half, rear, cavity, back } = levels;
  const at = (step: number): number => -half - step * perPaper;
  const chain = { axis: 'upright', from: -half, perPaper } as const;
  const available = section.available_mm;
  const above = Math.max(back, available) + 4 * perPaper;
  return [
    ...dimensions({
      ...chain,
      stops: [0, rear, cavity, back],
      texts: [rear, cavity - rear, back - cavity].map(figure),
      at: at(9),
    }),
    ...dimensions({ ...chain, stops: [0, back], texts: [figure(back)], at: at(16) }),
    ...dimensions({ ...chain, stops: [0, available], texts: [`available ${figure(available)}`], at: at(23) }),
    ...dimensions({
      axis: 'level',
      stops: [-job.slots.width_mm / 2, job.slots.width_mm / 2],
      texts: [figure(job.slots.width_mm)],
      from: 0,
      at: -7 * perPaper,
      perPaper,
    }),
    ...offsetMarks(section, perPaper),
    line('DEPTH_AVAILABLE', [-half, available], [half, available]),
    lettering({
      layer: 'LETTERING',
      at: [0, above],
      text: `wall side; the dashed line is the depth available, ${mm(available)}`,
      em: dimension_em * perPaper,
      align: 'middle',
    }),
    lettering({
      layer: 'LETTERING',
      at: [0, (isBeside(section) ? -20 : -13) * perPaper],
      text: 'room side',
      em: dimension_em * perPaper,
      align: 'middle',
    }),
  ];
}

/**
 * The horizontal section through one slot, wall side up, in millimetres from the middle of the slot at the room
 * face, with its lettering sized for one scale: every layer named and dimensioned, strip, carrier, cover, battens,
 * and the whole depth against what is available. Boards are broken off where the next slot's share begins.
 *
 * @param perPaper millimetres of the piece to one of the paper, such as 0.5 for 2:1
 */
export function section(asked: Job, sizing: Sizing, perPaper: number): Drawing {
  const job = forWidth(asked, sizing.section.slotWidth_mm ?? asked.slots.width_mm);
  const levels = levelsOf(job, sizing);
  const parts = [
    ...boards(job, sizing, levels),
    ...battens(job, levels),
    cavityPart(job, levels),
    ...cover(job, levels),
    ...stripAndCarrier(job, sizing, levels),
    ...hungPart(job, sizing),
  ];
  const marks = [
    ...parts.flatMap((part) => part.marks),
    ...breakMarks(levels, perPaper),
    ...panelEnd(sizing, levels, perPaper),
    ...legible(depthMarks(job, levels, perPaper)),
    ...leaders(parts, levels, perPaper),
  ];
  return { marks, perPaper };
}
