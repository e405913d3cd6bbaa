import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FeedArrangement } from '../../src/circuit/arrangements.ts';
import { type CircuitDescription, crossedCable, type Run } from '../../src/circuit/description.ts';
import type { CircuitSolution } from '../../src/circuit/solution.ts';
import { planCircuit, solveCircuit, solvePlanned } from '../../src/circuit/solve-circuit.ts';
import {
  alone,
  cable,
  channel,
  lead,
  randomForest,
  regulatedLaw,
  resistorLaw,
  stripRun,
} from './examples.ts';

function solved(description: CircuitDescription): CircuitSolution {
  const outcome = solveCircuit(description);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const whiteOf = (solution: CircuitSolution, run = 0) => solution.runs[run]!.channels[0]!;

const anyRun = fc
  .record({
    unitCount: fc.integer({ min: 1, max: 120 }),
    plus: fc.double({ min: 0.01, max: 0.2, noNaN: true }),
    minus: fc.double({ min: 0.01, max: 0.2, noNaN: true }),
    unit_W: fc.double({ min: 0.1, max: 1, noNaN: true }),
    strip_degC: fc.double({ min: 0, max: 80, noNaN: true }),
    isRegulated: fc.boolean(),
  })
  .map((of): Run => {
    const law = { ...(of.isRegulated ? regulatedLaw : resistorLaw), unit_W: of.unit_W };
    return stripRun('a', of.unitCount, {
      positiveRail_ohm_per_m: of.plus,
      strip_degC: of.strip_degC,
      channels: [channel('white', law, 1, of.minus)],
    });
  });

const anyArrangement: fc.Arbitrary<FeedArrangement> = fc.oneof(
  fc.constantFrom<FeedArrangement>(
    { kind: 'start' },
    { kind: 'finish' },
    { kind: 'both' },
    { kind: 'crossed' },
  ),
  fc.integer({ min: 1, max: 4 }).map((feedCount): FeedArrangement => ({ kind: 'between', feedCount })),
);

const runs = { numRuns: 60 };

describe('what every solution keeps', () => {
  it('leaves under 1 nA unaccounted for and balances its watts', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), (seed) => {
        const solution = solved(randomForest(seed, 12));
        expect(solution.residual_A).toBeLessThan(1e-9);
        expect(Math.abs(solution.imbalance_W)).toBeLessThan(1e-8 * Math.abs(solution.out_W));
      }),
      { seed: 21, ...runs },
    );
  });

  it('brings home through the returns what goes out through the positives, driver by driver', () => {
    const description = randomForest(4);
    const solution = solved(description);
    description.sources.forEach(({ id }, s) => {
      let home_A = 0;
      description.cables.forEach(({ returns }, c) => {
        returns.forEach(({ from }, i) => {
          if ('source' in from && from.source === id) home_A += solution.cables[c]!.returns[i]!.current_A;
        });
      });
      expect(home_A).toBeCloseTo(solution.sources[s]!.current_A, 8);
    });
  });

  it('obeys Ohm in every cable', () => {
    const description = randomForest(9);
    const solution = solved(description);
    description.cables.forEach(({ positive }, c) => {
      const { current_A, from_V, to_V } = solution.cables[c]!.positive;
      const pads = Number('run' in positive.from) + Number('run' in positive.to);
      const ohm = positive.length_m * positive.ohm_per_m + pads * positive.contact_ohm;
      expect(from_V - to_V).toBeCloseTo(current_A * ohm, 10);
    });
  });
});

