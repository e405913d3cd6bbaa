import { describe, expect, it } from 'vitest';
import { remembered, rememberedFor } from '../../src/numeric/remembered.ts';

describe('a function that remembers', () => {
  it('answers as the function does, and asks it once for the same question', () => {
    const asked: number[] = [];
    const square = remembered(({ of }: { of: number }) => {
      asked.push(of);
      return of * of;
    }, 2);
    expect([3, 3, 4, 3].map((of) => square({ of }))).toEqual([9, 9, 16, 9]);
    expect(asked).toEqual([3, 4]);
  });

  it('keeps no more than it may, and forgets what was longest unasked', () => {
    const asked: string[] = [];
    const long = remembered((word: string) => {
      asked.push(word);
      return word.length;
    }, 2);
    for (const word of ['a', 'b', 'a', 'c', 'a', 'b']) long(word);
    expect(asked).toEqual(['a', 'b', 'c', 'b']);
  });

  it('works out once for each object what belongs to it, nothing included', () => {
    const asked: object[] = [];
    const first = rememberedFor((list: readonly number[]) => {
      asked.push(list);
      return list[0];
    });
    const [some, alike, none] = [[1, 2], [1, 2], []];
    expect([some, alike, none, some, none].map(first)).toEqual([1, 1, undefined, 1, undefined]);
    expect(asked).toEqual([some, alike, none]);
  });
});
