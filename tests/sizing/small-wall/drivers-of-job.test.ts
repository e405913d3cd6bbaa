import { describe, expect, it } from 'vitest';
import type { CircuitSolution } from '../../../src/circuit/solution.ts';
import { quickSharing } from '../../../src/drivers/share-effort.ts';
import type { DriverPlace, Job } from '../../../src/job/job.ts';
import { newZone } from '../../../src/job/zone.ts';
import type { WiredJob } from '../../../src/sizing/circuit-of-job.ts';
import {
  allocate,
  loadsOf,
  nominalWatts,
  outputsToWire,
  solvedOutputs,
  solvedWatts,
  stillWorth,
} from '../../../src/sizing/drivers-of-job.ts';
import { settle } from '../../../src/sizing/settle.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

const at = (name: string, x_mm: number, y_mm: number, depth_mm = 90): DriverPlace => ({
  ...{ name, x_mm, y_mm, width_mm: 900, height_mm: 120, depth_mm },
  ...{ kind: 'box', cable_mm: null, reachable: true, terminalsFace: 'right' },
  ...{ vented: false, ventOpening_mm2: 0 },
});

describe('loads of the runs', () => {
  it('have their watts, their zone, and the way from every driver place along the cable way', () => {
    const { job, setOut } = preparedOf(
      wallOf([600, 800], (own) => {
        own.drivers.places = [at('A', 200, -140), at('B', 1000, 500)];
        own.dimming.zones = [newZone({ id: 'Z1', name: 'left', slots: [1] })];
      }),
    );
    // Way at 40 mm. By the hole of A at (650, -20) 60 + 50 + 60 mm, and 100 more to the second; by that of B at (1450, 500)
    // down 460, 850 and 650 across, up 60.
    expect(loadsOf(job, setOut.runs, [3, 4])).toEqual([
      { run: 'S01', watts: 3, zone: 'left', placeDistances_m: [0.17, 1.37] },
      { run: 'S02', watts: 4, zone: null, placeDistances_m: [0.27, 1.17] },
    ]);
  });

  it('go by the way of their zone, and count the cable of a remote place', () => {
    const { job, setOut } = preparedOf(
      wallOf([600, 800], (own) => {
        own.panel.height_mm = 1300;
        own.drivers.places = [
          at('box', 200, -140),
          { ...at('remote', 600, -140), kind: 'remote', cable_mm: 5000 },
        ];
        own.dimming.zones = [{ ...newZone({ id: 'Z1', name: 'left', slots: [1] }), way: 'head' }];
      }),
    );
    // The way of S01 is at 1,300 - 40 = 1,260 mm. From the box 1,280 up, 50 along and 1,160 down; from the remote place 5,000
    // and 1,160. S02 along the foot: 60 + 150 + 60, and 5,000 + 200 + 60.
    expect(loadsOf(job, setOut.runs, [3, 4]).map((load) => load.placeDistances_m)).toEqual([
      [2.49, 6.16],
      [0.27, 5.26],
    ]);
  });

  it('begin at nominal: 2.4 W for 1,000 mm, 1.2 W for 500 mm', () => {
    const { setOut, products, job } = preparedOf(
      wallOf([600, 800], (job) => {
        if (job.slots.from === 'segments') Object.assign(job.slots.segments[1]!, { y1_mm: 600 });
      }),
    );
    for (const [i, watts] of [2.4, 1.2].entries())
      expect(nominalWatts(setOut, products, job)[i]).toBeCloseTo(watts, 12);
  });
});