describe('closed forms', () => {
  const constant = { ...regulatedLaw, unit_W: 0.24 };
  const evenRun = stripRun('a', 120, { strip_degC: 20, channels: [channel('white', constant)] });
  const [current, resistance] = [0.01 * 120, 2 * 0.0616 * 6];
  const bare = { length_m: 0, contact_ohm: 0 };

  it.each([
    [{ kind: 'start' }, 2],
    [{ kind: 'finish' }, 2],
    [{ kind: 'both' }, 8],
    [{ kind: 'between', feedCount: 1 }, 8],
    [{ kind: 'between', feedCount: 3 }, 8 * 9],
    [{ kind: 'ends-and-between', feedCount: 4 }, 8 * 9],
  ] as const)('uniform constant current, %o: drop I R / %d to the worst cut line', (arrangement, part) => {
    const { channels, positivePad_V } = solved(alone(evenRun, arrangement, bare)).runs[0]!;
    const drops = positivePad_V.map((volts, k) => 24 - volts + channels[0]!.returnPad_V[k]!);
    expect(Math.max(...drops)).toBeCloseTo((current * resistance) / part, 5);
  });

  it('uniform constant current, one end: loses I^2 R / 3 in the copper, and what the lumps add', () => {
    const { runs } = solved(alone(evenRun, { kind: 'start' }, bare));
    const exact = current ** 2 * resistance * (1 / 3 + 1 / (6 * 120 ** 2));
    expect(runs[0]!.copper_W).toBeCloseTo(exact, 6);
  });

  it('ends of unequal volts: the lowest point lies (VA - VB)/(r i L) off the middle', () => {
    const description = {
      sources: [
        { id: 'd', set_V: 24 },
        { id: 'e', set_V: 23.95 },
      ],
      taps: [],
      runs: [evenRun],
      cables: [
        cable('left', { source: 'd' }, { run: 'a', cutLine: 0 }, bare),
        cable('right', { source: 'e' }, { run: 'a', cutLine: 120 }, bare),
      ],
    };
    const x_m = 3 + 0.05 / (2 * 0.0616 * 0.2 * 6);
    expect(whiteOf(solved(description)).lowestUnit).toBe(Math.floor(x_m / 0.05));
    expect(solved(description).sources[0]!.current_A).toBeCloseTo(0.2 * x_m, 5);
  });

  it('crossed feed of constant current: both loops are alike, and the drop is I R / 4 everywhere at the ends', () => {
    // u(x) = drop of plus from the start and of minus from the finish: i r/2 (Lx - x^2/2 + L^2/2 - x^2/2).
    const { channels, positivePad_V } = solved(alone(evenRun, { kind: 'crossed' }, bare)).runs[0]!;
    const drop = (k: number): number => 24 - positivePad_V[k]! + channels[0]!.returnPad_V[k]!;
    expect(drop(0)).toBeCloseTo((current * resistance) / 4, 5);
    expect(drop(120)).toBeCloseTo((current * resistance) / 4, 5);
    expect(drop(60)).toBeCloseTo((current * resistance * 3) / 8, 5);
  });
});

