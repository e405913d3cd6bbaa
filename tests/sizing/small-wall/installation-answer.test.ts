import { describe, expect, it } from 'vitest';
import { dimmerCatalogue } from '../../../src/job/dimmer-catalogue.ts';
import type { Job } from '../../../src/job/job.ts';
import { cableAnswers } from '../../../src/sizing/cable-answer.ts';
import { casesOf, installationAnswer } from '../../../src/sizing/installation-answer.ts';
import { installationOfJob } from '../../../src/sizing/installation-of-job.ts';
import { settle } from '../../../src/sizing/settle.ts';
import { granted } from './granted.ts';
import { plainLaw, preparedOf, wallOf } from './small-wall.ts';

/** Drivers of 10 A at 24 V, which may give 15 A: more than a cord of 1.5 mm2 carries among others, so that there are fuses. */
const strong = (job: Job): void => {
  Object.assign(job.drivers.data, { rated_W: 240, current_A: 10 });
};

function answered(change: (job: Job) => void = () => {}, xs_mm: readonly number[] = [600, 800]) {
  const job = wallOf(xs_mm, (own) => {
    strong(own);
    change(own);
  });
  const settled = granted(settle(preparedOf(job)));
  const { solution, wired } = settled;
  const cables = cableAnswers(solution, wired);
  return { installation: installationAnswer(settled, cables), wired, cables };
}

const currentOf = ({ cables }: ReturnType<typeof answered>, id: string): number =>
  cables.find((cable) => cable.id === id)!.current_A;

const layout = (own: Job['cables']['layout']) => (job: Job) => {
  job.cables.layout = own;
};

describe('a block in the answer', () => {
  it('stands where the plan has it, fed at one end and left at the other', () => {
    // After the driver of 195 x 52 mm at (220, -120) and 20 mm of air: 60 mm along, 20 + 12 = 32 over, 45 deep.
    expect(answered().installation.blocks[0]).toMatchObject({
      ...{ id: 'B1.1', output: 'D1.1' },
      standing: {
        ...{ place: 'Plinth', x_mm: 435, y_mm: -120, across_mm: 60, up_mm: 32, deep_mm: 45, faces: 'right' },
        ...{ out_x_mm: 495, out_y_mm: -104, in_x_mm: 435, in_y_mm: -104 },
      },
    });
  });

  it('stands nowhere where its place has room for the driver only', () => {
    // 20 + 195 + 20 mm along; 20 + 52 + 20 over, and 8 mm left.
    const { installation } = answered((job) => {
      Object.assign(job.drivers.places[0]!, { width_mm: 240, height_mm: 100 });
    });
    expect(installation.blocks[0]!.standing).toBeNull();
  });

  it('has the fuse of its way, with what it carries and loses', () => {
    const wall = answered();
    const [way] = wall.installation.blocks[0]!.ways;
    // Two runs of 2.4 W, 0.1 A each: 1 A. Four at least together in 40 degC: 16*0.65*sqrt(30/40) = 9.007 A.
    expect(way).toMatchObject({ number: 1, cables: ['C01', 'C02'] });
    const { current_A, loss_W, design_A, least_A, ...fuse } = way!.fuse!;
    expect(fuse).toEqual({
      ...{ id: 'F1.1-1', family: 'cartridge', rating_A: 1, rated_V: 250, breaking_A: 35 },
      ...{ name: 'cartridge fuse 5 × 20 mm, time-lag', standard: 'IEC 60127-2' },
      // Four times its rating within 5 s.
      opens_A: 4,
      ...{ remark: expect.stringContaining('equipment'), resistance_mohm: expect.closeTo(180, 9) },
    });
    expect(design_A).toBeCloseTo(0.2, 3);
    expect(least_A).toBeCloseTo(9.00666, 4);
    expect(current_A).toBeCloseTo(currentOf(wall, 'L1.1'), 9);
    expect(current_A).toBeCloseTo(0.2, 2);
    // 180 mV at 1 A.
    expect(loss_W).toBeCloseTo(current_A ** 2 * 0.18, 12);
  });

  it('carries by each fuse what is behind it', () => {
    const wall = answered(() => {}, [600, 700, 800, 900, 1000]);
    const [first, second] = wall.installation.blocks[0]!.ways;
    expect([first!.cables.length, second!.cables]).toEqual([4, ['C05']]);
    expect(second!.fuse!.current_A).toBeCloseTo(currentOf(wall, 'C05'), 9);
    const rest_A = currentOf(wall, 'L1.1') - currentOf(wall, 'C05');
    expect(first!.fuse!.current_A).toBeCloseTo(rest_A, 9);
  });

  it('carries the whole load of a ring, whichever way round it goes, and of crossed feeds by their pluses', () => {
    for (const change of [
      layout('ring'),
      layout('trunk'),
      layout('run to run'),
      (job: Job) => {
        job.feeds.arrangement = 'crossed';
      },
    ]) {
      const wall = answered(change);
      const fuses = wall.installation.blocks.flatMap(({ ways }) => ways.flatMap(({ fuse }) => fuse ?? []));
      const sum_A = fuses.reduce((sum, { current_A }) => sum + current_A, 0);
      expect(sum_A).toBeCloseTo(currentOf(wall, 'L1.1'), 9);
      expect(sum_A).toBeGreaterThan(0.19);
    }
  });

  it('has no fuses where the driver cannot give more than a cable may carry', () => {
    const { installation } = answered((job) => Object.assign(job.drivers.data, { current_A: 3.13 }));
    expect(installation.blocks[0]!.ways).toEqual([{ number: 1, fuse: null, cables: ['C01', 'C02'] }]);
  });
});

