import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import { readEntry } from './edit.ts';
import type { State } from './store.ts';

/** What a newcomer says of a wall first; everything else begins as it usually is. */
export type Entry = 'width' | 'height' | 'depth' | 'count' | 'slot';

export interface FirstWall {
  readonly texts: Readonly<Record<Entry, string>>;
  readonly wanted_cd_per_m2: number;
}

const evenly = { by: 'count', count: 12 } as const;

/** A plain wall whose slots are counted, not spaced. */
function plainWall(): Job {
  const job = newJob();
  return job.slots.from === 'generator' ? { ...job, slots: { ...job.slots, spacing: evenly } } : job;
}

const paths: Readonly<Record<Entry, readonly string[]>> = {
  width: ['panel', 'width_mm'],
  height: ['panel', 'height_mm'],
  depth: ['section', 'available_mm'],
  count: ['slots', 'spacing', 'count'],
  slot: ['slots', 'width_mm'],
};

/** Air left on each side of a slot between it and the battens beside it. */
const besideSlot_mm = 10;

/** So many cables of their own do not go into a cable way side by side. */
const mostHomeRuns = 20;

/** The usual batten, or as wide a one as leaves air beside slots that lie close, in steps of 5 mm. */
function battenFor(usual_mm: number, of: Record<Entry, number>, margins_mm: number): number {
  const pitch_mm = of.count > 1 ? (of.width - margins_mm) / (of.count - 1) : of.width;
  const room_mm = pitch_mm - of.slot - 2 * besideSlot_mm;
  return Math.max(0, Math.min(usual_mm, 5 * Math.floor(room_mm / 5)));
}

/** The wall of these entries, or what is wrong with them, entry by entry. */
export function firstWall({ texts, wanted_cd_per_m2 }: FirstWall): Job | ReadonlyMap<Entry, string> {
  const plain = plainWall();
  const entries = Object.keys(paths) as Entry[];
  const read = new Map(entries.map((entry) => [entry, readEntry(plain, [...paths[entry]], texts[entry])]));
  const wrong = entries.flatMap((entry): [Entry, string][] => {
    const one = read.get(entry)!;
    return one.ok ? [] : [[entry, one.sentence]];
  });
  if (wrong.length > 0) return new Map(wrong);
  const at = (entry: Entry): number => {
    const one = read.get(entry)!;
    return one.ok ? Number(one.value) : Number.NaN;
  };
  const of = {
    width: at('width'),
    height: at('height'),
    depth: at('depth'),
    count: at('count'),
    slot: at('slot'),
  };
  const { slots, section, light, drivers, cables } = plain;
  const [plinth] = drivers.places;
  if (slots.from !== 'generator') throw new RangeError('a plain wall has slots spaced evenly');
  return {
    ...plain,
    panel: { ...plain.panel, width_mm: of.width, height_mm: of.height },
    slots: { ...slots, width_mm: of.slot, spacing: { by: 'count', count: of.count } },
    section: {
      ...section,
      available_mm: of.depth,
      batten_mm: battenFor(section.batten_mm, of, slots.left_mm + slots.right_mm),
    },
    light: { ...light, wanted_cd_per_m2 },
    cables: { ...cables, layout: of.count > mostHomeRuns ? 'trunk' : cables.layout },
    drivers: {
      ...drivers,
      places: [{ ...plinth!, x_mm: 0, width_mm: Math.max(plinth!.width_mm, of.width) }],
    },
  };
}

/** Whether nobody has said yet where a slot is. */
export function hasNoSlots({ slots }: Pick<Job, 'slots'>): boolean {
  if (slots.from === 'lengths') return slots.lengths_mm.length === 0;
  return slots.from === 'segments' && slots.segments.length === 0;
}

/** Whether nothing but slots is missing, which the first minute asks for. */
export const isBeginning = ({ draft, standing, frozen }: State): boolean =>
  draft !== undefined &&
  frozen === undefined &&
  standing.is === 'incomplete' &&
  hasNoSlots(draft.job) &&
  standing.issues.every(({ place }) => place.field?.startsWith('slots.'));
