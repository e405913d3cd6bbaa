import fc from 'fast-check';
import { expect, it } from 'vitest';
import { heap } from '../../src/numeric/heap.ts';

it('gives what waits in order, of equals the one that came first', () => {
  fc.assert(
    fc.property(fc.array(fc.nat(9)), (list) => {
      const waiting = heap<{ value: number; turn: number }>((a, b) => a.value < b.value);
      list.forEach((value, turn) => {
        waiting.push({ value, turn });
      });
      const out = list.map(() => waiting.pop()!);
      const sorted = list
        .map((value, turn) => ({ value, turn }))
        .sort((a, b) => a.value - b.value || a.turn - b.turn);
      expect(out).toEqual(sorted);
      expect(waiting.pop()).toBeUndefined();
    }),
    { seed: 73, numRuns: 200 },
  );
});
