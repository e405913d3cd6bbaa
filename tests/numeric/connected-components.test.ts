import { describe, expect, it } from 'vitest';
import { connectedComponents } from '../../src/numeric/connected-components.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

describe('connected components', () => {
  it('puts together what is joined, however far round, and nothing else', () => {
    const component = connectedComponents(7, [
      [0, 1],
      [3, 4],
      [1, 2],
      [4, 3],
      [5, 2],
    ]);
    expect(new Set([component[0], component[1], component[2], component[5]]).size).toBe(1);
    expect(component[3]).toBe(component[4]);
    expect(new Set(component).size).toBe(3);
  });
});

describe('seeded random', () => {
  it('has the published 10,000th state 399268537 from seed 1', () => {
    const random = seededRandom(1);
    let last = 0;
    for (let i = 0; i < 10_000; i++) last = random();
    expect(Math.round(last * 2147483647)).toBe(399268537);
  });

  it('has no seed 0, half or negative', () => {
    for (const seed of [0, 0.5, -1, 2147483647]) expect(() => seededRandom(seed)).toThrow(RangeError);
  });
});