describe('loads of a job sized for the levels of a dimmer that cannot go above them', () => {
  const limited = (pwm_Hz: number | null) => (job: Job) => {
    Object.assign(job.dimming, { levels: [0.25], sizeFor: 'levels', pwm_Hz });
  };

  it('begin at those levels where the current is lowered steadily, 0.25 of 2.4 W, and full where each pulse is', () => {
    for (const [pwm_Hz, watts] of [
      [null, 0.6],
      [4000, 2.4],
    ] as const) {
      const { setOut, products, job } = preparedOf(wallOf([600], limited(pwm_Hz)));
      expect(nominalWatts(setOut, products, job)[0]).toBeCloseTo(watts, 12);
    }
  });

  it('are not refused for watts they never draw: an output of 2 W carries 0.6 W and not 2.4 W', () => {
    const of = (pwm_Hz: number | null) =>
      settle(
        preparedOf(
          wallOf([600], (job) => {
            limited(pwm_Hz)(job);
            job.drivers.outputCeiling_W = 2;
          }),
        ),
      );
    expect(of(null).ok).toBe(true);
    const pulsed = of(4000);
    expect(pulsed.ok || pulsed.issues[0]!.code).toBe('load-larger-than-output');
  });

  it('keep the busiest channel of a dimmer to its rating: at 100 and 10 % it carries 1/1.1 of the watts', () => {
    const most_W = (levels: readonly number[]): number => {
      const wall = wallOf([600], (job) => {
        job.strip.entry = '24V-2x9.6W-two-white';
        Object.assign(job.dimming, {
          levels: [...levels],
          sizeFor: 'levels',
          pwm_Hz: null,
          control: 'dimmer',
        });
        job.dimming.dimmer = {
          entry: '2x6A-dali',
          data: { channel_A: 2, frequency_Hz: null, ownLoss_W: 0 },
        };
      });
      const { job, products, setOut } = preparedOf(wall);
      const fits = (watts: number) =>
        allocate(job, products, {
          ...{ loads: loadsOf(job, setOut.runs, [watts]), air_degC: [26], effort: quickSharing },
        }).ok;
      return [...Array(60).keys()].findLast(fits)!;
    };
    // 2 A at 24 V on the busiest: 48 W, and with it 4.8 W of the other; 60 W usable hold what both at one level would carry.
    expect(most_W([1, 0.1])).toBe(52);
    expect(most_W([0.5, 0.5])).toBe(59);
  });
});

/** Shares given watts out over 75 W drivers, of which 60 W are usable in air up to 50 degC. */
function shared(
  watts: readonly number[],
  change: (job: Job) => void = () => {},
  air_degC: readonly number[] = [26],
) {
  const prepared = preparedOf(wallOf([200, 400, 600, 800].slice(0, watts.length), change));
  const { job, products, setOut } = prepared;
  const outcome = allocate(job, products, {
    ...{ loads: loadsOf(job, setOut.runs, watts), air_degC, effort: quickSharing },
  });
  return { prepared, outcome };
}

const codeOf = (one: ReturnType<typeof shared>): string =>
  one.outcome.ok ? 'shared' : one.outcome.issues[0]!.code;

describe('sharing out', () => {
  it('keeps the reserve and derates by the air of each place: 75 W by 0.8 and by 1 - 0.025*10', () => {
    expect(codeOf(shared([60]))).toBe('shared');
    expect(codeOf(shared([60.1]))).toBe('load-larger-than-output');
    expect(codeOf(shared([45], () => {}, [60]))).toBe('shared');
    expect(codeOf(shared([45.1], () => {}, [60]))).toBe('load-larger-than-output');
  });

  it('keeps to the current of an output at the volts set, 3.13 A at 12 V, and to its ceiling', () => {
    const set = (job: Job): void => {
      job.drivers.set_V = 12;
    };
    expect(codeOf(shared([37.5], set))).toBe('shared');
    expect(codeOf(shared([37.6], set))).toBe('load-larger-than-output');
    const ceiling = (job: Job): void => {
      job.drivers.outputCeiling_W = 40;
    };
    expect(codeOf(shared([40.1], ceiling))).toBe('load-larger-than-output');
  });

  const placesMet = (
    places: DriverPlace[],
    watts = [50, 50],
    change: (job: Job) => void = () => {},
  ): string[] => {
    const one = shared(
      watts,
      (job) => {
        job.drivers.places = places;
        change(job);
      },
      places.map(() => 26),
    );
    return granted(one.outcome).drivers.map(({ place }) => places[place]!.name);
  };

  it('numbers drivers by their places from left to right and upwards, however listed', () => {
    const [left, right] = [at('left', -250, -140), at('right', -50, -140)];
    expect(placesMet([left, right])).toEqual(['left', 'right']);
    expect(placesMet([right, left])).toEqual(['left', 'right']);
    // The same way from the slots, above it and below it: the lower one is taken.
    const [low, high] = [at('low', 300, -140), at('high', 300, 100)];
    expect(placesMet([low, high], [50])).toEqual(['low']);
    expect(placesMet([high, low], [50])).toEqual(['low']);
    // By their heights as numbers: as text 280 would stand before 60. The way is at 230 mm, 50 mm from either.
    const within = (job: Job): void => {
      job.cables.wayInset_mm = 230;
    };
    const [under, over] = [at('under', 300, 60), at('over', 300, 280)];
    expect(placesMet([under, over], [50], within)).toEqual(['under']);
    expect(placesMet([over, under], [50], within)).toEqual(['under']);
  });

  it('tells places at one spot apart by what else they are, then by name', () => {
    const [a, b] = [at('a', 300, -140), at('b', 300, -140)];
    expect(placesMet([a, b], [50])).toEqual(['a']);
    expect(placesMet([b, a], [50])).toEqual(['a']);
    const [deep, flat] = [at('a', 300, -140, 90), at('b', 300, -140, 50)];
    expect(placesMet([deep, flat], [50])).toEqual(placesMet([flat, deep], [50]));
  });
});

