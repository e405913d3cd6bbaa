import { describe, expect, it } from 'vitest';
import { exchangeTable, exchangeThroughSlot } from '../../src/light/facet-exchange.ts';
import type { LitSection } from '../../src/light/section.ts';
import { sectionFacets } from '../../src/light/section-facets.ts';
import { facetLength } from '../../src/numeric/view-factors.ts';
import { opal, plainSection, thickFront } from './sections.ts';

const sections: Record<string, LitSection> = {
  open: plainSection,
  'open through a thick front': { ...plainSection, slotOffset_m: 0.01, reveal: thickFront },
  'closed by a sheet': { ...plainSection, sheet: opal, reveal: thickFront },
  'slot as wide as the cavity': { ...plainSection, slotWidth_m: 0.06, reveal: thickFront },
  endless: { ...plainSection, endless: true, slotOffset_m: -0.012, reveal: thickFront },
  'endless and closed': { ...plainSection, endless: true, width_m: 0.2, sheet: opal },
  'endless and very shallow': { ...plainSection, endless: true, width_m: 0.2, depth_m: 0.004 },
};

describe('exchange between facets', () => {
  it.each(Object.entries(sections))('adds up to every length and is mutual: %s', (_, section) => {
    const { facets } = sectionFacets(section, 1);
    const { count, shared_m } = exchangeTable(section, facets);
    for (let i = 0; i < count; i++) {
      let sum = 0;
      for (let j = 0; j < count; j++) {
        expect(shared_m[i * count + j]).toBe(shared_m[j * count + i]);
        if (!facets[j]!.probe) sum += shared_m[i * count + j]!;
      }
      expect(Math.abs(sum / facetLength(facets[i]!) - 1)).toBeLessThan(facets[i]!.probe ? 1e-9 : 1e-12);
    }
  });

  it('counts straight rays through the slot, edges hiding part of them', () => {
    const slot = { left_m: 0.02, right_m: 0.05, y_m: 0.04 };
    const pairs = [
      [
        { x0: 0.01, y0: 0, x1: 0.035, y1: 0 },
        { x0: 0.05, y0: 0.042, x1: 0.05, y1: 0.058 },
      ],
      [
        { x0: 0.0, y0: 0.035, x1: 0, y1: 0.01 },
        { x0: 0.05, y0: 0.04, x1: 0.05, y1: 0.05 },
      ],
      [
        { x0: 0.04, y0: 0, x1: 0.06, y1: 0 },
        { x0: 0.05, y0: 0.058, x1: 0.02, y1: 0.058 },
      ],
    ] as const;
    for (const [below, above] of pairs) {
      expect(exchangeThroughSlot(below, above, slot)).toBeCloseTo(byKernel(below, above, slot), 6);
    }
  });

  it('sees no jamb from the front beside the slot', () => {
    const slot = { left_m: 0.02, right_m: 0.05, y_m: 0.04 };
    const front = { x0: 0.02, y0: 0.04, x1: 0.005, y1: 0.04 };
    const jamb = { x0: 0.05, y0: 0.04, x1: 0.05, y1: 0.058 };
    expect(exchangeThroughSlot(front, jamb, slot)).toBeLessThan(1e-15);
  });
});

type Ends = { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number };

/** `integral of cos*cos'/(2R)` over both facets by midpoints, hidden pairs left out. */
function byKernel(
  a: Ends,
  b: Ends,
  slot: { readonly left_m: number; readonly right_m: number; readonly y_m: number },
) {
  const steps = 700;
  const along = (f: Ends, i: number): [number, number] => {
    const t = (i + 0.5) / steps;
    return [f.x0 + t * (f.x1 - f.x0), f.y0 + t * (f.y1 - f.y0)];
  };
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const [ax, ay] = along(a, i);
    for (let j = 0; j < steps; j++) {
      const [bx, by] = along(b, j);
      const crossing = ax + ((slot.y_m - ay) / (by - ay)) * (bx - ax);
      if (crossing < slot.left_m || crossing > slot.right_m) continue;
      const [dx, dy] = [bx - ax, by - ay];
      const facing =
        Math.abs((a.x1 - a.x0) * dy - (a.y1 - a.y0) * dx) * Math.abs((b.x1 - b.x0) * dy - (b.y1 - b.y0) * dx);
      sum += facing / (2 * Math.hypot(dx, dy) ** 3);
    }
  }
  return sum / (steps * steps);
}
