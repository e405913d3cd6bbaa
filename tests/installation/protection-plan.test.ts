import { describe, expect, it } from 'vitest';
import { type FuseFamilyName, fuseFamilies } from '../../src/installation/fuse-families.ts';
import {
  type CableToPlan,
  type PlannedSource,
  type ProtectionPlan,
  protectionPlan,
} from '../../src/installation/protection-plan.ts';

const blades: PlannedSource = { limit_A: 20, fuses: 'blade' };

/** A cable of both conductors that feeds a run of its own. */
const cable = (id: string, design_A: number, capacity_A: number): CableToPlan => ({
  id,
  feeds: `run of ${id}`,
  conductors: 'both',
  design_A,
  capacity_A,
});

function planned(cables: readonly CableToPlan[], source: PlannedSource): ProtectionPlan {
  const outcome = protectionPlan(cables, source);
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value;
}

const inShort = ({ ways }: ProtectionPlan) =>
  ways.map(({ fuse, cables }) => [fuse.rating_A, cables.join(' ')]);

const row = (count: number, design_A: number, capacity_A: number) =>
  Array.from({ length: count }, (_, i) => cable(`C${i + 1}`, design_A, capacity_A));

describe('a plan of protection', () => {
  it('has no device where the source gives no more than each cable may carry', () => {
    // 28 cables of 9 A on outputs of 3.75 A, which limit at 5.6 A at most.
    const plan = planned(row(28, 0.5, 9), { limit_A: 5.625, fuses: 'blade' });
    expect(plan.ways).toEqual([]);
    expect(plan.bySource).toHaveLength(28);
    // To the last bit: 6 A through 6 A needs none, 6.05 A needs one.
    const ofSource = (limit_A: number) => planned(row(1, 0.5, 6), { limit_A, fuses: 'blade' }).ways.length;
    expect([6, 6.05].map(ofSource)).toEqual([0, 1]);
  });

  it('shares a fuse among neighbours, four to a way', () => {
    // 4 x 0.9 A = 3.6 A needs 4.5 A: 5 A, which cables of 6 A hold. Six cables: four and two, 2.25 A: 3 A.
    expect(inShort(planned(row(6, 0.9, 6), blades))).toEqual([
      [5, 'C1 C2 C3 C4'],
      [3, 'C5 C6'],
    ]);
    expect(inShort(planned(row(6, 0.9, 6), { ...blades, conductorsPerWay: 1 }))).toHaveLength(6);
  });

  it('begins a new way where the thinnest no longer allows the sum', () => {
    // C1 and C2 together 4 A need 5 A; a third, 6 A, would need 7.5 A, and they may carry 6 A.
    expect(inShort(planned(row(3, 2, 6), blades))).toEqual([
      [5, 'C1 C2'],
      [3, 'C3'],
    ]);
    // One thin cable of 3 A among them stands alone: 2.25 A, so 3 A for C2.
    const thin = [cable('C1', 2, 6), cable('C2', 1.8, 3), cable('C3', 2, 6)];
    expect(inShort(planned(thin, blades))).toEqual([
      [3, 'C1'],
      [3, 'C2'],
      [3, 'C3'],
    ]);
  });

  it('leaves out the thick ones between, which the source protects', () => {
    const plan = planned([cable('C1', 1, 6), cable('C2', 8, 25), cable('C3', 1, 6)], blades);
    expect(plan.bySource).toEqual(['C2']);
    expect(inShort(plan)).toEqual([[3, 'C1 C3']]);
  });

  it('takes the rule for cartridge fuses: 6 A of cable allow 4.14 A, so 4 A', () => {
    // 1.6 A needs 2 A; two together 3.2 A need 4 A, three 4.8 A need 6 A.
    expect(inShort(planned(row(3, 1.6, 6), { limit_A: 20, fuses: 'cartridge' }))).toEqual([
      [4, 'C1 C2'],
      [2, 'C3'],
    ]);
  });

  it('counts the load of a ring once where both legs are on one way, and whole for each where they are not', () => {
    const legs = ['C1', 'C2'].map((id) => ({ ...cable(id, 3.5, 6), feeds: 'ring' }));
    expect(inShort(planned(legs, blades))).toEqual([[5, 'C1 C2']]);
    expect(inShort(planned(legs, { ...blades, conductorsPerWay: 1 }))).toEqual([
      [5, 'C1'],
      [5, 'C2'],
    ]);
  });

  it('puts no fuse in a return, and holds the one in the plus to the return', () => {
    const plus: CableToPlan = { ...cable('C1', 2, 6), conductors: 'positive', feeds: 'S01' };
    const home: CableToPlan = { ...cable('C2', 2, 2.6), conductors: 'return', feeds: 'S01' };
    const outcome = protectionPlan([plus, home], blades);
    // 2 A need 2.5 A, so 3 A, which the plus holds and the return of 2.6 A does not.
    expect(outcome.ok).toBe(false);
    const plan = planned([plus, { ...home, capacity_A: 3 }], blades);
    expect(plan.ways).toEqual([
      { fuse: { family: 'blade', rating_A: 3 }, cables: ['C1'], returns: ['C2'], load_A: 2, least_A: 3 },
    ]);
    // Thick enough a plus, but not its return: the plus is fused all the same.
    const thick = planned(
      [
        { ...plus, capacity_A: 25 },
        { ...home, capacity_A: 3 },
      ],
      blades,
    );
    expect(thick.bySource).toEqual([]);
    expect(inShort(thick)).toEqual([[3, 'C1']]);
  });

  it('holds each plus to its own return and no other', () => {
    // 2 A need 3 A either way; the thin return is that of S02.
    const crossed = (number: number, home_A: number): CableToPlan[] => [
      { ...cable(`P${number}`, 2, 6), conductors: 'positive', feeds: `S0${number}` },
      { ...cable(`H${number}`, 2, home_A), conductors: 'return', feeds: `S0${number}` },
    ];
    const { ways } = planned([...crossed(1, 6), ...crossed(2, 3)], blades);
    expect(ways.map(({ cables, returns, least_A }) => [...cables, ...returns, least_A])).toEqual([
      ['P1', 'H1', 6],
      ['P2', 'H2', 3],
    ]);
  });

  it('leaves to the source what may carry just what it carries', () => {
    expect(planned([cable('C1', 6, 6)], { ...blades, limit_A: 6 }).bySource).toEqual(['C1']);
  });

  it('lets each of two pluses through one return have half of it', () => {
    const legs = ['C1', 'C2'].map((id) => ({
      ...cable(id, 2, 6),
      conductors: 'positive' as const,
      feeds: 'S01',
    }));
    const home = (capacity_A: number): CableToPlan => ({
      ...cable('C3', 2, capacity_A),
      conductors: 'return',
      feeds: 'S01',
    });
    expect(protectionPlan([...legs, home(5.9)], blades).ok).toBe(false);
    expect(planned([...legs, home(6)], blades).ways[0]).toMatchObject({ least_A: 3, returns: ['C3'] });
    // The source itself is held against the whole return: 6 A is what it gives, and all.
    expect(planned([...legs, home(6)], { ...blades, limit_A: 6 }).bySource).toEqual(['C1', 'C2', 'C3']);
  });

  it('says of each cable that no fuse protects what stands against it', () => {
    const outcome = protectionPlan([cable('C1', 1, 6), cable('C2', 5.5, 6), cable('C3', 7, 6)], blades);
    if (outcome.ok) throw new Error('planned');
    expect(outcome.issues.map(({ place }) => place.cable)).toEqual(['C2', 'C3']);
    expect(outcome.issues[0]).toMatchObject({
      code: 'no-fuse-fits',
      quantities: { design_A: 5.5, capacity_A: 6 },
      // 5.5/0.8 = 6.875.
      sentence: expect.stringContaining('from 6.88 A to 6.00 A'),
    });
    // More than it may carry is not put right by a small source.
    expect(protectionPlan([cable('C1', 7, 6)], { ...blades, limit_A: 6 }).ok).toBe(false);
  });

  it('refuses what is no current, no room, and a return that brings nothing home', () => {
    expect(() => protectionPlan([cable('C1', -1, 6)], blades)).toThrow(RangeError);
    expect(() => protectionPlan([cable('C1', 1, Number.NaN)], blades)).toThrow(RangeError);
    expect(() => protectionPlan([], { ...blades, conductorsPerWay: 0 })).toThrow(RangeError);
    const lone: CableToPlan = { ...cable('C1', 1, 6), conductors: 'return' };
    expect(() => protectionPlan([lone], blades)).toThrow(RangeError);
    expect(() => protectionPlan([cable('C2', 1, 6), lone], blades)).toThrow(RangeError);
    // No current at all is one.
    expect(protectionPlan([cable('C1', 0, 6)], blades).ok).toBe(true);
  });
});

