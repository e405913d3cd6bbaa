import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import { cableAnswers } from '../../../src/sizing/cable-answer.ts';
import { settle } from '../../../src/sizing/settle.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

/**
 * Slots at 600 mm, 1,000 mm long, and at 800 mm, 500 mm long; 60 ohm/km at 40 degC, 60*(1 + 0.00393*20) = 64.716 mohm a
 * metre; no tails, nothing allowed for. The place is 900 x 120 mm from (200, -140). The driver of 195 x 52 mm with 20 mm
 * round it stands at (220, -120), its terminals at (415, -94). A block of one way, 60 x 32 mm, stands 20 mm on at
 * (435, -120), fed at (435, -104), its ways at (495, -104). All leave by the hole at (650, -20), to the way at 40 mm.
 */
function solved(change: (job: Job) => void = () => {}) {
  const job = wallOf([600, 800], (own) => {
    if (own.slots.from === 'segments') Object.assign(own.slots.segments[1]!, { y1_mm: 600 });
    own.cables.data.conductor_ohm_per_km = 60;
    Object.assign(own.cables, { tail_mm: 0, allowance: 0 });
    change(own);
  });
  const settled = granted(settle(preparedOf(job)));
  const cables = cableAnswers(settled.solution, settled.wired);
  return { settled, cables, at: (id: string) => cables.find((cable) => cable.id === id)! };
}

const warm_ohm_per_m = 0.064716;

/** From the block 155 mm across and 84 up to the hole, 60 up to the way, 50 and 150 along, 60 up to the strip. */
const feeds_m = { C01: 0.409, C02: 0.509 } as const;

/** 20 mm across and 10 down, and two tails of 100 mm. */
const link_m = 0.23;

describe('a cable with both conductors', () => {
  it('loses its current times both conductors and their contacts, and the square of it in watts', () => {
    const { settled, cables, at } = solved();
    // Of 1 m and 0.5 m of strip of 2.4 W/m at a little under 24 V: some 0.1 and 0.05 A. One contact at the block, one at the pad.
    for (const [id, amps] of [
      ['C01', 0.1],
      ['C02', 0.05],
    ] as const) {
      const loop_ohm = 2 * (feeds_m[id] * warm_ohm_per_m + 2 * 0.005);
      const cable = at(id);
      expect(cable.drop_V).toBeCloseTo(cable.current_A * loop_ohm, 12);
      expect(cable.loss_W).toBeCloseTo(cable.current_A ** 2 * loop_ohm, 12);
      expect(cable.current_A).toBeCloseTo(amps, 3);
      expect(cable.loop_ohm).toBeCloseTo(2 * feeds_m[id] * 0.06, 12);
    }
    expect(cables.reduce((sum, cable) => sum + cable.loss_W, 0)).toBeCloseTo(settled.solution.cable_W, 12);
  });

  it('and so does the link before them, for both, with its contact at the block', () => {
    const { cables, at } = solved();
    const link = at('L1.1');
    expect(link.current_A).toBeCloseTo(at('C01').current_A + at('C02').current_A, 12);
    expect(link.drop_V).toBeCloseTo(link.current_A * 2 * (link_m * warm_ohm_per_m + 0.005), 12);
    expect(link.loop_ohm).toBeCloseTo(2 * link_m * 0.06, 12);
    expect(cables.map(({ id, kind }) => [id, kind])).toEqual([
      ['L1.1', 'link'],
      ['C01', 'feed'],
      ['C02', 'feed'],
    ]);
  });

  it('is named and drawn as laid', () => {
    const { at } = solved();
    expect(at('C02')).toMatchObject({
      ...{ name: '2 × 1.5 mm² fine-wire', output: 'D1.1', conductors: 'both', conductorCount: 2 },
      ...{ serves: ['S02-F1'], way_mm: 509, tails_mm: 0, length_mm: 509, area_mm2: 1.5 },
      from: { kind: 'block', id: 'B1.1', way: 1 },
      to: { kind: 'pad', run: 'S02', cutLine: 0, feedPoint: 'S02-F1' },
      route: [
        { x_mm: 495, y_mm: -104 },
        { x_mm: 650, y_mm: -104 },
        { x_mm: 650, y_mm: -20 },
        { x_mm: 650, y_mm: 40 },
        { x_mm: 800, y_mm: 40 },
        { x_mm: 800, y_mm: 100 },
      ],
    });
  });

  it('has a core for plus and one for minus, from way to pad, none spare', () => {
    const { at } = solved();
    const { cores, spareCoreCount, current_A } = at('C01');
    expect(spareCoreCount).toBe(0);
    expect(cores.map(({ mark, from, to }) => [mark, from, to])).toEqual([
      ['red', 'B1.1 way 1 plus', 'S01-F1 plus'],
      ['white', 'B1.1 way 1 minus', 'S01-F1 minus'],
    ]);
    for (const core of cores) expect(core.current_A).toBeCloseTo(current_A, 9);
  });

  it('needs no fuse where it may carry all the driver gives: 16*0.65*sqrt(30/40) of 1.5*3.13 A', () => {
    const { at } = solved();
    // Four together, as the job says at the least, in air of 40 degC.
    expect(at('C01')).toMatchObject({ fuse: null, fuse_A: null, protectedBy: 'driver', fuseOpens: false });
    expect(at('C01').capacity_A).toBeCloseTo(9.00666, 4);
    expect(at('C01').stretches[at('C01').worstStretch]).toMatchObject({ togetherCount: 4, air_degC: 40 });
  });

  it('has the fuse of its way where the driver could give more: 15 A', () => {
    // Both, 0.15 A, on one cartridge fuse of 1 A, which 10 A open and 3.9 A would not.
    const at10 = solved((job) => Object.assign(job.drivers.data, { rated_W: 240, current_A: 10 })).at;
    for (const id of ['C01', 'C02'])
      expect(at10(id)).toMatchObject({ fuse: 'F1.1-1', fuse_A: 1, protectedBy: 'fuse', fuseOpens: true });
    expect(at10('L1.1')).toMatchObject({ fuse: null, protectedBy: 'driver', area_mm2: 2.5 });
  });

  it('may carry nothing at the limit of its insulation, and nothing protects it', () => {
    const hot = solved((job) => {
      job.cables.cable_degC = 70;
    });
    expect(hot.at('C01')).toMatchObject({ capacity_A: 0, fuse: null, protectedBy: 'nothing' });
  });
});