describe('symmetry', () => {
  const mirroredArrangement = (a: FeedArrangement): FeedArrangement =>
    a.kind === 'start' ? { kind: 'finish' } : a.kind === 'finish' ? { kind: 'start' } : a;

  it('fed from the other end it is the mirror image', () => {
    fc.assert(
      fc.property(anyRun, anyArrangement, (run, arrangement) => {
        if (arrangement.kind === 'between' && run.unitCount % (2 * arrangement.feedCount) !== 0) return;
        if (arrangement.kind === 'crossed') return;
        const there = whiteOf(solved(alone(run, arrangement))).unit_V;
        const back = whiteOf(solved(alone(run, mirroredArrangement(arrangement))))
          .unit_V.slice()
          .reverse();
        there.forEach((volts, u) => {
          expect(Math.abs(volts - back[u]!)).toBeLessThan(1e-9);
        });
      }),
      { seed: 31, ...runs },
    );
  });

  it('a crossed feed mirrors when its ends are swapped', () => {
    fc.assert(
      fc.property(anyRun, (run) => {
        const [start, finish] = [0, run.unitCount].map((cutLine) => ({ run: 'a', cutLine }));
        const feed = (positiveTo: typeof start, returnTo: typeof start): CircuitDescription => ({
          sources: [{ id: 'd', set_V: 24 }],
          taps: [],
          runs: [run],
          cables: [
            crossedCable({
              id: 'x',
              channels: ['white'],
              from: { source: 'd' },
              positiveTo: positiveTo!,
              returnTo: returnTo!,
              ...lead,
            }),
          ],
        });
        const there = whiteOf(solved(feed(start, finish))).unit_V;
        const back = whiteOf(solved(feed(finish, start)))
          .unit_V.slice()
          .reverse();
        there.forEach((volts, u) => {
          expect(Math.abs(volts - back[u]!)).toBeLessThan(1e-9);
        });
      }),
      { seed: 32, ...runs },
    );
  });

  it('names decide nothing, however alike those of drivers, taps, runs and channels are', () => {
    const named = (driver: string, tap: string, run: string, white: string, warm: string) =>
      solved({
        sources: [{ id: driver, set_V: 24 }],
        taps: [{ id: tap }],
        runs: [stripRun(run, 30, { channels: [channel(white), channel(warm, regulatedLaw, 0.5)] })],
        cables: [
          cable('trunk', { source: driver }, { tap }, { length_m: 4 }, [white, warm]),
          cable('drop', { tap }, { run, cutLine: 7 }, {}, [warm, white]),
        ],
      }).runs[0]!;
    const plain = named('d', 't', 'r', 'white', 'warm');
    const alike = named('a', 'a', 'a', 'positive', 'minus');
    expect(alike.positivePad_V).toEqual(plain.positivePad_V);
    for (const c of [0, 1]) expect(alike.channels[c]!.unit_V).toEqual(plain.channels[c]!.unit_V);
  });

  it('rails may change places', () => {
    fc.assert(
      fc.property(anyRun, anyArrangement, (run, arrangement) => {
        if (arrangement.kind === 'crossed') return;
        const swapped: Run = {
          ...run,
          positiveRail_ohm_per_m: run.channels[0]!.returnRail_ohm_per_m,
          channels: [{ ...run.channels[0]!, returnRail_ohm_per_m: run.positiveRail_ohm_per_m }],
        };
        const a = whiteOf(solved(alone(run, arrangement))).unit_V;
        const b = whiteOf(solved(alone(swapped, arrangement))).unit_V;
        a.forEach((volts, u) => {
          expect(Math.abs(volts - b[u]!)).toBeLessThan(1e-9);
        });
      }),
      { seed: 33, ...runs },
    );
  });

  it('two equal channels act as one of twice the watts on half the return resistance', () => {
    fc.assert(
      fc.property(anyRun, anyArrangement, (run, arrangement) => {
        const one = run.channels[0]!;
        const two: Run = { ...run, channels: [one, { ...one, id: 'again' }] };
        const doubled: Run = {
          ...run,
          channels: [
            {
              ...one,
              returnRail_ohm_per_m: one.returnRail_ohm_per_m / 2,
              law: { ...one.law, unit_W: 2 * one.law.unit_W },
            },
          ],
        };
        // The doubled return rail has a doubled return conductor; a lead without resistance is both.
        const bare = { length_m: 0, contact_ohm: 0 };
        const a = whiteOf(solved(alone(two, arrangement, bare))).unit_V;
        const b = whiteOf(solved(alone(doubled, arrangement, bare))).unit_V;
        a.forEach((volts, u) => {
          expect(Math.abs(volts - b[u]!)).toBeLessThan(2e-5);
        });
      }),
      { seed: 34, ...runs },
    );
  });

  it('dimming to a level acts as a strip of that part of the watts', () => {
    fc.assert(
      fc.property(anyRun, fc.double({ min: 0.05, max: 1, noNaN: true }), (run, level) => {
        const one = run.channels[0]!;
        const weak = { ...one, law: { ...one.law, unit_W: level * one.law.unit_W } };
        const a = whiteOf(solved(alone({ ...run, channels: [{ ...one, level }] }, { kind: 'start' })));
        const b = whiteOf(solved(alone({ ...run, channels: [weak] }, { kind: 'start' })));
        expect(Math.abs(a.lowest_V - b.lowest_V)).toBeLessThan(1e-9);
      }),
      { seed: 35, ...runs },
    );
  });

  it('cut in two and chained with no cable between, it is the same run', () => {
    fc.assert(
      fc.property(anyRun, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (run, share) => {
        if (run.unitCount < 2) return;
        const cut = Math.max(1, Math.min(run.unitCount - 1, Math.round(run.unitCount * share)));
        const whole = whiteOf(solved(alone(run, { kind: 'start' }))).unit_V;
        const first = { ...run, unitCount: cut };
        const second = { ...run, id: 'b', unitCount: run.unitCount - cut };
        const halves = solved({
          ...alone(first, { kind: 'start' }),
          runs: [first, second],
          cables: [
            ...alone(first, { kind: 'start' }).cables,
            cable(
              'link',
              { run: 'a', cutLine: cut },
              { run: 'b', cutLine: 0 },
              { length_m: 0, contact_ohm: 0 },
            ),
          ],
        });
        const both = [...whiteOf(halves).unit_V, ...whiteOf(halves, 1).unit_V];
        // A cable of no length has 1 micro-ohm in each conductor.
        whole.forEach((volts, u) => {
          expect(Math.abs(volts - both[u]!)).toBeLessThan(2e-5);
        });
      }),
      { seed: 36, ...runs },
    );
  });

  it('a joint without resistance changes nothing, and one with resistance lowers only what lies beyond', () => {
    fc.assert(
      fc.property(anyRun, (run) => {
        if (run.unitCount < 2) return;
        const cutLine = Math.ceil(run.unitCount / 2);
        const jointed = (contact_ohm: number) =>
          whiteOf(solved(alone({ ...run, joints: [{ cutLine, contact_ohm }] }, { kind: 'start' })));
        const plain = whiteOf(solved(alone(run, { kind: 'start' })));
        expect(jointed(0).lowest_V).toBe(plain.lowest_V);
        expect(jointed(0.05).unit_V[0]).toBeGreaterThanOrEqual(plain.unit_V[0]! - 1e-9);
        expect(jointed(0.05).lowest_V).toBeLessThan(plain.lowest_V);
      }),
      { seed: 37, ...runs },
    );
  });

  it('more copper never lowers the worst volts', () => {
    fc.assert(
      fc.property(
        anyRun,
        anyArrangement,
        fc.double({ min: 0.3, max: 1, noNaN: true }),
        (run, arrangement, part) => {
          const one = run.channels[0]!;
          const thicker: Run = {
            ...run,
            positiveRail_ohm_per_m: part * run.positiveRail_ohm_per_m,
            channels: [{ ...one, returnRail_ohm_per_m: part * one.returnRail_ohm_per_m }],
          };
          const before = whiteOf(solved(alone(run, arrangement))).lowest_V;
          expect(whiteOf(solved(alone(thicker, arrangement))).lowest_V).toBeGreaterThanOrEqual(before - 1e-9);
          const shorter = alone(run, arrangement, { length_m: part * lead.length_m });
          expect(whiteOf(solved(shorter)).lowest_V).toBeGreaterThanOrEqual(before - 1e-9);
        },
      ),
      { seed: 38, ...runs },
    );
  });

  it('two leads side by side act as one of half the resistance', () => {
    const run = stripRun('a', 80);
    const one = alone(
      run,
      { kind: 'start' },
      { ohm_per_m: lead.ohm_per_m / 2, contact_ohm: lead.contact_ohm / 2 },
    );
    const two = alone(run, { kind: 'start' });
    const doubled = { ...two, cables: [...two.cables, { ...two.cables[0]!, id: 'again' }] };
    expect(whiteOf(solved(doubled)).lowest_V).toBeCloseTo(whiteOf(solved(one)).lowest_V, 11);
  });

  it('a ring whose last piece is cut is the trunk', () => {
    const taps = [{ id: 't0' }, { id: 't1' }];
    const wall = (back: Partial<typeof lead>): CircuitDescription => ({
      sources: [{ id: 'd', set_V: 24 }],
      taps,
      runs: [stripRun('a', 40), stripRun('b', 40)],
      cables: [
        cable('one', { source: 'd' }, { tap: 't0' }),
        cable('two', { tap: 't0' }, { tap: 't1' }),
        cable('back', { tap: 't1' }, { source: 'd' }, back),
        cable('a', { tap: 't0' }, { run: 'a', cutLine: 0 }),
        cable('b', { tap: 't1' }, { run: 'b', cutLine: 0 }),
      ],
    });
    const trunk = { ...wall({}), cables: wall({}).cables.filter(({ id }) => id !== 'back') };
    const cut = solved(wall({ length_m: 1e4, ohm_per_m: 100 }));
    expect(cut.runs[1]!.lowest_V).toBeCloseTo(solved(trunk).runs[1]!.lowest_V, 5);
    expect(solved(wall({})).runs[1]!.lowest_V).toBeGreaterThan(solved(trunk).runs[1]!.lowest_V);
  });
});

