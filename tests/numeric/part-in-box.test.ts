import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partInBox } from '../../src/numeric/part-in-box.ts';

const box = { left: 10, right: 30, bottom: 0, top: 40 };

describe('the part of a line in a box', () => {
  it.each([
    // Level at 20: from 0 to 40 it is in from 10 to 30.
    [{ x0: 0, y0: 20, x1: 40, y1: 20 }, [0.25, 0.75]],
    // The same from the other end.
    [{ x0: 40, y0: 20, x1: 0, y1: 20 }, [0.25, 0.75]],
    // Upright at 20, from above down to 20: in from 40 on, which is half way.
    [{ x0: 20, y0: 60, x1: 20, y1: 20 }, [0.5, 1]],
    // At 45 degrees from (0, 10): across from 10 to 30 of 50, up to 40 at 30.
    [{ x0: 0, y0: 10, x1: 50, y1: 60 }, [0.2, 0.6]],
    // Wholly inside.
    [{ x0: 12, y0: 1, x1: 20, y1: 30 }, [0, 1]],
    // Along an edge, past it, and past a corner.
    [{ x0: 10, y0: 0, x1: 10, y1: 40 }, null],
    [{ x0: 0, y0: 50, x1: 40, y1: 50 }, null],
    [{ x0: 0, y0: 20, x1: 20, y1: 80 }, null],
  ])('%j is %j', (line, part) => {
    const found = partInBox(line, box);
    expect(found === null ? null : found.map((t) => Number(t.toFixed(9)))).toEqual(part);
  });

  it('is where points of the line lie in it', () => {
    const at = fc.integer({ min: -60, max: 100 });
    fc.assert(
      fc.property(
        fc.record({ x0: at, y0: at, x1: at, y1: at }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (line, t) => {
          const x = line.x0 + (line.x1 - line.x0) * t;
          const y = line.y0 + (line.y1 - line.y0) * t;
          const part = partInBox(line, box);
          const isIn =
            x > box.left + 1e-9 && x < box.right - 1e-9 && y > box.bottom + 1e-9 && y < box.top - 1e-9;
          const isPoint = line.x0 === line.x1 && line.y0 === line.y1;
          if (isIn && !isPoint)
            expect(part !== null && t >= part[0] - 1e-9 && t <= part[1] + 1e-9).toBe(true);
          const isOut = x < box.left || x > box.right || y < box.bottom || y > box.top;
          if (isOut && part) expect(t <= part[0] + 1e-9 || t >= part[1] - 1e-9).toBe(true);
        },
      ),
      { seed: 31 },
    );
  });
});
