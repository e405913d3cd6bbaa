import { describe, expect, it } from 'vitest';
import { type Supply, shareWays } from '../../src/installation/fuse-ways.ts';
import type { CableToPlan, PlannedSource } from '../../src/installation/protection-plan.ts';

const supply = (id: string, design_A: number, capacity_A: number, change: Partial<CableToPlan> = {}) => ({
  ...{ id, feeds: id, conductors: 'both' as const, design_A, capacity_A },
  ...change,
});

const row = (count: number, design_A: number, capacity_A: number): CableToPlan[] =>
  Array.from({ length: count }, (_, i) => supply(`C${i + 1}`, design_A, capacity_A));

const blades = (limit_A: number): PlannedSource => ({ limit_A, fuses: 'blade' });

const alone = (supplies: readonly CableToPlan[], together: string | null = null): Supply[] =>
  supplies.map((each) => ({ ...each, cable: each.id, end: 0, together }));

/** Rating of each way, null for none, and what is made off to it. */
const told = (supplies: readonly CableToPlan[], source: PlannedSource, together: string | null = null) =>
  shareWays(alone(supplies, together), source).map((way) => [
    way.fuse?.rating_A ?? null,
    way.supplies.map(({ id }) => id).join(' '),
  ]);

describe('ways of a block', () => {
  it('take four each where the source gives no more than any may carry', () => {
    expect(told(row(6, 1, 9), blades(7.5))).toEqual([
      [null, 'C1 C2 C3 C4'],
      [null, 'C5 C6'],
    ]);
  });

  it('share a fuse where it gives more: 2 x 2 A need 5 A of a blade fuse, which 6 A allow; three would need 7.5', () => {
    expect(told(row(3, 2, 6), blades(15))).toEqual([
      [5, 'C1 C2'],
      [3, 'C3'],
    ]);
  });

  it('come in three kinds: held by the source, fused, and what no fuse protects', () => {
    // 10 A and more are held by 9 A. 5 A of 5.5 would need 6.25 A: none. 2 A of 6 need 2.5, so 3 A.
    const supplies = [
      supply('bare', 5, 5.5),
      supply('held', 4, 10),
      supply('fused', 2, 6),
      supply('too', 3, 12),
    ];
    expect(told(supplies, blades(9))).toEqual([
      [null, 'held too'],
      [3, 'fused'],
      [null, 'bare'],
    ]);
  });

  it('have one fuse for both ends of a ring, its load counted once', () => {
    // 4 A and not 8: 5 A.
    const ends = [supply('T', 4, 9), supply('T back', 4, 9, { feeds: 'T' })];
    expect(told(ends, blades(15))).toEqual([[5, 'T T back']]);
  });

  it('have no place for returns, which the fuse of their plus protects, down to their own capacity', () => {
    // 2 A need 3 A; 9 A would allow it, 2.9 A of the return do not.
    const crossed = (home_A: number) => [
      supply('p', 2, 9, { feeds: 'S', conductors: 'positive' }),
      supply('h', 2, home_A, { feeds: 'S', conductors: 'return' }),
    ];
    expect(told(crossed(9), blades(15))).toEqual([[3, 'p']]);
    expect(told(crossed(2.9), blades(15))).toEqual([[null, 'p']]);
    // Nor where the source holds both.
    expect(told(crossed(9), blades(5))).toEqual([[null, 'p']]);
  });

  it('carry every supply but the returns, each once, in any mixture', () => {
    const supplies = Array.from({ length: 17 }, (_, i) => supply(`C${i}`, 0.3 * (i % 7), 1 + (i % 5)));
    const carried = shareWays(alone(supplies), blades(3)).flatMap((way) => way.supplies.map(({ id }) => id));
    expect(carried.toSorted()).toEqual(supplies.map(({ id }) => id).toSorted());
  });

  it('share none with others where two feed one run: a blown fuse would feed the others backwards through it', () => {
    // 0.5 A each on 9 A: four would share a way of 3 A; the pair of S2 stands by itself, and parts the others.
    const [a, b, c, d] = row(4, 0.5, 9);
    const supplies = [...alone([a!]), ...alone([b!, c!], 'S2'), ...alone([d!])];
    const ways = shareWays(supplies, blades(20)).map((way) => way.supplies.map(({ id }) => id).join(' '));
    expect(ways).toEqual(['C1', 'C2 C3', 'C4']);
  });

  it('are none for no supplies', () => {
    expect(shareWays([], blades(3))).toEqual([]);
  });
});
