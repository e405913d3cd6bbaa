import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Housed,
  layOut,
  type PlaceToLayOut,
  type Side,
  type Standing,
} from '../../src/installation/place-layout.ts';

const place = (width_mm: number, height_mm: number, depth_mm: number): PlaceToLayOut => ({
  ...{ x_mm: 0, y_mm: 0 },
  ...{ width_mm, height_mm, depth_mm },
});

const sized = (id: string, sides: readonly [number, number, number], clearance_mm = 20): Housed => ({
  ...{ id, clearance_mm },
  ...{ length_mm: sides[0], width_mm: sides[1], height_mm: sides[2] },
});

const drivers = (count: number): Housed[] =>
  Array.from({ length: count }, (_, i) => sized(`D${i + 1}`, [210, 60, 31]));

const sides = ['left', 'right', 'up', 'down'] as const;

const boxOf = ({ across_mm, up_mm, deep_mm }: Standing) => [across_mm, up_mm, deep_mm];
const cornersOf = (room: PlaceToLayOut, housed: readonly Housed[], faces: Side) =>
  layOut(room, housed, faces).standing.map(({ x_mm, y_mm }) => [x_mm, y_mm]);

/** How many equal cases go in in equal rows: n sides and n + 1 airs across and up, one of each deep. */
function inEqualRows(
  room: PlaceToLayOut,
  { length_mm: l, width_mm: w, height_mm: h, clearance_mm: c }: Housed,
) {
  const ways = [
    [l, w, h],
    [w, l, h],
    [l, h, w],
    [h, l, w],
    [w, h, l],
    [h, w, l],
  ] as const;
  const times = (whole: number, side: number) => Math.max(0, Math.floor((whole - c) / (side + c)));
  return ways.map(([across, up, deep]) => {
    const columns = deep + c <= room.depth_mm ? times(room.width_mm, across) : 0;
    return { columns, count: columns * times(room.height_mm, up), across, up, deep };
  });
}

describe('where one case lies', () => {
  it.each([
    // Each place is exactly one case and its air in one of the six ways it can lie; across, up and deep.
    [place(250, 100, 51), [210, 60, 31], 'right', [230, 50]],
    [place(100, 250, 51), [60, 210, 31], 'up', [50, 230]],
    [place(250, 71, 80), [210, 31, 60], 'right', [230, 35.5]],
    [place(71, 250, 80), [31, 210, 60], 'up', [35.5, 230]],
    [place(100, 71, 230), [60, 31, 210], 'right', [50, 35.5]],
    [place(71, 100, 230), [31, 60, 210], 'right', [35.5, 50]],
  ] as const)('%j takes it as %j facing %s, and not where any side is 1 mm less', (room, box, faces, out) => {
    const [standing, ...more] = layOut(room, drivers(1), 'right').standing;
    expect(more).toEqual([]);
    expect(boxOf(standing!)).toEqual(box);
    expect([standing!.faces, standing!.out.x_mm, standing!.out.y_mm]).toEqual([faces, ...out]);
    for (const side of ['width_mm', 'height_mm', 'depth_mm'] as const)
      expect(layOut({ ...room, [side]: room[side] - 1 }, drivers(1), 'right').without).toEqual(['D1']);
  });

  it.each([
    // A case of 210 by 60 at 20 from the left and from below, in a place of 400 by 400 whose corner is at (1000, -500).
    ['right', [1020, -480, 210, 60], [1230, -450], [1020, -450]],
    // From the right: 1400 - 20 - 210.
    ['left', [1170, -480, 210, 60], [1170, -450], [1380, -450]],
    ['up', [1020, -480, 60, 210], [1050, -270], [1050, -480]],
    ['down', [1020, -480, 60, 210], [1050, -480], [1050, -270]],
  ] as const)('has the terminals at the ends of its length, facing %s', (faces, box, out, back) => {
    const [at] = layOut({ ...place(400, 400, 51), x_mm: 1000, y_mm: -500 }, drivers(1), faces).standing;
    expect([at!.x_mm, at!.y_mm, at!.across_mm, at!.up_mm]).toEqual(box);
    expect(at!.faces).toBe(faces);
    expect([at!.out.x_mm, at!.out.y_mm]).toEqual(out);
    expect([at!.in.x_mm, at!.in.y_mm]).toEqual(back);
  });

  it('turns a quarter where the asked side cannot be had, and says so', () => {
    // 160 high is too low for 210 and twice 20.
    const low = layOut(place(700, 160, 300), drivers(2), 'up');
    expect(low.standing.map(({ faces }) => faces)).toEqual(['right', 'right']);
    expect(low.note).toBe(
      'There is room for all. Across × up × deep: D1 and D2 210 × 60 × 31 mm, output terminals to the right. With all output terminals upwards they do not fit.',
    );
    expect(layOut(place(220, 1500, 60), drivers(2), 'left').standing.map(({ faces }) => faces)).toEqual([
      'up',
      'up',
    ]);
  });

  it('says what it means that a length stands out of the wall', () => {
    const { standing, note } = layOut(place(100, 71, 230), drivers(1), 'left');
    expect(standing[0]!.out).toEqual(standing[0]!.in);
    expect(note).toContain('D1 60 × 31 × 210 mm, output terminals to the front');
    expect(note).toContain('the mains end is at the back');
  });
});

