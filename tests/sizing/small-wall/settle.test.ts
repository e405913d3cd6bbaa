import { describe, expect, it } from 'vitest';
import type { DriverPlace, Job } from '../../../src/job/job.ts';
import { airAt, settle, shareNominally } from '../../../src/sizing/settle.ts';
import { granted } from './granted.ts';
import { plainLaw, preparedOf, wallOf } from './small-wall.ts';

const at = (name: string, x_mm: number, change: Partial<DriverPlace> = {}): DriverPlace => ({
  ...{ name, x_mm, y_mm: -140, width_mm: 900, height_mm: 120, depth_mm: 90 },
  ...{ kind: 'box', cable_mm: null, reachable: true, terminalsFace: 'right' },
  ...{ vented: false, ventOpening_mm2: 0 },
  ...change,
});

const prepared = (xs_mm: readonly number[], change: (job: Job) => void, law = plainLaw()) =>
  preparedOf(wallOf(xs_mm, change), law);

/** Runs of each driver, and the place it is in. */
const shared = ({ allocation }: { allocation: ReturnType<typeof settledOf>['allocation'] }) =>
  allocation.drivers.map(({ place, outputs }) => [place, outputs.flatMap(({ runs }) => runs)]);

const settledOf = (...asked: Parameters<typeof prepared>) => granted(settle(prepared(...asked)));

const issueOf = (...asked: Parameters<typeof prepared>) => {
  const outcome = settle(prepared(...asked));
  if (outcome.ok) throw new Error('settled');
  return outcome.issues[0]!;
};

describe('strip and watts', () => {
  it('agree: 5 K for each watt a metre over 25 degC, within the millikelvin the rounds stop at', () => {
    const { solution, strip_degC, description } = settledOf([600, 800], () => {}, plainLaw(5));
    for (const [i, { load_W, copper_W }] of solution.runs.entries()) {
      // Runs of 1 m.
      expect(Math.abs(strip_degC[i]! - (25 + 5 * (load_W + copper_W)))).toBeLessThan(1e-3);
      expect(description.runs[i]!.strip_degC).toBe(strip_degC[i]);
    }
    // Warm lamps draw a little more than 2.4 W: 12 K by 2 mV and six lamps are 0.14 V of 6.6 V over the resistor.
    expect(strip_degC[0]).toBeGreaterThan(37);
    expect(strip_degC[0]).toBeLessThan(38);
  });

  it('that warm each other without end are refused', () => {
    expect(issueOf([600], () => {}, plainLaw(80)).code).toBe('runs-away');
  });
});

describe('air at the drivers', () => {
  const two = (job: Job): void => {
    job.drivers.places = [at('far', 2300), at('near', 200)];
  };

  it('is warmed by what they lose: P/0.88 - P over 0.750441 W/K, and only where they are', () => {
    const asked = prepared([600], two);
    const settled = granted(settle(asked));
    const { solution, air_degC, allocation } = settled;
    const loss_W = solution.out_W / 0.88 - solution.out_W;
    expect(allocation.drivers.map(({ place }) => place)).toEqual([1]);
    expect(air_degC[0]).toBeCloseTo(26, 6);
    expect(air_degC[1]).toBeCloseTo(26 + loss_W / 0.750441, 5);
    // At half the watts half the rise.
    expect(airAt(asked, settled, solution, new Map([['D1.1', 0.5]]))[1]).toBeCloseTo(
      26 + loss_W / 2 / 0.750441,
      5,
    );
  });

  it('counts every driver and output of a place', () => {
    const { solution, air_degC, allocation } = settledOf([600, 800, 1000], (job) => {
      job.drivers.places = [at('near', 200)];
      Object.assign(job.drivers.data, { rated_W: 5.5, efficiency: 0.8, outputCount: 2, current_A: 0.12 });
      job.drivers.reserve = 0;
    });
    expect(allocation.drivers.map(({ outputs }) => outputs.length)).toEqual([1, 2]);
    expect(air_degC[0]).toBeCloseTo(26 + (solution.out_W * 0.25) / 0.750441, 5);
  });
});

