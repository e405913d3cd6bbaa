import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import { cableAnswers } from '../../../src/sizing/cable-answer.ts';
import { settle } from '../../../src/sizing/settle.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

/**
 * Slots at 600 mm, 1,000 mm long, and at 800 mm, 500 mm long, fed from (200, -140) by a way at 40 mm; 60 ohm/km at
 * 40 degC, 60*(1 + 0.00393*20) = 64.716 mohm a metre; no tails, nothing allowed for.
 */
function solved(change: (job: Job) => void = () => {}) {
  const job = wallOf([600, 800], (own) => {
    if (own.slots.from === 'segments') Object.assign(own.slots.segments[1]!, { y1_mm: 600 });
    own.cables.data.conductor_ohm_per_km = 60;
    Object.assign(own.cables, { tail_mm: 0, allowance: 0 });
    change(own);
  });
  const settled = granted(settle(preparedOf(job)));
  return { settled, cables: granted(cableAnswers(settled.solution, settled.wired)) };
}

const warm_ohm_per_m = 0.064716;

describe('a cable with both conductors', () => {
  const { settled, cables } = solved();

  it('loses its current times both conductors and their contacts, and the square of it in watts', () => {
    // 0.64 and 0.84 m. Of 1 m and 0.5 m of strip of 2.4 W/m at a little under 24 V: some 0.1 and 0.05 A.
    for (const [i, length_m] of [0.64, 0.84].entries()) {
      const loop_ohm = 2 * (length_m * warm_ohm_per_m + 0.005);
      const cable = cables[i]!;
      expect(cable.drop_V).toBeCloseTo(cable.current_A * loop_ohm, 12);
      expect(cable.loss_W).toBeCloseTo(cable.current_A ** 2 * loop_ohm, 12);
      expect(cable.current_A).toBeCloseTo([0.1, 0.05][i]!, 3);
      expect(cable.loop_ohm).toBeCloseTo(2 * length_m * 0.06, 12);
    }
    expect(cables.reduce((sum, cable) => sum + cable.loss_W, 0)).toBeCloseTo(settled.solution.cable_W, 12);
  });

  it('is named and drawn as laid', () => {
    expect(cables[1]).toMatchObject({
      ...{
        id: 'C02',
        name: '2 × 1.5 mm² fine-wire',
        conductors: 'both',
        conductorCount: 2,
        serves: ['S02-F1'],
      },
      ...{ way_mm: 840, length_mm: 840 },
      route: [
        { x_mm: 200, y_mm: -140 },
        { x_mm: 200, y_mm: 40 },
        { x_mm: 800, y_mm: 40 },
        { x_mm: 800, y_mm: 100 },
      ],
    });
  });

  it('is protected for its own current: 0.1 A by a fuse of 1 A of 16*0.65*sqrt(30/40) A', () => {
    expect(cables[0]).toMatchObject({ fuse_A: 1, protectedBy: 'fuse', fuseOpens: true });
    expect(cables[0]!.capacity_A).toBeCloseTo(9.00666, 4);
  });

  it('is refused where it may carry nothing', () => {
    const { wired, solution } = settled;
    const hot = { ...wired, job: { ...wired.job, cables: { ...wired.job.cables, cable_degC: 70 } } };
    expect(cableAnswers(solution, hot)).toMatchObject({ ok: false, issues: [{ code: 'no-capacity-known' }] });
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
    const [cable] = solved(channels).cables;
    expect(cable).toMatchObject({ conductorCount: 3, name: '3 × 1.5 mm² fine-wire' });
    // Of the current out 12/14 come back by the first return, but for what the drop takes.
    const each_ohm = 0.64 * warm_ohm_per_m + 0.005;
    const { current_A, drop_V, loss_W } = cable!;
    expect(current_A).toBeCloseTo(14 / 24, 1);
    expect(drop_V / (current_A * each_ohm)).toBeCloseTo(1 + 12 / 14, 2);
    expect(loss_W / (current_A ** 2 * each_ohm)).toBeCloseTo(1 + (12 / 14) ** 2 + (2 / 14) ** 2, 2);
  });

  it('count by themselves where the feed is crossed: the plus one, the returns two', () => {
    const { settled, cables } = solved((job) => {
      channels(job);
      job.feeds.arrangement = 'crossed';
    });
    const [plus, home] = cables;
    expect(plus).toMatchObject({ conductorCount: 1, conductors: 'positive', name: '1 × 1.5 mm² fine-wire' });
    expect(home).toMatchObject({ conductorCount: 2, conductors: 'return', name: '2 × 1.5 mm² fine-wire' });
    // The return lands at the finish, 1 m further.
    const plus_ohm = 0.64 * warm_ohm_per_m + 0.005;
    const home_ohm = 1.64 * warm_ohm_per_m + 0.005;
    expect(plus!.drop_V).toBeCloseTo(plus!.current_A * plus_ohm, 12);
    expect(plus!.loss_W).toBeCloseTo(plus!.current_A ** 2 * plus_ohm, 12);
    expect(home!.current_A).toBeCloseTo(plus!.current_A, 9);
    expect(home!.drop_V / (home!.current_A * home_ohm)).toBeCloseTo(12 / 14, 2);
    const squares = (12 / 14) ** 2 + (2 / 14) ** 2;
    expect(home!.loss_W / (home!.current_A ** 2 * home_ohm)).toBeCloseTo(squares, 2);
    expect(plus!.loop_ohm).toBeCloseTo(0.64 * 0.06, 12);
    expect(home!.loop_ohm).toBeCloseTo(1.64 * 0.06, 12);
    expect(cables.reduce((sum, cable) => sum + cable.loss_W, 0)).toBeCloseTo(settled.solution.cable_W, 12);
  });
});

