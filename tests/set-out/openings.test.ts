import { describe, expect, it } from 'vitest';
import { newJob } from '../../src/job/new-job.ts';
import type { Opening } from '../../src/job/opening.ts';
import { besideOpenings } from '../../src/set-out/openings.ts';
import { slotLines } from '../../src/set-out/slot-lines.ts';

const upright = (x: number, from: number, to: number) => ({ x0_mm: x, y0_mm: from, x1_mm: x, y1_mm: to });
const level = (y: number, from: number, to: number) => ({ x0_mm: from, y0_mm: y, x1_mm: to, y1_mm: y });

/** From 1,000 to 1,900 mm across, from the floor to 2,000 mm up; 60 mm of timber round it. */
const door: Opening = {
  name: 'Door',
  kind: 'opening',
  cablesPass: false,
  x_mm: 1000,
  y_mm: 0,
  width_mm: 900,
  height_mm: 2000,
  rim_mm: 60,
};

describe('a slot at an opening', () => {
  it('ends where the timber kept round it begins, and goes on beyond', () => {
    // Over the door from 2,060 mm up; nothing is left below.
    expect(besideOpenings([upright(1400, 100, 2600)], [door], 20)).toEqual([upright(1400, 2060, 2600)]);
    // Left of 940 and right of 1,960.
    expect(besideOpenings([level(1200, 100, 3000)], [door], 20)).toEqual([
      level(1200, 100, 940),
      level(1200, 1960, 3000),
    ]);
  });

  it('is left alone where its flank clears the timber, and cut where it does not', () => {
    // 60 mm of timber and half of 20 mm: from 930 on.
    const beside = upright(930, 100, 2600);
    expect(besideOpenings([beside], [door], 20)[0]).toBe(beside);
    expect(besideOpenings([upright(931, 100, 2600)], [door], 20)).toEqual([upright(931, 2060, 2600)]);
  });

  it('has no part under 50 mm', () => {
    expect(besideOpenings([upright(1400, 100, 2109)], [door], 20)).toEqual([]);
    expect(besideOpenings([upright(1400, 100, 2110)], [door], 20)).toEqual([upright(1400, 2060, 2110)]);
  });

  it('that slopes keeps half its width further away at its ends', () => {
    // At 45 degrees from (500, 1,500) up to (1,500, 2,500); it would come under 2,070 mm right of 930 mm.
    const [below, above] = besideOpenings(
      [{ x0_mm: 500, y0_mm: 1500, x1_mm: 1500, y1_mm: 2500 }],
      [door],
      20,
    );
    expect(below!.x1_mm).toBe(930);
    expect(below!.y1_mm).toBe(1930);
    expect(above!.y0_mm).toBe(2070);
    expect(above!.x0_mm).toBe(1070);
  });

  it('is cut alike in the mirror', () => {
    const mirrored = (line: ReturnType<typeof upright>) => ({
      ...line,
      x0_mm: 3000 - line.x0_mm,
      x1_mm: 3000 - line.x1_mm,
    });
    const slots = [level(500, 50, 2900), upright(1500, 10, 2400), level(2300, 100, 2000)];
    const there = besideOpenings(slots, [door], 18).map(mirrored);
    expect(besideOpenings(slots.map(mirrored), [{ ...door, x_mm: 3000 - 1900 }], 18)).toEqual(there);
  });
});

describe('a keep-out', () => {
  it('ends strip and slot as an opening does, and the slot goes on beyond it', () => {
    const box: Opening = {
      ...door,
      kind: 'keep-out',
      x_mm: 960,
      y_mm: 260,
      width_mm: 80,
      height_mm: 80,
      rim_mm: 10,
    };
    // From 250 to 350 mm up.
    for (const cablesPass of [true, false])
      expect(besideOpenings([upright(1000, 100, 2600)], [{ ...box, cablesPass }], 20)).toEqual([
        upright(1000, 100, 250),
        upright(1000, 350, 2600),
      ]);
  });
});

describe('a wall with a door', () => {
  const job = { ...newJob(), panel: { width_mm: 3000, height_mm: 2600 }, openings: [door] };

  it('numbers the parts on in the order of the wall', () => {
    const spacing = { by: 'count', count: 5 } as const;
    const slots = { ...newJob().slots, spacing } as typeof job.slots;
    const lines = slotLines({ ...job, slots });
    // Centres from 110 to 2,890 mm, 695 mm apart: the third, at 1,500, stands over the door.
    const feet = lines.ok ? lines.value.map((slot) => [slot.number, slot.x0_mm, slot.y0_mm]) : [];
    expect(feet).toEqual([
      [1, 110, 100],
      [2, 805, 100],
      [3, 1500, 2060],
      [4, 2195, 100],
      [5, 2890, 100],
    ]);
  });

  it('is refused where the openings leave no slot', () => {
    const all = { ...door, x_mm: 0, width_mm: 3000, height_mm: 2600 };
    const lines = slotLines({ ...job, openings: [all] });
    expect(lines.ok ? [] : lines.issues).toMatchObject([
      { code: 'no-slot-fits', place: { field: 'openings' } },
    ]);
  });
});
