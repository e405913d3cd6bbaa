import { describe, expect, it } from 'vitest';
import type { FeedArrangement } from '../../src/circuit/arrangements.ts';
import { cableResistance_ohm_per_m } from '../../src/circuit/copper.ts';
import {
  leastCableSize,
  leastFeedPoints,
  longestRun,
  reached,
  voltsForMiddle,
} from '../../src/circuit/inverse.ts';
import { solveCircuit } from '../../src/circuit/solve-circuit.ts';
import { alone, cable, channel, lead, regulatedLaw, resistorLaw, stripRun } from './examples.ts';

const bare = { length_m: 0, ohm_per_m: 0, contact_ohm: 0 };
const drop = (ratio: number) => ({ on: 'drop', ratio }) as const;

describe('longest run', () => {
  const constant = stripRun('a', 1, {
    strip_degC: 20,
    channels: [channel('white', { ...regulatedLaw, unit_W: 0.24 })],
  });
  const arrangements: readonly (readonly [FeedArrangement, number])[] = [
    [{ kind: 'start' }, 2],
    [{ kind: 'finish' }, 2],
    [{ kind: 'both' }, 8],
    [{ kind: 'between', feedCount: 1 }, 8],
    [{ kind: 'between', feedCount: 2 }, 32],
    [{ kind: 'ends-and-between', feedCount: 3 }, 32],
  ];

  it.each(arrangements)('%o: agrees with i r L^2 / %d for constant current', (arrangement, part) => {
    const found = longestRun({ run: constant, set_V: 24, arrangement, lead: bare }, drop(0.05));
    if (!found.ok) throw new Error('refused');
    const exact_m = Math.sqrt((part * 0.05 * 24) / (0.2 * 2 * 0.0616));
    const feeds =
      arrangement.kind === 'between' || arrangement.kind === 'ends-and-between' ? arrangement.feedCount : 1;
    expect(Math.abs(found.value.length_m - exact_m)).toBeLessThan(0.051 * feeds);
    expect(found.value.reached).toBeLessThanOrEqual(0.05);
    expect(found.value.oneMore).toBeGreaterThan(0.05);
  });

  it('crossed: the worst drop of constant current is 3 I R / 8, in the middle', () => {
    const found = longestRun(
      { run: constant, set_V: 24, arrangement: { kind: 'crossed' }, lead: bare },
      drop(0.05),
    );
    if (!found.ok) throw new Error('refused');
    const exact_m = Math.sqrt((0.05 * 24 * 8) / (3 * 0.2 * 2 * 0.0616));
    expect(Math.abs(found.value.length_m - exact_m)).toBeLessThan(0.051);
  });

  it('one more unit passes the limit on light as well', () => {
    const of = { run: stripRun('a', 1), set_V: 24, arrangement: { kind: 'start' }, lead } as const;
    const limit = { on: 'light fall', ratio: 0.15 } as const;
    const found = longestRun(of, limit);
    if (!found.ok) throw new Error('refused');
    for (const [more, isOver] of [
      [0, false],
      [1, true],
    ] as const) {
      const solved = solveCircuit(alone(stripRun('a', found.value.unitCount + more), { kind: 'start' }));
      if (!solved.ok) throw new Error('refused');
      expect(reached(solved.value, limit) > 0.15).toBe(isOver);
    }
  });

  it('has no end where a strip stops conducting before the limit', () => {
    const of = { run: stripRun('a', 1), set_V: 24, arrangement: { kind: 'start' }, lead } as const;
    const found = longestRun(of, drop(0.6));
    expect(found.ok && found.value.unitCount).toBe(5000);
    expect(found.ok && found.value.oneMore).toBe(undefined);
  });

  it('refuses where the lead alone is too much', () => {
    const thin = { length_m: 500, ohm_per_m: 0.039, contact_ohm: 0 };
    const found = longestRun(
      { run: stripRun('a', 1), set_V: 24, arrangement: { kind: 'start' }, lead: thin },
      drop(0.01),
    );
    expect(!found.ok && found.issues[0]!.code).toBe('nothing-is-enough');
  });
});

