import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contiguous } from '../../src/drivers/contiguous.ts';
import {
  type DriverModel,
  type Load,
  type LoadsToAllocate,
  outputLimit_W,
  roomsOf,
  type Scarce,
  type Stand,
  standsOf,
  stocksOf,
} from '../../src/drivers/loads.ts';
import { given, load, model } from './loads-to-allocate.ts';

/** Each driver as model, place and the runs of its outputs. */
const shared = (input: LoadsToAllocate, scarce: readonly Scarce[] = []): string[] | null =>
  contiguous(input, scarce)?.groups.map(
    ({ model: m, place, outputs }) =>
      `${m}@${place}: ${outputs.map((loads) => loads.map(({ run }) => run).join(' ')).join(', ')}`,
  ) ?? null;

const row = (watts: readonly number[], distances: number[] = [1]): Load[] =>
  watts.map((w, i) => load(`R${i + 1}`, w, null, distances));

describe('a row of loads cut into neighbours', () => {
  it('by hand: 28 slots of 15 W on drivers of 80 W are 6 drivers, as even as may be', () => {
    // Five go on one, 28 are 5 + 5 + 5 + 5 + 4 + 4: no other way with six is as even.
    const groups = contiguous(given(row(Array(28).fill(15))), [])!.groups;
    const sizes = groups.map(({ outputs }) => outputs[0]!.length);
    expect(sizes.toSorted()).toEqual([4, 4, 5, 5, 5, 5]);
    expect(groups.flatMap(({ outputs }) => outputs[0]!.map(({ run }) => run))).toEqual(
      row(Array(28).fill(0)).map(({ run }) => run),
    );
  });

  // 80 W and 160 W usable.
  const [small, large] = [model(), model({ rated_W: 200, current_A: 8.34, usable_W: [160] })];

  it('takes fewer drivers first, then fewer rated watts', () => {
    // 150 W: one large, not two small. 70 W: one small. 230 W: large and small, in whichever order carries it.
    expect(shared(given(row([75, 75]), { models: [small, large] }))).toEqual(['1@0: R1 R2']);
    expect(shared(given(row([35, 35]), { models: [large, small] }))).toEqual(['1@0: R1 R2']);
    expect(shared(given(row([75, 75, 75]), { models: [small, large] }))).toEqual(['0@0: R1', '1@0: R2 R3']);
    expect(shared(given(row([60, 50, 40, 75]), { models: [small, large] }))).toEqual([
      '1@0: R1 R2 R3',
      '0@0: R4',
    ]);
  });

  it('then shorter cable: each group at the place nearer to it', () => {
    const loads = [1, 2, 8, 9].map((x, i) => load(`R${i + 1}`, 40, null, [x, 10 - x]));
    expect(shared(given(loads, { driver: { usable_W: [80, 80] } }))).toEqual(['0@0: R1 R2', '0@1: R3 R4']);
  });

  it('cuts outputs where they are full and where the zone changes', () => {
    const loads = [load('R1', 20, 'a'), load('R2', 20, 'a'), load('R3', 20, 'b'), load('R4', 15, 'b')];
    const two = (change: Partial<DriverModel>) =>
      shared(given(loads, { driver: { outputCount: 2, ...change } }));
    expect(two({})).toEqual(['0@0: R1 R2, R3 R4']);
    // 1.25 A at 24 V are 30 W: each output one load, so two drivers.
    expect(two({ current_A: 1.25 })).toEqual(['0@0: R1, R2', '0@0: R3, R4']);
    expect(two({ outputsDimTogether: true })).toEqual(['0@0: R1 R2', '0@0: R3 R4']);
    expect(two({ outputCount: 1 })).toEqual(['0@0: R1 R2', '0@0: R3 R4']);
    // With 3 W behind each output 75 + 6 W are more than 80.
    expect(shared(given(loads, { driver: { outputCount: 2 }, outputOwn_W: 3 }))).toHaveLength(2);
  });

  it('keeps to what is in stock, and to the room of each place', () => {
    const models = [model({ ...large, stock: 1 }), small];
    const loads = row([75, 75, 75, 75]);
    const input = given(loads, { models });
    expect(shared(input, stocksOf(input))).toEqual(['1@0: R1', '1@0: R2', '0@0: R3 R4']);
    // Room for two drivers where it is near, and one where it is far.
    const tight = given(row([75, 75, 75], [1, 9]), {
      driver: { usable_W: [80, 80], placeShare: (place) => [0.5, 1][place]! },
    });
    expect(
      shared(tight, roomsOf(tight))!
        .map((each) => each.slice(0, 3))
        .toSorted(),
    ).toEqual(['0@0', '0@0', '0@1']);
    const none = given(row([75, 75], [1, 9]), {
      driver: { usable_W: [80, 80], placeShare: (place) => (place === 0 ? Number.POSITIVE_INFINITY : 1) },
    });
    expect(shared(none, roomsOf(none))).toBeNull();
    expect(shared(given([]))).toEqual([]);
  });

  it('counts the room a driver takes once for each place, however many ways are tried', () => {
    const counted: number[] = [];
    const tight = given(row(Array(12).fill(75), [1, 9]), {
      driver: {
        usable_W: [80, 80],
        placeShare: (place) => {
          counted.push(place);
          return 1 / 6;
        },
      },
      hasRoom: (_, its) => its.length <= 6,
    });
    expect(shared(tight, roomsOf(tight))).toHaveLength(12);
    expect(counted).toEqual([...new Set(counted)]);
    expect(counted).toContain(0);
  });

  /** Least figures of every way to cut a row, model by model and place by place, with loads and outputs counted anew. */
  function byTrying(input: LoadsToAllocate, scarce: readonly Scarce[]): readonly number[] | null {
    const { loads, outputOwn_W = 0 } = input;
    let best: number[] | null = null;
    const isLess = (a: readonly number[], b: readonly number[]): boolean => {
      const i = a.findIndex((x, k) => Math.abs(x - b[k]!) > 1e-9 * Math.max(1, Math.abs(x)));
      return i >= 0 && a[i]! < b[i]!;
    };
    const carries = (its: readonly Load[], at: Stand): number | null => {
      const { outputCount, usable_W } = input.models[at.model]!;
      const limit_W = outputLimit_W(input, at);
      // Every way to cut the loads of a driver into outputs, as bits between them.
      for (let bits = 0; bits < 2 ** (its.length - 1); bits++) {
        const outputs: Load[][] = [[its[0]!]];
        for (const [k, each] of its.slice(1).entries()) {
          if (bits & (1 << k)) outputs.push([each]);
          else outputs.at(-1)!.push(each);
        }
        const watts = outputs.map((of) => of.reduce((sum, l) => sum + l.watts, outputOwn_W));
        const total = watts.reduce((a, b) => a + b, 0);
        const holds =
          outputs.length <= outputCount &&
          outputs.every((of) => of.every(({ zone }) => zone === of[0]!.zone)) &&
          watts.every((w) => w <= limit_W + 1e-9) &&
          total <= usable_W[at.place]! + 1e-9;
        if (holds && limit_W > 0) return its.reduce((sum, l) => sum + l.placeDistances_m[at.place]!, 0);
      }
      return null;
    };
    const go = (from: number, stands: readonly Stand[], cable_m: number): void => {
      if (from === loads.length) {
        const rated_W = stands.reduce((sum, at) => sum + input.models[at.model]!.rated_W, 0);
        const cost = [stands.length, rated_W, cable_m];
        if (scarce.every((each) => each.isEnough(stands)) && (!best || isLess(cost, best))) best = cost;
        return;
      }
      for (let to = from + 1; to <= loads.length; to++)
        for (const at of standsOf(input)) {
          const m = carries(loads.slice(from, to), at);
          if (m !== null) go(to, [...stands, at], cable_m + m);
        }
    };
    go(0, [], 0);
    return best;
  }

  it('is the least of all ways, by trying every cut, model, place and output of small rows', () => {
    const small = fc.record({
      loads: fc.array(
        fc.record({
          watts: fc.integer({ min: 5, max: 60 }),
          zone: fc.constantFrom('a', 'a', 'b'),
          far: fc.tuple(fc.nat(9), fc.nat(9)),
        }),
        { minLength: 1, maxLength: 5 },
      ),
      models: fc.array(
        fc.record({
          rated_W: fc.constantFrom(75, 100, 150),
          outputCount: fc.integer({ min: 1, max: 3 }),
          stock: fc.constantFrom(null, 1, 2),
          share: fc.tuple(fc.constantFrom(0.25, 0.5, 1), fc.constantFrom(0.5, 1, 2)),
        }),
        { minLength: 1, maxLength: 2 },
      ),
      own: fc.constantFrom(0, 3),
    });
    fc.assert(
      fc.property(small, ({ loads, models, own }) => {
        const zones = [...new Set(loads.map(({ zone }) => zone))];
        const inZones = zones.flatMap((zone) => loads.filter((each) => each.zone === zone));
        const input = given(
          inZones.map(({ watts, zone, far }, i) => load(`R${i}`, watts, zone, far)),
          {
            models: models.map(({ rated_W, outputCount, stock, share }) =>
              model({
                ...{ rated_W, outputCount, stock, placeShare: (place) => share[place]! },
                ...{ current_A: rated_W / 24, usable_W: [0.8 * rated_W, 0.7 * rated_W] },
              }),
            ),
            outputOwn_W: own,
          },
        );
        const scarce = [...stocksOf(input), ...roomsOf(input)];
        const found = contiguous(input, scarce);
        const cost = found && [
          found.groups.length,
          found.groups.reduce((sum, at) => sum + input.models[at.model]!.rated_W, 0),
          found.groups.reduce(
            (sum, { place, outputs }) =>
              sum + outputs.flat().reduce((m, each) => m + each.placeDistances_m[place]!, 0),
            0,
          ),
        ];
        expect(cost).toEqual(byTrying(input, scarce));
      }),
      { seed: 43, numRuns: 60 },
    );
  });
});