describe('taps in the answer', () => {
  it('are on the way below the slots', () => {
    // The hole is left of both slots: one trunk.
    const { installation } = answered((job) => {
      layout('trunk')(job);
      job.drivers.places[0]!.x_mm = 0;
    });
    expect(installation.taps).toEqual([
      { id: 'D1.1-T1', cable: 'T1.1', x_mm: 600, y_mm: 40 },
      { id: 'D1.1-T2', cable: 'T1.1', x_mm: 800, y_mm: 40 },
    ]);
    expect(answered().installation.taps).toEqual([]);
  });
});

describe('the cases of a place', () => {
  it('are those of its drivers, and all that has no room', () => {
    const { layouts } = answered().wired.installation;
    const { cases, without, fitNote } = casesOf({ ...layouts[0]!, without: ['B9.1'] }, new Set(['D1']));
    expect(cases).toMatchObject([{ driver: 'D1', x_mm: 220, y_mm: -120, out_x_mm: 415, out_y_mm: -94 }]);
    expect(Object.keys(cases[0]!)).not.toContain('in');
    expect(without).toEqual(['B9.1']);
    expect(fitNote).toBe(layouts[0]!.note);
  });
});

describe('what a job says of its wiring', () => {
  const outputs = [
    { id: 'D1.1', driver: 'D1', model: 0, place: 0, runs: ['S01', 'S02'], layout: 'radial', way: 'foot' },
  ] as const;

  const told = (change: (job: Job) => void = () => {}, law = plainLaw()) =>
    installationOfJob(preparedOf(wallOf([600, 800], change), law), outputs, {
      watts: [2.4, 1.2],
      air_degC: [33],
    });

  it('is the current of each run at the volts set, and the air of each place', () => {
    expect(told()).toMatchObject({ outputs, place_degC: [33] });
    expect(told().run_A).toEqual([expect.closeTo(0.1, 12), expect.closeTo(0.05, 12)]);
    const lower = told((job) => {
      job.drivers.set_V = 20;
    });
    expect(lower.run_A[0]).toBeCloseTo(0.12, 12);
  });

  it('is the room, and the air beside the strip as much warmer as the law has it', () => {
    const law = plainLaw();
    const warm = {
      ...law,
      rises: { ...law.rises, cable: 6 },
      responses: { ...law.responses, cable: law.responses.strip },
    };
    const room = (job: Job): void => {
      job.site.room_degC = 28;
    };
    // The law was made for 25 degC and the 2.4 W/m of the strip.
    expect(told(room, warm)).toMatchObject({ room_degC: 28, slot_degC: expect.closeTo(31, 9) });
    expect(told(room)).toMatchObject({ room_degC: 28, slot_degC: 25 });
  });

  it('is the contacts, and the channel of a dimmer where it is one that dims', () => {
    const terminals = (job: Job): void => {
      job.feeds.terminal_mohm = 7;
    };
    expect(told(terminals)).toMatchObject({
      ...{ dimmer: null, resistances: { connector_ohm: 0.007, dimmer_ohm: 0 } },
    });
    const dimmed = told((job) => {
      Object.assign(job.dimming, { control: 'dimmer', dimmer: { entry: dimmerCatalogue[0]!.id, data: {} } });
    });
    // 20 mohm of the catalogue.
    expect(dimmed.dimmer).not.toBeNull();
    expect(dimmed.resistances.dimmer_ohm).toBeCloseTo(0.02, 12);
  });

  it('makes links of the job’s own cable and of thicker ones by the same measure', () => {
    const sizes = (entry: string) =>
      told((job) => {
        job.cables.entry = entry;
      }).linkSizes.map(({ area_mm2 }) => area_mm2);
    expect(sizes('1.5mm2')).toEqual([1.5, 2.5, 4]);
    expect(sizes('4mm2')).toEqual([4]);
    expect(sizes('awg-16')).toEqual([1.3087, 2.0809, 3.3088]);
  });
});