describe('the ladder of attempts', () => {
  it('finds a regulated strip whose whole steps only swing to and fro', () => {
    const run = stripRun('a', 500, { channels: [channel('white', regulatedLaw)] });
    const solution = solved(alone(run, { kind: 'crossed' }));
    expect(solution.newtonSteps).toBeGreaterThan(20);
    expect(solution.residual_A).toBeLessThan(1e-9);
  });

  it.each([1, 3, 10, 30, 100, 300])('copes with %d times a sensible load of either kind', (times) => {
    for (const law of [resistorLaw, regulatedLaw]) {
      const heavy = { ...law, unit_W: times * law.unit_W };
      const run = stripRun('a', 300, { channels: [channel('white', heavy)] });
      for (const kind of ['start', 'both', 'crossed'] as const) {
        expect(solved(alone(run, { kind })).residual_A).toBeLessThan(1e-9);
      }
    }
  });
});

describe('a plan', () => {
  it('gives the same answer from any start, for any numbers of its shape', () => {
    const first = randomForest(3);
    const planned = planCircuit(first);
    if (!planned.ok) throw new Error('no plan');
    const changed = { ...first, sources: first.sources.map((source) => ({ ...source, set_V: 22.8 })) };
    const warm = solvePlanned(planned.value, changed, solved(first).departure_V);
    if (!warm.ok) throw new Error('no answer');
    const cold = solved(changed);
    warm.value.runs.forEach(({ lowest_V }, r) => {
      expect(lowest_V).toBeCloseTo(cold.runs[r]!.lowest_V, 10);
    });
    expect(warm.value.newtonSteps).toBeLessThanOrEqual(cold.newtonSteps);
  });

  it('is not for a circuit of another shape or of other names', () => {
    const planned = planCircuit(alone(stripRun('a', 10), { kind: 'start' }));
    if (!planned.ok) throw new Error('no plan');
    for (const other of [
      alone(stripRun('a', 11), { kind: 'start' }),
      alone(stripRun('a', 10), { kind: 'finish' }),
      alone(stripRun('b', 10), { kind: 'start' }),
    ]) {
      expect(() => solvePlanned(planned.value, other)).toThrow(RangeError);
    }
  });

  it('is not for one that differs in where a run is cut, what a cable ends on, or what is a driver, alone', () => {
    const two = (a: number, b: number, to: string, taps: string[]): CircuitDescription => ({
      sources: ['D1', 'D2'].filter((id) => !taps.includes(id)).map((id) => ({ id, set_V: 24 })),
      taps: taps.map((id) => ({ id })),
      runs: [stripRun('a', a), stripRun('b', b)],
      cables: [
        cable('link', { source: 'D1' }, taps.includes('D2') ? { tap: 'D2' } : { source: 'D2' }),
        cable('A', { source: 'D1' }, { run: 'a', cutLine: 0 }),
        cable('B', { source: 'D1' }, { run: to, cutLine: 0 }),
        cable('AB', { run: 'a', cutLine: 2 }, { run: 'b', cutLine: 3 }),
      ],
    });
    const planned = planCircuit(two(10, 12, 'b', []));
    if (!planned.ok) throw new Error('no plan');
    expect(solvePlanned(planned.value, two(10, 12, 'b', [])).ok).toBe(true);
    for (const other of [two(11, 11, 'b', []), two(10, 12, 'a', []), two(10, 12, 'b', ['D2'])])
      expect(() => solvePlanned(planned.value, other)).toThrow(RangeError);
    const pads = two(10, 12, 'b', []);
    const [link, a, b, ab] = pads.cables;
    const moved = cable('AB', { run: 'a', cutLine: 3 }, { run: 'b', cutLine: 3 });
    expect(() => solvePlanned(planned.value, { ...pads, cables: [link!, a!, b!, moved] })).toThrow(
      RangeError,
    );
    const swapped = { ...pads, cables: [link!, b!, a!, ab!] };
    expect(() => solvePlanned(planned.value, swapped)).toThrow(RangeError);
  });

  it('refuses what its numbers alone would be refused for', () => {
    const good = alone(stripRun('a', 10), { kind: 'start' });
    const planned = planCircuit(good);
    if (!planned.ok) throw new Error('no plan');
    const outcome = solvePlanned(planned.value, { ...good, sources: [{ ...good.sources[0]!, set_V: 500 }] });
    expect(outcome.ok ? [] : outcome.issues.map(({ code }) => code)).toEqual(['number-outside']);
    const none = planCircuit({ ...good, cables: [] });
    expect(none.ok ? [] : none.issues.map(({ code }) => code)).toEqual(['unfed-run']);
  });
});

