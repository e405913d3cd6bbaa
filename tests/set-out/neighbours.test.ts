import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Neighbour, SlotLine } from '../../src/answer/set-out.ts';
import { neighbourDifferences } from '../../src/set-out/neighbour-light.ts';
import { neighbours } from '../../src/set-out/neighbours.ts';
import { isUpright, sectionPitch_mm } from '../../src/set-out/pitch.ts';
import { bareRun } from './runs.ts';
import { slot, slots } from './slots.ts';

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

  it('nobody at more than 45 degrees, and at 45 the next one, whatever its length', () => {
    expect(neighbours(slots([0, 0, 0, 1000], [100, 0, 900, 500]))).toEqual([]);
    expect(neighbours(slots([0, 0, 0, 1000], [100, 0, 601, 500]))).toEqual([]);
    for (const side of [10, 77, 100, 333, 500, 1000]) {
      expect(seen(neighbours(slots([0, 0, 0, 1000], [100, 0, 100 + side, side])))[0]).toBe(
        `S01 right S02 0 to ${side} at 100.0 to ${100 + side}.0`,
      );
    }
  });

  it('slanted slots, the second also 50 mm higher: 50 mm apart, from 100 mm on', () => {
    // The second begins 100 * 0.6 + 50 * 0.8 = 100 mm later and 100 * 0.8 - 50 * 0.6 = 50 mm to the right.
    expect(seen(neighbours(slots([0, 0, 600, 800], [100, 50, 700, 850])))).toEqual([
      'S01 right S02 100 to 1000 at 50.0',
      'S02 left S01 0 to 900 at 50.0',
    ]);
  });

  it('a slanting slot that begins below is met from its height at the start on', () => {
    // 3 across for 4 up from (100, 0): at 300 up it is 325 away, at its end, 800 up, 700.
    expect(seen(neighbours(slots([0, 300, 0, 1000], [100, 0, 700, 800])))[0]).toBe(
      'S01 right S02 0 to 500 at 325.0 to 700.0',
    );
  });

  it('one that comes forward between two others, although its far end lies behind them', () => {
    // The third goes from (200, 500) 4 across for 5 up: at 600 up it is 280 away, before the fourth at 300; further
    // up it is behind the second.
    const wall = slots([0, 0, 0, 1000], [100, 0, 100, 500], [100, 600, 100, 1000], [300, 500, 300, 600]);
    const forward = slot(5, [200, 500, 600, 1000]);
    expect(seen(neighbours([...wall, forward])).filter((s) => s.startsWith('S01'))).toEqual([
      'S01 right S02 0 to 500 at 100.0',
      'S01 right S05 500 to 600 at 200.0 to 280.0',
      'S01 right S03 600 to 1000 at 100.0',
    ]);
  });

  it('one before the far end of a slanting slot, although another is nearer elsewhere', () => {
    // The slanting one goes from 100 away at 500 up to 400 away at 1,000: at 900 up it is 340 away, behind 200.
    const wall = slots([0, 0, 0, 1000], [50, 0, 50, 500], [100, 500, 400, 1000], [200, 900, 200, 1000]);
    expect(seen(neighbours(wall)).filter((s) => s.startsWith('S01'))).toEqual([
      'S01 right S02 0 to 500 at 50.0',
      'S01 right S03 500 to 900 at 100.0 to 340.0',
      'S01 right S04 900 to 1000 at 200.0',
    ]);
  });

  it('with an overlap of 1 mm, and nobody with less, who then hides nothing either', () => {
    const nearly = (from_mm: number) =>
      neighbours(slots([0, 0, 0, 900], [50, from_mm, 50, 1800], [100, 0, 100, 900]))
        .filter((n) => n.slot === 'S01')
        .map((n) => [n.beside, n.from_mm, n.to_mm]);
    expect(nearly(899)).toEqual([
      ['S03', 0, 899],
      ['S02', 899, 900],
    ]);
    expect(nearly(899.5)).toEqual([['S03', 0, 900]]);
  });

  it('on either side, listed by where the stretch begins, left before right', () => {
    const wall = slots([300, 0, 300, 900], [500, 0, 500, 900], [100, 200, 100, 900], [450, 300, 450, 900]);
    expect(seen(neighbours(wall)).filter((s) => s.startsWith('S01'))).toEqual([
      'S01 right S02 0 to 300 at 200.0',
      'S01 left S03 200 to 900 at 200.0',
      'S01 right S04 300 to 900 at 150.0',
    ]);
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
    expect(sectionPitch_mm({ slots: wall, neighbours: neighbours(wall) }, { panel, panels: [] })).toBe(150);
  });

  it('of slots with none beside them is the panel, up to 1 m', () => {
    const two = slots([100, 0, 100, 900], [100, 1000, 100, 1900]);
    const alone = { slots: two, neighbours: neighbours(two) };
    expect(sectionPitch_mm(alone, { panel, panels: [] })).toBe(1000);
    expect(sectionPitch_mm(alone, { panel: { width_mm: 400, height_mm: 2500 }, panels: [] })).toBe(400);
  });

  it('tells upright slots from others', () => {
    expect(isUpright(slots([100, 0, 110, 900]))).toBe(true);
    expect(isUpright(slots([100, 0, 130, 900]))).toBe(false);
    // 30 mm off upright over 900 is 3.3 %; one such slot is enough, drawn either way.
    expect(isUpright(slots([100, 0, 100, 900], [330, 0, 300, 900]))).toBe(false);
  });
});

