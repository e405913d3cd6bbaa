import { describe, expect, it } from 'vitest';
import type { Fault } from '../../../src/readings/fault-fit.ts';
import { jobReadings } from '../../../src/readings/reading-model.ts';
import { circuitOfJob } from '../../../src/sizing/circuit-of-job.ts';
import { boxes, settledWall } from './two-outputs.ts';

/** Made anew by every test, so that a change in the making is tried by all of them. */
const modelNow = () => jobReadings(settledWall(), boxes);
const sound: Fault = { kind: 'none' };
const nameOf = ({ row, quantity }: (typeof boxes)[number]) => `${row} ${quantity}`;

/** What a model reads, box by box; the terminal of an output stands for a millionth of an ohm, so to 1e-5. */
function readings(fault: Fault, site: readonly number[] = []) {
  const read = modelNow().at(site, sound).predict(fault);
  return Object.fromEntries(boxes.map((box, i) => [nameOf(box), read[i]!]));
}

/** What a fault changes, box by box; what stays is left out. */
function changes(fault: Fault): Record<string, number> {
  const [before, after] = [readings(sound), readings(fault)];
  const moved = Object.keys(before).map((key) => [key, after[key]! - before[key]!] as const);
  return Object.fromEntries(moved.filter(([, x]) => Math.abs(x) > 2e-5));
}

function expectClose(actual: Record<string, number>, expected: Record<string, number>) {
  expect(Object.keys(actual).toSorted()).toEqual(Object.keys(expected).toSorted());
  for (const [key, x] of Object.entries(expected)) expect(actual[key], key).toBeCloseTo(x, 4);
}

const at = (place: string, ohm = 0.5): Fault => ({ kind: 'resistance', place, ohm });

describe('readings as planned', () => {
  /**
   * A cable there and back with its pads: 2 x 0.105 ohm. S01: 0.4 A leave 24 - 0.084 = 23.916 V; along each rail 0.4 A
   * fall over half a unit and 0.38, 0.36 ... 0.02 A over a whole one, 0.001 + 0.019 V, and 0.24 A over the joint, 0.00048 V:
   * 23.87504 V at the last unit. S02, from both ends: 0.2 A each, 23.958 V. S03, crossed: 0.4 A through plus and through
   * minus, 0.042 V each. Its first unit has half a unit of plus before it, 0.001 V, and along minus what lies between the pad of
   * S01 and its last unit: 0.02 V; and 0.2 A over the joint, 0.0004 V. The last unit likewise.
   */
  it('are worked out from amps and ohms', () => {
    expectClose(readings(sound), {
      ...{
        'D1.1 noLoad': 24,
        'D1.1 loaded': 24,
        'D1.1 current': 0.8,
        'D2.1 loaded': 24,
        'D2.1 current': 0.4,
      },
      ...{ 'S01-F1 loop': 0.21, 'S01-F1 noLoad': 24, 'S01-F1 loaded': 23.916, 'S01-F1 current': 0.4 },
      ...{ 'S01 finish loop': 0.414, 'S01 finish loaded': 23.87504 },
      ...{ 'S02-F1 loaded': 23.958, 'S02-F1 current': 0.2, 'S02-F2 loaded': 23.958, 'S02-F2 current': 0.2 },
      ...{ 'S03-F1 current': 0.4, 'S03-F2 current': 0.4, 'S03 start loop': 0.312 },
      'S03 start loaded': 24 - 0.084 - 0.001 - 0.02 - 0.0004,
      'S03 finish loaded': 24 - 0.084 - 0.001 - 0.02 - 0.0004,
    });
  });
});