describe('a short at the far end', () => {
  /** Cable of 4,000 ohm/km at 20 degC, so that copper and not the driver decides; rails of 82.1 mohm a metre each. */
  const shorts_ohm = (layout: Job['cables']['layout']) =>
    solved((job) => {
      job.cables.data.conductor_ohm_per_km = 4000;
      Object.assign(job.cables, { layout, cable_degC: 20 });
      Object.assign(job.drivers.data, { rated_W: 2000, current_A: 83 });
    }).cables.map(({ farShort_A }) => 24 / farShort_A);

  const rails_ohm = (strip_m: number) => strip_m * 2 * 0.0821;
  const copper_ohm = (length_m: number) => 2 * length_m * 4;
  const contact_ohm = 2 * 0.005;

  it('meets the cable, the contacts and the rails of its run, out and home', () => {
    const [first, second] = shorts_ohm('radial');
    expect(first).toBeCloseTo(copper_ohm(0.64) + rails_ohm(1) + contact_ohm, 9);
    expect(second).toBeCloseTo(copper_ohm(0.84) + rails_ohm(0.5) + contact_ohm, 9);
  });

  it('is 24 V over warm copper: 0.00393 more for each kelvin over 20 degC', () => {
    const { cables } = solved((job) => {
      job.cables.data.conductor_ohm_per_km = 4000;
      job.drivers.set_V = 23.5;
    });
    const at20_ohm = copper_ohm(0.64) + rails_ohm(1);
    expect(23.5 / cables[0]!.farShort_A).toBeCloseTo(at20_ohm * 1.0786 + contact_ohm, 9);
  });

  it('meets every span on its way and every one to the furthest run it feeds', () => {
    // Spans 0.18 + 0.4 m and 0.2 m, branches of 0.06 m.
    const [before, after, near, far] = shorts_ohm('trunk');
    const toNear = copper_ohm(0.58 + 0.06) + rails_ohm(1) + contact_ohm;
    const toFar = copper_ohm(0.58 + 0.2 + 0.06) + rails_ohm(0.5) + contact_ohm;
    expect(near).toBeCloseTo(toNear, 9);
    expect(far).toBeCloseTo(toFar, 9);
    expect(after).toBeCloseTo(toFar, 9);
    expect(before).toBeCloseTo(Math.max(toNear, toFar), 9);
  });

  it('meets the rails of the runs it is led through', () => {
    // From the finish at (600, 1100) to the start at (800, 100).
    const across_m = Math.hypot(0.2, 1);
    const [first, second] = shorts_ohm('run to run');
    const toFar = copper_ohm(0.64 + across_m) + rails_ohm(1) + rails_ohm(0.5) + 3 * contact_ohm;
    expect(second).toBeCloseTo(toFar, 9);
    expect(first).toBeCloseTo(toFar, 9);
  });
});
