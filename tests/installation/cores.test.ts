import { describe, expect, it } from 'vitest';
import type { CableEnd } from '../../src/answer/cables.ts';
import { type CoresToName, coresOf } from '../../src/installation/cores.ts';

const way: CableEnd = { kind: 'block', id: 'B1.1', way: 3 };
const pad: CableEnd = { kind: 'pad', run: 'S07', cutLine: 0, feedPoint: 'S07-F1' };

const named = (change: Partial<CoresToName>) =>
  coresOf({
    ...{ conductors: 'both', channels: ['white'], from: way, to: pad, currents_A: [1, 1] },
    ...{ fromOneMinus: false, sold: [1, 2, 3, 4, 5, 7] },
    ...change,
  });

const told = (change: Partial<CoresToName>) =>
  named(change).cores.map(({ number, mark, channel, from, to }) => [number, mark, channel, from, to]);

describe('the cores of a cable', () => {
  it('of one channel are plus and minus, red and white', () => {
    expect(told({})).toEqual([
      [1, 'red', null, 'B1.1 way 3 plus', 'S07-F1 plus'],
      [2, 'white', null, 'B1.1 way 3 minus', 'S07-F1 minus'],
    ]);
    expect(named({}).spareCoreCount).toBe(0);
  });

  it('of two channels are plus and a numbered minus each', () => {
    const two = { channels: ['warm', 'cool'], currents_A: [3, 1, 2] };
    expect(told(two)).toEqual([
      [1, 'red', null, 'B1.1 way 3 plus', 'S07-F1 plus'],
      [2, '2', 'warm', 'B1.1 way 3 warm', 'S07-F1 warm'],
      [3, '3', 'cool', 'B1.1 way 3 cool', 'S07-F1 cool'],
    ]);
    expect(named(two).cores.map(({ current_A }) => current_A)).toEqual([3, 1, 2]);
  });

  it.each([
    // Sold with 1, 2, 3, 4, 5 or 7 cores.
    ['both', 1, 2, 0],
    ['both', 2, 3, 0],
    ['both', 3, 4, 0],
    ['both', 4, 5, 0],
    ['both', 5, 6, 1],
    ['positive', 3, 1, 0],
    ['return', 1, 1, 0],
    ['return', 2, 2, 0],
    ['return', 4, 4, 0],
  ] as const)('%s of %i channels are %i, and %i spare', (conductors, channelCount, coreCount, spare) => {
    const channels = Array.from({ length: channelCount }, (_, i) => `channel ${i + 1}`);
    const currents_A = Array<number>(channelCount + 1).fill(1);
    const { cores, spareCoreCount } = named({ conductors, channels, currents_A });
    expect([cores.length, spareCoreCount]).toEqual([coreCount, spare]);
    for (const key of ['number', 'mark', 'from', 'to'] as const)
      expect(new Set(cores.map((core) => core[key])).size).toBe(coreCount);
  });

  it('are bought with the least number that is sold and enough, and with none where there is no such', () => {
    const bought = (...sold: number[]) => {
      const { soldCoreCount, spareCoreCount } = named({ sold });
      return [soldCoreCount, spareCoreCount];
    };
    expect([bought(5, 3, 1), bought(4, 2), bought(1)]).toEqual([
      [3, 1],
      [2, 0],
      [null, 0],
    ]);
  });

  it('part where the feed is crossed: one plus, and the returns by themselves', () => {
    expect(told({ conductors: 'positive', channels: ['warm', 'cool'] })).toEqual([
      [1, 'red', null, 'B1.1 way 3 plus', 'S07-F1 plus'],
    ]);
    expect(told({ conductors: 'return', channels: ['warm', 'cool'] })).toEqual([
      [1, '1', 'warm', 'B1.1 way 3 warm', 'S07-F1 warm'],
      [2, '2', 'cool', 'B1.1 way 3 cool', 'S07-F1 cool'],
    ]);
    expect(told({ conductors: 'return' })).toEqual([[1, 'white', null, 'B1.1 way 3 minus', 'S07-F1 minus']]);
  });
});

describe('a terminal', () => {
  const ends = (from: CableEnd, to: CableEnd) => {
    const [plus] = named({ from, to }).cores;
    return [plus!.from, plus!.to];
  };

  it('is named as it is marked on the wall', () => {
    expect(ends({ kind: 'output', id: 'D1.1' }, { kind: 'block', id: 'B1.1', way: null })).toEqual([
      ...['D1.1 plus', 'B1.1 in, plus'],
    ]);
    expect(ends({ kind: 'tap', id: 'D1.1-T2' }, pad)).toEqual(['D1.1-T2 plus', 'S07-F1 plus']);
    const leaving: CableEnd = { kind: 'pad', run: 'S06', cutLine: 20, feedPoint: null };
    expect(ends(leaving, pad)[0]).toBe('S06 finish plus');
    expect(ends({ ...leaving, cutLine: 0 }, pad)[0]).toBe('S06 start plus');
  });

  it('of a dimmer is in where a cable comes, out where one leaves', () => {
    const into: CableEnd = { kind: 'dimmer', id: 'K1.1', side: 'in' };
    expect(ends({ kind: 'output', id: 'D1.1' }, into)).toEqual(['D1.1 plus', 'K1.1 in, plus']);
    expect(ends({ ...into, side: 'out' }, pad)).toEqual(['K1.1 out, plus', 'S07-F1 plus']);
  });

  it('of a block with one minus is that, for every channel; at the strip each has its own', () => {
    const { cores } = named({ channels: ['warm', 'cool'], fromOneMinus: true });
    expect(cores.map(({ from, to }) => [from, to])).toEqual([
      ['B1.1 way 3 plus', 'S07-F1 plus'],
      ['B1.1 way 3 minus', 'S07-F1 warm'],
      ['B1.1 way 3 minus', 'S07-F1 cool'],
    ]);
  });

  it('of an output is plus or minus, whatever the channel', () => {
    const { cores } = named({ from: { kind: 'output', id: 'D1.1' }, channels: ['a', 'b'] });
    expect(cores.map(({ from }) => from)).toEqual(['D1.1 plus', 'D1.1 minus', 'D1.1 minus']);
  });
});