describe('an extra resistance of 0.5 ohm', () => {
  it('at a feed point is in its volts, beyond it and in its loops', () => {
    expectClose(changes(at('feed point S01-F1 or in its cable C01')), {
      ...{ 'S01-F1 loop': 0.5, 'S01 finish loop': 0.5, 'S01-F1 loaded': -0.2, 'S01 finish loaded': -0.2 },
    });
  });

  it('at the near end of a cable is in volts alone, because the cable is taken off for its loop', () => {
    expectClose(changes(at('the near end of cable C01 at D1.1')), {
      ...{ 'S01-F1 loaded': -0.2, 'S01 finish loaded': -0.2 },
    });
  });

  it('at the terminals of an output is in the volts of all its runs: 0.8 A', () => {
    expectClose(changes(at('the terminals of output D1.1')), {
      ...{ 'S01-F1 loaded': -0.4, 'S01 finish loaded': -0.4, 'S02-F1 loaded': -0.4, 'S02-F2 loaded': -0.4 },
    });
  });

  // Cut line 8 of 20 to the metre is 400 mm along; 12 units beyond it draw 0.24 A.
  it('at a joint is beyond it, and in the loop that passes it', () => {
    expectClose(changes(at('the joint 400 mm from the start of run S01')), {
      ...{ 'S01 finish loop': 0.5, 'S01 finish loaded': -0.12 },
    });
  });

  /**
   * Each rail of S02 hangs between two cables: 0.105 + 0.1 + 0.002 + 0.105 = 0.312 ohm, 0.156 of it to either side of its
   * middle. With 0.5 more in one rail on one side, of 0.4 A that side has 0.156/0.812 = 0.192118, 0.076847 A, and the other
   * 0.323153 A: over 0.605 and 0.105 ohm 0.046492 and 0.033931 V, where it was 0.021 V. Meters of amps sit in plus.
   */
  it('in one rail on one side of a run fed at both ends sends its current round', () => {
    const volts = { 'S02-F1 loaded': 0.021 - 0.046492, 'S02-F2 loaded': 0.021 - 0.033931 };
    expectClose(changes(at('feed point S02-F1 or in its cable C02.1 (plus)')), {
      ...{ 'S02-F1 current': 0.076847 - 0.2, 'S02-F2 current': 0.323153 - 0.2, ...volts },
    });
    expectClose(changes(at('feed point S02-F1 or in its cable C02.1 (minus)')), volts);
  });

  it('in one rail of a crossed joint is in the loop of that rail alone', () => {
    // The far half of either rail draws 0.2 A over the joint; in plus that is on the way to the finish, in minus to the start.
    const of = (rail: string) => changes(at(`the joint 500 mm from the start of run S03 (${rail})`));
    expectClose(of('plus'), { 'S03 finish loaded': -0.1 });
    expectClose(of('minus'), { 'S03 start loop': 0.5, 'S03 start loaded': -0.1 });
  });
});

describe('a run without current', () => {
  it('leaves its amps out, and its volts as they are at the driver', () => {
    expectClose(changes({ kind: 'missing run', place: 'S01' }), {
      ...{
        'D1.1 current': -0.4,
        'S01-F1 current': -0.4,
        'S01-F1 loaded': 0.084,
        'S01 finish loaded': 0.12496,
      },
    });
  });

  it('that no volts reach shows none, and its loops as before', () => {
    const unfed = readings({ kind: 'unfed run', place: 'S01' });
    for (const box of ['S01-F1 noLoad', 'S01-F1 loaded', 'S01-F1 current', 'S01 finish loaded'])
      expect(unfed[box]).toBe(0);
    expect(unfed['S01-F1 loop']).toBeCloseTo(0.21, 9);
    expect(unfed['D1.1 current']).toBeCloseTo(0.4, 5);
    expect(unfed['D1.1 loaded']).toBe(24);
    expect(unfed['S02-F1 loaded']).toBeCloseTo(23.958, 4);
  });
});

describe('the places where something may be wrong', () => {
  // Rails are told apart only where a box does: by amps in plus where current can go round, by the loop of a crossed feed.
  it('are terminals, far ends, near ends where an output has several cables, and joints', () => {
    const { resistancePlaces, runs } = modelNow().at([], sound);
    expect(resistancePlaces).toEqual([
      'the terminals of output D1.1',
      'feed point S01-F1 or in its cable C01',
      'the near end of cable C01 at D1.1',
      'feed point S02-F1 or in its cable C02.1 (plus)',
      'feed point S02-F1 or in its cable C02.1 (minus)',
      'the near end of cable C02.1 at D1.1 (plus)',
      'the near end of cable C02.1 at D1.1 (minus)',
      'feed point S02-F2 or in its cable C02.2 (plus)',
      'feed point S02-F2 or in its cable C02.2 (minus)',
      'the near end of cable C02.2 at D1.1 (plus)',
      'the near end of cable C02.2 at D1.1 (minus)',
      'the joint 400 mm from the start of run S01',
      'the joint 500 mm from the start of run S02',
      'the terminals of output D2.1',
      'feed point S03-F1 or in its cable C03.1',
      'feed point S03-F2 or in its cable C03.2',
      'the joint 500 mm from the start of run S03 (plus)',
      'the joint 500 mm from the start of run S03 (minus)',
    ]);
    expect(runs).toEqual(['S01', 'S02', 'S03']);
  });

  it('lead to where they are', () => {
    const model = modelNow();
    expect(model.placeOf('the terminals of output D2.1')).toEqual({ driver: 'D2' });
    expect(model.placeOf('feed point S02-F2 or in its cable C02.2 (minus)')).toEqual({
      ...{ feedPoint: 'S02-F2', cable: 'C02.2', run: 'S02' },
    });
    expect(model.placeOf('the near end of cable C01 at D1.1')).toEqual({ cable: 'C01' });
    expect(model.placeOf('the joint 400 mm from the start of run S01')).toEqual({ run: 'S01' });
    expect(model.placeOf('S03')).toEqual({ run: 'S03' });
  });
});

