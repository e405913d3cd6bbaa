import { describe, expect, it } from 'vitest';
import { bouncedLight_lx, directLight_lx, type LitOpening } from '../../src/light/room-light.ts';
import type { PlaneElement, Vector3 } from '../../src/numeric/element-factor.ts';

/** An upright slot at x, from y0 to y1, w wide. */
function slot(x: number, [y0, y1]: readonly [number, number], w: number, flux_lm: number): LitOpening {
  const corners: Vector3[] = [
    [x - w / 2, y0, 0],
    [x + w / 2, y0, 0],
    [x + w / 2, y1, 0],
    [x - w / 2, y1, 0],
  ];
  return { corners, area_m2: w * (y1 - y0), flux_lm };
}

const floor = (x: number, z: number, y = 0): PlaneElement => ({ at: [x, y, z], normal: [0, 1, 0] });
const facing = (x: number, y: number, z: number): PlaneElement => ({ at: [x, y, z], normal: [0, 0, -1] });

describe('light from slots', () => {
  it('is pi*L/2*|sin p2 - sin p1| of an endless level slot', () => {
    // A level slot 50 mm wide, 1.2 m up, a kilometre to each side; 40 lm/m, so that pi*L = 40/0.05 = 800 lm/m2.
    // On the floor 2 m before it the edges stand at angles from the floor's normal (up) of
    // atan(2/1.175) and atan(2/1.225): 800/2*(0.862211 - 0.852755) = 3.78 lx.
    const long: LitOpening = {
      corners: [
        [-1000, 1.175, 0],
        [1000, 1.175, 0],
        [1000, 1.225, 0],
        [-1000, 1.225, 0],
      ],
      area_m2: 2000 * 0.05,
      flux_lm: 2000 * 40,
    };
    const expected = 400 * Math.abs(Math.sin(Math.atan(2 / 1.175)) - Math.sin(Math.atan(2 / 1.225)));
    expect(directLight_lx(floor(0, 2), [long])).toBeCloseTo(expected, 5);
    expect(expected).toBeCloseTo(3.78, 2);
  });

  it('falls with the square of the distance far away: I = Phi/pi straight ahead', () => {
    // 314.159 lm from a slot of 20 by 200 mm: 100 cd straight ahead, 1 lx at 10 m, 0.25 lx at 20 m.
    const small = slot(0, [0.9, 1.1], 0.02, 100 * Math.PI);
    expect(directLight_lx(facing(0, 1, 10), [small])).toBeCloseTo(1, 3);
    expect(directLight_lx(facing(0, 1, 20), [small])).toBeCloseTo(0.25, 4);
  });

  it('is that of a line without width beyond five widths of a slot, within 1 %', () => {
    const line = (x: number, z: number): number => {
      // cos*cos'/r^2 on the floor for an upright line from 0.1 to 2.1 m: y*z/(pi*r^4) per lumen per metre.
      const n = 20000;
      let sum = 0;
      for (let i = 0; i < n; i++) {
        const y = 0.1 + (2 * (i + 0.5)) / n;
        sum += (y * z) / (Math.PI * (x * x + y * y + z * z) ** 2) / n;
      }
      return 400 * sum;
    };
    const upright = slot(0, [0.1, 2.1], 0.04, 400);
    for (const [x, z] of [
      [0, 0.2],
      [0.3, 0.2],
      [1, 3],
    ] as const) {
      const relative = directLight_lx(floor(x, z), [upright]) / line(x, z);
      expect(Math.abs(relative - 1)).toBeLessThan(0.01);
    }
  });

  it('meets the other five faces of a room with all the lumens that were sent', () => {
    // A room 4 x 3 x 2.5 m; the wall at z = 0 sends 300 lm from two slots. Midpoint sums over the other faces.
    const wall = [slot(1.2, [0.3, 2.2], 0.03, 180), slot(2.9, [0.5, 1.9], 0.02, 120)];
    const [w, d, h] = [4, 3, 2.5];
    const n = 60;
    const over = (a: number, b: number, element: (u: number, v: number) => PlaneElement): number => {
      let sum = 0;
      for (let i = 0; i < n; i++)
        for (let j = 0; j < n; j++)
          sum += directLight_lx(element(((i + 0.5) * a) / n, ((j + 0.5) * b) / n), wall);
      return (sum * a * b) / n ** 2;
    };
    const met_lm =
      over(w, d, (x, z) => floor(x, z)) +
      over(w, d, (x, z) => ({ at: [x, h, z], normal: [0, -1, 0] })) +
      over(w, h, (x, y) => facing(x, y, d)) +
      over(h, d, (y, z) => ({ at: [0, y, z], normal: [1, 0, 0] })) +
      over(h, d, (y, z) => ({ at: [w, y, z], normal: [-1, 0, 0] }));
    expect(met_lm / 300).toBeCloseTo(1, 2);
  });

  it('is the same in a mirror', () => {
    const wall = [slot(0.5, [0.2, 2], 0.02, 100), slot(0.8, [0.4, 1], 0.03, 50)];
    const mirror = [slot(-0.5, [0.2, 2], 0.02, 100), slot(-0.8, [0.4, 1], 0.03, 50)];
    expect(directLight_lx(floor(0.3, 1.1, 0.7), wall)).toBeCloseTo(
      directLight_lx(floor(-0.3, 1.1, 0.7), mirror),
      12,
    );
  });
});

describe('bounced light', () => {
  it('is the sum of all bounces when each is spread over the whole room', () => {
    // 500 lm into 62 m2 of reflectance 0.6: 500/62*(0.6 + 0.36 + 0.216 + ...) = 8.0645*1.5 = 12.10 lx.
    let sum = 0;
    for (let k = 1; k < 200; k++) sum += (500 / 62) * 0.6 ** k;
    expect(bouncedLight_lx(500, { area_m2: 62, reflectance: 0.6 })).toBeCloseTo(sum, 9);
    expect(sum).toBeCloseTo(12.1, 2);
  });

  it('refuses a room that keeps all light', () => {
    expect(() => bouncedLight_lx(1, { area_m2: 10, reflectance: 1 })).toThrow(RangeError);
    expect(() => bouncedLight_lx(1, { area_m2: 0, reflectance: 0.5 })).toThrow(RangeError);
  });
});
