import type { Box } from '../numeric/taut-strings.ts';
import { reaching, uBlocks } from '../numeric/u-blocks.ts';
import type { Film, Rectangle, Segment } from './conduction.ts';
import {
  type Profile,
  profileHeight_m,
  profileWidth_m,
  roomResistance_m2K_per_W,
  type SectionDescription,
} from './section-description.ts';

/** A profile as drawn in its section. */
export interface ProfileGeometry {
  /** All of it, and the room between its walls from the base to the cover or the mouth. */
  readonly outer: Box;
  readonly inner: Box;
  /** Inner air, base, walls and cover, in the order they cover one another. */
  readonly rectangles: readonly Rectangle[];
  /** The face of the strip. */
  readonly strip: Segment;
  /** Where it touches timber. */
  readonly contacts: readonly Segment[];
  /** What of it meets the room. */
  readonly films: readonly Film[];
  /** Its middle along the face that carries it. */
  readonly middle: number;
  /** A box given along the face that carries it and off that face; of a half section what is beyond the mirror is cut off. */
  readonly placed: (along: readonly [number, number], off: readonly [number, number]) => Box;
}

/** The room a profile is placed in: the cavity, and whether it is cut at the middle of the slot. */
interface Frame {
  readonly half: boolean;
  readonly x0: number;
  readonly x1: number;
  readonly cavity: Box;
}

type Span = readonly [number, number];

/** How a profile lies: its middle along the face that carries it, and the way from there into the section. */
function placing(section: SectionDescription, { half, cavity }: Frame, height_m: number) {
  const { mount, offset_m } = section.strip;
  const cut = (at: number): number => (half ? Math.max(0, at) : at);
  if (mount === 'side')
    return {
      middle: cavity.y0 + offset_m,
      placed: ([a0, a1]: Span, [o0, o1]: Span): Box => ({
        x0: cavity.x1 - o1,
        x1: cavity.x1 - o0,
        y0: a0,
        y1: a1,
      }),
    };
  const rear = mount === 'recessed' ? height_m : cavity.y1;
  return {
    middle: mount === 'recessed' ? 0 : offset_m,
    placed: ([a0, a1]: Span, [o0, o1]: Span): Box => ({
      x0: cut(a0),
      x1: cut(a1),
      y0: rear - o1,
      y1: rear - o0,
    }),
  };
}

/** Inner air, base, walls and cover. */
function solids(profile: Profile, middle: number, placed: ProfileGeometry['placed']): Rectangle[] {
  const { base_m, wall_m, wallHeight_m, inside_m, cover } = profile;
  const [near, far] = [inside_m / 2, inside_m / 2 + wall_m];
  const rim = base_m + wallHeight_m;
  const metal = { conductivity: profile.conductivity_W_per_mK, isBody: true } as const;
  const whole: Span = [middle - far, middle + far];
  const parts: Rectangle[] = [
    {
      name: 'profile air',
      ...placed([middle - near, middle + near], [base_m, rim]),
      conductivity: 'inner air',
    },
    { name: 'profile base', ...placed(whole, [0, base_m]), ...metal },
    { name: 'profile wall', ...placed([middle - far, middle - near], [base_m, rim]), ...metal },
    { name: 'profile wall', ...placed([middle + near, middle + far], [base_m, rim]), ...metal },
  ];
  if (cover !== null)
    parts.push({
      name: 'profile cover',
      ...placed(whole, [rim, rim + cover.thickness_m]),
      conductivity: cover.conductivity_W_per_mK,
      isBody: true,
    });
  return parts.filter(({ x0, x1 }) => x1 > x0);
}

const upright = (x: number, y0: number, y1: number): Segment => ({ x0: x, y0, x1: x, y1 });
const level = (y: number, x0: number, x1: number): Segment => ({ x0, y0: y, x1, y1: y });

function contactsOf(section: SectionDescription, { half }: Frame, outer: Box): Segment[] {
  const { mount } = section.strip;
  if (mount === 'side') return [upright(outer.x1, outer.y0, outer.y1)];
  if (mount === 'backing') return [level(outer.y1, outer.x0, outer.x1)];
  const deep = Math.min(outer.y1, section.front.thickness_m);
  return [upright(outer.x1, 0, deep), ...(half ? [] : [upright(outer.x0, 0, deep)])];
}

/** At the mouth of the slot the cover meets the room over its full width; without one the rims do. */
function filmsOf(section: SectionDescription, profile: Profile, outer: Box, inner: Box): Film[] {
  if (section.strip.mount !== 'recessed') return [];
  const film = {
    resistance_m2K_per_W: roomResistance_m2K_per_W,
    air_K: section.room_K,
    side: 'far',
  } as const;
  if (profile.cover !== null) return [{ name: 'cover', ...level(0, outer.x0, outer.x1), ...film }];
  const rims = [level(0, inner.x1, outer.x1), level(0, outer.x0, inner.x0)];
  return rims.filter(({ x0, x1 }) => x1 > x0).map((rim) => ({ name: 'profile', ...rim, ...film }));
}

/** Lays out the profile of a section as drawn; null where it has none. */
export function profileGeometry(section: SectionDescription, frame: Frame): ProfileGeometry | null {
  const { profile, width_m } = section.strip;
  if (profile === undefined) return null;
  const height_m = profileHeight_m(profile);
  const { middle, placed } = placing(section, frame, height_m);
  const around = (width: number): Span => [middle - width / 2, middle + width / 2];
  const outer = placed(around(profileWidth_m(profile)), [0, height_m]);
  const inner = placed(around(profile.inside_m), [profile.base_m, profile.base_m + profile.wallHeight_m]);
  return {
    ...{ outer, inner, middle, placed },
    rectangles: solids(profile, middle, placed),
    strip: placed(around(width_m), [profile.base_m, profile.base_m]),
    contacts: contactsOf(section, frame, outer),
    films: filmsOf(section, profile, outer, inner),
  };
}

/** What a line of sight in the cavity does not pass: the profile standing in it, or the front about a niche behind it. */
export function profileBlocks(
  section: SectionDescription,
  frame: Frame,
  { outer, inner }: ProfileGeometry,
): Box[] {
  const { strip, front } = section;
  const beyond_m = 1;
  if (strip.mount === 'recessed') {
    const rear = front.thickness_m;
    if (outer.y1 > rear) return [{ ...outer, y0: -beyond_m }];
    const jambs = { y0: outer.y1 - beyond_m, y1: rear };
    const right = { ...jambs, x0: outer.x1, x1: frame.x1 };
    return frame.half ? [right] : [right, { ...jambs, x0: frame.x0, x1: outer.x0 }];
  }
  const base = strip.mount === 'side' ? 'x1' : 'y1';
  const blocks = strip.profile!.cover === null ? uBlocks(outer, inner, base) : [outer];
  return blocks.map((block) => reaching(block, base, beyond_m));
}
