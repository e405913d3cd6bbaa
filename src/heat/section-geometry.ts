import type { Film, Rectangle, Segment } from './conduction.ts';
import { leastAir_m } from './lengths.ts';
import { type ProfileGeometry, profileGeometry } from './profile-geometry.ts';
import {
  isEdgeRight,
  overallDepth_m,
  profileWidth_m,
  roomResistance_m2K_per_W,
  type SectionDescription,
} from './section-description.ts';
import { drawnSection } from './section-drawn.ts';

/** The section as drawn: x along the panel, y from the room face (0) to the back of the backing. */
export interface SectionGeometry {
  /** Half a pitch from a mirror at the middle of the slot, or the whole pitch. */
  readonly half: boolean;
  readonly x0: number;
  readonly x1: number;
  /** The cavity without its battens. */
  readonly cavity: { readonly x0: number; readonly x1: number; readonly y0: number; readonly y1: number };
  /** Whether the left and right ends of the cavity are battens; otherwise mirrors. */
  readonly battenLeft: boolean;
  readonly battenRight: boolean;
  readonly slot: Segment | null;
  readonly rectangles: readonly Rectangle[];
  /** The face of the strip, where its heat is put in. */
  readonly strip: Segment;
  readonly carrier: Rectangle | null;
  /** Where the carrier touches timber by a joint; null where it has none. */
  readonly carrierContact: Segment | null;
  readonly profile: ProfileGeometry | null;
  readonly films: readonly Film[];
  /** The joints between batten and backing or front. */
  readonly glueLines: readonly Segment[];
}

const level = (y: number, x0: number, x1: number): Segment => ({ x0, y0: y, x1, y1: y });
const upright = (x: number, y0: number, y1: number): Segment => ({ x0: x, y0, x1: x, y1 });

/** Half a pitch is enough when everything is even about the middle of the slot. */
function isEven({ edge_m, strip: { mount, offset_m } }: SectionDescription): boolean {
  if (edge_m !== undefined) return false;
  return mount === 'recessed' || (mount === 'backing' && offset_m === 0);
}

type Frame = Pick<SectionGeometry, 'half' | 'x0' | 'x1' | 'cavity' | 'battenLeft' | 'battenRight'>;

function frameOf(section: SectionDescription): Frame {
  const half = isEven(section);
  const edge = section.pitch_m / 2;
  const flank = edge - section.battenWidth_m / 2;
  const battens = section.battenWidth_m > 0;
  const y0 = section.front.thickness_m;
  const end = panelEnd(section);
  const [left, right] = end !== null && isEdgeRight(section) ? [null, end] : [end, null];
  return {
    half,
    x0: half ? 0 : -(left?.edge ?? edge),
    x1: right?.edge ?? edge,
    cavity: {
      x0: half ? 0 : -(left?.flank ?? flank),
      x1: right?.flank ?? flank,
      y0,
      y1: y0 + section.cavityDepth_m,
    },
    battenLeft: battens && !half,
    battenRight: battens,
  };
}

/** What is left of the front, or of a batten, at the panel's edge; an edge that leaves less is drawn further out. */
const leastLand_m = 0.001;

/** How far slot and what is mounted reach from the middle of the slot towards the panel's edge. */
function reach_m({ slotWidth_m, strip }: SectionDescription): number {
  const width_m = strip.profile ? profileWidth_m(strip.profile) : (strip.carrier?.width_m ?? strip.width_m);
  const isAcross = strip.mount !== 'side';
  const offset_m = strip.mount === 'recessed' ? 0 : Math.abs(strip.offset_m);
  return Math.max(slotWidth_m / 2, isAcross ? offset_m + width_m / 2 + leastAir_m : 0);
}

/**
 * Where the panel ends and the flank of its last batten, half as wide as one between two slots (it stands in for the other
 * half too where the edge is half a pitch away), and narrower where slot and strip leave less; null where none is near.
 */
function panelEnd(section: SectionDescription): { readonly edge: number; readonly flank: number } | null {
  const { edge_m, battenWidth_m } = section;
  if (edge_m === undefined) return null;
  const needed_m = reach_m(section);
  const edge = Math.max(edge_m, needed_m + leastLand_m);
  return { edge, flank: Math.max(needed_m, edge - battenWidth_m / 2) };
}

/** Ends of what strip and carrier are stuck to; on a side counted from the inner face of the front. */
function mountingFace(section: SectionDescription, cavity: Frame['cavity']): [number, number] {
  const { strip, slotWidth_m } = section;
  if (strip.mount === 'side') return [0, section.cavityDepth_m];
  if (strip.mount === 'backing') return [cavity.x0, cavity.x1];
  return strip.offset_m < 0 ? [cavity.x0, -slotWidth_m / 2] : [slotWidth_m / 2, cavity.x1];
}

