import { describe, expect, it } from 'vitest';
import { countTogether, leavingCount } from '../../src/installation/bunching.ts';
import type { LaidCable, Path } from '../../src/installation/plan.ts';
import { chance, pick, randomOf, whole } from '../fuzz/random.ts';
import { laid, path } from './laid.ts';

/** How many lie together, stretch by stretch, cable by cable. */
const counted = (...cables: LaidCable[]) => {
  const together = countTogether(cables);
  return cables.map(({ legs }) => legs.flatMap(({ paths }) => paths.map((each) => together.get(each))));
};

describe('circuits side by side, counted by hand', () => {
  it('are those that lie along the same line at the same spot', () => {
    // Along the way at 40 mm from 0 to 300, to 200 and from 200 to 500; up at 300, 200 and 500.
    const a = laid('a', [path([0, 40], [300, 40]), path([300, 40], [300, 100])]);
    const b = laid('b', [path([0, 40], [200, 40]), path([200, 40], [200, 100])]);
    const c = laid('c', [path([200, 40], [500, 40])]);
    // a and b to 200, a and c to 300: never three.
    expect(counted(a, b, c)).toEqual([[2, 1], [2, 1], [2]]);
    const d = laid('d', [path([150, 40], [250, 40])]);
    expect(counted(a, b, c, d)).toEqual([[3, 1], [3, 1], [3], [3]]);
  });

  it('do not meet where one ends and the other begins', () => {
    expect(counted(laid('a', [path([0, 40], [200, 40])]), laid('b', [path([200, 40], [400, 40])]))).toEqual([
      [1],
      [1],
    ]);
  });

  it('warm each other up to 20 mm apart, and over a chain of such neighbours', () => {
    const at = (id: string, y_mm: number) => laid(id, [path([0, y_mm], [300, y_mm])]);
    expect(counted(at('a', 40), at('b', 60))).toEqual([[2], [2]]);
    expect(counted(at('a', 40), at('b', 60.1))).toEqual([[1], [1]]);
    expect(counted(at('c', 80), at('a', 40), at('b', 60))).toEqual([[3], [3], [3]]);
  });

  it('do not count across: what stands is not beside what lies', () => {
    expect(counted(laid('a', [path([0, 40], [300, 40])]), laid('b', [path([10, 30], [10, 900])]))).toEqual([
      [1],
      [1],
    ]);
  });

  it('are one where a crossed feed keeps together, and one where its return goes on alone', () => {
    const plus = laid('p', [path([0, 40], [300, 40])], { conductors: 'positive' });
    const home = laid('h', [path([0, 40], [900, 40])], { conductors: 'return' });
    expect(counted(plus, home)).toEqual([[1], [1]]);
    const pair = laid('b', [path([0, 40], [900, 40])]);
    expect(counted(plus, home, pair)).toEqual([[2], [2], [2]]);
  });

  it('are as many as the returns where those of several crossed feeds go on together', () => {
    const crossed = (id: string) => [
      laid(`${id}p`, [path([0, 40], [300, 40])], { conductors: 'positive' }),
      laid(`${id}h`, [path([300, 40], [1300, 40])], { conductors: 'return' }),
    ];
    expect(counted(...crossed('a'), ...crossed('b'), ...crossed('c'))).toEqual(Array(6).fill([3]));
  });

  it('are not counted inside places, nor between a remote place and the panel', () => {
    const inside = { ...path([0, 40], [300, 40]), in: 'place' } as const;
    const remote = { ...path([0, 40], [300, 40]), in: 'remote' } as const;
    expect(counted(laid('a', [inside, remote]), laid('b', [path([0, 40], [300, 40])]))).toEqual([
      [undefined, undefined],
      [1],
    ]);
  });
});

describe('any small wall', () => {
  /** Cables on a coarse grid, so that many meet. */
  function randomCables(number: number): LaidCable[] {
    const random = randomOf(17, number);
    const grid = (most: number, step: number) => step * whole(random, 0, most);
    const stretch = (): Path => {
      const [at, low] = [grid(8, 10), grid(10, 3)];
      const high = low + 3 + grid(8, 3);
      return chance(random, 0.5) ? path([low, at], [high, at]) : path([at, high], [at, low]);
    };
    return Array.from({ length: whole(random, 1, 7) }, (_, i) =>
      laid(`C${i}`, Array.from({ length: whole(random, 1, 3) }, stretch), {
        conductors: pick(random, ['both', 'both', 'positive', 'return']),
      }),
    );
  }

  const isUpright = ({ from, to }: Path): boolean => from.x_mm === to.x_mm;
  const across = (each: Path): number => (isUpright(each) ? each.from.x_mm : each.from.y_mm);
  const covers = (each: Path, spot: number): boolean => {
    const [a, b] = isUpright(each) ? [each.from.y_mm, each.to.y_mm] : [each.from.x_mm, each.to.x_mm];
    return Math.min(a, b) < spot && spot < Math.max(a, b);
  };

  it('counts what looking at each pair and each millimetre counts', () => {
    for (let number = 0; number < 200; number++) {
      const cables = randomCables(number);
      const all = cables.flatMap(({ conductors, legs }) =>
        legs.flatMap(({ paths }) => paths.map((each) => ({ each, conductors }))),
      );
      const isBeside = (a: Path, b: Path) =>
        isUpright(a) === isUpright(b) && Math.abs(across(a) - across(b)) <= 20;
      const together = countTogether(cables);
      for (const { each } of all) {
        // Pair by pair, until nobody joins.
        let bundle = new Set([each]);
        for (let size = 0; size < bundle.size; ) {
          size = bundle.size;
          const joined = all.filter((other) => [...bundle].some((one) => isBeside(one, other.each)));
          bundle = new Set(joined.map((other) => other.each));
        }
        let most = 0;
        for (let spot = 0.5; spot < 70; spot++) {
          if (!covers(each, spot)) continue;
          const here = all.filter((other) => bundle.has(other.each) && covers(other.each, spot));
          const pluses = here.filter(({ conductors }) => conductors !== 'return').length;
          const returns = here.filter(({ conductors }) => conductors !== 'positive').length;
          most = Math.max(most, pluses, returns);
        }
        expect(together.get(each)).toBe(most);
      }
    }
  });
});

describe('circuits that leave an output', () => {
  it('are one for a cable, two for a ring, and one for both parts of a crossed feed', () => {
    const output = { kind: 'output', id: 'D1.1' } as const;
    const tap = { kind: 'tap', id: 'T' } as const;
    const [out] = laid('T1.1', [], { to: tap }).legs;
    const [back] = laid('T1.1', [], { from: tap, to: output }).legs;
    const ring: LaidCable = { ...laid('T1.1', []), kind: 'trunk', legs: [out!, back!] };
    const branch = laid('C01', [], { kind: 'branch', from: tap });
    expect(leavingCount([ring, branch])).toBe(2);
    const crossed = (['positive', 'return'] as const).map((conductors) =>
      laid(conductors, [], { conductors }),
    );
    expect(leavingCount(crossed)).toBe(1);
    expect(leavingCount([laid('a', []), laid('b', []), ...crossed])).toBe(3);
    expect(leavingCount([])).toBe(0);
  });
});
