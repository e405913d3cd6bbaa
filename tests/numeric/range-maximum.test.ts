import { describe, expect, it } from 'vitest';
import { rangeMaximum } from '../../src/numeric/range-maximum.ts';
import { between, randomOf, whole } from '../fuzz/random.ts';

describe('the largest of a stretch of a row', () => {
  it('is found by hand', () => {
    const most = rangeMaximum([3, 1, 4, 1, 5]);
    expect([most(0, 0), most(0, 1), most(1, 3), most(0, 4), most(3, 3), most(2, 4)]).toEqual([
      3, 3, 4, 5, 1, 5,
    ]);
  });

  it('is that of looking at each, for every stretch of rows of every length to 40', () => {
    for (let count = 1; count <= 40; count++) {
      const random = randomOf(5, count);
      const values = Array.from({ length: count }, () => Math.round(between(random, -9, 9)));
      const most = rangeMaximum(values);
      for (let from = 0; from < count; from++)
        for (let to = from; to < count; to++)
          expect(most(from, to)).toBe(Math.max(...values.slice(from, to + 1)));
    }
  });

  it('is that of looking at each in a long row', () => {
    const random = randomOf(6, 1);
    const values = Array.from({ length: 1000 }, () => between(random, 0, 1));
    const most = rangeMaximum(values);
    for (let i = 0; i < 200; i++) {
      const from = whole(random, 0, 999);
      const to = whole(random, from, 999);
      expect(most(from, to)).toBe(Math.max(...values.slice(from, to + 1)));
    }
  });
});