describe('sharing out until it agrees', () => {
  const usable = (watts: number) => (job: Job) => {
    Object.assign(job.drivers.data, { rated_W: watts, current_A: watts });
    job.drivers.reserve = 0;
  };

  it('takes a second driver when the watts solved are more than the nominal ones', () => {
    // Two runs of 2.4 W fit into 4.85 W; warmed to some 37 degC they draw a few percent more.
    const { allocation, notes } = settledOf([600, 800], usable(4.85), plainLaw(5));
    expect(shared({ allocation })).toEqual([
      [0, ['S01']],
      [0, ['S02']],
    ]);
    expect(notes).toEqual([]);
  });

  it('saves a driver when the watts solved are fewer: at half the current 2.4 W for both', () => {
    const { allocation } = settledOf([600, 800], (job) => {
      usable(3)(job);
      Object.assign(job.dimming, { levels: [0.5], sizeFor: 'levels', pwm_Hz: null });
    });
    expect(shared({ allocation })).toEqual([[0, ['S01', 'S02']]]);
  });

  it('stays with a sharing-out that still holds where a fresh one would only swap equal runs', () => {
    // Nominally alike, so cut anywhere, two to a driver; solved, S03, nearest to the place by cable of 500 ohm/km, draws most, and
    // the watts would be more even with it alone.
    const { allocation, notes, solution } = settledOf([600, 800, 1000], (job) => {
      usable(5.2)(job);
      job.cables.data.conductor_ohm_per_km = 500;
      job.drivers.places = [at('right', 1000)];
    });
    expect(solution.runs[2]!.load_W).toBeGreaterThan(solution.runs[0]!.load_W);
    expect(shared({ allocation })).toEqual([
      [0, ['S01']],
      [0, ['S02', 'S03']],
    ]);
    expect(notes).toEqual([]);
  });

  it('gives up after five rounds, and says so on the cover', () => {
    // Two closed boxes of 0.05 m2, 0.129 W/K: whichever has the drivers warms by some 60 K, past the 70 degC of the
    // driver, so that the other one is taken, and so on for ever.
    const box = { width_mm: 200, height_mm: 100, depth_mm: 50 };
    const { notes, allocation } = settledOf([600, 800], (job) => {
      job.strip.entry = '24V-14.4W';
      if (job.slots.from === 'segments')
        job.slots.segments = job.slots.segments.map((segment) => ({ ...segment, y1_mm: 2100 }));
      job.drivers.places = [at('left', 300, box), at('right', 1500, box)];
    });
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatchObject({ sheet: 'drivers', onCover: true });
    expect(notes[0]!.sentence).toMatch(/had not settled after 5 rounds/);
    expect(allocation.drivers.length).toBeGreaterThan(0);
  });

  it('is refused with its own reason where the loads are too large in any air', () => {
    // 2.4 W fit into 2.42 W, what the warm strip draws does not.
    expect(issueOf([600], usable(2.42), plainLaw(5))).toMatchObject({
      ...{ code: 'load-larger-than-output', place: { run: 'S01', field: 'drivers.entry' } },
    });
    expect(issueOf([600], usable(2)).code).toBe('load-larger-than-output');
  });

  it('is refused where no cable can be laid', () => {
    const led = (job: Job): void => {
      job.cables.layout = 'run to run';
      job.feeds.arrangement = 'both';
    };
    expect(issueOf([600], led).code).toBe('layout-needs-end-feed');
  });
});

