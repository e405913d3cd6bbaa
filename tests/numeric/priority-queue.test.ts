import { describe, expect, it } from 'vitest';
import { compareLists, priorityQueue } from '../../src/numeric/priority-queue.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

describe('a queue by priority', () => {
  it('gives back what was put in, the least first', () => {
    const random = seededRandom(7);
    const queue = priorityQueue<number>((a, b) => a - b);
    const numbers = Array.from({ length: 300 }, () => Math.floor(100 * random()));
    for (const each of numbers) queue.push(each);
    expect(queue.size()).toBe(300);
    expect(numbers.map(() => queue.pop())).toEqual(numbers.toSorted((a, b) => a - b));
    expect(queue.pop()).toBeUndefined();
  });

  it('keeps its order while things come and go', () => {
    const queue = priorityQueue<number>((a, b) => a - b);
    for (const each of [5, 1, 4]) queue.push(each);
    expect(queue.pop()).toBe(1);
    for (const each of [0, 9]) queue.push(each);
    expect([queue.pop(), queue.pop(), queue.pop(), queue.pop()]).toEqual([0, 4, 5, 9]);
  });

  it('compares lists by their first difference, and the shorter first', () => {
    expect(compareLists([1, 5], [1, 7])).toBeLessThan(0);
    expect(compareLists([2], [1, 7])).toBeGreaterThan(0);
    expect(compareLists([1], [1, 0])).toBeLessThan(0);
    expect(compareLists([1, 2], [1, 2])).toBe(0);
  });
});
