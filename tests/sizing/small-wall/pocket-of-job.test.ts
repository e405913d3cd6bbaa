import { describe, expect, it } from 'vitest';
import type { DriverPlace } from '../../../src/job/job.ts';
import { placeAir_degC, ventIssues } from '../../../src/sizing/pocket-of-job.ts';

const place = (change: Partial<DriverPlace>): DriverPlace => ({
  ...{ name: 'Plinth', x_mm: 0, y_mm: 0, width_mm: 900, height_mm: 120, depth_mm: 90 },
  ...{ kind: 'box', cable_mm: null, reachable: true, terminalsFace: 'right' },
  ...{ vented: false, ventOpening_mm2: 4000 },
  ...change,
});

describe('air of a closed driver place', () => {
  // Board: 0.018 m over 0.14 W/(m K) and a film of 0.13 on either side, so U = 1/0.388571 = 2.573529 W/(m2 K).
  // Front 0.9*0.12 = 0.108, two sides 2*0.09*0.12 = 0.0216, top and bottom 2*0.9*0.09 = 0.162: 0.2916 m2, the
  // back none. U*A = 0.750441 W/K.
  it.each([
    [0, 26],
    [7.50441, 36],
    [15.00882, 46],
  ])('%s W make it %s degC in a room of 26', (loss_W, air_degC) => {
    expect(placeAir_degC(place({}), loss_W, 26)).toBeCloseTo(air_degC, 4);
  });

  it('is closed with vents that have no opening', () => {
    expect(placeAir_degC(place({ vented: true, ventOpening_mm2: 0 }), 7.50441, 26)).toBeCloseTo(36, 4);
  });

  it('stops where no driver stands any more', () => {
    // 470 K, the hottest that is worked out.
    expect(placeAir_degC(place({}), 1e4, 26)).toBeCloseTo(196.85, 9);
  });
});

describe('air of a vented driver place', () => {
  it('lets out by its faces and by stack flow: 12.394 W for 10 K', () => {
    // Stack flow 0.6*A/sqrt(2)*sqrt(2*g*h*dT/Ti) (ASHRAE, secondary), A 4000 mm2, h 0.8*120 mm = 0.096 m, Ti 309.15 K:
    // sqrt(2*9.80665*0.096*10/309.15) = 0.246789 m/s; 0.0024*0.707107*0.246789 = 4.18815e-4 m3/s. Air of 304.15 K:
    // 101325/(287.05*304.15) = 1.160570 kg/m3, times 1006 J/(kg K): 0.48898 W/K. With 0.750441 of the faces 12.3942 W.
    expect(placeAir_degC(place({ vented: true }), 12.3942, 26)).toBeCloseTo(36, 3);
  });
});

describe('vents of a driver place', () => {
  it.each([
    // Half the front, all of the bottom, half a side.
    ['bottom', { width_mm: 900, height_mm: 120, depth_mm: 90 }, 81_000],
    ['front', { width_mm: 300, height_mm: 400, depth_mm: 50 }, 60_000],
    ['side', { width_mm: 20, height_mm: 400, depth_mm: 200 }, 40_000],
  ])('may be as large as its largest face allows: the %s', (_, size, largest_mm2) => {
    const vented = { ...size, vented: true };
    expect(ventIssues([place({ ...vented, ventOpening_mm2: largest_mm2 })])).toEqual([]);
    const [issue] = ventIssues([place({ ...vented, ventOpening_mm2: largest_mm2 + 1 })]);
    expect(issue).toMatchObject({
      code: 'vent-larger-than-place',
      place: { field: 'drivers.places[1].ventOpening_mm2' },
      quantities: { ventOpening_mm2: largest_mm2 + 1, largest_mm2 },
    });
    expect(issue!.sentence).toContain(`room for ${largest_mm2} mm² at most`);
  });

  it('are named by the place of the list, and a closed place has none', () => {
    const places = [place({ ventOpening_mm2: 1e6 }), place({ vented: true, ventOpening_mm2: 1e6 })];
    expect(ventIssues(places).map((issue) => issue.place.field)).toEqual([
      'drivers.places[2].ventOpening_mm2',
    ]);
  });
});