describe('cases of several sizes', () => {
  const chain = [sized('D1', [210, 60, 31]), sized('M1', [120, 50, 22], 10), sized('B1', [80, 40, 25], 5)];

  it('puts the output of each beside the input of the next where they face along the shelf', () => {
    for (const [faces, sign] of [
      ['right', 1],
      ['left', -1],
    ] as const) {
      const { standing, without } = layOut(place(600, 600, 60), chain, faces);
      expect(without).toEqual([]);
      // The larger of 20 and 10, then of 10 and 5, in the direction asked.
      const steps = standing.slice(1).map((next, i) => sign * (next.in.x_mm - standing[i]!.out.x_mm));
      expect(steps).toEqual([20, 10]);
    }
  });

  it('puts them side by side where they face up or down, with their feet on one line', () => {
    for (const faces of ['up', 'down'] as const)
      expect(cornersOf(place(600, 600, 60), chain, faces)).toEqual([
        [20, 20],
        // 20 + 60 + 20, then 100 + 50 + 10.
        [100, 20],
        [160, 20],
      ]);
  });

  it('says which have no room, with their sizes, and what to do', () => {
    // 20 + 210 + 20 + 120 + 10 = 380 holds two, and no shelf fits above them.
    const { standing, without, note } = layOut(place(380, 100, 51), chain, 'right');
    expect(standing.map(({ id }) => id)).toEqual(['D1', 'M1']);
    expect(without).toEqual(['B1']);
    expect(note).toContain(
      'No room for B1 (80 × 40 × 25 mm, 5 mm of air round it): enlarge the place, or put less into it.',
    );
    expect(layOut(place(10, 10, 10), chain, 'up')).toMatchObject({
      standing: [],
      without: ['D1', 'M1', 'B1'],
    });
    expect(layOut(place(10, 10, 10), [], 'up')).toEqual({
      standing: [],
      without: [],
      note: 'Nothing is fixed here.',
    });
  });

  it('lets some stand where not all can lie, and none where all can', () => {
    // 250 high: a second shelf for nothing. Flat both 20 + 210 + 20 + 210 + 20 = 480; one upright 20 + 210 + 20 + 60 + 20 = 330.
    expect(layOut(place(330, 250, 51), drivers(3), 'right').standing.map(boxOf)).toHaveLength(3);
    expect(layOut(place(480, 100, 51), drivers(2), 'right').standing.map(({ faces }) => faces)).toEqual([
      'right',
      'right',
    ]);
  });
});

describe('equal drivers', () => {
  it('stand row by row from the lower left, the clearance before, between and after', () => {
    // 20 + 210 + 20 = 250 to the second column, 20 + 60 + 20 = 100 to the second row.
    expect(cornersOf(place(480, 180, 51), drivers(3), 'right')).toEqual([
      [20, 20],
      [250, 20],
      [20, 100],
    ]);
  });

  it('stand at least as many as in equal rows, and where these hold them upright on the wall, in those very rows', () => {
    const side = fc.integer({ min: 20, max: 900 });
    fc.assert(
      fc.property(side, side, side, fc.integer({ min: 1, max: 12 }), (width, height, depth, count) => {
        const room = place(width, height, depth);
        const rows = inEqualRows(room, drivers(1)[0]!);
        const { standing, without } = layOut(room, drivers(count), 'right');
        expect(standing.length).toBeGreaterThanOrEqual(
          Math.min(count, ...[Math.max(...rows.map((r) => r.count))]),
        );
        const usual = rows.slice(0, 4).find((way) => way.count >= count);
        if (!usual) return;
        expect(without).toEqual([]);
        expect(standing.map((at) => [at.x_mm, at.y_mm, ...boxOf(at)])).toEqual(
          standing.map((_, i) => [
            20 + (i % usual.columns) * (usual.across + 20),
            20 + Math.floor(i / usual.columns) * (usual.up + 20),
            ...[usual.across, usual.up, usual.deep],
          ]),
        );
      }),
      { seed: 45, numRuns: 400 },
    );
  });

  it('grow with the place', () => {
    const side = fc.integer({ min: 20, max: 700 });
    fc.assert(
      fc.property(side, side, side, fc.constantFrom(...sides), (a, b, c, faces) => {
        const count = (room: PlaceToLayOut) => layOut(room, drivers(12), faces).standing.length;
        const most = count(place(a, b, c));
        for (const larger of [place(a + 50, b, c), place(a, b + 50, c), place(a, b, c + 50)])
          expect(count(larger)).toBeGreaterThanOrEqual(most);
      }),
      { seed: 46 },
    );
  });
});

