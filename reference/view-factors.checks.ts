import { directExchange, type Facet, facetLength, gapDirectExchange } from '../src/numeric/view-factors.ts';
import type { Check } from './check.ts';

const viewFactor = (a: Facet, b: Facet): number => directExchange(a, b) / facetLength(a);

const bottom = (width: number): Facet => ({ x0: 0, y0: 0, x1: width, y1: 0 });
const top = (from: number, to: number, height: number): Facet => ({
  x0: to,
  y0: height,
  x1: from,
  y1: height,
});

function check(id: string, quantity: string, source: string, printed: number, computed: number): Check {
  return {
    id: `view-factor-${id}`,
    topic: 'heat',
    quantity,
    source,
    standing: 'derived',
    unit: '1',
    printed,
    computed,
    tolerance: { absolute: 2e-6 },
  };
}

const howell = 'J. R. Howell, A Catalog of Radiation Configuration Factors';
const hottel = 'H. C. Hottel, crossed-string method';

/** Ten facets of the upper face of a gap 30 mm wide between mirrors 100 mm apart. */
const tenths = Array.from({ length: 10 }, (_, k) => top(k / 100, (k + 1) / 100, 0.03));

/** Closed forms of the catalogue worked out to six places. */
export const viewFactorChecks: readonly Check[] = [
  check(
    'parallel-1',
    'F, two equal parallel plates, h/w 1',
    `${howell}, C-1: sqrt(1+H²)-H`,
    0.414214,
    viewFactor(bottom(1), top(0, 1, 1)),
  ),
  check(
    'parallel-0.2',
    'F, two equal parallel plates, h/w 0.2',
    `${howell}, C-1`,
    0.819804,
    viewFactor(bottom(1), top(0, 1, 0.2)),
  ),
  check(
    'parallel-3',
    'F, two equal parallel plates, h/w 3',
    `${howell}, C-1`,
    0.162278,
    viewFactor(bottom(1), top(0, 1, 3)),
  ),
  check(
    'unequal-midlines',
    'F, parallel plates of widths 1 and 2 about one middle, gap 1',
    'Incropera et al., Table 13.1: (sqrt((Wi+Wj)²+4)-sqrt((Wj-Wi)²+4))/(2Wi)',
    0.684742,
    viewFactor(bottom(1), top(-0.5, 1.5, 1)),
  ),
  check(
    'perpendicular-1',
    'F, two equal plates at a right angle',
    `${howell}, C-3: (1+H-sqrt(1+H²))/2`,
    0.292893,
    viewFactor(bottom(1), { x0: 1, y0: 0, x1: 1, y1: 1 }),
  ),
  check(
    'perpendicular-2',
    'F, from a plate to one twice as high at a right angle',
    `${howell}, C-3`,
    0.381966,
    viewFactor(bottom(1), { x0: 1, y0: 0, x1: 1, y1: 2 }),
  ),
  check(
    'wedge-60',
    'F, two equal plates with a common edge at 60°',
    'Incropera et al., Table 13.1: 1-sin(alpha/2)',
    0.5,
    viewFactor(bottom(1), { x0: 1, y0: 0, x1: 0.5, y1: Math.sqrt(3) / 2 }),
  ),
  check(
    'triangle-345',
    'F from side 3 to side 4 of a 3-4-5 triangle',
    `${hottel}: (L1+L2-L3)/(2L1)`,
    0.333333,
    viewFactor({ x0: 0, y0: 0, x1: 3, y1: 0 }, { x0: 3, y0: 0, x1: 3, y1: 4 }),
  ),
  check(
    'endless-gap',
    'F, a tenth of a period of an endless gap to all of the other face',
    'closure: an endless face sees nothing else',
    1,
    tenths.reduce((sum, facet) => sum + gapDirectExchange(bottom(0.01), facet, { low: 0, high: 0.1 }), 0) /
      0.01,
  ),
];
