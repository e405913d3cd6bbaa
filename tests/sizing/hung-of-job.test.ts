import { describe, expect, it } from 'vitest';
import type { HungThing } from '../../src/job/hung.ts';
import { newHungThing } from '../../src/job/hung.ts';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import { sizeJob } from '../../src/sizing/size-job.ts';

function sized(job: Job) {
  const answer = sizeJob(job);
  if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
  return answer.value;
}

/** Three upright slots 20 mm wide of 2,200 mm, front 12 mm, cavity 22 mm, strip on the backing, open. */
function wall(thing: Partial<HungThing>, section: Partial<Job['section']> = {}): Job {
  const plain = newJob();
  return {
    ...plain,
    panel: { width_mm: 800, height_mm: 2400 },
    slots: { ...plain.slots, spacing: { by: 'count', count: 3 } } as Job['slots'],
    section: { ...plain.section, cover: 'open', ...section },
    hung: [{ ...newHungThing('Peg', 2), place_mm: 1500, ...thing }],
  };
}

const thingOf = (job: Job) => sized(job).hung[0]!;
const clearOf = (job: Job, to: string) => thingOf(job).clearances.find((each) => each.to === to)?.clear_mm;

describe('what hangs in a slot', () => {
  it('keeps clear of what lies behind: 34 mm to the backing, 3 mm of strip on it', () => {
    const job = wall({ reach_mm: 20 });
    expect(clearOf(job, 'backing')).toBeCloseTo(14, 9);
    expect(clearOf(job, 'strip')).toBeCloseTo(11, 9);
    // An aluminium flat of 2 mm lifts the strip.
    expect(clearOf(wall({ reach_mm: 20 }, { carrier: 'flat aluminium' }), 'strip')).toBeCloseTo(9, 9);
    // Half the 20 mm of the slot and half of the strip, 24 mm aside: sideways 24 - 10 - 4 or 5.
    const aside = wall({ reach_mm: 40 }, { stripOffset_mm: 30 });
    const width = sized(aside).products.strip.width_mm;
    expect(clearOf(aside, 'strip')).toBeCloseTo(30 - 10 - width / 2, 9);
  });

  it('runs into what it reaches: 36 mm of the 34 there are', () => {
    expect(clearOf(wall({ reach_mm: 33 }), 'strip')).toBeCloseTo(-2, 9);
    const { findings } = sized(wall({ reach_mm: 33 }));
    expect(findings.find(({ id }) => id === 'hung-1')?.status).toBe('fails');
  });

  it('meets a cover flush with the rear of the front: 3 of 12 mm', () => {
    expect(clearOf(wall({ reach_mm: 6 }, { cover: 'opal acrylic' }), 'cover')).toBeCloseTo(3, 9);
    expect(clearOf(wall({ reach_mm: 10 }, { cover: 'opal acrylic' }), 'cover')).toBeCloseTo(-1, 9);
    expect(clearOf(wall({ reach_mm: 10 }), 'cover')).toBeUndefined();
  });

  it('stands over a cable where its feed comes in, and wherever it may slide', () => {
    // Slots begin 100 mm up and are fed at their start from the foot run 40 mm up; 1.5 m along there is no cable.
    expect(clearOf(wall({}), 'cable')).toBeUndefined();
    const outer_mm = sized(wall({})).cables.find(({ kind }) => kind === 'feed')!.outer_mm;
    expect(clearOf(wall({ place_mm: 8, reach_mm: 20 }), 'cable')).toBeCloseTo(34 - outer_mm - 20, 9);
    expect(clearOf(wall({ place_mm: null, reach_mm: 20 }), 'cable')).toBeCloseTo(34 - outer_mm - 20, 9);
  });

  it('may slide to the finish, where the cable comes in that feeds it from the head', () => {
    const fedFromHead = (place_mm: number | null) => {
      const job = wall({ place_mm, reach_mm: 20 });
      return {
        ...job,
        feeds: { ...job.feeds, arrangement: 'finish' as const },
        cables: { ...job.cables, way: 'head' as const },
      };
    };
    // Slots of 2,200 mm begin 100 mm up, the way is 40 mm below the head: past the finish, and nothing lies in the foot half.
    const { outer_mm } = sized(fedFromHead(null)).cables.find(({ kind }) => kind === 'feed')!;
    expect(clearOf(fedFromHead(8), 'cable')).toBeUndefined();
    expect(clearOf(fedFromHead(2192), 'cable')).toBeCloseTo(34 - outer_mm - 20, 9);
    expect(clearOf(fedFromHead(null), 'cable')).toBeCloseTo(34 - outer_mm - 20, 9);
  });

  it('lies where it was put, from the start of its slot', () => {
    const { x0_mm, y0_mm, x1_mm, y1_mm, slot } = thingOf(wall({ place_mm: 1000, width_mm: 30 }));
    expect({ x0_mm, y0_mm, x1_mm, y1_mm, slot }).toEqual({
      ...{ x0_mm: 400, y0_mm: 1085, x1_mm: 400, y1_mm: 1115, slot: 'S02' },
    });
    expect(thingOf(wall({ place_mm: 5, width_mm: 30 })).past_mm).toBeCloseTo(10, 9);
    expect(thingOf(wall({ slot: 9 })).slot).toBeNull();
  });

  it('darkens its own width where it does not come behind the front, and more the further it does', () => {
    const dark = (reach_mm: number, section: Partial<Job['section']> = {}) =>
      thingOf(wall({ width_mm: 12, reach_mm }, section)).dark_mm;
    expect(dark(12)).toBeCloseTo(12, 9);
    const [near, far] = [dark(16, blackInside), dark(24, blackInside)];
    // In a cavity all but black nearly all light is straight: 12 + 2*0.565*4 and 12 + 2*0.565*12, a little less.
    expect(near!).toBeGreaterThan(12 + 2 * 0.53 * 4);
    expect(near!).toBeLessThan(12 + 2 * 0.5651 * 4);
    expect((far! - 12) / (near! - 12)).toBeCloseTo(3, 6);
    expect(dark(20, { strip: 'front', stripOffset_mm: 30 })).toBeNull();
  });

  it('changes nothing else', () => {
    const { hung: _a, findings: _b, ...with_ } = sized(wall({}));
    const { hung: _c, findings: _d, ...without } = sized({ ...wall({}), hung: [] });
    expect(with_).toEqual(without);
  });
});

const blackInside: Partial<Job['section']> = {
  backFinish: 'matt black paint',
  sideFinish: 'matt black paint',
  frontFinish: 'matt black paint',
};
