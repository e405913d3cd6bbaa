import { describe, expect, it } from 'vitest';
import { reaching, uBlocks } from '../../src/numeric/u-blocks.ts';

const box = (x0: number, x1: number, y0: number, y1: number) => ({ x0, x1, y0, y1 });

/** 20 by 10 outside, walls of 2, the base 3 thick at the side it lies at. */
const outer = box(0, 20, 0, 10);

describe('a U', () => {
  it.each([
    ['y0', box(2, 18, 3, 10), [box(0, 20, 0, 3), box(0, 2, 0, 10), box(18, 20, 0, 10)]],
    ['y1', box(2, 18, 0, 7), [box(0, 20, 7, 10), box(0, 2, 0, 10), box(18, 20, 0, 10)]],
    ['x0', box(3, 20, 2, 8), [box(0, 3, 0, 10), box(0, 20, 0, 2), box(0, 20, 8, 10)]],
    ['x1', box(0, 17, 2, 8), [box(17, 20, 0, 10), box(0, 20, 0, 2), box(0, 20, 8, 10)]],
  ] as const)('with its base at %s has that and two walls', (base, inner, blocks) => {
    expect(uBlocks(outer, inner, base)).toEqual(blocks);
  });

  it('reaches further at one side only', () => {
    expect(reaching(outer, 'x0', 1)).toEqual(box(-1, 20, 0, 10));
    expect(reaching(outer, 'y1', 1)).toEqual(box(0, 20, 0, 11));
  });
});
