import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Neighbour, SlotLine } from '../../src/answer/sizing.ts';
import { neighbourDifferences } from '../../src/set-out/neighbour-light.ts';
import { neighbours } from '../../src/set-out/neighbours.ts';
import { isUpright, sectionPitch_mm } from '../../src/set-out/pitch.ts';
import { slots } from './slots.ts';

const panel = { width_mm: 5000, height_mm: 2500 };

/** What is seen, as "S01 right S02 0 to 900 at 100". */
const seen = (of: readonly Neighbour[]): string[] =>
  of.map(({ slot, side, beside, from_mm, to_mm, fromDistance_mm, toDistance_mm }) => {
    const at = [...new Set([fromDistance_mm, toDistance_mm].map((mm) => mm.toFixed(1)))].join(' to ');
    return `${slot} ${side} ${beside} ${from_mm.toFixed(0)} to ${to_mm.toFixed(0)} at ${at}`;
  });

describe('who lies beside whom', () => {
  it('the next slot on each side, and not the one behind it', () => {
    const three = slots([100, 0, 100, 900], [300, 0, 300, 900], [450, 0, 450, 900]);
    expect(seen(neighbours(three))).toEqual([
      'S01 right S02 0 to 900 at 200.0',
      'S02 left S01 0 to 900 at 200.0',
      'S02 right S03 0 to 900 at 150.0',
      'S03 left S02 0 to 900 at 150.0',
    ]);
  });

  it('past the end of a short slot, the one behind it', () => {
    const behind = slots([100, 0, 100, 900], [200, 300, 200, 500], [400, 0, 400, 900]);
    expect(seen(neighbours(behind)).slice(0, 3)).toEqual([
      'S01 right S03 0 to 300 at 300.0',
      'S01 right S02 300 to 500 at 100.0',
      'S01 right S03 500 to 900 at 300.0',
    ]);
  });

  it('nobody where slots stand in one line or one above the other', () => {
    expect(neighbours(slots([100, 0, 100, 900], [100, 950, 100, 1800]))).toEqual([]);
    expect(neighbours(slots([100, 0, 100, 900], [150, 900, 150, 1800]))).toEqual([]);
  });

  it('slanted slots square across: 3-4-5 slots 100 mm apart sideways are 80 mm apart', () => {
    const slanted = slots([0, 0, 600, 800], [100, 0, 700, 800]);
    // Along the slot the second begins 100 * 0.6 = 60 mm later, so 1000 - 60 mm lie side by side.
    expect(seen(neighbours(slanted))).toEqual([
      'S01 right S02 60 to 1000 at 80.0',
      'S02 left S01 0 to 940 at 80.0',
    ]);
  });

  it('slots drawn the other way round are seen on the other side', () => {
    expect(seen(neighbours(slots([100, 900, 100, 0], [300, 0, 300, 900])))).toEqual([
      'S01 left S02 0 to 900 at 200.0',
      'S02 left S01 0 to 900 at 200.0',
    ]);
  });

  it('a fan is nearest at its foot, and a slot inside it comes between where it stands', () => {
    const fan = slots([0, 0, 0, 1000], [50, 0, 250, 1000], [100, 800, 100, 1000]);
    expect(seen(neighbours(fan)).filter((s) => s.startsWith('S01'))).toEqual([
      'S01 right S02 0 to 800 at 50.0 to 210.0',
      'S01 right S03 800 to 1000 at 100.0',
    ]);
  });

  it('nobody at more than 45 degrees', () => {
    expect(neighbours(slots([0, 0, 0, 1000], [100, 0, 900, 500]))).toEqual([]);
  });

  it('against sampled places: looking square across, nothing is nearer', () => {
    const wall = fc.array(
      fc.tuple(
        fc.integer({ min: 0, max: 40 }),
        fc.integer({ min: 0, max: 10 }),
        fc.integer({ min: 1, max: 10 }),
      ),
      {
        minLength: 2,
        maxLength: 12,
      },
    );
    fc.assert(
      fc.property(wall, (places) => {
        const columns = new Map(places.map(([x, from, height]) => [x, [from, height] as const]));
        const all = slots(
          ...[...columns].map(
            ([x, [from, height]]) => [x * 50, from * 100, x * 50, (from + height) * 100] as const,
          ),
        );
        const found = neighbours(all);
        for (const one of all) {
          for (let y = one.y0_mm + 50; y < one.y1_mm; y += 100) {
            const across = all.filter((other) => other !== one && other.y0_mm < y && y < other.y1_mm);
            const nearest = (list: SlotLine[]) =>
              list.reduce((least, other) => Math.min(least, Math.abs(other.x0_mm - one.x0_mm)), Infinity);
            const at = (side: string) =>
              found.filter(
                (n) =>
                  n.slot === one.id &&
                  n.side === side &&
                  n.from_mm <= y - one.y0_mm &&
                  y - one.y0_mm <= n.to_mm,
              );
            for (const [side, list] of [
              ['left', across.filter((o) => o.x0_mm < one.x0_mm)],
              ['right', across.filter((o) => o.x0_mm > one.x0_mm)],
            ] as const) {
              expect(at(side).map((n) => n.fromDistance_mm)).toEqual(
                list.length === 0 ? [] : [nearest(list)],
              );
            }
          }
        }
      }),
      { seed: 4, numRuns: 100 },
    );
  });
});

