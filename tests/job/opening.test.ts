import { expect, it } from 'vitest';
import { newKeepOut, newOpening, stopsCables } from '../../src/job/opening.ts';

it('a door to begin with stands in the middle of the panel and never beyond its top', () => {
  // 900 mm of 4000 leaves 1550 each side; a third of 1620 is 540, which leaves 540 each side.
  expect(newOpening('Door', { width_mm: 4000, height_mm: 2700 })).toMatchObject({
    ...{ x_mm: 1550, y_mm: 0, width_mm: 900, height_mm: 2050 },
  });
  expect(newOpening('Door', { width_mm: 1620, height_mm: 1150 })).toMatchObject({
    ...{ x_mm: 540, y_mm: 0, width_mm: 540, height_mm: 1150 },
  });
});

it('a keep-out to begin with is the box of a socket that cables pass', () => {
  const box = newKeepOut('Socket', { width_mm: 2400 });
  // 1,160 to 1,240 across.
  expect(box).toMatchObject({ kind: 'keep-out', cablesPass: true, x_mm: 1160, width_mm: 80 });
  expect(stopsCables(box)).toBe(false);
  expect(stopsCables({ ...box, cablesPass: false })).toBe(true);
  expect(stopsCables({ ...box, kind: 'opening' })).toBe(true);
});
