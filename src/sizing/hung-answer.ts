import type { Cable } from '../answer/cables.ts';
import type { HungAnswer, HungThingAnswer } from '../answer/hung.ts';
import type { Section } from '../answer/section.ts';
import type { SlotLine } from '../answer/set-out.ts';
import type { HungThing } from '../job/hung.ts';
import type { Job } from '../job/job.ts';
import { forWidth } from '../job/slot-widths.ts';
import { lampExponent } from '../light/lamp-row.ts';
import { darkLength_m } from '../light/shadow.ts';
import type { Box } from '../numeric/taut-strings.ts';
import { directShareOf } from './light-answer.ts';
import { litSectionOfJob } from './light-of-job.ts';
import type { Prepared } from './prepared.ts';

type Clearance = HungThingAnswer['clearances'][number];
type Obstacle = { readonly to: Clearance['to']; readonly box: Box };

/** A strip with its LEDs stands so high on what carries it; data sheets print 1.5 to 3 mm. */
const stripHeight_mm = 3;

/** A place of the slot is dark where a fifth of its light is missing: from there on a fade along a slot is noticed. */
const missing = 0.2;

/** Gap between two boxes, or by how far they run into each other where there is none. */
function gap_mm(a: Box, b: Box): number {
  const dx = Math.max(a.x0 - b.x1, b.x0 - a.x1);
  const dy = Math.max(a.y0 - b.y1, b.y0 - a.y1);
  if (dx < 0 && dy < 0) return Math.max(dx, dy);
  return Math.hypot(Math.max(dx, 0), Math.max(dy, 0));
}

/** The strip in the section, from the middle of the slot across and from the room face inwards, mm. */
function stripBox({ section }: Job, width_mm: number, pitch_mm: number): Box {
  const { front, cavity_mm, batten_mm, stripOffset_mm: at } = section;
  const carrier_mm = section.carrier === 'none' ? 0 : section.carrierThickness_mm;
  const high_mm = stripHeight_mm + carrier_mm;
  const rear_mm = front.thickness_mm + cavity_mm;
  const half = width_mm / 2;
  if (section.strip === 'side') {
    const x0 = -(pitch_mm - batten_mm) / 2;
    const middle = front.thickness_mm + cavity_mm / 2 - at;
    return { x0, x1: x0 + high_mm, y0: middle - half, y1: middle + half };
  }
  const isOnFront = section.strip === 'front';
  const y0 = isOnFront ? front.thickness_mm : rear_mm - high_mm;
  return { x0: at - half, x1: at + half, y0, y1: y0 + high_mm };
}

/** What lies behind a slot of the wall: strip or profile, cover, backing. */
function behindSlots(
  { job, products, setOut }: Prepared,
  { profile, pitch_mm }: Section,
  width_mm: number,
): Obstacle[] {
  const { front, cavity_mm, cover, coverThickness_mm } = job.section;
  const rear_mm = front.thickness_mm + cavity_mm;
  const wide = setOut.slots.length * pitch_mm;
  const parts: Obstacle[] = profile
    ? profile.map(({ part, x0_mm, x1_mm, y0_mm, y1_mm }) => ({
        to: part === 'strip' ? 'strip' : 'profile',
        box: { x0: x0_mm, x1: x1_mm, y0: Math.min(y0_mm, y1_mm), y1: Math.max(y0_mm, y1_mm) },
      }))
    : [{ to: 'strip', box: stripBox(job, products.strip.width_mm, pitch_mm) }];
  const sheetFrom_mm = front.thickness_mm - coverThickness_mm;
  const sheet: Box = { x0: -width_mm / 2, x1: width_mm / 2, y0: sheetFrom_mm, y1: front.thickness_mm };
  return [
    ...parts,
    ...(cover === 'open' ? [] : [{ to: 'cover', box: sheet } as const]),
    { to: 'backing', box: { x0: -wide, x1: wide, y0: rear_mm, y1: rear_mm + 1 } },
  ];
}