describe('least cable size', () => {
  const description = alone(stripRun('a', 60), { kind: 'start' }, { length_m: 12 });
  const sizes = [0.5, 0.75, 1, 1.5, 2.5, 4, 6].map((area_mm2) => ({
    id: `${area_mm2}`,
    ohm_per_m: cableResistance_ohm_per_m(area_mm2, 'class-5'),
  }));
  const of = { cables: ['a/0'], sizes, conductor_degC: 40 };

  it('is the first size that keeps the limit; every larger one does too', () => {
    const found = leastCableSize(description, { ...of, limit: drop(0.05) });
    if (!found.ok) throw new Error('refused');
    const { id, tried } = found.value;
    expect(tried.map((one) => one.reached <= 0.05)).toEqual(tried.map((one) => Number(one.id) >= Number(id)));
    expect(tried.map((one) => one.reached)).toEqual(
      [...tried.map((one) => one.reached)].sort((a, b) => b - a),
    );
  });

  it('refuses where copper in the strip is the trouble', () => {
    const found = leastCableSize(alone(stripRun('a', 300), { kind: 'start' }), { ...of, limit: drop(0.03) });
    expect(!found.ok && found.issues[0]!.code).toBe('nothing-is-enough');
  });
});

describe('least feed points', () => {
  const of = { run: stripRun('a', 240), set_V: 24, lead: { ...lead, length_m: 1 } };

  it('takes no more than are needed, and shows what fewer would give', () => {
    const found = leastFeedPoints({ ...of, mayFeedBetween: true, mostFeeds: 6 }, drop(0.02));
    if (!found.ok) throw new Error('refused');
    const { feedCount, tried } = found.value;
    expect(tried.map((one) => one.feedCount)).toEqual(Array.from({ length: feedCount }, (_, i) => i + 1));
    expect(tried.slice(0, -1).every((one) => one.reached > 0.02)).toBe(true);
    expect(found.value.reached).toBeLessThanOrEqual(0.02);
  });

  it('feeds one point in the middle rather than at the end, where it may', () => {
    const short = { ...of, run: stripRun('a', 100) };
    const free = leastFeedPoints({ ...short, mayFeedBetween: true, mostFeeds: 6 }, drop(0.015));
    expect(free.ok && free.value.arrangement).toEqual({ kind: 'between', feedCount: 1 });
    const ends = leastFeedPoints({ ...short, mayFeedBetween: false, mostFeeds: 6 }, drop(0.015));
    expect(ends.ok && ends.value.arrangement).toEqual({ kind: 'both' });
  });

  it('refuses when the ends are not enough', () => {
    const found = leastFeedPoints({ ...of, mayFeedBetween: false, mostFeeds: 6 }, drop(0.01));
    expect(!found.ok && found.issues[0]!.code).toBe('nothing-is-enough');
  });
});

describe('volts for the middle', () => {
  const wall = {
    sources: [{ id: 'd', set_V: 24 }],
    taps: [],
    runs: [stripRun('a', 60), stripRun('b', 80)],
    cables: [
      cable('a', { source: 'd' }, { run: 'a', cutLine: 0 }),
      cable('b', { source: 'd' }, { run: 'b', cutLine: 0 }, { length_m: 8 }),
    ],
  };

  it('puts nominal half-way between the lowest and the highest unit', () => {
    const found = voltsForMiddle(wall, { from_V: 23, to_V: 27 });
    if (!found.ok) throw new Error('refused');
    const units = found.value.solution.runs.flatMap((run) => [...run.channels[0]!.unit_V]);
    expect((Math.min(...units) + Math.max(...units)) / 2).toBeCloseTo(24, 6);
    expect(found.value.set_V).toBeGreaterThan(24);
  });

  it('says what would be needed when the drivers do not reach it', () => {
    const found = voltsForMiddle(wall, { from_V: 23, to_V: 24 });
    if (found.ok) throw new Error('not refused');
    const wide = voltsForMiddle(wall, { from_V: 23, to_V: 27 });
    if (!wide.ok) throw new Error('refused');
    expect(found.issues[0]!.code).toBe('volts-out-of-reach');
    expect((found.issues[0]!.quantities as { wanted_V: number }).wanted_V).toBeCloseTo(wide.value.set_V, 1);
  });

  it('goes by each strip its own nominal volts', () => {
    const short = alone(
      stripRun('a', 10, { channels: [channel('white', { ...resistorLaw, nominal_V: 23 })] }),
      { kind: 'start' },
    );
    const found = voltsForMiddle(short, { from_V: 22, to_V: 25 });
    expect(found.ok && Math.abs(found.value.set_V - 23.1) < 0.1).toBe(true);
  });
});
