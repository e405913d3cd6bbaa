import { describe, expect, it } from 'vitest';
import { newJob } from '../../src/index.ts';
import { careful } from './careful.ts';
import { failures } from './failures.ts';
import { jobs } from './jobs.ts';
import { fuzz, type Kind } from './kind.ts';
import { wrongIssue } from './oracle.ts';
import { order } from './order.ts';
import { isJobField } from './schema.ts';

/** What broke, by the number of its case: what `npm run fuzz -- KIND 1 --seed SEED --from NUMBER` shows again. */
async function broken<Case>(kind: Kind<Case>, seed: number, from: number, count: number): Promise<string[]> {
  const found: string[] = [];
  await fuzz(kind, { seed, from, count }, (number, _, what) => found.push(`${number}: ${what.join('; ')}`));
  return found;
}

/** Begins of so many equal parts, each a test of its own. */
const parts = (count: number, each: number): number[] => Array.from({ length: count }, (_, i) => i * each);

describe('random jobs', () => {
  it.each(parts(5, 50))('break nothing quick, whatever their order, from number %i on', async (from) => {
    const found: string[] = [];
    // Of every ten two also in another order, while their sections are remembered.
    for (let ten = from; ten < from + 50; ten += 10)
      found.push(...(await broken(jobs, 1, ten, 10)), ...(await broken(order, 1, ten, 2)));
    expect(found).toEqual([]);
  });

  it.each(parts(4, 5))('break nothing careful, from number %i on', async (from) => {
    expect(await broken(careful, 2, from, 5)).toEqual([]);
  });

  it.each(parts(3, 10))('overload nothing when one thing is dead, from number %i on', async (from) => {
    expect(await broken(failures, 1, from, 10)).toEqual([]);
  });

  it('are the same for the same seed and number, whatever ran before', () => {
    const first = jobs.make(5, 17);
    jobs.make(5, 18);
    expect(jobs.make(5, 17)).toEqual(first);
    expect(jobs.make(6, 17)).not.toEqual(first);
  });
});

describe('what counts as broken', () => {
  it('a field that no job has', () => {
    for (const field of [
      'slots.spacing.count',
      'feeds.exceptions[2].slot',
      'drivers.places[1]',
      'strip.data',
      'slots.lengths_mm',
    ]) {
      expect(isJobField(field)).toBe(true);
    }
    expect(isJobField('strip.temperature')).toBe(false);
    expect(isJobField('drivers[1]')).toBe(false);
  });

  it('a refusal without remedy, place or fit numbers', () => {
    const issue = {
      code: 'x',
      place: { slot: 'S01' },
      quantities: {},
      sentence: 'Slot S01 is too short: make it longer.',
    };
    expect(wrongIssue(issue)).toEqual([]);
    expect(wrongIssue({ ...issue, sentence: 'Slot S01 is too short.' })).toHaveLength(1);
    expect(wrongIssue({ ...issue, place: {} })).toHaveLength(1);
    expect(wrongIssue({ ...issue, quantities: { length_mm: Number.NaN } })).toHaveLength(1);
    expect(wrongIssue({ ...issue, sentence: 'Make slot S01 2.606890913215466 mm longer.' })).toHaveLength(1);
  });

  it('whatever throws', async () => {
    const throwing = { ...newJob(), panel: null } as unknown as ReturnType<typeof newJob>;
    expect((await jobs.broken(throwing))[0]).toMatch(/^threw TypeError/);
    expect((await careful.broken(throwing))[0]).toMatch(/^threw TypeError/);
  });
});
