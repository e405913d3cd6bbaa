import { keepsTo } from '../numeric/tolerance.ts';
import { figures } from '../words.ts';
import { type ShelfCase, type Shelved, type ShelvedCase, shelve, type Way } from './shelves.ts';

/** A side of a case or of a place, as seen from the room. */
export type Side = 'left' | 'right' | 'up' | 'down';

/** Lower left corner, from the panel's, and inside measures. */
export interface PlaceToLayOut {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly width_mm: number;
  readonly height_mm: number;
  readonly depth_mm: number;
}

/** A driver, dimmer or distribution block: a case whose output terminals are at one end of its length. */
export interface Housed {
  readonly id: string;
  readonly length_mm: number;
  readonly width_mm: number;
  readonly height_mm: number;
  /** Free air its maker asks for round it. */
  readonly clearance_mm: number;
  /** Whether it is fed by the case before it, so that the two belong on one shelf where there is room. */
  readonly follows?: boolean;
}

interface Point {
  readonly x_mm: number;
  readonly y_mm: number;
}

/** A case where it is fixed: lower left corner in the panel's coordinates, and its terminals. */
export interface Standing extends Point {
  readonly id: string;
  readonly across_mm: number;
  readonly up_mm: number;
  readonly deep_mm: number;
  readonly faces: Side;
  /** Middle of the side the output terminals are on; of the case, where they face out of the wall. */
  readonly out: Point;
  /** Middle of the opposite side. */
  readonly in: Point;
}

export interface PlaceLayout {
  /** In the order given. */
  readonly standing: readonly Standing[];
  /** Cases for which there is no room. */
  readonly without: readonly string[];
  readonly note: string;
}

const aQuarterFrom: Readonly<Record<Side, Side>> = { right: 'up', left: 'up', up: 'right', down: 'right' };

const isUpright = (side: Side): boolean => side === 'up' || side === 'down';

/** The six ways a case can lie on a level shelf: flat, on edge, then with its length out of the wall. */
function waysOf({ length_mm: l, width_mm: w, height_mm: h }: Housed, asked: Side): Way[] {
  const sides = [
    [l, w, h, 'asked'],
    [w, l, h, 'quarter turn'],
    [l, h, w, 'asked'],
    [h, l, w, 'quarter turn'],
    [w, h, l, 'out'],
    [h, w, l, 'out'],
  ] as const;
  return sides.map(([across_mm, up_mm, deep_mm, terminals]) =>
    isUpright(asked)
      ? { along_mm: up_mm, over_mm: across_mm, deep_mm, terminals }
      : { along_mm: across_mm, over_mm: up_mm, deep_mm, terminals },
  );
}

/** Which of the six ways cases may lie: all alike first, flat before on edge; where nothing else holds them, any of the six. */
const choices = [[0], [1], [2], [3], [0, 1], [0, 1, 2, 3]] as const;

const allWays = [0, 1, 2, 3, 4, 5] as const;

function shelvesOf(place: PlaceToLayOut, housed: readonly Housed[], asked: Side): Shelved {
  const { width_mm, height_mm, depth_mm } = place;
  const room = { along_mm: width_mm, over_mm: height_mm };
  const shelved = (cases: readonly Housed[], choice: readonly number[]) =>
    shelve(
      cases.map(
        (each): ShelfCase => ({
          ...each,
          ways: choice
            .map((way) => waysOf(each, asked)[way]!)
            .filter(({ deep_mm }) => keepsTo(deep_mm + each.clearance_mm, depth_mm)),
        }),
      ),
      room,
    );
  const most = shelved(housed, allWays);
  const fitting = housed.filter(({ id }) => !most.without.includes(id));
  for (const choice of choices) {
    const found = shelved(fitting, choice);
    if (found.without.length === 0) return { ...found, without: most.without };
  }
  return most;
}

/** From along and over the shelves, which begin at the right where cases face left, to the panel's coordinates. */
function stand(place: PlaceToLayOut, { id, way, along_mm, over_mm }: ShelvedCase, asked: Side): Standing {
  const from_mm = asked === 'left' ? place.width_mm - along_mm - way.along_mm : along_mm;
  const box = {
    x_mm: place.x_mm + from_mm,
    y_mm: place.y_mm + over_mm,
    across_mm: way.along_mm,
    up_mm: way.over_mm,
    deep_mm: way.deep_mm,
  };
  const faces = way.terminals === 'quarter turn' ? aQuarterFrom[asked] : asked;
  return { id, ...box, faces, ...terminals(box, way.terminals === 'out' ? null : faces) };
}

