import { describe, expect, it } from 'vitest';
import { inWallOrder } from '../../src/set-out/wall-order.ts';
import { slots } from './slots.ts';

const names = (...ends: Parameters<typeof slots>) => inWallOrder(slots(...ends)).map(({ id }) => id);

describe('order along the wall', () => {
  it('upright slots go from left to right, and upwards where they stand in one line', () => {
    expect(names([500, 0, 500, 900], [100, 1000, 100, 1900], [100, 0, 100, 900])).toEqual([
      'S03',
      'S02',
      'S01',
    ]);
  });

  it('level slots go upwards, and from left to right where they lie in one line', () => {
    expect(names([0, 500, 900, 500], [1000, 100, 1900, 100], [0, 100, 900, 100])).toEqual([
      'S03',
      'S02',
      'S01',
    ]);
  });

  it('a line that is out of true by parts of a millimetre is one line', () => {
    expect(names([100, 1000, 100, 1900], [100.2, 0, 100.2, 900])).toEqual(['S02', 'S01']);
    expect(names([1000, 100, 1900, 100], [0, 100.2, 900, 100.2])).toEqual(['S02', 'S01']);
  });

  it('slots drawn from their other end keep their place', () => {
    expect(names([500, 900, 500, 0], [100, 0, 100, 900])).toEqual(['S02', 'S01']);
  });

  it('goes by how slots lie, not by where: upright ones far to the right, level ones high up', () => {
    expect(names([9000, 0, 9000, 900], [8000, 100, 8000, 1000])).toEqual(['S02', 'S01']);
    expect(names([0, 9000, 900, 9000], [100, 8000, 1000, 8000])).toEqual(['S02', 'S01']);
  });

  it('as much level as upright goes from left to right', () => {
    expect(names([500, 0, 500, 900], [0, 950, 900, 950])).toEqual(['S02', 'S01']);
    expect(names([500, 950, 1300, 950], [400, 1000, 400, 1800])).toEqual(['S02', 'S01']);
  });
});