describe('cables of a strip with two channels, 12 and 2 W/m', () => {
  const channels = (job: Job): void => {
    const strip = stripCatalogue.find(({ id }) => id === '24V-2x9.6W-two-white')!;
    const [one, two] = strip.channels;
    job.strip.entry = strip.id;
    job.strip.data.channels = [
      { ...one!, watts_per_m: 12 },
      { ...two!, watts_per_m: 2, lumens_per_m: 300 },
    ];
    job.dimming.levels = [1, 1];
  };

  it('have a conductor for each return beside the plus, and drop by the worse of the returns', () => {
    const cable = solved(channels).at('C01');
    expect(cable).toMatchObject({ conductorCount: 3, spareCoreCount: 0, name: '3 × 1.5 mm² fine-wire' });
    // 8.6 mm with two cores, three are 2.16/2 as thick.
    expect(cable.outer_mm).toBeCloseTo(9.288, 9);
    expect(cable.cores.map(({ mark, to }) => [mark, to])).toEqual([
      ['red', 'S01-F1 plus'],
      ['2', 'S01-F1 warm white'],
      ['3', 'S01-F1 cool white'],
    ]);
    // Of the current out 12/14 come back by the first return, but for what the drop takes.
    const each_ohm = feeds_m.C01 * warm_ohm_per_m + 2 * 0.005;
    const { current_A, drop_V, loss_W, cores } = cable;
    expect(current_A).toBeCloseTo(14 / 24, 1);
    expect(cores[1]!.current_A / current_A).toBeCloseTo(12 / 14, 2);
    expect(drop_V / (current_A * each_ohm)).toBeCloseTo(1 + 12 / 14, 2);
    expect(loss_W / (current_A ** 2 * each_ohm)).toBeCloseTo(1 + (12 / 14) ** 2 + (2 / 14) ** 2, 2);
  });

  it('count by themselves where the feed is crossed: the plus one, the returns two', () => {
    const { settled, cables, at } = solved((job) => {
      channels(job);
      job.feeds.arrangement = 'crossed';
    });
    const [plus, home] = [at('C01.1'), at('C01.2')];
    expect(plus).toMatchObject({ conductorCount: 1, conductors: 'positive', name: '1 × 1.5 mm² fine-wire' });
    expect(home).toMatchObject({ conductorCount: 2, conductors: 'return', name: '2 × 1.5 mm² fine-wire' });
    // The return lands at the finish, 1 m further.
    const plus_ohm = 0.409 * warm_ohm_per_m + 2 * 0.005;
    const home_ohm = 1.409 * warm_ohm_per_m + 2 * 0.005;
    expect(plus.drop_V).toBeCloseTo(plus.current_A * plus_ohm, 12);
    expect(plus.loss_W).toBeCloseTo(plus.current_A ** 2 * plus_ohm, 12);
    expect(home.current_A).toBeCloseTo(plus.current_A, 9);
    expect(home.drop_V / (home.current_A * home_ohm)).toBeCloseTo(12 / 14, 2);
    const squares = (12 / 14) ** 2 + (2 / 14) ** 2;
    expect(home.loss_W / (home.current_A ** 2 * home_ohm)).toBeCloseTo(squares, 2);
    expect(plus.loop_ohm).toBeCloseTo(0.409 * 0.06, 12);
    expect(home.loop_ohm).toBeCloseTo(1.409 * 0.06, 12);
    expect(cables.reduce((sum, cable) => sum + cable.loss_W, 0)).toBeCloseTo(settled.solution.cable_W, 12);
  });
});

