import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { driverFills, type FillsAsked, hasOneOutput } from '../../src/drivers/driver-fills.ts';
import type { Kind } from '../../src/drivers/share-kinds.ts';
import { kindOf } from './kinds.ts';
import { load } from './loads-to-allocate.ts';

const plenty = { mostWaste_W: 1e9, mostFills: 1e6, mostSteps: 1e6 };
const asked = (watts: readonly number[], kind: Kind, change: Partial<FillsAsked> = {}): FillsAsked => ({
  loads: watts.map((w, i) => load(`R${i}`, w)),
  open: watts.map((_, i) => i),
  ...{ kind, ...plenty, ...change },
});
/** The watts on each output of each fill, in any order. */
const wattsOf = (given: FillsAsked) =>
  driverFills(given)
    .fills.map(({ outputs }) =>
      outputs.map((held) => held.map((i) => given.loads[i]!.watts).join('+')).join(' '),
    )
    .toSorted();

describe('a driver as good as one output', () => {
  it('is one of one output, or one of outputs dimmed together that each give all', () => {
    expect(hasOneOutput(kindOf({ isOfOneZone: false }))).toBe(true);
    expect(hasOneOutput(kindOf({ outputCount: 2 }))).toBe(true);
    expect(hasOneOutput(kindOf({ outputCount: 2, output_W: 79 }))).toBe(false);
    expect(hasOneOutput(kindOf({ outputCount: 2, isOfOneZone: false }))).toBe(false);
  });

  it('is filled with the first load and others so that no other goes on as well', () => {
    // 80 W for 40, 30, 30, 20, 10: with 40 go 30 + 10, 20 + 10 (with 10 left 30 does not go on; 20 over), never 40 + 30 alone.
    expect(wattsOf(asked([40, 30, 30, 20, 10], kindOf({})))).toEqual(['40+20+10', '40+30+10']);
    expect(
      driverFills(asked([40, 30, 30, 20, 10], kindOf({})))
        .fills.map(({ watts }) => watts)
        .toSorted(),
    ).toEqual([70, 80]);
    // At most 5 W may be left: the one that leaves 10 is not wanted. With 10 it is.
    expect(wattsOf(asked([40, 30, 30, 20, 10], kindOf({}), { mostWaste_W: 5 }))).toEqual(['40+30+10']);
    expect(wattsOf(asked([40, 30, 30, 20, 10], kindOf({}), { mostWaste_W: 10 }))).toHaveLength(2);
  });

  it('carries loads of the first one’s zone alone, and what stands behind its output', () => {
    const loads = [load('R0', 40, 'a'), load('R1', 30, 'b'), load('R2', 30, 'a')];
    const found = driverFills({ ...asked([40, 30, 30], kindOf({ own_W: 2 })), loads });
    // 2 + 40 + 30 of 80.
    expect(found).toMatchObject({ fills: [{ outputs: [[0, 2]], watts: 72 }], isAll: true });
    // 81 W and nothing behind go on nothing of 80 W.
    expect(driverFills(asked([81, 10], kindOf({}))).fills).toEqual([]);
    // An output of 50 W of a driver of 80 W leaves 30 W of the driver: 40 + 10, of which 30 are wasted.
    expect(wattsOf(asked([40, 20, 10], kindOf({ output_W: 50 }), { mostWaste_W: 30 }))).toEqual(['40+10']);
    expect(wattsOf(asked([40, 20, 10], kindOf({ output_W: 50 }), { mostWaste_W: 29 }))).toEqual([]);
  });

  it('says so where fills or steps were let go', () => {
    const watts = [40, 13, 12, 11, 10, 9, 8, 7];
    const all = driverFills(asked(watts, kindOf({})));
    expect(all.isAll).toBe(true);
    expect(all.fills.length).toBeGreaterThan(3);
    expect(driverFills(asked(watts, kindOf({}), { mostFills: 2 }))).toMatchObject({
      fills: { length: 2 },
      isAll: false,
    });
    expect(driverFills(asked(watts, kindOf({}), { mostSteps: all.steps }))).toEqual(all);
    expect(driverFills(asked(watts, kindOf({}), { mostSteps: all.steps - 1 })).isAll).toBe(false);
  });
});

