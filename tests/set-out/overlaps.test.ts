import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SlotLine } from '../../src/answer/set-out.ts';
import { overlapIssue } from '../../src/set-out/overlaps.ts';
import { slot, slots } from './slots.ts';

const sentence = (wall: readonly SlotLine[]): string | undefined => overlapIssue(wall)?.sentence;

describe('slots that run into each other', () => {
  it('are refused whether or not they are listed one after the other, naming both', () => {
    const [a, b, c] = slots([100, 0, 100, 900], [900, 0, 900, 900], [105, 0, 105, 900]);
    for (const [wall, named, place] of [
      [[a, b, c], 'S01 and S03', 'S03'],
      [[c, b, a], 'S03 and S01', 'S01'],
      [[b, a, c], 'S01 and S03', 'S03'],
      [[a, c, b], 'S01 and S03', 'S03'],
    ] as [SlotLine[], string, string][]) {
      expect(overlapIssue(wall)).toMatchObject({
        sentence: expect.stringMatching(`^Slots ${named} lie 5 mm apart and are 20 mm wide`),
        place: { slot: place, field: 'slots' },
        quantities: { distance_mm: 5, slotWidth_mm: 20, pairCount: 1 },
      });
      expect(sentence(wall)).not.toContain('more');
    }
  });

  it('the first pair in the order of the slots is named, by its first slot and then by its second', () => {
    // From left to right they lie S03 S01 S04 S02, 10 mm apart: S01 meets S03, S04 and, at 20 mm, S02; so do others.
    const [a, b, c, d] = slots([100, 0, 100, 900], [120, 0, 120, 900], [90, 0, 90, 900], [110, 0, 110, 900]);
    expect(sentence([a!, b!, c!, d!])).toMatch(/^Slots S01 and S02 lie 20 mm apart/);
    expect(sentence([a!, d!, c!, b!])).toMatch(/^Slots S01 and S04 lie 10 mm apart/);
    expect(sentence([c!, b!, a!, d!])).toMatch(/^Slots S03 and S01 lie 10 mm apart/);
    expect(sentence([b!, c!, d!, a!])).toMatch(/^Slots S02 and S04 lie 10 mm apart/);
  });

  it('meeting with an end on the centre line of the other, do not cross it', () => {
    for (const y_mm of [0, 1000]) {
      expect(sentence(slots([0, 500, 1000, 500], [500, y_mm, 500, 500]))).toMatch(/run into each other/);
      expect(sentence(slots([1000, 500, 0, 500], [500, 500, 500, y_mm]))).toMatch(/run into each other/);
    }
  });

  it('half a millimetre apart lie beside each other, less and they lie one on the other', () => {
    expect(sentence(slots([100, 0, 100, 900], [100.5, 0, 100.5, 900]))).toContain('lie 0.5 mm apart');
    expect(sentence(slots([100, 0, 100, 900], [100.4, 0, 100.4, 900]))).toContain('lie one on the other');
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
    // 1 and 2, 2 and 3, the outer ones 30 mm apart: one more.
    const two = slots([100, 0, 100, 900], [115, 0, 115, 900], [130, 0, 130, 900]);
    expect(sentence(two)).toMatch(/S01 and S02 .* 1 more pair does so too\.$/);
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

  it('at a corner that a drawing leaves half a millimetre open, and no more', () => {
    expect(overlapIssue(slots([100, 0, 100, 900], [100.5, 900, 600, 900]))).toBeUndefined();
    expect(sentence(slots([100, 0, 100, 900], [100.6, 900, 600, 900]))).toMatch(/run into each other/);
  });

  it('one above the other, ends on one line though not in one line', () => {
    expect(overlapIssue(slots([100, 0, 100, 900], [110, 900, 110, 1800]))).toBeUndefined();
    expect(sentence(slots([100, 0, 100, 900], [110, 899, 110, 1800]))).toContain('lie 10 mm apart');
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

  it('many at once: as many pairs as are found taking two and two', () => {
    const wall = fc.array(anywhere, { minLength: 3, maxLength: 8 });
    fc.assert(
      fc.property(wall, (ends) => {
        const all = slots(...ends);
        const pairs = all.flatMap((a, i) => all.slice(i + 1).map((b) => overlapIssue([a, b])));
        const pairCount = pairs.filter((issue) => issue !== undefined).length;
        expect(overlapIssue(all)?.quantities.pairCount ?? 0).toBe(pairCount);
      }),
      { seed: 9, numRuns: 60 },
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