/** Numbers from 0 to 1, the same at every run (mulberry32). */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Whether one fuse goes for these cables, by clause 433.1 written out once more. */
function goes(part: readonly CableToPlan[], { fuses, conductorsPerWay = 4 }: PlannedSource): boolean {
  const { ratings, carries, fusingRatio } = fuseFamilies[fuses];
  const loads = new Map(part.map(({ feeds, design_A }) => [feeds, design_A]));
  const sum_A = [...loads.values()].reduce((a, b) => a + b, 0);
  return (
    part.length <= conductorsPerWay &&
    ratings.some(
      ([In]) =>
        In * carries >= sum_A &&
        part.every(({ capacity_A: Iz }) => In <= Iz && fusingRatio * In <= 1.45 * Iz + 1e-9),
    )
  );
}

/** The fewest parts a row can be cut into, every set of cuts tried; infinite where none goes. */
function fewest(row: readonly CableToPlan[], source: PlannedSource): number {
  let least = row.length === 0 ? 0 : Number.POSITIVE_INFINITY;
  for (let cuts = 0; row.length > 0 && cuts < 2 ** (row.length - 1); cuts++) {
    const parts: CableToPlan[][] = [[]];
    for (const [i, one] of row.entries()) {
      parts.at(-1)!.push(one);
      if ((cuts >> i) & 1 && i < row.length - 1) parts.push([]);
    }
    if (parts.every((part) => goes(part, source))) least = Math.min(least, parts.length);
  }
  return least;
}