interface Stretch {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Least distance of two straight stretches; 0 where they cross. */
function apart(a: Stretch, b: Stretch): number {
  const side = (s: Stretch, x: number, y: number): number =>
    (s.x1 - s.x0) * (y - s.y0) - (s.y1 - s.y0) * (x - s.x0);
  const crosses =
    side(a, b.x0, b.y0) * side(a, b.x1, b.y1) < 0 && side(b, a.x0, a.y0) * side(b, a.x1, a.y1) < 0;
  const to = (s: Stretch, x: number, y: number): number => {
    const length2 = (s.x1 - s.x0) ** 2 + (s.y1 - s.y0) ** 2;
    const share = length2 === 0 ? 0 : ((x - s.x0) * (s.x1 - s.x0) + (y - s.y0) * (s.y1 - s.y0)) / length2;
    const at = Math.min(1, Math.max(0, share));
    return Math.hypot(x - s.x0 - at * (s.x1 - s.x0), y - s.y0 - at * (s.y1 - s.y0));
  };
  return crosses ? 0 : Math.min(to(a, b.x0, b.y0), to(a, b.x1, b.y1), to(b, a.x0, a.y0), to(b, a.x1, a.y1));
}

/** The thickest cable in the panel that comes under a thing, taken to lie on the backing; none where no way meets it. */
function cableUnder(at: Stretch, width_mm: number, { section }: Job, cables: readonly Cable[]): Obstacle[] {
  const met = cables.flatMap(({ stretches, outer_mm }) =>
    stretches.some(
      ({ in: where, from, to }) =>
        (where === 'way' || where === 'panel' || where === 'slot') &&
        apart(at, { x0: from.x_mm, y0: from.y_mm, x1: to.x_mm, y1: to.y_mm }) < (width_mm + outer_mm) / 2,
    )
      ? [outer_mm]
      : [],
  );
  if (met.length === 0) return [];
  const rear_mm = section.front.thickness_mm + section.cavity_mm;
  const reach = width_mm;
  return [{ to: 'cable', box: { x0: -reach, x1: reach, y0: rear_mm - Math.max(...met), y1: rear_mm } }];
}

/** What of its slot a thing takes: its own width, or all of it where it slides. */
function taken(thing: HungThing, slot: SlotLine): { readonly from_mm: number; readonly to_mm: number } {
  const { place_mm, width_mm } = thing;
  if (place_mm === null) return { from_mm: 0, to_mm: slot.length_mm };
  return { from_mm: place_mm - width_mm / 2, to_mm: place_mm + width_mm / 2 };
}

const along = (slot: SlotLine, from_mm: number, to_mm: number): Stretch => {
  const [ex, ey] = [(slot.x1_mm - slot.x0_mm) / slot.length_mm, (slot.y1_mm - slot.y0_mm) / slot.length_mm];
  return {
    x0: slot.x0_mm + from_mm * ex,
    y0: slot.y0_mm + from_mm * ey,
    x1: slot.x0_mm + to_mm * ex,
    y1: slot.y0_mm + to_mm * ey,
  };
};

const notStraight =
  'not known: no LEDs face the slot from behind it, so that its light has bounced before it gets there and nothing throws a plain shade';

/** Length that gets less than four fifths of its light, by the row of LEDs straight behind. */
function shadeOf(
  thing: HungThing,
  prepared: Prepared,
  width_mm: number,
): Pick<HungThingAnswer, 'dark_mm' | 'shade'> {
  const job = forWidth(prepared.job, width_mm);
  const { products } = prepared;
  const { section } = job;
  const isBehind = section.strip === 'backing' && Math.abs(section.stripOffset_mm) < job.slots.width_mm / 2;
  if (!isBehind) return { dark_mm: null, shade: notStraight };
  const directShare =
    products.profile === null ? directShareOf(litSectionOfJob(job, products, prepared.setOut)) : 1;
  const exponent = products.profile === null ? lampExponent(products.strip.halfAngle_deg) : 1;
  const reach_m = (thing.reach_mm - section.front.thickness_mm) / 1000;
  const dark_m = darkLength_m({ width_m: thing.width_mm / 1000, reach_m, directShare, exponent, missing });
  return {
    dark_mm: 1000 * dark_m,
    shade: `where less than ${100 * (1 - missing)} % of the light is left on the middle line of the slot, reflected light as without it; ${Math.round(100 * directShare)} % of the light there comes straight`,
  };
}

const nowhere = { slot: null, x0_mm: 0, y0_mm: 0, x1_mm: 0, y1_mm: 0, past_mm: 0, clearances: [] };

function hungThing(
  thing: HungThing,
  { prepared, section, cables }: Parameters<typeof hungAnswer>[0],
): HungThingAnswer {
  const { job, setOut } = prepared;
  const { name, width_mm, reach_mm, place_mm } = thing;
  const own = { name, width_mm, reach_mm, slides: place_mm === null };
  const slot = setOut.slots.find(({ number }) => number === thing.slot);
  const shade = shadeOf(thing, prepared, slot?.width_mm ?? job.slots.width_mm);
  if (slot === undefined) return { ...own, ...nowhere, ...shade };
  const { from_mm, to_mm } = taken(thing, slot);
  const at = along(slot, from_mm, to_mm);
  const box: Box = { x0: -slot.width_mm / 2, x1: slot.width_mm / 2, y0: 0, y1: reach_mm };
  const obstacles = [
    ...behindSlots(prepared, section, slot.width_mm),
    ...cableUnder(at, slot.width_mm, job, cables),
  ];
  const clearances = obstacles
    .map((obstacle): Clearance => ({ to: obstacle.to, clear_mm: gap_mm(box, obstacle.box) }))
    .sort((a, b) => a.clear_mm - b.clear_mm);
  return {
    ...own,
    slot: slot.id,
    ...{ x0_mm: at.x0, y0_mm: at.y0, x1_mm: at.x1, y1_mm: at.y1 },
    past_mm: Math.max(0, -from_mm, to_mm - slot.length_mm, width_mm - slot.length_mm),
    clearances: clearances.filter(({ to }, i) => clearances.findIndex((each) => each.to === to) === i),
    ...shade,
  };
}

/**
 * What hangs in the slots: where, how clear of strip, profile, cover, cable and backing in the section, over all of the slot
 * where it slides, and how much of the slot it darkens. Across, a thing is taken to fill its slot.
 * Check: `tests/sizing/hung-of-job.test.ts`.
 */
export const hungAnswer = (of: {
  readonly prepared: Prepared;
  readonly section: Section;
  readonly cables: readonly Cable[];
}): HungAnswer => of.prepared.job.hung.map((thing) => hungThing(thing, of));