/** Middles of the side the output terminals are on and of that opposite; of the case, where they face out of the wall. */
function terminals(
  { x_mm, y_mm, across_mm, up_mm }: Omit<Standing, 'id' | 'faces' | 'out' | 'in'>,
  faces: Side | null,
): Pick<Standing, 'out' | 'in'> {
  const middle = { x_mm: x_mm + across_mm / 2, y_mm: y_mm + up_mm / 2 };
  const at = {
    left: { ...middle, x_mm },
    right: { ...middle, x_mm: x_mm + across_mm },
    up: { ...middle, y_mm: y_mm + up_mm },
    down: { ...middle, y_mm },
  };
  if (faces === null) return { out: middle, in: middle };
  const opposite = { left: 'right', right: 'left', up: 'down', down: 'up' } as const;
  return { out: at[faces], in: at[opposite[faces]] };
}

const towards: Readonly<Record<Side, string>> = {
  ...{ left: 'to the left', right: 'to the right' },
  ...{ up: 'upwards', down: 'downwards' },
};

/** "D1", "D1 and D2", "D1, D2, D3 and 4 more". */
function listed(ids: readonly string[], most = 6): string {
  if (ids.length === 1) return ids[0]!;
  const shown = ids.length <= most ? ids.slice(0, -1) : ids.slice(0, most);
  return `${shown.join(', ')} and ${ids.length <= most ? ids.at(-1) : `${ids.length - most} more`}`;
}

const sidesText = ({ across_mm, up_mm, deep_mm }: Pick<Standing, 'across_mm' | 'up_mm' | 'deep_mm'>) =>
  `${[across_mm, up_mm, deep_mm].map((side) => figures(side)).join(' × ')} mm`;

const isOut = ({ out, in: back }: Standing): boolean => out.x_mm === back.x_mm && out.y_mm === back.y_mm;

const howItLies = (each: Standing): string =>
  `${sidesText(each)}, output terminals ${isOut(each) ? 'to the front' : towards[each.faces]}`;

/** How those that stand lie, those alike together, and what follows from that. */
function lying(standing: readonly Standing[], asked: Side): string[] {
  const ways = new Map<string, string[]>();
  for (const each of standing) ways.set(howItLies(each), [...(ways.get(howItLies(each)) ?? []), each.id]);
  const isTurned = standing.some((each) => each.faces !== asked);
  return [
    `Across × up × deep: ${[...ways].map(([how, ids]) => `${listed(ids)} ${how}`).join('; ')}.`,
    ...(isTurned ? [`With all output terminals ${towards[asked]} they do not fit.`] : []),
    ...(standing.some(isOut)
      ? [
          'Where these are to the front, the mains end is at the back: leave its cable room, or enlarge the place.',
        ]
      : []),
  ];
}

function noteOf(standing: readonly Standing[], missing: readonly Housed[], asked: Side): string {
  const sizes = missing.map(
    ({ id, length_mm, width_mm, height_mm, clearance_mm }) =>
      `${id} (${[length_mm, width_mm, height_mm].map((side) => figures(side)).join(' × ')} mm, ${figures(clearance_mm)} mm of air round it)`,
  );
  if (missing.length > 0)
    return [
      `No room for ${listed(sizes)}: enlarge the place, or put less into it.`,
      ...(standing.length > 0 ? lying(standing, asked) : []),
    ].join(' ');
  if (standing.length === 0) return 'Nothing is fixed here.';
  return ['There is room for all.', ...lying(standing, asked)].join(' ');
}

/**
 * Where each case of a place is fixed: in one layer on the back wall, on level shelves in the order given, from the lower
 * left; facing left they begin at the right, so that the output of a case is beside the input of the next there as it is
 * facing right. All cases lie alike if that holds them: flat with the terminals on the side asked, flat a quarter turn
 * from it (up, or right), then on edge; then each as it has to, with the length out of the wall last. What follows a case
 * stands on its shelf, unless that would leave something without room.
 *
 * @param place inside measures, mm; `side + clearance <= depth_mm`, and the air between two cases is the larger of theirs
 * @param housed sides above 0 and clearances from 0, mm; ids each once
 * @param faces the side the output terminals are to be on
 * @returns what stands, and what has no room there, which is an answer, not a refusal
 * Source: geometry; one layer, and straight shelves, are choices on the careful side. Check:
 * `tests/installation/place-layout.test.ts`, box by box and by mirror; `tests/installation/shelves.test.ts`.
 */
export function layOut(place: PlaceToLayOut, housed: readonly Housed[], faces: Side): PlaceLayout {
  const together = shelvesOf(place, housed, faces);
  const apart = housed.map((each) => ({ ...each, follows: false }));
  const { cases, without } = together.without.length > 0 ? shelvesOf(place, apart, faces) : together;
  const standing = cases.map((each) => stand(place, each, faces));
  const missing = housed.filter(({ id }) => without.includes(id));
  return { standing, without, note: noteOf(standing, missing, faces) };
}
