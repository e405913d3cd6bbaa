import { describe, expect, it } from 'vitest';
import { singleLineSheets } from '../../server/papers/drawings/single-line.ts';
import { wiringOf } from '../../server/papers/drawings/wiring-rows.ts';
import { extentsOf, type Mark, type Point } from '../../server/papers/ink/mark.ts';
import { bodyOf } from '../../server/papers/sheets/sheet.ts';
import { demos, laidOut, unusual } from './jobs.ts';

const formats = ['A4', 'A3'] as const;
const all = [...demos, ...unusual, ...laidOut];

const textsOf = (marks: readonly Mark[]): string[] =>
  marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));

/** The lines of the circuit. */
const lines = (marks: readonly Mark[]): (readonly Point[])[] =>
  marks.flatMap((mark) =>
    mark.kind === 'path' && mark.layer === 'CIRCUIT' && !mark.filled
      ? [mark.closed ? [...mark.points, mark.points[0]!] : mark.points]
      : [],
  );

const isOn = ([x, y]: Point, points: readonly Point[]): boolean =>
  points.slice(1).some(([x1, y1], i) => {
    const [x0, y0] = points[i]!;
    const length = Math.hypot(x1 - x0, y1 - y0);
    const across = length === 0 ? Infinity : Math.abs((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / length;
    const along = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / (length * length);
    return across < 1e-6 && along > -1e-6 && along < 1 + 1e-6;
  });

/** The rim of each lamp. */
const rims = (marks: readonly Mark[]): { readonly centre: Point; readonly radius: number }[] =>
  marks.flatMap((mark) =>
    mark.kind === 'circle' && mark.layer === 'CIRCUIT' && mark.radius > 1 ? [mark] : [],
  );

/** Parts of the drawing that hang together: lines that touch with an end, on each other or on the rim of a lamp. */
function partCount(marks: readonly Mark[]): number {
  const drawn = lines(marks);
  const meets = rims(marks).map(({ centre: [x, y], radius }) =>
    drawn.flatMap((points, i) =>
      points.some(([px, py]) => Math.abs(Math.hypot(px - x, py - y) - radius) < 1e-6) ? [i] : [],
    ),
  );
  const group = drawn.map((_, i) => i);
  const rootOf = (i: number): number => (group[i] === i ? i : rootOf(group[i]!));
  for (const [i, a] of drawn.entries())
    for (const [j, b] of drawn.entries())
      if (i < j && (a.some((end) => isOn(end, b)) || b.some((end) => isOn(end, a))))
        group[rootOf(i)] = rootOf(j);
  for (const [first, ...rest] of meets) for (const i of rest) group[rootOf(i)] = rootOf(first!);
  return new Set(drawn.map((_, i) => rootOf(i))).size;
}

describe.each(all)('the single line of $name', ({ job, sizing }) => {
  const { cables, drivers, installation } = sizing;

  it('has every cable once in the tree, and both ends of a ring', () => {
    const rows = drivers.drivers
      .flatMap((driver) => wiringOf(driver, sizing))
      .flatMap(({ links, ways }) => [
        ...links.map(({ id }) => id),
        ...ways.flatMap((way) =>
          way.rows.filter(({ draws }) => draws !== 'back').map(({ cable }) => cable.id),
        ),
      ]);
    expect(rows.toSorted()).toEqual(cables.map(({ id }) => id).toSorted());
    const back = drivers.drivers
      .flatMap((driver) => wiringOf(driver, sizing))
      .flatMap(({ ways }) => ways.flatMap((way) => way.rows.filter(({ draws }) => draws === 'back')));
    const rings = cables.filter(({ kind, to }) => kind === 'trunk' && to.kind !== 'tap');
    expect(back.map(({ cable }) => cable.id)).toEqual(rings.map(({ id }) => id));
  });

  describe.each(formats)('on %s', (format) => {
    const sheets = singleLineSheets(job, sizing, bodyOf(format));
    const texts = textsOf(sheets.flat());
    const count = (wanted: string): number => texts.filter((text) => text === wanted).length;

    it('names every cable once, with its length', () => {
      for (const { id, length_mm } of cables) {
        const naming = texts.filter((text) => text.startsWith(`${id}  `));
        expect(naming, id).toHaveLength(1);
        expect(naming[0]).toContain(` ${length_mm.toFixed(0)} mm`);
      }
    });

    it('has every driver, block, dimmer and tap of the answer once', () => {
      const ids = [...drivers.drivers, ...installation.blocks, ...installation.dimmers, ...installation.taps];
      for (const { id } of ids) expect(count(id), id).toBe(1);
    });

    it('has every fuse once, and says where none fits', () => {
      const ways = installation.blocks.flatMap((block) => block.ways);
      for (const { fuse } of ways) if (fuse) expect(count(`${fuse.id} ${fuse.rating_A} A`), fuse.id).toBe(1);
      const bare = drivers.drivers
        .flatMap((driver) => wiringOf(driver, sizing))
        .flatMap((output) => output.ways)
        .filter(({ way, rows }) => !way?.fuse && rows.some(({ cable }) => cable.protectedBy === 'nothing'));
      expect(count('no fuse fits')).toBe(bare.length);
    });

    it('has every breaker once, before its drivers', () => {
      const { name, loads } = drivers.breaker;
      for (const { id } of loads) expect(count(`${id} ${name}`), id).toBe(1);
    });

    it('says of a breaker that goes on so beside its arrow, and draws no mains that lead nowhere', () => {
      for (const marks of sheets) {
        const goesOn = marks.filter((mark) => mark.kind === 'text' && mark.text.endsWith(' goes on'));
        for (const text of goesOn) {
          const at = extentsOf([text]);
          const arrows = marks.filter(
            (mark) => mark.kind === 'path' && mark.filled && mark.points.length === 3,
          );
          const over = arrows
            .map((mark) => extentsOf([mark]))
            .filter(({ x0, x1, y0, y1 }) => x0 < at.x1 && x1 > at.x0 && y0 < at.y1 && y1 > at.y0);
          expect(over).toEqual([]);
        }
        const begins = marks.some((mark) => mark.kind === 'text' && /^M\d+ [BCD]\d+$/.test(mark.text));
        const mains = marks.filter((mark) => mark.kind === 'circle' && mark.radius === 0.6 && !mark.filled);
        if (drivers.breaker.loads.length > 0) expect(mains).toHaveLength(begins ? 1 : 0);
      }
    });

    it('lands at every feed point', () => {
      for (const { id } of sizing.setOut.runs.flatMap((run) => run.feedPoints))
        expect(texts.filter((text) => text.split(/[ ,]/)[0] === id).length, id).toBe(1);
    });

    it('is no empty sheet, and one network: nothing on a sheet hangs in the air', () => {
      expect(sheets.length).toBeGreaterThan(0);
      for (const marks of sheets) expect(lines(marks).length).toBeGreaterThan(3);
      if (sheets.length > 1) return;
      // An open breaker leaves what is behind it apart; the frame of a fuse lies across its line.
      const fuses = installation.blocks.flatMap(({ ways }) =>
        ways.filter(({ fuse }) => fuse !== null),
      ).length;
      expect(partCount(sheets[0]!)).toBe(1 + drivers.breaker.loads.length + fuses);
    });
  });
});