describe('a short at the far end', () => {
  /**
   * Cable of 4,000 ohm/km at 20 degC, so that copper and not the driver decides, and a driver of 83 A: it may give 124.5 A,
   * so that there are fuses, 1 A for 0.15 A, and a link of 4 mm2, 4.95 ohm/km, the thickest there is. Rails of 82.1 mohm a
   * metre each. The place begins at x = 0: the hole is at 450, and both slots are to the right of it.
   */
  const shorts = (layout: Job['cables']['layout'], change: (job: Job) => void = () => {}) => {
    const { at } = solved((job) => {
      job.cables.data.conductor_ohm_per_km = 4000;
      Object.assign(job.cables, { layout, cable_degC: 20 });
      Object.assign(job.drivers.data, { rated_W: 2000, current_A: 83 });
      job.drivers.places[0]!.x_mm = 0;
      change(job);
    });
    return (id: string) => 24 / at(id).farShort_A;
  };

  const rails_ohm = (strip_m: number) => strip_m * 2 * 0.0821;
  const copper_ohm = (length_m: number) => 2 * length_m * 4;
  const contacts_ohm = (count: number) => count * 2 * 0.005;
  /** 180 mV at 1 A, in the plus alone. */
  const fuse_ohm = 0.18;
  /** Of 0.23 m, with its contact at the block. */
  const link_ohm = 2 * 0.23 * 0.00495 + contacts_ohm(1);

  it('meets the link, the fuse, the cable, the contacts and the rails of its run, out and home', () => {
    const at = shorts('radial');
    // From the block at (295, -104) 155 across to 450, 84 and 60 up, 150 and 350 along, 60 up.
    const near_ohm = link_ohm + fuse_ohm + copper_ohm(0.509) + contacts_ohm(2) + rails_ohm(1);
    const far_ohm = link_ohm + fuse_ohm + copper_ohm(0.709) + contacts_ohm(2) + rails_ohm(0.5);
    expect(at('C01')).toBeCloseTo(near_ohm, 9);
    expect(at('C02')).toBeCloseTo(far_ohm, 9);
    // A link answers for itself: 24 V over its 12 mohm (2 x 0.23 m x 4.95 mohm/m + 10 mohm of contacts) is far more than the
    // driver gives, which is what flows.
    expect(at('L1.1')).toBeGreaterThan(link_ohm);
    expect(at('L1.1')).toBeLessThan(near_ohm);
  });

  it('meets the joints of the run, in both rails', () => {
    // Reels of 500 mm: one joint of 2 mohm in the run of a metre, none in the other.
    const [joined, whole] = [shorts('radial', (job) => (job.strip.data.reel_mm = 500)), shorts('radial')];
    expect(joined('C01') - whole('C01')).toBeCloseTo(2 * 0.002, 9);
    expect(joined('C02')).toBeCloseTo(whole('C02'), 9);
  });

  it('is 24 V over warm copper: 0.00393 more for each kelvin over 20 degC', () => {
    // 3.13 A: no fuse, and a link as thin as the cable.
    const { at } = solved((job) => {
      job.cables.data.conductor_ohm_per_km = 4000;
      job.drivers.set_V = 23.5;
    });
    const at20_ohm = copper_ohm(link_m + feeds_m.C01) + rails_ohm(1);
    expect(23.5 / at('C01').farShort_A).toBeCloseTo(at20_ohm * 1.0786 + contacts_ohm(3), 9);
  });

  it('meets every part of a trunk on its way, the trunk itself the worse of what it feeds', () => {
    const at = shorts('trunk');
    // To the first tap 155 + 84 + 60 + 150, 200 to the next, branches of 60. A fuse of its own; contacts at the
    // block, at the tap a branch leaves, at the one the trunk ends at, and at the pad; it passes the first uncut.
    const start_ohm = link_ohm + fuse_ohm + copper_ohm(0.449) + contacts_ohm(1);
    const near_ohm = start_ohm + copper_ohm(0.06) + contacts_ohm(2) + rails_ohm(1);
    const far_ohm =
      start_ohm + copper_ohm(0.2) + contacts_ohm(1) + copper_ohm(0.06) + contacts_ohm(2) + rails_ohm(0.5);
    expect(at('C01')).toBeCloseTo(near_ohm, 9);
    expect(at('C02')).toBeCloseTo(far_ohm, 9);
    expect(at('T1.1')).toBeCloseTo(Math.max(near_ohm, far_ohm), 9);
  });

  it('meets the rails of the runs it is led through', () => {
    const at = shorts('run to run');
    // From the finish at (600, 1100) 200 across and 1,000 down to the start at (800, 100), with a contact at both pads.
    const near_ohm = link_ohm + fuse_ohm + copper_ohm(0.509) + contacts_ohm(2) + rails_ohm(1);
    const far_ohm = near_ohm + copper_ohm(1.2) + contacts_ohm(2) + rails_ohm(0.5);
    expect(at('C02')).toBeCloseTo(far_ohm, 9);
    expect(at('C01')).toBeCloseTo(far_ohm, 9);
  });
});