describe('a driver place that gets too warm', () => {
  /** Strip of 14.4 W/m on 2 m: 28.8 W, of which a driver of 0.88 loses 3.93 W. */
  const hot = (places: DriverPlace[]) => (job: Job) => {
    job.strip.entry = '24V-14.4W';
    if (job.slots.from === 'segments')
      job.slots.segments = job.slots.segments.map((segment) => ({ ...segment, y1_mm: 2100 }));
    job.drivers.places = places;
  };
  const box = { width_mm: 120, height_mm: 80, depth_mm: 40 };

  it('is named with the air it would reach and what to do', () => {
    // Faces of 0.0096 + 2*0.0032 + 2*0.0048 = 0.0256 m2 by 2.573529: 0.065882 W/K. Of 28.8 W the drop along 2 m of strip
    // takes half a watt; 28.3*(1/0.88 - 1) = 3.86 W make it some 58 K warmer than 26 degC.
    const issue = issueOf([600], hot([at('Niche', 600, box)]));
    expect(issue).toMatchObject({
      code: 'driver-place-too-warm',
      place: { field: 'drivers.places[1].vented' },
      quantities: { fullLoad_degC: 50, air_degC: expect.closeTo(84, 0) },
    });
    expect(issue.sentence).toContain('air in Niche would reach 84 °C');
    expect(issue.sentence).toContain('Vent it low and high');
  });

  it('is the hottest of several, and a vented one is told to have larger vents', () => {
    // Narrower by 20 mm, so hotter; a vent of 5 mm2 helps by next to nothing. Of 75 W 30 are usable: a driver for each run.
    const narrow = { ...box, width_mm: 100, vented: true, ventOpening_mm2: 5 };
    const issue = issueOf([200, 2200], (job) => {
      hot([at('Niche', 200, box), at('Corner', 2200, narrow)])(job);
      job.drivers.reserve = 0.6;
    });
    expect(issue).toMatchObject({
      code: 'driver-place-too-warm',
      place: { field: 'drivers.places[2].ventOpening_mm2' },
    });
    expect(issue.sentence).toContain('air in Corner would reach');
    expect(issue.sentence).toContain('Give it larger vents');
  });

  it('is more than 120 degC where a number says no more', () => {
    const tiny = { width_mm: 60, height_mm: 50, depth_mm: 20 };
    expect(issueOf([600], hot([at('Niche', 600, tiny)])).sentence).toContain('would reach more than 120 °C');
  });
});

describe('a strip whose temperature is given', () => {
  it('is solved at it, and the cover says what the watts of the warmest run would make: 20 K for each watt a metre', () => {
    // Thin cable: the run at 2,300 mm gets fewer volts and draws less.
    const { solution, strip_degC, notes } = settledOf(
      [600, 2300],
      (job) => {
        job.strip.strip_degC = 61;
        job.cables.data.conductor_ohm_per_km = 1000;
      },
      plainLaw(20),
    );
    expect(strip_degC).toEqual([61, 61]);
    const [near_degC, far_degC] = solution.runs.map(({ load_W, copper_W }) => 25 + 20 * (load_W + copper_W));
    expect(near_degC! - far_degC!).toBeGreaterThan(2);
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatchObject({ sheet: 'section', onCover: true });
    expect(notes[0]!.sentence).toContain('for a strip at 61 °C');
    expect(notes[0]!.sentence).toContain(`the warmest run would have ${near_degC!.toFixed(0)} °C`);
  });
});

describe('what is refused before the section is asked', () => {
  const codes = (change: (job: Job) => void): string[] => {
    const outcome = shareNominally(prepared([600, 800], change));
    return outcome.ok ? [] : outcome.issues.map(({ code }) => code);
  };

  it('is a run from run to run that is not fed at one end, and no other', () => {
    const fedAtBoth = (layout: Job['cables']['layout']) => (job: Job) => {
      job.cables.layout = layout;
      job.feeds.arrangement = 'both';
    };
    expect(codes(fedAtBoth('run to run'))).toEqual(['layout-needs-end-feed']);
    expect(codes(fedAtBoth('radial'))).toEqual([]);
    expect(codes((job) => (job.cables.layout = 'run to run'))).toEqual([]);
  });

  it('is a load that no output carries', () => {
    expect(codes((job) => (job.drivers.data.rated_W = 2))).toContain('load-larger-than-output');
  });
});
