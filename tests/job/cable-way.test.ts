import { expect, it } from 'vitest';
import { wayParts_mm } from '../../src/job/cable-way.ts';
import type { Opening } from '../../src/job/opening.ts';

const panel = { width_mm: 4000, height_mm: 2700 };

const opening = (x_mm: number, y_mm: number, width_mm: number, height_mm: number): Opening => ({
  ...{ name: '', kind: 'opening', cablesPass: false, x_mm, y_mm, width_mm, height_mm, rim_mm: 60 },
});

it('a cable way is broken by the doors it meets, and by nothing else', () => {
  const door = opening(1550, 0, 900, 2050);
  const window = opening(3000, 1000, 600, 800);
  const parts = (y_mm: number, ...openings: Opening[]) => wayParts_mm(y_mm, { panel, openings });
  expect(parts(40)).toEqual([[0, 4000]]);
  // The door reaches from 1550 to 2450 and up to 2050; the window from 3000 to 3600, between 1000 and 1800.
  expect(parts(40, door, window)).toEqual([
    [0, 1550],
    [2450, 4000],
  ]);
  expect(parts(1500, window, door)).toEqual([
    [0, 1550],
    [2450, 3000],
    [3600, 4000],
  ]);
  expect(parts(2660, door, window)).toEqual([[0, 4000]]);
  expect(parts(2050, door)).toEqual([[0, 4000]]);
});

it('a door over the edge of the panel leaves one part, openings that overlap leave none between them', () => {
  const parts = (...openings: Opening[]) => wayParts_mm(40, { panel, openings });
  expect(parts(opening(-200, 0, 900, 2050))).toEqual([[700, 4000]]);
  expect(parts(opening(1000, 0, 900, 2050), opening(1500, 0, 900, 2050))).toEqual([
    [0, 1000],
    [2400, 4000],
  ]);
  expect(parts(opening(-100, 0, 5000, 2050))).toEqual([]);
});
