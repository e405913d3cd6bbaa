import type { Job } from '../../src/job/job.ts';
import { placedPanels } from '../../src/job/panels.ts';
import { slotSegments } from '../../src/job/slot-segments.ts';
import { hasOwnWidths } from '../../src/job/slot-widths.ts';
import { mostSlots, type Segment, type Slots } from '../../src/job/slots.ts';
import { nearest } from '../format.ts';
import { change, undo } from './history.ts';
import type { Draft, Store } from './store.ts';

type Generated = Extract<Slots, { from: 'generator' }>;
type Listed = Extract<Slots, { from: 'lengths' }>;

/** Fine enough that four hundred pitches in a row are off by no more than a saw can do. */
const decimals = 3;
const mm = (x: number): number => nearest(x, decimals);
const within = (low: number, x: number, high: number): number => Math.min(high, Math.max(low, x));
const lengthOf = (s: Segment): number => Math.hypot(s.x1_mm - s.x0_mm, s.y1_mm - s.y0_mm);
const middleX = (s: Segment): number => (s.x0_mm + s.x1_mm) / 2;
const lowY = (s: Segment): number => Math.min(s.y0_mm, s.y1_mm);
const highY = (s: Segment): number => Math.max(s.y0_mm, s.y1_mm);
const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b));
const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b));
const isLevel = (s: Segment): boolean => Math.abs(s.x1_mm - s.x0_mm) > Math.abs(s.y1_mm - s.y0_mm);

/** Where slots that stand upright are in line: at their feet, their heads or their middles. */
function alignment(slots: readonly Segment[]): Pick<Listed, 'align' | 'level_mm'> {
  const levels = {
    foot: slots.map(lowY),
    head: slots.map(highY),
    middle: slots.map((s) => (s.y0_mm + s.y1_mm) / 2),
  };
  const inLine = (['foot', 'head', 'middle'] as const).find(
    (end) => most(levels[end]) - least(levels[end]) < 0.01,
  );
  return { align: inLine ?? 'foot', level_mm: mm(within(0, levels[inLine ?? 'foot'][0]!, 30000)) };
}

/** Mean distance of what stands side by side; the usual pitch where nothing does. */
function meanPitch(places: readonly number[]): number {
  const pitch_mm = places.length > 1 ? (most(places) - least(places)) / (places.length - 1) : 200;
  return mm(within(5, pitch_mm, 5000));
}

function asLengths(slots: readonly Segment[], width_mm: number): Listed {
  const inOrder = slots.toSorted((a, b) => middleX(a) - middleX(b));
  const [first] = inOrder;
  if (!first) {
    const empty = { first_mm: 150, pitch_mm: 150, level_mm: 150, align: 'foot', lengths_mm: [] } as const;
    return { from: 'lengths', width_mm, ...empty, lengths_mm: [] };
  }
  return {
    from: 'lengths',
    width_mm,
    first_mm: mm(middleX(first)),
    pitch_mm: meanPitch(inOrder.map(middleX)),
    ...alignment(inOrder),
    lengths_mm: inOrder.map((slot) => mm(lengthOf(slot))),
  };
}

/** Slots as seen from their own panel, with what is left to its right and upper edges. */
function inPanels(slots: readonly Segment[], { panel, panels }: Job) {
  const all =
    panels.length === 0
      ? [{ left_mm: 0, bottom_mm: 0, right_mm: panel.width_mm, top_mm: panel.height_mm }]
      : placedPanels({ panels });
  return slots.map((slot) => {
    const home = all.findLast(({ left_mm }) => middleX(slot) >= left_mm) ?? all[0]!;
    return {
      home,
      left_mm: Math.min(slot.x0_mm, slot.x1_mm) - home.left_mm,
      right_mm: home.right_mm - Math.max(slot.x0_mm, slot.x1_mm),
      foot_mm: lowY(slot) - home.bottom_mm,
      head_mm: home.top_mm - highY(slot),
    };
  });
}