describe('the contacts of a cable', () => {
  const terminals = (job: Job): void => {
    job.feeds.terminal_mohm = 7;
  };

  it('lose the square of the current of each core in 7 mΩ at either end, but for the terminal of the driver', () => {
    const { at } = solved(terminals);
    const feed = at('C01');
    expect(feed.contacts_W).toBeCloseTo(2 * feed.current_A ** 2 * 0.014, 15);
    const link = at('L1.1');
    expect(link.contacts_W).toBeCloseTo(2 * link.current_A ** 2 * 0.007, 15);
  });

  it('are at both ends of a cable from run to run, and of one conductor each in a crossed feed', () => {
    const { at } = solved((job) => {
      terminals(job);
      job.cables.layout = 'run to run';
    });
    const on = at('C02');
    expect(on.contacts_W).toBeCloseTo(2 * on.current_A ** 2 * 0.014, 15);
    const crossed = solved((job) => {
      terminals(job);
      job.feeds.arrangement = 'crossed';
    }).at;
    for (const id of ['C01.1', 'C01.2']) {
      const { contacts_W, current_A, legs } = crossed(id);
      expect(contacts_W).toBeCloseTo(current_A ** 2 * 0.014, 15);
      expect(legs[0]!.cores_A).toEqual([expect.closeTo(current_A, 9)]);
    }
  });
});

