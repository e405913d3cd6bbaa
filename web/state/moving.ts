import type { SetOut } from '../../src/answer/set-out.ts';
import type { Path } from '../../src/job/field-name.ts';
import { fieldName } from '../../src/job/field-name.ts';
import type { Job } from '../../src/job/job.ts';
import { nearest } from '../format.ts';
import { readEntry } from './edit.ts';
import { change } from './history.ts';
import { valueAt } from './paths.ts';
import { withField } from './sheet.ts';
import type { Store } from './store.ts';

/** Something of the job that can be moved on the wall: a box in millimetres from the panel's lower left corner. */
export interface Movable {
  /** Its part of the job, such as `openings[1]`. */
  readonly key: string;
  readonly name: string;
  readonly x_mm: number;
  readonly y_mm: number;
  readonly width_mm: number;
  readonly height_mm: number;
  /** Fields of the job that a move across, or up, changes alike. */
  readonly across: readonly Path[];
  readonly up: readonly Path[];
}

export interface Shift {
  readonly across_mm: number;
  readonly up_mm: number;
}

const places = ({ drivers }: Job): Movable[] =>
  drivers.places.map(({ name, x_mm, y_mm, width_mm, height_mm }, i) => ({
    ...{ key: fieldName(['drivers', 'places', i]), name, x_mm, y_mm, width_mm, height_mm },
    across: [['drivers', 'places', i, 'x_mm']],
    up: [['drivers', 'places', i, 'y_mm']],
  }));

const openings = (job: Job): Movable[] =>
  job.openings.map(({ name, x_mm, y_mm, width_mm, height_mm }, i) => ({
    ...{ key: fieldName(['openings', i]), name: name.trim() || `Opening ${i + 1}` },
    ...{ x_mm, y_mm, width_mm, height_mm },
    across: [['openings', i, 'x_mm']],
    up: [['openings', i, 'y_mm']],
  }));

/** Slots that are given as lines; evenly spaced ones have no place of their own. */
function lines({ slots }: Job): Movable[] {
  if (slots.from !== 'segments') return [];
  return slots.segments.map(({ x0_mm, y0_mm, x1_mm, y1_mm }, i) => ({
    key: fieldName(['slots', 'segments', i]),
    name: `Slot ${i + 1}`,
    x_mm: Math.min(x0_mm, x1_mm),
    y_mm: Math.min(y0_mm, y1_mm),
    width_mm: Math.abs(x1_mm - x0_mm),
    height_mm: Math.abs(y1_mm - y0_mm),
    across: [
      ['slots', 'segments', i, 'x0_mm'],
      ['slots', 'segments', i, 'x1_mm'],
    ],
    up: [
      ['slots', 'segments', i, 'y0_mm'],
      ['slots', 'segments', i, 'y1_mm'],
    ],
  }));
}

/** Everything that can be moved on the wall. */
export const movablesOf = (job: Job): Movable[] => [...places(job), ...openings(job), ...lines(job)];

interface Edges {
  readonly from: number;
  readonly to: number;
}

/** The shift that brings an edge or the middle of something onto the nearest of these places, within reach; else whole millimetres. */
function snapTo(
  { from, to }: Edges,
  shift_mm: number,
  lines_mm: readonly number[],
  reach_mm: number,
): number {
  const own = [from, to, (from + to) / 2];
  let best: { readonly shift: number; readonly off: number } | undefined;
  for (const line of lines_mm)
    for (const edge of own) {
      const shift = line - edge;
      const off = Math.abs(shift - shift_mm);
      if (off <= reach_mm && (best === undefined || off < best.off)) best = { shift, off };
    }
  return best?.shift ?? Math.round(from + shift_mm) - from;
}

const edgesAcross = ({ x_mm, width_mm }: Movable): Edges => ({ from: x_mm, to: x_mm + width_mm });
const edgesUp = ({ y_mm, height_mm }: Movable): Edges => ({ from: y_mm, to: y_mm + height_mm });
const ends = ({ from, to }: Edges): number[] => [from, to];

/**
 * A shift that keeps to what it comes near: the edges of the panel and of everything else that can be moved, and the slots.
 * @param reach_mm how near that is; nothing draws from further away
 */
export function snapped(
  movable: Movable,
  shift: Shift,
  { job, setOut, reach_mm }: { readonly job: Job; readonly setOut: SetOut; readonly reach_mm: number },
): Shift {
  const others = movablesOf(job).filter(({ key }) => key !== movable.key);
  const slots = setOut.slots.filter(({ number }) => `slots.segments[${number}]` !== movable.key);
  const across = [0, job.panel.width_mm, ...others.flatMap((each) => ends(edgesAcross(each)))];
  const up = [0, job.panel.height_mm, ...others.flatMap((each) => ends(edgesUp(each)))];
  const slotsAcross = slots.flatMap(({ x0_mm, x1_mm }) => [x0_mm, x1_mm]);
  const slotsUp = slots.flatMap(({ y0_mm, y1_mm }) => [y0_mm, y1_mm]);
  return {
    across_mm: snapTo(edgesAcross(movable), shift.across_mm, [...across, ...slotsAcross], reach_mm),
    up_mm: snapTo(edgesUp(movable), shift.up_mm, [...up, ...slotsUp], reach_mm),
  };
}

/** A job with something moved, or the sentence of the field that does not take it there. */
function movedBy(job: Job, movable: Movable, { across_mm, up_mm }: Shift): Job | string {
  let moved = job;
  for (const [paths, by_mm] of [
    [movable.across, across_mm],
    [movable.up, up_mm],
  ] as const)
    for (const path of paths) {
      const value = nearest(Number(valueAt(job, path)) + by_mm, 1);
      const read = readEntry(moved, path, String(value));
      if (!read.ok) return read.sentence;
      moved = withField(moved, path, read.value);
    }
  return moved;
}

/**
 * Moves something of the job, as one step of undo; what was typed in its fields gives way. Pressing an arrow key again goes on
 * with the same step.
 * @returns the sentence that says why not; undefined where it was moved
 */
export function moveBy(store: Store, movable: Movable, shift: Shift, goesOn: boolean): string | undefined {
  const { draft } = store.get();
  if (!draft) return undefined;
  const job = movedBy(draft.job, movable, shift);
  if (typeof job === 'string') return job;
  const entries = Object.fromEntries(
    Object.entries(draft.entries).filter(
      ([name]) =>
        !name.startsWith(movable.key) &&
        !(movable.key.startsWith('slots.segments') && name === 'slots.segments'),
    ),
  );
  change(store, { ...draft, job, entries }, goesOn ? `moving ${movable.key}` : undefined);
  return undefined;
}