/** As many as there are where most are. */
const mostInOne = (homes: readonly unknown[]): number =>
  most(homes.map((home) => homes.filter((other) => other === home).length));

/** The margins that the slots leave, and as many of them as there are; by their pitch where they were given by one. */
function asGenerated(slots: readonly Segment[], job: Job): Generated {
  const former = job.slots;
  const { width_mm } = former;
  if (slots.length === 0) {
    const margins = { left_mm: 100, right_mm: 100, foot_mm: 100, head_mm: 100 };
    return {
      from: 'generator',
      axis: 'upright',
      width_mm,
      ...margins,
      spacing: { by: 'pitch', pitch_mm: 200 },
    };
  }
  const axis = slots.every(isLevel) ? 'level' : 'upright';
  const [acrossX, acrossY] = axis === 'upright' ? [width_mm / 2, 0] : [0, width_mm / 2];
  const margin = (x: number): number => mm(within(0, x, 20000));
  const seen = inPanels(slots, job);
  return {
    from: 'generator',
    axis,
    width_mm,
    left_mm: margin(least(seen.map((s) => s.left_mm)) - acrossX),
    right_mm: margin(least(seen.map((s) => s.right_mm)) - acrossX),
    foot_mm: margin(least(seen.map((s) => s.foot_mm)) - acrossY),
    head_mm: margin(least(seen.map((s) => s.head_mm)) - acrossY),
    spacing:
      former.from === 'lengths'
        ? { by: 'pitch', pitch_mm: former.pitch_mm }
        : { by: 'count', count: Math.min(mostSlots, mostInOne(seen.map(({ home }) => home))) },
  };
}

/** The slots as they are given now, given in another way. */
function converted(job: Job, from: Slots['from']): Slots {
  const segments = slotSegments(job).slice(0, mostSlots);
  const { width_mm } = job.slots;
  if (from === 'lengths') return asLengths(segments, width_mm);
  if (from === 'generator') return asGenerated(segments, job);
  const whole = segments.map((s) => ({
    x0_mm: mm(s.x0_mm),
    y0_mm: mm(s.y0_mm),
    x1_mm: mm(s.x1_mm),
    y1_mm: mm(s.y1_mm),
  }));
  return { from, width_mm, segments: whole };
}

/** A way of giving the slots that was left, and what became of it: it comes back while that is unchanged. */
interface Parked {
  readonly slots: Slots;
  readonly entries: Draft['entries'];
  readonly became: Slots;
}

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
const isParked = (x: unknown): x is Parked => typeof x === 'object' && x !== null && 'became' in x;

/** What is typed about the slots beyond their width, which every way of giving them has. */
const ofWay = (name: string): boolean => /^slots\./.test(name) && name !== 'slots.width_mm';

const split = (entries: Draft['entries']): { way: Draft['entries']; rest: Draft['entries'] } => {
  const all = Object.entries(entries);
  return {
    way: Object.fromEntries(all.filter(([name]) => ofWay(name))),
    rest: Object.fromEntries(all.filter(([name]) => !ofWay(name))),
  };
};

/** Gives the slots of a draft anew. Ways left earlier come back only while nobody changed what they became. */
function given(draft: Draft, way: string, key: string, fresh: () => Slots): Draft {
  const { slots } = draft.job;
  const alive = Object.entries(draft.parked).filter(([, p]) => isParked(p) && isSame(p.became, slots));
  const back = alive.find(([name]) => name === key)?.[1] as Parked | undefined;
  const { way: typed, rest } = split(draft.entries);
  const next = back?.slots ?? fresh();
  const others = alive.map(([name, p]) => [name, { ...(p as Parked), became: next }] as const);
  return {
    ...draft,
    job: { ...draft.job, slots: next },
    entries: { ...rest, ...back?.entries },
    parked: { ...Object.fromEntries(others), [way]: { slots, entries: typed, became: next } },
  };
}