describe('remarks', () => {
  it('says which driver would be fed backwards', () => {
    const outcome = solveCircuit({
      sources: [
        { id: 'strong', set_V: 25 },
        { id: 'weak', set_V: 22 },
      ],
      taps: [],
      runs: [stripRun('a', 20)],
      cables: [
        cable('left', { source: 'strong' }, { run: 'a', cutLine: 0 }),
        cable('right', { source: 'weak' }, { run: 'a', cutLine: 20 }),
      ],
    });
    if (!outcome.ok) throw new Error('no answer');
    expect(outcome.notes.map((note) => note.split(' would')[0])).toEqual(['Driver weak']);
  });

  it('counts units outside the light law', () => {
    const outcome = solveCircuit(alone(stripRun('a', 800), { kind: 'start' }));
    if (!outcome.ok) throw new Error('no answer');
    expect(whiteOf(outcome.value).unitsOutsideLightLawCount).toBeGreaterThan(100);
    expect(outcome.notes).toEqual([
      expect.stringMatching(/^Some units of run a draw less than 25 % .* extrapolation\.$/),
    ]);
  });

  it('says nothing of a sound circuit, nor of an idle driver, and names a run for one of its channels', () => {
    const notesOf = (description: CircuitDescription) => {
      const outcome = solveCircuit(description);
      return outcome.ok ? outcome.notes : ['refused'];
    };
    const sound = alone(stripRun('a', 10), { kind: 'start' });
    expect(notesOf(sound)).toEqual([]);
    expect(notesOf({ ...sound, sources: [...sound.sources, { id: 'idle', set_V: 24 }] })).toEqual([]);
    // At 800 units 24 V are used up; a channel that is off lies in its law.
    const channels = [channel('white'), channel('off', resistorLaw, 0)];
    const long = alone(stripRun('long', 800, { channels }), { kind: 'start' });
    expect(notesOf(long)).toEqual([expect.stringContaining('Some units of run long draw')]);
  });
});