describe('whether an allocation still holds', () => {
  const holds = (
    was: readonly number[],
    now: readonly number[],
    change: (job: Job) => void = () => {},
    air_degC: readonly number[] = [26],
  ): boolean => {
    const { prepared, outcome } = shared(was, change);
    const { job, products, setOut } = prepared;
    const loads = loadsOf(job, setOut.runs, now);
    return stillWorth(granted(outcome), { job, products, loads, air_degC }).holds;
  };

  it('asks whether every driver keeps within 60 W', () => {
    expect(holds([30, 30], [30, 30])).toBe(true);
    expect(holds([30, 30], [20, 40])).toBe(true);
    expect(holds([30, 30], [30, 30.1])).toBe(false);
    expect(holds([60, 60], [50, 60.1])).toBe(false);
    expect(holds([60, 60], [60, 60])).toBe(true);
  });

  it('asks it of the air as warm as it became: 45 W at 60 degC', () => {
    expect(holds([20, 25], [20, 25], () => {}, [60])).toBe(true);
    expect(holds([20, 25], [20, 25.1], () => {}, [60])).toBe(false);
  });

  it('asks whether every output keeps within its current: two of 1.5 A at 24 V, 36 W', () => {
    const two = (job: Job): void => {
      Object.assign(job.drivers.data, { outputCount: 2, current_A: 1.5 });
    };
    expect(holds([30, 30], [24, 36], two)).toBe(true);
    expect(holds([30, 30], [20, 36.1], two)).toBe(false);
    expect(holds([15, 15, 15, 15], [18, 18, 12, 12], two)).toBe(true);
    expect(holds([15, 15, 15, 15], [18.1, 18, 12, 11], two)).toBe(false);
  });
});

describe('outputs', () => {
  it('are wired from the place of their driver, as the wall is', () => {
    const { prepared, outcome } = shared([60, 20]);
    expect(outputsToWire(granted(outcome), prepared.job)).toEqual([
      { id: 'D1.1', driver: 'D1', model: 0, place: 0, runs: ['S01'], layout: 'radial', way: 'foot' },
      { id: 'D2.1', driver: 'D2', model: 0, place: 0, runs: ['S02'], layout: 'radial', way: 'foot' },
    ]);
  });

  const solution = {
    sources: [
      { id: 'D1.1', out_W: 36.3, current_A: 1.5 },
      { id: 'D2.1', out_W: 0, current_A: 0 },
    ],
    runs: [
      { id: 'S01', load_W: 10, copper_W: 1 },
      { id: 'S02', load_W: 20, copper_W: 2 },
      { id: 'S03', load_W: 0, copper_W: 0 },
    ],
  } as unknown as CircuitSolution;

  it('deliver what was solved', () => {
    const { job, products } = preparedOf(wallOf([600]));
    const shares = new Map([
      ['D1.1', 0.5],
      ['D2.1', 1],
    ]);
    expect([...solvedOutputs(solution, { job, products }, shares)]).toEqual([
      ['D1.1', { watts: 36.3, current_A: 1.5, average_W: 18.15 }],
      ['D2.1', { watts: 0, current_A: 0, average_W: 0 }],
    ]);
  });

  it('ask of each run its own watts and its part of the cables: 36.3 W for 33 W is a tenth more', () => {
    const { prepared, outcome } = shared([20, 20, 40]);
    expect(granted(outcome).drivers.map(({ outputs }) => outputs[0]!.runs)).toEqual([
      ['S01', 'S02'],
      ['S03'],
    ]);
    const wired = { runs: prepared.setOut.runs } as unknown as WiredJob;
    const [one, two, dark] = solvedWatts(solution, wired, granted(outcome));
    expect(one).toBeCloseTo(12.1, 12);
    expect(two).toBeCloseTo(24.2, 12);
    // An output whose runs draw nothing adds nothing.
    expect(dark).toBe(0);
  });
});
