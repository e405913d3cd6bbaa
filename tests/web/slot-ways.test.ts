import { describe, expect, it } from 'vitest';
import type { Sizing } from '../../src/answer/sizing.ts';
import { type Job, job as jobSchema } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import { slotSegments } from '../../src/job/slot-segments.ts';
import type { Segment, Slots } from '../../src/job/slots.ts';
import { choose, typeText } from '../../web/state/edit.ts';
import { undo } from '../../web/state/history.ts';
import { chooseSlotSource, chooseSpacing } from '../../web/state/slot-ways.ts';
import { createStore, emptyState, type Store } from '../../web/state/store.ts';

const begunWith = (slots: Slots): Store =>
  createStore({ ...emptyState, draft: { job: { ...newJob(), slots }, entries: {}, parked: {} } });
const begun = (): Store => begunWith(newJob().slots);
const jobOf = (store: Store): Job => store.get().draft!.job;
const drawn = (store: Store): readonly Segment[] => slotSegments(jobOf(store));
const everyNumber = (slots: readonly Segment[]): number[] =>
  slots.flatMap(({ x0_mm, y0_mm, x1_mm, y1_mm }) => [x0_mm, y0_mm, x1_mm, y1_mm]);

/** The same slots to a hundredth of a millimetre. */
function expectSame(a: readonly Segment[], b: readonly Segment[]): void {
  expect(a).toHaveLength(b.length);
  const other = everyNumber(b);
  for (const [i, x] of everyNumber(a).entries()) expect(Math.abs(x - other[i]!)).toBeLessThan(0.01);
}

const list: Slots = {
  from: 'lengths',
  width_mm: 12,
  first_mm: 90,
  pitch_mm: 61.3,
  level_mm: 2100,
  align: 'head',
  lengths_mm: [700, 1250, 900, 333.5],
};

describe('ways of giving the slots', () => {
  it('make of the list typed now what it becomes, not of the answer that still shows another', () => {
    const store = begun();
    chooseSlotSource(store, 'lengths');
    const answered = store.get().draft!.job;
    typeText(store, 'slots.lengths_mm', '500\n600\n700');
    store.set({ answer: { job: answered, sizing: {} as Sizing } });
    chooseSlotSource(store, 'segments');
    expect(drawn(store).map((s) => s.y1_mm - s.y0_mm)).toEqual([500, 600, 700]);
  });

  it('keep the width and the slots from an empty wall through lines and even spacing', () => {
    const store = begunWith({ ...list, lengths_mm: [], width_mm: 20 });
    chooseSlotSource(store, 'segments');
    chooseSlotSource(store, 'generator');
    typeText(store, 'slots.width_mm', '12');
    const spaced = drawn(store);
    expect(spaced.length).toBeGreaterThan(2);
    chooseSlotSource(store, 'segments');
    expect(jobOf(store).slots.width_mm).toBe(12);
    expectSame(drawn(store), spaced);
  });

  it('come back with their own numbers and text where nobody changed what they became', () => {
    const store = begunWith(list);
    typeText(store, 'slots.lengths_mm', '700\n1250\n900\n333.5\nn/a');
    const before = store.get().draft!;
    chooseSlotSource(store, 'segments');
    expect(store.get().draft!.entries).toEqual({});
    chooseSlotSource(store, 'generator');
    chooseSlotSource(store, 'lengths');
    expect(store.get().draft!.job).toEqual(before.job);
    expect(store.get().draft!.entries).toEqual(before.entries);
  });

  it('convert anew where somebody changed what they became', () => {
    const store = begunWith(list);
    chooseSlotSource(store, 'segments');
    typeText(store, 'slots.segments', '100 100 100 400\n300 100 300 900');
    chooseSlotSource(store, 'lengths');
    // Two lines, 300 and 800 long, 200 apart, standing on the height of 100 mm.
    expect(jobOf(store).slots).toEqual({
      from: 'lengths',
      width_mm: 12,
      first_mm: 100,
      pitch_mm: 200,
      level_mm: 100,
      align: 'foot',
      lengths_mm: [300, 800],
    });
  });

  it('leave every slot where it is, wherever the other way can hold it', () => {
    const even = newJob().slots;
    if (even.from !== 'generator') throw new Error('a new job spaces its slots evenly');
    const level: Slots = { ...even, axis: 'level', spacing: { by: 'count', count: 7 }, left_mm: 33.3 };
    const alike: Slots = { ...list, lengths_mm: [800, 800, 800] };
    const one: Slots = { ...list, lengths_mm: [640] };
    const ways = [
      [even, ['lengths', 'segments', 'generator']],
      [{ ...even, spacing: { by: 'count', count: 11 } }, ['lengths', 'segments', 'generator']],
      [level, ['segments', 'generator']],
      [list, ['segments', 'lengths']],
      [{ ...list, align: 'middle', level_mm: 1000 }, ['segments', 'lengths']],
      [alike, ['generator', 'lengths']],
      [one, ['generator', 'segments', 'generator', 'lengths']],
    ] as const;
    for (const [slots, steps] of ways) {
      const store = begunWith(slots as Slots);
      const at = drawn(store);
      for (const from of steps) {
        chooseSlotSource(store, from);
        // Without what was parked, so that each step is a conversion.
        store.set({ draft: { ...store.get().draft!, parked: {} } });
        expectSame(drawn(store), at);
        expect(jobSchema.safeParse(jobOf(store)).success).toBe(true);
        expect(store.get().notice).toBeUndefined();
      }
    }
  });

  it('say when the other way cannot hold the slots, and undo brings them back exactly', () => {
    const store = begunWith(list);
    const before = store.get().draft;
    chooseSlotSource(store, 'generator');
    expect(store.get().notice?.title).toBe('The slots are not where they were.');
    expect(drawn(store)).toHaveLength(4);
    store.get().notice!.remedies![0]!.act();
    expect(store.get().draft).toEqual(before);
    expect(store.get().notice).toBeUndefined();
  });
});

describe('spacing', () => {
  it('by number takes as many slots as there are now, by pitch the widest at which they still fit', () => {
    const store = begun();
    // 2400 less margins of 100 and half a slot of 20 at each side leaves 2180 between the outer centre lines.
    choose(store, ['slots', 'spacing', 'pitch_mm'], 150);
    chooseSpacing(store, 'count');
    expect(jobOf(store).slots).toMatchObject({ spacing: { by: 'count', count: 15 } });
    choose(store, ['slots', 'spacing', 'count'], 10);
    chooseSpacing(store, 'pitch');
    // 2180 / 9 = 242.2, so that ten slots stay ten.
    expect(jobOf(store).slots).toMatchObject({ spacing: { by: 'pitch', pitch_mm: 242.2 } });
    expect(drawn(store)).toHaveLength(10);
    chooseSpacing(store, 'count');
    undo(store);
    expect(jobOf(store).slots).toMatchObject({ spacing: { by: 'pitch', pitch_mm: 242.2 } });
  });

  it('gives the pitch back as it was typed where the number was only looked at', () => {
    const store = begun();
    const before = jobOf(store).slots;
    chooseSpacing(store, 'count');
    chooseSpacing(store, 'pitch');
    expect(jobOf(store).slots).toEqual(before);
  });

  it('of one slot stays one', () => {
    const store = begun();
    chooseSpacing(store, 'count');
    typeText(store, 'slots.spacing.count', '1');
    chooseSpacing(store, 'pitch');
    expect(drawn(store)).toHaveLength(1);
  });
});