describe('a trunk of two legs', () => {
  const trunk = () =>
    solved((job) => {
      job.cables.layout = 'trunk';
      // The hole is at 450, and both slots are to the right of it.
      job.drivers.places[0]!.x_mm = 0;
    });

  it('carries in the first what both runs draw, and drops and loses in both', () => {
    const { at } = trunk();
    const { legs, ...cable } = at('T1.1');
    const [first, second] = legs;
    // From the terminals of the driver at (215, -94) 235 across, 74 and 60 up, 150 along; then 200 to the second tap.
    expect(legs.map(({ way_mm, length_mm }) => [way_mm, length_mm])).toEqual([
      [519, 519],
      [200, 200],
    ]);
    expect(legs.map(({ serves }) => serves)).toEqual([['S01-F1', 'S02-F1'], ['S02-F1']]);
    // 0.1 and 0.05 A, but for what the cables take.
    expect(first!.current_A).toBeCloseTo(0.15, 3);
    expect(second!.current_A).toBeCloseTo(0.05, 3);
    expect(cable.current_A).toBe(first!.current_A);
    // It passes the first tap uncut, and has its one contact at the second, where it ends.
    expect(first!.drop_V).toBeCloseTo(first!.current_A * 2 * 0.519 * warm_ohm_per_m, 12);
    expect(second!.drop_V).toBeCloseTo(second!.current_A * 2 * (0.2 * warm_ohm_per_m + 0.005), 12);
    expect(cable.drop_V).toBeCloseTo(first!.drop_V + second!.drop_V, 12);
    expect(cable.loss_W).toBeCloseTo(first!.loss_W + second!.loss_W, 15);
    expect(cable.contacts_W).toBeCloseTo(2 * 0.005 * second!.current_A ** 2, 15);
  });
});

describe('the current a cable is held to', () => {
  it('is at least the one solved, and that of the watts of the sheet: 2.4 and 1.2 W at 24 V', () => {
    const { at } = solved();
    expect(at('C01').design_A).toBeCloseTo(0.1, 9);
    expect(at('C01').current_A).toBeLessThan(0.1);
    // Set to 25 V the lamps draw more than at the volts of the sheet.
    const high = solved((job) => (job.drivers.set_V = 25)).at('C01');
    expect(high.current_A).toBeGreaterThan(0.1);
    expect(high.design_A).toBeGreaterThanOrEqual(high.current_A);
  });
});

describe('the cores of a strip of four channels', () => {
  const four = (change: (job: Job) => void = () => {}) =>
    solved((job) => {
      job.strip.entry = '24V-4x4.8W-four-channel';
      job.dimming.levels = [1, 1, 1, 1];
      change(job);
    });

  it('come home to the one minus of a block without a dimmer, by a link of two', () => {
    const { at } = four();
    const minusOf = (id: string) => at(id).cores.filter(({ rail }) => rail === 'minus');
    expect(minusOf('C01').map(({ from }) => from)).toEqual(Array(4).fill('B1.1 way 1 minus'));
    expect(new Set(minusOf('C01').map(({ to }) => to)).size).toBe(4);
    expect(at('L1.1').cores.map(({ from }) => from)).toEqual(['D1.1 plus', 'D1.1 minus']);
  });

  it('come home each to its own behind a dimmer', () => {
    const { at } = four((job) => {
      job.dimming.control = 'dimmer';
      job.dimming.dimmer = { entry: '4x5A-dali', data: {} };
    });
    const minuses = at('C01').cores.slice(1);
    expect(new Set(minuses.map(({ from }) => from)).size).toBe(4);
    expect(minuses.every(({ from }) => from.startsWith('B1.1 way 1 '))).toBe(true);
  });

  it('lie in a cable of five, as it is bought', () => {
    const own = four();
    expect(own.at('C01')).toMatchObject({ conductorCount: 5, spareCoreCount: 0 });
    // 8.6 mm with two cores; five are 2.7/2 as thick.
    expect(own.at('C01').outer_mm).toBeCloseTo(11.61, 9);
  });
});

describe('the name of a cable', () => {
  const named = (name: string): string => solved((job) => (job.cables.data.name = name)).at('C01').name;

  it('says the count of cores where it begins with one', () => {
    expect(named('12 × 0.75 mm²')).toBe('2 × 0.75 mm²');
    expect(named('Twin 7 × 0.2 mm')).toBe('Twin 7 × 0.2 mm');
  });
});
