import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { closeRows, type Region, tautStrings } from '../../src/numeric/taut-strings.ts';
import { directExchange, type Facet, facetLength } from '../../src/numeric/view-factors.ts';

/** A U of 16 by 10 mm, walls and base 2 mm thick, standing on the floor of a bay of 100 by 30 mm, mouth up. */
const withU: Region = {
  bounds: { x0: 0, x1: 0.1, y0: 0, y1: 0.03 },
  blocks: [
    { x0: 0.04, x1: 0.042, y0: -1, y1: 0.01 },
    { x0: 0.054, x1: 0.056, y0: -1, y1: 0.01 },
    { x0: 0.04, x1: 0.056, y0: -1, y1: 0.002 },
  ],
};

/** Its outline, counter-clockwise from the left end of the floor. */
const outline: readonly (readonly [number, number])[] = [
  [0, 0],
  [0.04, 0],
  [0.04, 0.01],
  [0.042, 0.01],
  [0.042, 0.002],
  [0.054, 0.002],
  [0.054, 0.01],
  [0.056, 0.01],
  [0.056, 0],
  [0.1, 0],
  [0.1, 0.03],
  [0, 0.03],
];

/** Every edge cut in so many parts. */
function facetsOf(parts: number): Facet[] {
  return outline.flatMap(([x0, y0], k) => {
    const [x1, y1] = outline[(k + 1) % outline.length]!;
    const at = (i: number) => ({ x: x0 + (i / parts) * (x1 - x0), y: y0 + (i / parts) * (y1 - y0) });
    return Array.from({ length: parts }, (_, i) => {
      const [a, b] = [at(i), at(i + 1)];
      return { x0: a.x, y0: a.y, x1: b.x, y1: b.y };
    });
  });
}

function tableOf(region: Region, facets: readonly Facet[]): number[][] {
  const { anchored, exchange_m } = tautStrings(region);
  const all = facets.map(anchored);
  return all.map((a) => all.map((b) => (a === b ? 0 : exchange_m(a, b))));
}

/** Share of the rays sent from a facet, evenly and by the cosine, whose first hit is the facet numbered `to`. */
function counted(facets: readonly Facet[], from: number, to: number, rays: number): number {
  const random = seededRandom(20_261_130);
  const { x0, y0, x1, y1 } = facets[from]!;
  const length = facetLength(facets[from]!);
  const [tx, ty] = [(x1 - x0) / length, (y1 - y0) / length];
  let hits = 0;
  for (let n = 0; n < rays; n++) {
    const along = random();
    const sine = 2 * random() - 1;
    const cosine = Math.sqrt(1 - sine * sine);
    const [px, py] = [x0 + along * (x1 - x0), y0 + along * (y1 - y0)];
    // The room lies to the left of every edge.
    const [dx, dy] = [tx * sine - ty * cosine, ty * sine + tx * cosine];
    let nearest = Number.POSITIVE_INFINITY;
    let first = -1;
    for (const [i, f] of facets.entries()) {
      if (i === from) continue;
      const [ex, ey] = [f.x1 - f.x0, f.y1 - f.y0];
      const across = dx * ey - dy * ex;
      if (across === 0) continue;
      const t = ((f.x0 - px) * ey - (f.y0 - py) * ex) / across;
      const s = ((f.x0 - px) * dy - (f.y0 - py) * dx) / across;
      if (t > 1e-12 && s >= 0 && s <= 1 && t < nearest) [nearest, first] = [t, i];
    }
    if (first === to) hits++;
  }
  return hits / rays;
}

describe('strings drawn taut round blocks', () => {
  it('close: what leaves a facet arrives somewhere, and as much comes back', () => {
    const facets = facetsOf(3);
    const table = tableOf(withU, facets);
    for (const [i, row] of table.entries()) {
      const sum = row.reduce((total, value) => total + value, 0);
      expect(sum).toBeCloseTo(facetLength(facets[i]!), 12);
      for (const [j, value] of row.entries()) expect(value).toBeCloseTo(table[j]![i]!, 14);
    }
  });

  it('are the plain crossed strings where nothing stands between', () => {
    const [floor, lid] = [
      { x0: 0.042, y0: 0.002, x1: 0.054, y1: 0.002 },
      { x0: 0.054, y0: 0.01, x1: 0.042, y1: 0.01 },
    ];
    const { anchored, exchange_m } = tautStrings(withU);
    expect(exchange_m(anchored(floor), anchored(lid))).toBeCloseTo(directExchange(floor, lid), 15);
  });

  // Facets by their edge of the outline, four to an edge.
  it.each([
    ['floor of the U to the ceiling above it', 5 * 4 + 1, 10 * 4 + 2],
    ['floor of the U to the ceiling far off, past its wall', 5 * 4, 10 * 4 + 1],
    ['floor of the bay to the far side, past the U', 0, 9 * 4 + 2],
    ['flank of the U to the ceiling', 1 * 4 + 2, 10 * 4 + 3],
    ['rim of the U to the side', 6 * 4 + 2, 9 * 4 + 3],
  ])('agree with counted rays: %s', (_, from, to) => {
    const facets = facetsOf(4);
    const share = tableOf(withU, facets)[from]![to]! / facetLength(facets[from]!);
    const rays = 200_000;
    const error = Math.sqrt((share * (1 - share)) / rays);
    expect(Math.abs(counted(facets, from, to, rays) - share)).toBeLessThan(3 * error + 1e-9);
  });
});

describe('rows that lack something', () => {
  it('close in proportion to what both lack', () => {
    // Two facets of length 1 and 2 that share 0.5: they lack 0.5 and 1.5, together 2.
    const facets = [
      { x0: 0, y0: 0, x1: 1, y1: 0 },
      { x0: 2, y0: 1, x1: 0, y1: 1 },
    ];
    const table = Float64Array.of(0, 0.5, 0.5, 0);
    expect([...closeRows(table, facets)]).toEqual([0.5, 1.5]);
    // 0.5*0.5/2 = 0.125, 0.5 + 0.5*1.5/2 = 0.875, 1.5*1.5/2 = 1.125.
    expect([...table]).toEqual([0.125, 0.875, 0.875, 1.125]);
  });
});
