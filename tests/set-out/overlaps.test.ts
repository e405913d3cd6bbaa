import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SlotLine } from '../../src/answer/sizing.ts';
import { overlapIssue } from '../../src/set-out/overlaps.ts';
import { slot, slots } from './slots.ts';

const sentence = (wall: readonly SlotLine[]): string | undefined => overlapIssue(wall)?.sentence;

describe('slots that run into each other', () => {
  it('are refused whether or not they are listed one after the other, naming both', () => {
    const [a, b, c] = slots([100, 0, 100, 900], [900, 0, 900, 900], [105, 0, 105, 900]);
    for (const wall of [
      [a, b, c],
      [c, b, a],
      [b, a, c],
      [a, c, b],
    ] as SlotLine[][]) {
      expect(sentence(wall)).toMatch(/S0[13] and S0[13] lie 5 mm apart and are 20 mm wide/);
    }
  });

  it('are named however they lie: one on the other, crossing, ending in one another', () => {
    expect(sentence(slots([100, 0, 100, 900], [500, 0, 500, 900], [100, 0, 100, 900]))).toMatch(
      /^Slots S01 and S03 lie one on the other/,
    );
    expect(sentence(slots([0, 500, 1000, 500], [500, 0, 500, 1000]))).toMatch(/^Slots S01 and S02 cross/);
    expect(sentence(slots([0, 500, 1000, 500], [500, 505, 500, 1000]))).toMatch(
      /^Slots S01 and S02 run into each other/,
    );
  });

  it('are counted, and the first pair along the wall is named', () => {
    const wall = slots([100, 0, 100, 900], [110, 0, 110, 900], [120, 0, 120, 900]);
    // 1 and 2, 2 and 3 at 10 mm; 1 and 3 at 20 mm, with no board left between: two more.
    expect(sentence(wall)).toMatch(/S01 and S02 .* 2 more pairs do so too\.$/);
  });

  it('at exactly their width leave no board between them', () => {
    expect(sentence(slots([100, 0, 100, 900], [120, 0, 120, 900]))).toMatch(/20 mm apart and are 20 mm wide/);
    expect(sentence(slots([100, 0, 100, 900], [120.1, 0, 120.1, 900]))).toBeUndefined();
  });
});

describe('slots taken as drawn', () => {
  it('end to end in one line, and at the corner of a bent slot of 90 degrees or more', () => {
    expect(overlapIssue(slots([100, 0, 100, 900], [100, 900, 100, 1800]))).toBeUndefined();
    expect(overlapIssue(slots([100, 0, 100, 900], [100, 900, 600, 900]))).toBeUndefined();
    expect(overlapIssue(slots([100, 0, 100, 900], [300, 1800, 100, 900]))).toBeUndefined();
    expect(sentence(slots([100, 0, 100, 900], [100, 900, 200, 0]))).toMatch(/run into each other/);
  });
});

/** Whether any of many places inside one opening lies inside the other. */
function sampledOverlap(a: SlotLine, b: SlotLine): boolean {
  const inside = (x: number, y: number, of: SlotLine): boolean => {
    const [ux, uy] = [(of.x1_mm - of.x0_mm) / of.length_mm, (of.y1_mm - of.y0_mm) / of.length_mm];
    const along = (x - of.x0_mm) * ux + (y - of.y0_mm) * uy;
    const left = (y - of.y0_mm) * ux - (x - of.x0_mm) * uy;
    return along > 0 && along < of.length_mm && Math.abs(left) < of.width_mm / 2;
  };
  const places = Array.from({ length: 60 }, (_, i) =>
    Array.from({ length: 13 }, (_, j) => [(i + 0.5) / 60, (j / 12 - 0.5) * 0.999] as const),
  ).flat();
  return places.some(([share, off]) => {
    const [ux, uy] = [(a.x1_mm - a.x0_mm) / a.length_mm, (a.y1_mm - a.y0_mm) / a.length_mm];
    const at = share * a.length_mm;
    return inside(a.x0_mm + at * ux - off * a.width_mm * uy, a.y0_mm + at * uy + off * a.width_mm * ux, b);
  });
}

describe('two slots anywhere', () => {
  const end = fc.integer({ min: 0, max: 300 });
  const anywhere = fc
    .tuple(end, end, end, end)
    .filter(([x0, y0, x1, y1]) => Math.hypot(x1 - x0, y1 - y0) > 30);

  it('with a place in common are refused, and in either order alike', () => {
    fc.assert(
      fc.property(anywhere, anywhere, (p, q) => {
        const [a, b] = [slot(1, p), slot(2, q)];
        const refused = overlapIssue([a, b]) !== undefined;
        expect(overlapIssue([b, a]) !== undefined).toBe(refused);
        const isCorner = [0, 2].some((i) => [0, 2].some((j) => p[i] === q[j] && p[i + 1] === q[j + 1]));
        if (!isCorner && sampledOverlap(a, b)) expect(refused).toBe(true);
      }),
      { seed: 9, numRuns: 400 },
    );
  });

  it('whose centre lines keep further than their width from each other are not', () => {
    // No place of an opening is further than half its width from its centre line.
    const toLine = (x: number, y: number, of: SlotLine): number => {
      const [dx, dy] = [of.x1_mm - of.x0_mm, of.y1_mm - of.y0_mm];
      const share = ((x - of.x0_mm) * dx + (y - of.y0_mm) * dy) / of.length_mm ** 2;
      const at = Math.min(1, Math.max(0, share));
      return Math.hypot(x - of.x0_mm - at * dx, y - of.y0_mm - at * dy);
    };
    let clear = 0;
    fc.assert(
      fc.property(anywhere, anywhere, (p, q) => {
        const [a, b] = [slot(1, p), slot(2, q)];
        const ends = [
          toLine(a.x0_mm, a.y0_mm, b),
          toLine(a.x1_mm, a.y1_mm, b),
          toLine(b.x0_mm, b.y0_mm, a),
          toLine(b.x1_mm, b.y1_mm, a),
        ];
        if (Math.min(...ends) <= 20.01 || sentence([a, b])?.includes('cross')) return;
        clear++;
        expect(sentence([a, b])).toBeUndefined();
      }),
      { seed: 9, numRuns: 400 },
    );
    expect(clear).toBeGreaterThan(100);
  });
});
