import { describe, expect, it } from 'vitest';
import { proposals } from '../fuzz/proposals.ts';

/** `npm run fuzz -- proposals 200` goes on from here. */
describe('the search', () => {
  it.each([0, 12, 28])(
    'finds what sizing every design of a small world finds, from world %i on',
    async (from) => {
      for (let number = from; number < from + 2; number++)
        expect({ number, broken: await proposals.broken(proposals.make(1, number)) }).toEqual({
          number,
          broken: [],
        });
    },
  );
});