describe('the fewest fuses', () => {
  it('are as many as trying every way of cutting the row finds, in 200 random rows', () => {
    const random = seeded(433);
    const kinds: Record<string, number> = { planned: 0, shared: 0, refused: 0 };
    for (let n = 0; n < 200; n++) {
      const families: FuseFamilyName[] = ['cartridge', 'blade', 'electronic'];
      const source: PlannedSource = {
        limit_A: 4 + 12 * random(),
        fuses: families[n % 3]!,
        conductorsPerWay: 1 + Math.floor(5 * random()),
      };
      const cables = Array.from({ length: Math.floor(9 * random()) }, (_, i) => ({
        ...cable(`C${i + 1}`, 0.2 + 2.4 * random(), [3, 4.1, 6, 9][Math.floor(4 * random())]!),
        ...(random() < 0.25 ? { feeds: 'ring', design_A: 1.5 } : {}),
      }));
      const needing = cables.filter(({ capacity_A }) => source.limit_A > capacity_A);
      const least = fewest(needing, source);
      const outcome = protectionPlan(cables, source);
      expect(outcome.ok ? outcome.value.ways.length : Number.POSITIVE_INFINITY).toBe(least);
      kinds[outcome.ok ? 'planned' : 'refused']!++;
      if (!outcome.ok) continue;
      const { ways, bySource } = outcome.value;
      // Every cable once, in its order, and each way holds by itself.
      expect(ways.flatMap((way) => way.cables)).toEqual(needing.map(({ id }) => id));
      expect(bySource).toEqual(cables.filter((one) => !needing.includes(one)).map(({ id }) => id));
      for (const way of ways)
        expect(
          goes(
            needing.filter(({ id }) => way.cables.includes(id)),
            source,
          ),
        ).toBe(true);
      if (ways.some((way) => way.cables.length > 1)) kinds.shared!++;
    }
    // The draw holds all three kinds.
    expect(Math.min(...Object.values(kinds))).toBeGreaterThan(10);
  });
});