describe('behind a block', () => {
  const model = () => jobReadings(settledWall(true), boxes).at([], sound);
  const changed = (fault: Fault) => {
    const [before, after] = [model().predict(sound), model().predict(fault)];
    const moved = boxes.map((box, i) => [nameOf(box), after[i]! - before[i]!] as const);
    return Object.fromEntries(moved.filter(([, x]) => Math.abs(x) > 2e-5));
  };

  it('the link belongs to the terminals, near ends are at their ways, and a fuse of several cables is a place', () => {
    const { resistancePlaces } = model();
    expect(resistancePlaces).toEqual([
      'the terminals of output D1.1 or cable L1.1',
      'fuse F1.1-2 or its holder',
      'feed point S01-F1 or in its cable C01',
      'the near end of cable C01 at B1.1 way 1',
      ...['S02-F1 or in its cable C02.1', 'S02-F2 or in its cable C02.2'].flatMap((far, i) => [
        ...[`feed point ${far} (plus)`, `feed point ${far} (minus)`],
        ...['plus', 'minus'].map((rail) => `the near end of cable C02.${i + 1} at B1.1 way 2 (${rail})`),
      ]),
      'the joint 400 mm from the start of run S01',
      'the joint 500 mm from the start of run S02',
      'the terminals of output D2.1',
      'feed point S03-F1 or in its cable C03.1',
      'feed point S03-F2 or in its cable C03.2',
      'the joint 500 mm from the start of run S03 (plus)',
      'the joint 500 mm from the start of run S03 (minus)',
    ]);
  });

  it('a link has all the current, 0.8 A, and its ohms are in no loop', () => {
    const volts = ['S01-F1 loaded', 'S01 finish loaded', 'S02-F1 loaded', 'S02-F2 loaded'];
    expectClose(
      changed(at('the terminals of output D1.1 or cable L1.1')),
      Object.fromEntries(volts.map((box) => [box, -0.4])),
    );
  });

  it('a fuse has the current of the cables behind it, 0.4 A of S02, and leaves what else hangs on the block', () => {
    const { placeOf } = jobReadings(settledWall(true), boxes);
    expect(placeOf('fuse F1.1-2 or its holder')).toEqual({ driver: 'D1' });
    expectClose(changed(at('fuse F1.1-2 or its holder')), { 'S02-F1 loaded': -0.2, 'S02-F2 loaded': -0.2 });
  });

  it('a near end is in volts alone', () => {
    expectClose(changed(at('the near end of cable C01 at B1.1 way 1')), {
      ...{ 'S01-F1 loaded': -0.2, 'S01 finish loaded': -0.2 },
    });
  });

  /** Places of D1.1 with one of its runs alone on it. */
  const placesWith = (run: string, isLeft: (branch: string) => boolean): readonly string[] => {
    const wall = settledWall(true);
    const { installation } = wall.wired;
    const branches = installation.branches.filter(({ id }) => isLeft(id));
    const wired = { ...wall.wired, installation: { ...installation, branches } };
    const [first] = wall.allocation.drivers;
    const drivers = [{ ...first!, outputs: [{ ...first!.outputs[0]!, runs: [run] }] }];
    const allocation = { ...wall.allocation, drivers };
    const lone = {
      ...wall,
      wired,
      allocation,
      description: circuitOfJob(
        wired,
        wired.runs.map(() => 20),
      ),
    };
    return jobReadings(lone, []).at([], sound).resistancePlaces;
  };

  it('a fuse that carries all of an output is one place with its terminals', () => {
    const places = placesWith('S02', (id) => id !== 'C01');
    expect(places[0]).toBe('the terminals of output D1.1, cable L1.1 or fuse F1.1-2');
    expect(places).not.toContain('fuse F1.1-2 or its holder');
    expect(places).toContain('the near end of cable C02.1 at B1.1 way 2');
  });

  it('a cable that is alone there has its near end with the terminals', () => {
    expect(placesWith('S01', (id) => !/^(C02|F)/.test(id))).toEqual([
      'the terminals of output D1.1, cable L1.1 or the near end of cable C01 at B1.1 way 1',
      'feed point S01-F1 or in its cable C01',
      'the joint 400 mm from the start of run S01',
    ]);
  });
});