describe('any cases in any place', () => {
  const housed = fc
    .array(
      fc.record({
        ...{ l: fc.integer({ min: 40, max: 260 }), w: fc.integer({ min: 15, max: 90 }) },
        ...{ h: fc.integer({ min: 12, max: 50 }), clearance_mm: fc.integer({ min: 0, max: 30 }) },
      }),
      { minLength: 1, maxLength: 9 },
    )
    .map((list) => list.map(({ l, w, h, clearance_mm }, i) => sized(`H${i}`, [l, w, h], clearance_mm)));
  const room = fc.record({
    ...{ x_mm: fc.integer({ min: -500, max: 500 }), y_mm: fc.integer({ min: -500, max: 500 }) },
    ...{ width_mm: fc.integer({ min: 50, max: 900 }), height_mm: fc.integer({ min: 50, max: 600 }) },
    depth_mm: fc.integer({ min: 20, max: 300 }),
  });

  it('box by box: each once or without room, its own sides, inside with its air, and clear of the others', () => {
    fc.assert(
      fc.property(room, housed, fc.constantFrom(...sides), (within, cases, faces) => {
        const { standing, without } = layOut(within, cases, faces);
        expect([...standing.map(({ id }) => id), ...without].toSorted()).toEqual(cases.map(({ id }) => id));
        const air = new Map(cases.map((each) => [each.id, each.clearance_mm]));
        for (const [i, at] of standing.entries()) {
          const { length_mm, width_mm, height_mm } = cases.find(({ id }) => id === at.id)!;
          const numeric = (list: number[]) => list.toSorted((a, b) => a - b);
          expect(numeric(boxOf(at))).toEqual(numeric([length_mm, width_mm, height_mm]));
          const own = air.get(at.id)!;
          const ends = [
            ...[at.x_mm - within.x_mm, within.x_mm + within.width_mm - at.x_mm - at.across_mm],
            ...[at.y_mm - within.y_mm, within.y_mm + within.height_mm - at.y_mm - at.up_mm],
            within.depth_mm - at.deep_mm,
          ];
          expect(Math.min(...ends)).toBeGreaterThanOrEqual(own - 1e-9);
          // The length lies between the terminals, or out of the wall.
          const length = Math.hypot(at.out.x_mm - at.in.x_mm, at.out.y_mm - at.in.y_mm);
          expect([length_mm, 0]).toContain(length);
          if (length === 0) expect(at.deep_mm).toBe(length_mm);
          for (const other of standing.slice(i + 1)) {
            const across = Math.max(
              other.x_mm - at.x_mm - at.across_mm,
              at.x_mm - other.x_mm - other.across_mm,
            );
            const up = Math.max(other.y_mm - at.y_mm - at.up_mm, at.y_mm - other.y_mm - other.up_mm);
            expect(Math.max(across, up)).toBeGreaterThanOrEqual(Math.max(own, air.get(other.id)!) - 1e-9);
          }
        }
      }),
      { seed: 11, numRuns: 600 },
    );
  });

  it('facing left is the mirror of facing right, and facing down has the terminals of facing up exchanged', () => {
    fc.assert(
      fc.property(room, housed, (within, cases) => {
        const facing = (faces: Side) => layOut(within, cases, faces).standing;
        const mirrored = (at: { x_mm: number; y_mm: number }) => ({
          x_mm: 2 * within.x_mm + within.width_mm - at.x_mm,
          y_mm: at.y_mm,
        });
        const mirror = { right: 'left', left: 'right', up: 'up', down: 'down' } as const;
        expect(facing('left')).toEqual(
          facing('right').map((at) => ({
            ...{ ...at, faces: mirror[at.faces], x_mm: mirrored(at).x_mm - at.across_mm },
            ...{ out: mirrored(at.out), in: mirrored(at.in) },
          })),
        );
        expect(facing('down')).toEqual(
          facing('up').map((at) =>
            at.faces === 'up' ? { ...at, faces: 'down', out: at.in, in: at.out } : at,
          ),
        );
      }),
      { seed: 12, numRuns: 200 },
    );
  });
});