/** The same for a carrier with a joint, which ends short of a batten or a board that stands beside it. */
function jointedFace(section: SectionDescription, frame: Frame): [number, number] {
  const [low, high] = mountingFace(section, frame.cavity);
  if (section.strip.carrier?.contact_m2K_per_W === undefined) return [low, high];
  const isBeside = (at: number): boolean =>
    section.strip.mount === 'side' ||
    (at === frame.cavity.x0 && frame.battenLeft) ||
    (at === frame.cavity.x1 && frame.battenRight);
  return [low + (isBeside(low) ? leastAir_m : 0), high - (isBeside(high) ? leastAir_m : 0)];
}

/** What is stuck to a wall, as drawn. */
type Mounted = Pick<SectionGeometry, 'carrier' | 'strip' | 'carrierContact'>;

/** The face of a carrier that its joint is on. */
function jointOf({ strip }: SectionDescription, { x0, x1, y0, y1 }: Rectangle): Segment {
  if (strip.mount === 'side') return upright(x1, y0, y1);
  return level(strip.mount === 'backing' ? y1 : y0, x0, x1);
}

/** Carrier and strip on the wall they are stuck to, cut off at its ends and at the mirror of a half section. */
function mounted(section: SectionDescription, frame: Frame): Mounted {
  const { strip } = section;
  const { cavity } = frame;
  const tall = strip.carrier?.thickness_m ?? 0;
  const isJointed = strip.carrier?.contact_m2K_per_W !== undefined;
  const [low, high] = jointedFace(section, frame);
  const span = (width_m: number): [number, number] => [
    Math.max(strip.offset_m - width_m / 2, low),
    Math.min(strip.offset_m + width_m / 2, high),
  ];
  const [s0, s1] = span(strip.width_m);
  const [c0, c1] = span(strip.carrier?.width_m ?? strip.width_m);
  const metal = {
    ...{ name: 'carrier', conductivity: strip.carrier?.conductivity_W_per_mK ?? 0 },
    ...(isJointed && { isBody: true as const }),
  };
  const box = (x0: number, x1: number, y0: number, y1: number): Rectangle | null =>
    strip.carrier === null ? null : { ...metal, x0, x1, y0, y1 };
  const placed = (carrier: Rectangle | null, on: Segment): Mounted => ({
    ...{ carrier, strip: on },
    carrierContact: carrier !== null && isJointed ? jointOf(section, carrier) : null,
  });
  if (strip.mount === 'backing')
    return placed(box(c0, c1, cavity.y1 - tall, cavity.y1), level(cavity.y1 - tall, s0, s1));
  if (strip.mount === 'front')
    return placed(box(c0, c1, cavity.y0, cavity.y0 + tall), level(cavity.y0 + tall, s0, s1));
  const y = cavity.y0;
  return placed(box(cavity.x1 - tall, cavity.x1, y + c0, y + c1), upright(cavity.x1 - tall, y + s0, y + s1));
}

/** The niche of cavity behind a profile that is less high than the front it lies in is thick. */
function niche(section: SectionDescription, { cavity }: Frame, profile: ProfileGeometry | null): Rectangle[] {
  if (profile === null || section.strip.mount !== 'recessed' || profile.outer.y1 >= cavity.y0) return [];
  return [{ name: 'niche', ...profile.outer, y0: profile.outer.y1, y1: cavity.y0, conductivity: 'air' }];
}

function solids(section: SectionDescription, frame: Frame, slot: Segment | null): Rectangle[] {
  const { x0, x1, cavity } = frame;
  const { front, backing, batten, sheet } = section;
  const bottom = overallDepth_m(section);
  const rectangles: Rectangle[] = [
    { name: 'front', x0, x1, y0: 0, y1: cavity.y0, conductivity: front.conductivity_W_per_mK },
    { name: 'cavity', ...cavity, conductivity: 'air' },
    { name: 'backing', x0, x1, y0: cavity.y1, y1: bottom, conductivity: backing.conductivity_W_per_mK },
  ];
  const post = { name: 'batten', y0: cavity.y0, y1: cavity.y1, conductivity: batten.conductivity_W_per_mK };
  if (frame.battenLeft) rectangles.push({ ...post, x0, x1: cavity.x0 });
  if (frame.battenRight) rectangles.push({ ...post, x0: cavity.x1, x1 });
  if (slot !== null) {
    const mouth = { x0: slot.x0, x1: slot.x1 };
    const rear = cavity.y0 - (sheet?.thickness_m ?? 0);
    if (rear > 1e-7) rectangles.push({ name: 'slot', ...mouth, y0: 0, y1: rear, conductivity: 'void' });
    if (sheet !== null)
      rectangles.push({
        name: 'sheet',
        ...mouth,
        y0: rear,
        y1: cavity.y0,
        conductivity: sheet.conductivity_W_per_mK,
      });
  }
  return rectangles;
}