/** The largest distance by which a slot is elsewhere or of another length, in mm; infinite where one is missing. */
function moved_mm(a: readonly Segment[], b: readonly Segment[]): number {
  if (a.length !== b.length) return Number.POSITIVE_INFINITY;
  const ends = (slots: readonly Segment[]): number[] =>
    slots
      .toSorted((p, q) => middleX(p) - middleX(q) || lowY(p) - lowY(q))
      .flatMap((s) => [s.x0_mm, lowY(s), s.x1_mm, highY(s)]);
  const other = ends(b);
  return most([0, ...ends(a).map((x, i) => Math.abs(x - other[i]!))]);
}

const cannotHold: Readonly<Record<Slots['from'], string>> = {
  generator: 'Even spacing makes all slots alike and equally far apart.',
  lengths: 'A list of lengths stands upright, in line and at one pitch.',
  segments: 'A job holds no more slots.',
};

/** Says when a way of giving the slots cannot hold them as they were. */
function sayWhatMoved(store: Store, before: Job, after: Job): void {
  const [was, is] = [slotSegments(before), slotSegments(after)];
  const losesWidths = hasOwnWidths(before.slots) && !hasOwnWidths(after.slots);
  if (was.length === 0 || (moved_mm(was, is) < 0.5 && !losesWidths)) return;
  const putBack = (): void => {
    undo(store);
    store.set({ notice: undefined });
  };
  store.set({
    notice: {
      title: losesWidths ? 'The slots are no longer as they were.' : 'The slots are not where they were.',
      sentences: [
        `${cannotHold[after.slots.from]}${losesWidths ? ' All slots now have one width.' : ''} Undo brings back what was there.`,
      ],
      remedies: [{ text: 'Undo', act: putBack }],
    },
  });
}

/**
 * Gives the slots in another way: what is typed now becomes the other way's numbers. The way that is left comes back
 * as it was, unless what it became is changed meanwhile.
 */
export function chooseSlotSource(store: Store, from: Slots['from']): void {
  const { draft } = store.get();
  if (!draft || draft.job.slots.from === from) return;
  const next = given(draft, draft.job.slots.from, from, () => converted(draft.job, from));
  change(store, next);
  sayWhatMoved(store, draft.job, next.job);
}

/** The widest pitch at which as many slots fit between the margins as there are now. */
function pitchNow(places: readonly number[]): number {
  if (places.length < 2) return 5000;
  const exact = (most(places) - least(places)) / (places.length - 1);
  return within(5, Math.floor(exact * 10 + 1e-6) / 10, 5000);
}

/** The panel that spacing is chosen for: the first that has no number of its own, else the wall. */
function bayOf({ panel, panels }: Job): Job['panel'] {
  return panels.find(({ slotCount }) => slotCount === null) ?? panels[0] ?? panel;
}

function spaced(job: Job, slots: Generated, by: Generated['spacing']['by']): Generated {
  const now = slotSegments({ panel: bayOf(job), panels: [], slots });
  const places = now.map((s) => (slots.axis === 'upright' ? s.x0_mm : s.y0_mm));
  const spacing =
    by === 'count' ? { by, count: within(1, now.length, mostSlots) } : { by, pitch_mm: pitchNow(places) };
  return { ...slots, spacing };
}

/** Spaces generated slots by pitch or by count: as many as there are now, at the pitch they have now. */
export function chooseSpacing(store: Store, by: Generated['spacing']['by']): void {
  const { draft } = store.get();
  const slots = draft?.job.slots;
  if (!draft || slots?.from !== 'generator' || slots.spacing.by === by) return;
  const key = (spacing: string): string => `spacing by ${spacing}`;
  change(
    store,
    given(draft, key(slots.spacing.by), key(by), () => spaced(draft.job, slots, by)),
  );
}