describe('refusals', () => {
  const good = alone(stripRun('a', 10), { kind: 'start' });
  const run = good.runs[0]!;
  const feed = good.cables[0]!;
  const codes = (description: CircuitDescription): readonly string[] => {
    const outcome = solveCircuit(description);
    if (outcome.ok) return [];
    for (const issue of outcome.issues) {
      expect(issue.sentence.length).toBeGreaterThan(20);
      expect(issue.sentence).not.toMatch(/undefined|NaN/);
    }
    return outcome.issues.map(({ code }) => code);
  };

  it.each<[string, CircuitDescription, string]>([
    ['a run without a cable', { ...good, cables: [] }, 'unfed-run'],
    [
      'a run whose cable starts at an unfed tap',
      { ...good, taps: [{ id: 't' }], cables: [cable('c', { tap: 't' }, { run: 'a', cutLine: 0 })] },
      'unfed-run',
    ],
    [
      'a cable between unfed taps',
      { ...good, taps: [{ id: 't' }, { id: 'u' }], cables: [feed, cable('c', { tap: 't' }, { tap: 'u' })] },
      'unfed-cable',
    ],
    [
      'plus from one driver, minus from another',
      {
        ...good,
        sources: [
          { id: 'd', set_V: 24 },
          { id: 'e', set_V: 24 },
        ],
        cables: [
          {
            id: 'x',
            positive: { ...feed.positive, from: { source: 'd' } },
            returns: [{ ...feed.returns[0]!, from: { source: 'e' } }],
          },
        ],
      },
      'unfed-run',
    ],
    [
      'a driver that is not there',
      { ...good, cables: [cable('c', { source: 'q' }, { run: 'a', cutLine: 0 })] },
      'nothing-called-so',
    ],
    [
      'a tap that is not there',
      { ...good, cables: [feed, cable('c', { tap: 'q' }, { run: 'a', cutLine: 0 })] },
      'nothing-called-so',
    ],
    [
      'a run that is not there',
      { ...good, cables: [feed, cable('c', { source: 'driver' }, { run: 'q', cutLine: 0 })] },
      'nothing-called-so',
    ],
    [
      'a channel that is not there',
      { ...good, cables: [cable('c', { source: 'driver' }, { run: 'a', cutLine: 0 }, {}, ['red'])] },
      'channel-missing',
    ],
    [
      'a cut line outside',
      { ...good, cables: [cable('c', { source: 'driver' }, { run: 'a', cutLine: 11 })] },
      'cut-line-outside',
    ],
    [
      'a joint at the end',
      { ...good, runs: [{ ...run, joints: [{ cutLine: 10, contact_ohm: 0 }] }] },
      'cut-line-outside',
    ],
    ['two runs of one name', { ...good, runs: [run, run] }, 'name-repeated'],
    [
      'a cable to where it came from',
      { ...good, cables: [feed, cable('c', { run: 'a', cutLine: 4 }, { run: 'a', cutLine: 4 })] },
      'cable-goes-nowhere',
    ],
    ['no channel', { ...good, runs: [{ ...run, channels: [] }] }, 'no-channel'],
    [
      'volts that are no number',
      { ...good, sources: [{ id: 'driver', set_V: Number.NaN }] },
      'number-missing',
    ],
    [
      'endless length',
      { ...good, cables: [{ ...feed, positive: { ...feed.positive, length_m: Number.POSITIVE_INFINITY } }] },
      'number-missing',
    ],
    ['half a unit', { ...good, runs: [{ ...run, unitCount: 9.5 }] }, 'number-missing'],
    ['negative resistance', { ...good, runs: [{ ...run, positiveRail_ohm_per_m: -1 }] }, 'number-outside'],
    [
      'level over one',
      { ...good, runs: [{ ...run, channels: [channel('white', resistorLaw, 1.2)] }] },
      'number-outside',
    ],
    [
      'more lamps than volts',
      { ...good, runs: [{ ...run, channels: [channel('white', { ...resistorLaw, lampsInSeries: 9 })] }] },
      'too-few-volts-for-lamps',
    ],
  ])('%s', (_, description, code) => {
    expect(codes(description)).toContain(code);
  });

  it('solves what it does not refuse: the good one, and one with a spare tap', () => {
    expect(codes(good)).toEqual([]);
    expect(
      codes({
        ...good,
        taps: [{ id: 'spare' }],
        cables: [feed, cable('c', { source: 'driver' }, { tap: 'spare' })],
      }),
    ).toEqual([]);
  });
});