describe('what the site may have otherwise', () => {
  const shiftOf = (kind: string, of: string, wrong: Fault = sound) => {
    const model = modelNow();
    const k = model.unknowns.findIndex((one) => one.kind === kind && one.of === of);
    const shift = model.at([], wrong).shifts[k]!;
    const all = boxes.map((box, i) => [nameOf(box), shift[i]!] as const);
    return Object.fromEntries(all.filter(([, x]) => Math.abs(x) > 2e-5));
  };

  // A tolerance of 3 % spreads by 0.03/root 3 of 24 V: 0.41569 V, at every volt of that output and no other.
  it('moves the volts of an output with it', () => {
    const each = 0.41569;
    expectClose(shiftOf('volts', 'D2.1'), {
      ...{ 'D2.1 loaded': each, 'S03 start loaded': each, 'S03 finish loaded': each },
    });
    const live = ['D1.1 noLoad', 'D1.1 loaded', 'S01-F1 noLoad', 'S01-F1 loaded', 'S01 finish loaded'];
    const all = [...live, 'S02-F1 loaded', 'S02-F2 loaded'];
    expectClose(shiftOf('volts', 'D1.1'), Object.fromEntries(all.map((box) => [box, each])));
  });

  it('moves no volts of a run that none reach', () => {
    const moved = Object.keys(shiftOf('volts', 'D1.1', { kind: 'unfed run', place: 'S01' }));
    expect(moved.toSorted()).toEqual(['D1.1 loaded', 'D1.1 noLoad', 'S02-F1 loaded', 'S02-F2 loaded']);
  });

  // 5 % of 0.4 A is 0.02 A, over 0.21 ohm 0.0042 V.
  it('moves amps with the watts of the strip', () => {
    const shift = shiftOf('watts', '');
    expect(shift['S01-F1 current']).toBeCloseTo(0.02, 5);
    expect(shift['D1.1 current']).toBeCloseTo(0.04, 5);
    expect(shift['S01-F1 loaded']).toBeCloseTo(-0.0042, 5);
    expect(shift['S01-F1 loop']).toBeUndefined();
  });

  // 3 % of the 0.2 ohm of its copper: 0.006 ohm, at 0.4 A 0.0024 V.
  it('moves loop and volts with the length of a cable', () => {
    expectClose(shiftOf('length', 'C01'), {
      ...{
        'S01-F1 loop': 0.006,
        'S01 finish loop': 0.006,
        'S01-F1 loaded': -0.0024,
        'S01 finish loaded': -0.0024,
      },
    });
  });

  // 0.25/root 12 is 0.072169: of 0.2 ohm of strip 0.0144338, of 0.2 ohm of cable as much.
  it('moves loops with the copper of strip and cables', () => {
    expectClose(
      Object.fromEntries(Object.entries(shiftOf('strip copper', '')).filter(([box]) => box.endsWith('loop'))),
      { 'S01 finish loop': 0.0144338, 'S03 start loop': 0.0072169 },
    );
    expectClose(
      Object.fromEntries(Object.entries(shiftOf('cable copper', '')).filter(([box]) => box.endsWith('loop'))),
      { 'S01-F1 loop': 0.0144338, 'S01 finish loop': 0.0144338, 'S03 start loop': 0.0144338 },
    );
  });

  // Volts, watts and copper act in straight lines but for their products, some thousandths here.
  it('is taken off again in a straight line, wherever the model stands', () => {
    const site = modelNow().unknowns.map((_, k) => (k % 2 === 0 ? 1 : -1));
    const [planned, there] = [readings(sound), readings(sound, site)];
    for (const [box, x] of Object.entries(planned)) expect(Math.abs(there[box]! - x), box).toBeLessThan(5e-3);
  });
});