describe('difference of light between neighbours', () => {
  interface Strip {
    readonly lights: readonly number[];
    readonly darkStart_mm?: number;
    readonly unit_mm?: number;
  }
  const lit = (wall: readonly SlotLine[], strips: readonly Strip[]) =>
    wall.map((line, i) => {
      const { lights, darkStart_mm = 0, unit_mm = 100 } = strips[i]!;
      const run = bareRun(line.id, [line.x0_mm, line.y0_mm, line.x1_mm, line.y1_mm], lights.length);
      return { run: { ...run, strip_mm: lights.length * unit_mm, darkStart_mm }, light: lights };
    });
  const differences = (
    wall: readonly SlotLine[],
    strips: readonly Strip[],
    from: readonly string[] = ['S'],
  ) =>
    neighbourDifferences(
      lit(wall, strips),
      wall,
      neighbours(wall).filter((one) => from.some((id) => one.slot.startsWith(id))),
    );
  const rising = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10].map((n) => n / 10);

  it('compares units at the same height, whichever way a slot is fed', () => {
    const wall = slots([100, 0, 100, 400], [200, 400, 200, 0]);
    const up = { lights: [1, 0.9, 0.8, 0.7] };
    // The second is listed from its top, so that 1, 0.9, 0.8, 0.7 upwards meets 0.7, 0.8, 0.9, 1 turned round: alike.
    expect(differences(wall, [up, { lights: [0.7, 0.8, 0.9, 1] }])).toEqual([0, 0]);
    // 1 against 0.7 at the foot: (1 - 0.7) / 1.
    expect(differences(wall, [up, up])[0]).toBeCloseTo(0.3, 12);
  });

  it('is a ratio of the brighter of the two, and of two dark units nothing', () => {
    const wall = slots([100, 0, 100, 100], [200, 0, 200, 100]);
    // (0.5 - 0.4) / 0.5, whichever is the brighter.
    expect(differences(wall, [{ lights: [0.5] }, { lights: [0.4] }])[0]).toBeCloseTo(0.2, 12);
    expect(differences(wall, [{ lights: [0.4] }, { lights: [0.5] }])[0]).toBeCloseTo(0.2, 12);
    expect(differences(wall, [{ lights: [0] }, { lights: [0] }])).toEqual([0, 0]);
  });

  it('between slots listed apart from each other, said of both; null where nothing lies across', () => {
    const wall = slots([100, 0, 100, 400], [900, 1000, 900, 1400], [200, 0, 200, 400]);
    const even = { lights: [1, 1], unit_mm: 200 };
    const [first, alone, third] = differences(wall, [even, even, { lights: [0.8, 1], unit_mm: 200 }]);
    expect(first).toBeCloseTo(0.2, 12);
    expect(third).toBeCloseTo(0.2, 12);
    expect(alone).toBeNull();
  });

  it('of a slot between two others is the larger one', () => {
    const wall = slots([100, 0, 100, 100], [200, 0, 200, 100], [300, 0, 300, 100]);
    const of = (lights: readonly number[]) =>
      differences(
        wall,
        lights.map((light) => ({ lights: [light] })),
      ).map((difference) => Number(difference!.toFixed(12)));
    expect(of([0.8, 1, 0.5])).toEqual([0.2, 0.5, 0.5]);
    expect(of([0.5, 1, 0.8])).toEqual([0.5, 0.5, 0.2]);
  });

  it('counts from where the strip begins, and leaves out what has no strip across', () => {
    const wall = slots([100, 0, 100, 400], [200, 0, 200, 400]);
    // The second strip begins 100 mm up, beside the second unit of the first.
    expect(
      differences(wall, [{ lights: [0.2, 1, 0.9, 0.8] }, { lights: [1, 0.9, 0.8], darkStart_mm: 100 }]),
    ).toEqual([0, 0]);
    // One in the lower, the other in the upper half: nothing to compare, though the slots lie side by side.
    expect(differences(wall, [{ lights: [1, 1] }, { lights: [0.5, 0.5], darkStart_mm: 200 }])).toEqual([
      null,
      null,
    ]);
    // With nothing across one neighbour the other still counts: 0.75 against 1 above.
    const three = slots([100, 0, 100, 400], [200, 0, 200, 400], [300, 0, 300, 400]);
    const upper = { lights: [1, 1], darkStart_mm: 200 };
    expect(differences(three, [{ lights: [0.5, 0.5] }, upper, { ...upper, lights: [0.75, 1] }])).toEqual([
      null,
      0.25,
      0.25,
    ]);
    expect(differences(three, [{ ...upper, lights: [0.75, 1] }, upper, { lights: [0.5, 0.5] }])).toEqual([
      0.25,
      0.25,
      null,
    ]);
  });

  it('does not look through a slot at the one behind it', () => {
    const wall = slots([100, 0, 100, 900], [200, 300, 200, 500], [400, 0, 400, 900]);
    const even = (count: number) => Array<number>(count).fill(1);
    const behind = even(9).fill(0.5, 3, 5);
    // The third is dim only where the second stands before it, as the second sees and the first does not.
    expect(differences(wall, [{ lights: even(9) }, { lights: even(2) }, { lights: behind }])).toEqual([
      0, 0.5, 0.5,
    ]);
  });

  describe('between slanted slots, 3 across for 4 up', () => {
    // Along the slot the second begins 60 mm later: the middle of unit i of the first, at 50 + 100 i, meets the second
    // at 100 i - 10, in its unit i - 1. Nothing meets the first unit of the first and the last of the second.
    const [first, second] = slots([50, 30, 650, 830], [150, 30, 750, 830]);
    const turned = (of: SlotLine): SlotLine => slot(of.number, [of.x1_mm, of.y1_mm, of.x0_mm, of.y0_mm]);
    const lights = [
      [0, ...rising.slice(1)],
      [...rising.slice(1), 0],
    ] as const;

    it('that are listed from the foot', () => {
      const [a, b] = lights.map((light) => ({ lights: light }));
      expect(differences([first!, second!], [a!, b!])).toEqual([0, 0]);
    });

    it('and from the head, one or both', () => {
      const [a, b] = lights.map((light) => ({ lights: light }));
      const [c, d] = lights.map((light) => ({ lights: light.toReversed() }));
      expect(differences([first!, turned(second!)], [a!, d!])).toEqual([0, 0]);
      expect(differences([turned(first!), second!], [c!, b!])).toEqual([0, 0]);
      expect(differences([turned(first!), turned(second!)], [c!, d!])).toEqual([0, 0]);
    });

    it('one unit out of step, the largest step tells', () => {
      // 0.2 against 0.3 and on to 0.9 against 1: the largest is (0.3 - 0.2) / 0.3.
      const outOfStep = { lights: [...rising.slice(2), 0, 0] };
      expect(
        differences([first!, second!], [{ lights: [0, ...rising.slice(1, 9), 0] }, outOfStep])[0],
      ).toBeCloseTo(1 / 3, 12);
    });
  });

  describe('in a fan: upright, and 3 across for 4 up', () => {
    const fan = slots([20, 40, 20, 1040], [120, 40, 720, 840]);

    it('seen from the upright slot', () => {
      // At 50 + 100 i up it meets the slanted one at 1.25 times that: 62.5, 187.5, 312.5, 437.5, 562.5, 687.5, 812.5,
      // 937.5, which are the units 0, 1, 3, 4, 5, 6, 8 and 9; 2 and 7 are met by none.
      const slanted = [0.1, 0.2, 0, 0.3, 0.4, 0.5, 0.6, 0, 0.7, 0.8];
      expect(differences(fan, [{ lights: rising }, { lights: slanted }], ['S01'])).toEqual([0, 0]);
    });

    it('seen from the slanted slot', () => {
      // Square across, s along it meets the upright one at 1.25 s + 75: 137.5, 262.5, 387.5, 512.5, 637.5, 762.5, 887.5,
      // which are the units 1, 2, 3, 5, 6, 7 and 8; beyond 740 along there is nothing.
      const slanted = [0.2, 0.3, 0.4, 0.6, 0.7, 0.8, 0.9, 0, 0, 0];
      expect(differences(fan, [{ lights: rising }, { lights: slanted }], ['S02'])).toEqual([0, 0]);
    });
  });
});