describe('a driver of several outputs', () => {
  const two = kindOf({ outputCount: 2, output_W: 50, isOfOneZone: false });

  it('is filled output by output', () => {
    // 80 W on two outputs of 50 W for 40, 30, 20: 40 on one and 30 on the other (10 W left, 20 does not go on), 40 and 20.
    // 20 beside 40 would be 60 on one output. With 40 and 20, 30 has no room: 90 in all.
    expect(wattsOf(asked([40, 30, 20], two))).toEqual(['40 20', '40 30']);
    // 10 beside 40 is an output of 50, 30 another: 80.
    expect(wattsOf(asked([40, 30, 10], two))).toEqual(['40 30+10', '40+10 30']);
  });

  it('takes an output for each zone, and all of one zone where they are dimmed together', () => {
    const loads = [load('R0', 40, 'a'), load('R1', 30, 'b'), load('R2', 10, 'a')];
    const of = (kind: Kind) =>
      driverFills({ ...asked([40, 30, 10], kind), loads }).fills.map(({ outputs }) => outputs);
    // 40 + 10 of one zone and 30 of the other are 80; with 10 on the second output there is none left for the other zone.
    expect(of(two)).toEqual([
      [[0, 2], [1]],
      [[0], [2]],
    ]);
    expect(of({ ...two, isOfOneZone: true })).toEqual([[[0, 2]], [[0], [2]]]);
  });

  it('has what stands behind each output in use', () => {
    // 3 W behind each: 40 + 3 and 30 + 3 are 76 of 80.
    expect(driverFills(asked([40, 30], { ...two, own_W: 3 })).fills).toMatchObject([{ watts: 76 }]);
    // 6 W behind each: 46 and 36 are 82, so that 40 stands alone.
    expect(driverFills(asked([40, 30], { ...two, own_W: 6 })).fills).toMatchObject([
      { outputs: [[0]], watts: 46 },
    ]);
    // 11 W behind 40 is over 50.
    expect(driverFills(asked([40], { ...two, own_W: 11 })).fills).toEqual([]);
  });

  it('says so where fills or steps were let go', () => {
    const watts = [40, 13, 12, 11, 10, 9, 8, 7];
    const all = driverFills(asked(watts, two));
    expect(all.isAll).toBe(true);
    expect(driverFills(asked(watts, two, { mostSteps: all.steps }))).toEqual(all);
    expect(driverFills(asked(watts, two, { mostSteps: all.steps - 1 })).isAll).toBe(false);
    expect(driverFills(asked(watts, two, { mostFills: 2 })).isAll).toBe(false);
  });
});

it('leaves out no fill that is not bettered by a load in another’s place, of every way there is', () => {
  const some = fc.record({
    watts: fc.array(fc.constantFrom(8, 12, 16, 16, 20, 24, 33.5), { minLength: 1, maxLength: 7 }),
    zones: fc.array(fc.constantFrom(null, null, 'a'), { minLength: 7, maxLength: 7 }),
    outputCount: fc.constantFrom(1, 2, 3),
    output_W: fc.constantFrom(25, 36, 60),
    own_W: fc.constantFrom(0, 1),
    isOfOneZone: fc.boolean(),
    waste: fc.constantFrom(0, 5, 12, 100),
  });
  let compared = 0;
  fc.assert(
    fc.property(some, ({ watts: unsorted, zones, waste, outputCount, isOfOneZone, ...rest }) => {
      const watts = unsorted.toSorted((a, b) => b - a);
      const loads = watts.map((w, i) => load(`R${i}`, w, zones[i]!));
      const kind = kindOf({
        ...rest,
        outputCount,
        isOfOneZone: isOfOneZone || outputCount === 1,
        usable_W: 60,
      });
      const goesOn = (held: readonly number[]): number | null => {
        // The least watts in all of any way onto outputs; null where there is none.
        let least: number | null = null;
        const go = (at: number, outputs: readonly { zone: string | null; watts: number }[]): void => {
          if (at === held.length) {
            const all = outputs.reduce((sum, o) => sum + o.watts, 0);
            if (all <= kind.usable_W + 1e-12 && (least === null || all < least)) least = all;
            return;
          }
          const { watts: w, zone } = loads[held[at]!]!;
          if (kind.isOfOneZone && outputs.some((o) => o.zone !== zone)) return;
          outputs.forEach((o, i) => {
            if (o.zone === zone && o.watts + w <= kind.output_W)
              go(at + 1, outputs.with(i, { zone, watts: o.watts + w }));
          });
          if (outputs.length < kind.outputCount && kind.own_W + w <= kind.output_W)
            go(at + 1, [...outputs, { zone, watts: kind.own_W + w }]);
        };
        go(0, []);
        return least;
      };
      const found = driverFills({ loads, open: watts.map((_, i) => i), kind, ...plenty, mostWaste_W: waste });
      expect(found.isAll).toBe(true);
      for (const { outputs, watts: all } of found.fills) {
        const held = outputs.flat();
        expect(held).toContain(0);
        expect(new Set(held).size).toBe(held.length);
        expect(all).toBeCloseTo(
          held.reduce((sum, i) => sum + watts[i]!, outputs.length * kind.own_W),
          9,
        );
        expect(kind.usable_W - all).toBeLessThanOrEqual(waste + 1e-9);
        for (const output of outputs) {
          expect(output.reduce((sum, i) => sum + watts[i]!, kind.own_W)).toBeLessThanOrEqual(kind.output_W);
          expect(new Set(output.map((i) => loads[i]!.zone)).size).toBe(1);
        }
        expect(outputs.length).toBeLessThanOrEqual(kind.outputCount);
        if (kind.isOfOneZone) expect(new Set(held.map((i) => loads[i]!.zone)).size).toBe(1);
      }
      // Every set that goes on and wastes no more is one of them, or is less than one of them load by load.
      const isWithin = (small: readonly number[], large: readonly number[]): boolean => {
        const rest = large.map((i) => loads[i]!);
        return small.every((i) => {
          const at = rest.findLastIndex(
            ({ watts: w, zone }) => zone === loads[i]!.zone && w >= loads[i]!.watts,
          );
          if (at >= 0) rest.splice(at, 1);
          return at >= 0;
        });
      };
      for (let mask = 1; mask < 1 << watts.length; mask += 2) {
        const held = watts.flatMap((_, i) => (mask & (1 << i) ? [i] : []));
        const all = goesOn(held);
        if (all === null || kind.usable_W - all > waste) continue;
        compared++;
        expect(found.fills.some(({ outputs }) => isWithin(held, outputs.flat()))).toBe(true);
      }
    }),
    { seed: 23, numRuns: 400 },
  );
  expect(compared).toBeGreaterThan(300);
});