describe('pitch of the section', () => {
  it('is that of the closest pair, however the slots are listed', () => {
    const wall = slots([100, 0, 100, 900], [700, 0, 700, 900], [250, 0, 250, 900], [400, 0, 400, 900]);
    expect(sectionPitch_mm({ neighbours: neighbours(wall) }, panel)).toBe(150);
  });

  it('of slots with none beside them is the panel, up to 1 m', () => {
    const alone = { neighbours: neighbours(slots([100, 0, 100, 900], [100, 1000, 100, 1900])) };
    expect(sectionPitch_mm(alone, panel)).toBe(1000);
    expect(sectionPitch_mm(alone, { width_mm: 400, height_mm: 2500 })).toBe(400);
  });

  it('tells upright slots from others', () => {
    expect(isUpright(slots([100, 0, 110, 900]))).toBe(true);
    expect(isUpright(slots([100, 0, 130, 900]))).toBe(false);
  });
});

describe('difference of light between neighbours', () => {
  const lit = (wall: SlotLine[], lights: number[][]) =>
    wall.map((line, i) => ({
      run: {
        ...line,
        slot: line.id,
        unitCount: lights[i]!.length,
        strip_mm: line.length_mm,
        ...{ darkStart_mm: 0, darkFinish_mm: 0, pieces: [], jointLines: [], feedPoints: [], zone: null },
      },
      light: lights[i]!,
    }));
  const differences = (wall: SlotLine[], lights: number[][]) =>
    neighbourDifferences(lit(wall, lights), wall, neighbours(wall));

  it('compares units at the same height, whichever way a slot is fed', () => {
    const wall = slots([100, 0, 100, 400], [200, 400, 200, 0]);
    // The second is listed from its top, so that 1, 0.9, 0.8, 0.7 upwards meets 0.7, 0.8, 0.9, 1 turned round: alike.
    expect(
      differences(wall, [
        [1, 0.9, 0.8, 0.7],
        [0.7, 0.8, 0.9, 1],
      ]),
    ).toEqual([0, 0]);
    // 1 against 0.7 at the foot: (1 - 0.7) / 1.
    expect(
      differences(wall, [
        [1, 0.9, 0.8, 0.7],
        [1, 0.9, 0.8, 0.7],
      ])[0],
    ).toBeCloseTo(0.3, 12);
  });

  it('between slots listed apart from each other, said of both; null where nothing lies across', () => {
    const wall = slots([100, 0, 100, 400], [900, 1000, 900, 1400], [200, 0, 200, 400]);
    const [first, alone, third] = differences(wall, [
      [1, 1],
      [1, 1],
      [0.8, 1],
    ]);
    expect(first).toBeCloseTo(0.2, 12);
    expect(third).toBeCloseTo(0.2, 12);
    expect(alone).toBeNull();
  });
});