/**
 * Film on the jambs of a slot, `0.13*max(1, 2*depth/width)`: all that leaves both jambs passes the mouth of the slot, so
 * that together they give off no more than its width would. Without it a slot of half a millimetre would be washed by
 * the room like one of fifty, and no slot at all like none (judgement; a handbook has no value for it).
 */
function jambResistance_m2K_per_W({ slotWidth_m }: SectionDescription, depth_m: number): number {
  return roomResistance_m2K_per_W * Math.max(1, (2 * depth_m) / slotWidth_m);
}

/** About a slot that is closed: all of the front, but for the mouth of a profile in it. */
function closedFilms(
  frame: Frame,
  profile: ProfileGeometry | null,
  film: Pick<Film, 'resistance_m2K_per_W' | 'air_K'>,
): Film[] {
  const whole = { name: 'front', ...level(0, frame.x0, frame.x1), ...film };
  if (profile === null || profile.outer.y0 > 0) return [whole];
  const right = { ...whole, x0: profile.outer.x1 };
  return [right, ...(frame.half ? [] : [{ ...whole, x1: profile.outer.x0 }]), ...profile.films];
}

function roomFilms(
  section: SectionDescription,
  frame: Frame,
  slot: Segment | null,
  profile: ProfileGeometry | null,
): Film[] {
  const film = { resistance_m2K_per_W: roomResistance_m2K_per_W, air_K: section.room_K };
  if (slot === null) return closedFilms(frame, profile, film);
  const rear = frame.cavity.y0 - (section.sheet?.thickness_m ?? 0);
  const films: Film[] = [{ name: 'front', ...level(0, slot.x1, frame.x1), ...film }];
  if (!frame.half) films.push({ name: 'front', ...level(0, frame.x0, slot.x0), ...film });
  if (rear > 1e-7) {
    const jamb = { name: 'jambs', ...film, resistance_m2K_per_W: jambResistance_m2K_per_W(section, rear) };
    films.push({ ...jamb, ...upright(slot.x1, 0, rear) });
    if (!frame.half) films.push({ ...jamb, ...upright(slot.x0, 0, rear) });
  }
  if (section.sheet !== null) films.push({ name: 'sheet', ...level(rear, slot.x0, slot.x1), ...film });
  return films;
}

function behindFilms(section: SectionDescription, frame: Frame): Film[] {
  const { behind } = section;
  if (behind.kind === 'insulation') return [];
  const { resistance_m2K_per_W, air_K } = behind;
  return [
    { name: 'behind', ...level(overallDepth_m(section), frame.x0, frame.x1), resistance_m2K_per_W, air_K },
  ];
}

function glueLines(frame: Frame): Segment[] {
  const { cavity } = frame;
  const lines: Segment[] = [];
  for (const y of [cavity.y0, cavity.y1]) {
    if (frame.battenLeft) lines.push(level(y, frame.x0, cavity.x0));
    if (frame.battenRight) lines.push(level(y, cavity.x1, frame.x1));
  }
  return lines;
}

/** Lays out a section that `sectionIssues` found nothing against, its edges on a grid of 1 µm. */
export function geometryOf(described: SectionDescription): SectionGeometry {
  const section = drawnSection(described);
  const frame = frameOf(section);
  const y = section.front.thickness_m;
  const profile = profileGeometry(section, frame);
  const halfSlot = section.strip.mount === 'recessed' ? 0 : section.slotWidth_m / 2;
  const slot = halfSlot === 0 ? null : level(y, frame.half ? 0 : -halfSlot, halfSlot);
  const { carrier, strip, carrierContact } = mounted(section, frame);
  const parts = [
    ...(carrier === null ? [] : [carrier]),
    ...niche(section, frame, profile),
    ...(profile?.rectangles ?? []),
  ];
  return {
    ...frame,
    ...{ slot, carrier, carrierContact, profile },
    strip: profile?.strip ?? strip,
    rectangles: [...solids(section, frame, slot), ...parts],
    films: [...roomFilms(section, frame, slot, profile), ...behindFilms(section, frame)],
    glueLines: glueLines(frame),
  };
}

/** The box a cable is kept clear of: the profile, the flat, or the strip alone. */
export const mountedBox = ({ profile, carrier, strip }: SectionGeometry): Segment =>
  profile?.outer ?? carrier ?? strip;
