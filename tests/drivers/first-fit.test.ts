import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstFit } from '../../src/drivers/first-fit.ts';
import type { LoadsToAllocate } from '../../src/drivers/loads.ts';
import { fewest, given, load } from './loads-to-allocate.ts';

/** Each driver as its place and the runs of its outputs. */
const filled = (input: LoadsToAllocate): string[] =>
  firstFit(input, 0)!.map(
    ({ place, outputs }) =>
      `${place}: ${outputs.map((loads) => loads.map(({ run }) => run).join(' ')).join(', ')}`,
  );

describe('first-fit decreasing', () => {
  it('uses at most 11/9 of the least number plus 6/9', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 80 }), { minLength: 1, maxLength: 8 }), (watts) => {
        const groups = firstFit(given(watts.map((w, i) => load(`R${i}`, w))), 0)!;
        expect(groups.length).toBeLessThanOrEqual((11 * fewest(watts, 80) + 6) / 9);
      }),
      { seed: 42, numRuns: 150 },
    );
  });

  const zoned = [
    load('R1', 50, 'upper'),
    load('R2', 40, 'lower'),
    load('R3', 30, 'upper'),
    load('R4', 10, 'upper'),
    load('R5', 20, 'lower'),
  ];

  it('by hand: two zones on drivers of 80 W with two outputs of 60 W', () => {
    // Largest first. R1 50 opens the first (upper). R2 40: it would carry 90, so the second (lower). R3 30: the first has
    // just 30 left, its output only 10, so another. R5 20: the first is full, the second then holds 60. R4 10 is of the upper
    // zone: another output of the second.
    expect(filled(given(zoned, { driver: { outputCount: 2, current_A: 2.5 } }))).toEqual([
      '0: R1, R3',
      '0: R2 R5, R4',
    ]);
  });

  it('and where outputs are dimmed together, a third driver for R4', () => {
    const driver = { outputCount: 2, current_A: 2.5, outputsDimTogether: true };
    expect(filled(given(zoned, { driver }))).toEqual(['0: R1, R3', '0: R2 R5', '0: R4']);
  });

  it('takes equal loads in their order, and lists the runs of an output as they are listed', () => {
    expect(filled(given(['R1', 'R2', 'R3'].map((run) => load(run, 40))))).toEqual(['0: R1 R2', '0: R3']);
    expect(filled(given([load('R1', 20), load('R2', 30), load('R3', 25)]))).toEqual(['0: R1 R2 R3']);
  });

  it('takes equally near places as one meets them', () => {
    const loads = [load('R1', 30, null, [4, 4]), load('R2', 60, null, [1, 9])];
    const driver = { usable_W: [80, 80] };
    // As listed R1 would join R2 at the first place, but 90 W are too much for one driver.
    expect(filled(given(loads, { driver }))).toEqual(['0: R2', '0: R1']);
    expect(filled(given(loads, { driver, placeOrder: [1, 0] }))).toEqual(['0: R2', '1: R1']);
  });

  it('gives every load to its nearest place, and to the next when the nearest cannot carry it', () => {
    const loads = [load('R1', 30, null, [1, 9]), load('R2', 30, null, [9, 1]), load('R3', 70, null, [1, 9])];
    expect(filled(given(loads, { driver: { usable_W: [60, 80] } }))).toEqual(['1: R3', '0: R1', '1: R2']);
  });

  it('puts nothing where it is too warm, not even a load of nothing, and says where nothing carries a load', () => {
    expect(filled(given([load('R1', 0, null, [1, 9])], { driver: { usable_W: [0, 80] } }))).toEqual([
      '1: R1',
    ]);
    expect(firstFit(given([load('R1', 81)]), 0)).toBeNull();
  });

  it('leaves room for what stands behind each output', () => {
    // 38 and 38 W and 5 W behind each: one output holds 81 W, no more.
    const pair = [load('R1', 38), load('R2', 38)];
    expect(filled(given(pair, { outputOwn_W: 4 }))).toEqual(['0: R1 R2']);
    expect(filled(given(pair, { outputOwn_W: 5 }))).toEqual(['0: R1', '0: R2']);
  });
});
