import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DxfReading, slotsFromDxf } from '../../../server/drawing-in/dxf.ts';
import { slotsFromTable } from '../../../server/drawing-in/table.ts';
import { paperOf } from '../../../server/papers/papers.ts';
import type { Segment } from '../../../src/job/slots.ts';
import { demos } from '../../papers/jobs.ts';

const fixture = (name: string): string => readFileSync(new URL(`fixtures/${name}`, import.meta.url), 'utf8');

const reading = (text: string, more: Partial<DxfReading> = {}): DxfReading => ({
  text,
  layer: null,
  unit: null,
  corner_mm: { x: 0, y: 0 },
  ...more,
});

function read(text: string, more: Partial<DxfReading> = {}) {
  const outcome = slotsFromDxf(reading(text, more));
  if (!outcome.ok) throw new Error(outcome.issues.map(({ sentence }) => sentence).join(' '));
  return outcome.value;
}

function refusal(text: string, more: Partial<DxfReading> = {}): string {
  const outcome = slotsFromDxf(reading(text, more));
  if (outcome.ok) throw new Error('was read');
  for (const { sentence } of outcome.issues) expect(sentence).toMatch(/: .*\.$/);
  return outcome.issues[0]!.code;
}

const upright = (x_mm: number, y0_mm: number, y1_mm: number): Segment => ({
  x0_mm: x_mm,
  y0_mm,
  x1_mm: x_mm,
  y1_mm,
});

describe('DXF out and in again', () => {
  it.each(demos)('gives the same slots: $name', async ({ job, sizing }) => {
    const given = { job, sizing, format: 'A3', issued: null, revisions: [], before: null } as const;
    const dxf = (await paperOf('elevation.dxf', given)) as string;
    const slots = sizing.setOut.slots.map(({ x0_mm, y0_mm, x1_mm, y1_mm }) => ({
      x0_mm,
      y0_mm,
      x1_mm,
      y1_mm,
    }));
    for (const layer of ['SLOTS', 'SLOT_AXES']) {
      const { segments } = read(dxf, { layer });
      expect(segments).toHaveLength(slots.length);
      for (const [i, segment] of segments.entries())
        for (const key of ['x0_mm', 'y0_mm', 'x1_mm', 'y1_mm'] as const)
          expect(segment[key]).toBeCloseTo(slots[i]![key], 5);
    }
    expect(read(dxf, { layer: 'SLOTS' }).width_mm).toBeCloseTo(job.slots.width_mm, 3);
  });
});

describe('DXF made by other libraries', () => {
  it('reads polylines of ezdxf (R12, no units in the file)', () => {
    const text = fixture('ezdxf-r12.dxf');
    expect(refusal(text, { layer: 'SLOTS' })).toBe('units-missing');
    const { segments, width_mm, ignored, layers } = read(text, { layer: 'SLOTS', unit: 'mm' });
    expect(segments).toEqual([100, 300, 500, 700, 900].map((x) => upright(x, 50, 950)));
    expect(width_mm).toBe(20);
    expect(ignored).toContainEqual(expect.objectContaining({ what: 'CIRCLE', layer: 'SLOTS', count: 1 }));
    expect(ignored).toContainEqual(expect.objectContaining({ what: 'TEXT', layer: 'NOTES', count: 1 }));
    expect(layers.map(({ name }) => name)).toEqual(['NOTES', 'PANEL', 'SLOTS']);
  });

  it('reads lines and bent polylines of ezdxf (R2000, metres) and lists arcs as ignored', () => {
    const { segments, unit, ignored, notes } = read(fixture('ezdxf-r2000-metres.dxf'), { layer: 'AXES' });
    expect(unit).toBe('m');
    expect(segments.slice(0, 3)).toEqual(
      [100, 300, 500].map((x) => ({ x0_mm: x, y0_mm: 100, x1_mm: x + 200, y1_mm: 1100 })),
    );
    expect(segments).toHaveLength(5);
    expect(ignored).toEqual([{ what: 'LWPOLYLINE', layer: 'AXES', why: 'has arcs in it', count: 1 }]);
    expect(notes.join()).toContain('bent');
  });

  it('reads rectangles of maker.js in inches', () => {
    const { segments, width_mm, notes } = read(fixture('makerjs-inches.dxf'), { layer: 'slots' });
    expect(width_mm).toBeCloseTo(19.05, 6);
    expect(segments).toEqual([111.125, 314.325, 517.525].map((x) => upright(x, 50.8, 812.8)));
    expect(notes).toEqual([]);
  });

  it('reads lines and a rectangle of dxf-writer in centimetres', () => {
    const { segments, width_mm } = read(fixture('dxf-writer-centimetres.dxf'), { layer: 'slots' });
    expect(segments).toEqual([100, 250, 400, 550, 700, 910].map((x) => upright(x, 50, 950)));
    expect(width_mm).toBeCloseTo(20, 6);
  });
});

describe('DXF that cannot be read', () => {
  const text = fixture('ezdxf-r12.dxf');

  it('is refused wherever it is cut short', () => {
    const end = text.lastIndexOf('EOF');
    for (let length = 1; length < end; length += 7) {
      const code = refusal(text.slice(0, length), { layer: 'SLOTS', unit: 'mm' });
      expect(['cut-short', 'not-a-dxf', 'broken-file']).toContain(code);
    }
  });

  it('is refused when it is something else', () => {
    expect(refusal('%PDF-1.7\nsomething')).toBe('not-a-dxf');
    expect(refusal('AC1032 and bytes')).toBe('not-a-dxf');
    expect(refusal('AutoCAD Binary DXF\r\n')).toBe('binary-dxf');
    expect(refusal('')).toBe('cut-short');
    expect(refusal('0\nEOF\n')).toBe('broken-file');
  });

  it('is refused when coordinates are missing or the layer is wrong', () => {
    const without = text.replace(/(VERTEX\s+8\s+SLOTS\s+70\s+32\s+)10\s+\S+\s+/, '$1');
    expect(without).not.toBe(text);
    expect(refusal(without, { layer: 'SLOTS', unit: 'mm' })).toBe('broken-file');
    expect(refusal(text, { layer: 'WALLS', unit: 'mm' })).toBe('no-such-layer');
    expect(refusal(text, { layer: 'NOTES', unit: 'mm' })).toBe('nothing-on-layer');
  });

  it('is refused when slots lie outside the panel, until the corner is given', () => {
    const far = { layer: 'SLOTS', unit: 'm' } as const;
    expect(refusal(text, far)).toBe('outside-range');
    expect(refusal(text, { layer: 'SLOTS', unit: 'mm', corner_mm: { x: 200, y: 0 } })).toBe('outside-range');
    const { segments } = read(text, { layer: 'SLOTS', unit: 'mm', corner_mm: { x: 90, y: 40 } });
    expect(segments[0]).toEqual(upright(10, 10, 910));
  });

  it('never throws and never hangs, whatever is damaged (seeded)', () => {
    const damage = fc.record({
      at: fc.nat(text.length - 1),
      cut: fc.nat(40),
      put: fc.string({ maxLength: 8 }),
    });
    fc.assert(
      fc.property(damage, ({ at, cut, put }) => {
        const outcome = slotsFromDxf(
          reading(text.slice(0, at) + put + text.slice(at + cut), { layer: 'SLOTS', unit: 'mm' }),
        );
        if (!outcome.ok) return outcome.issues.length > 0;
        return outcome.value.segments.every((segment) => Object.values(segment).every(Number.isFinite));
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

describe('what a drawing may mean', () => {
  const drawing = (entities: string): string =>
    `0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n${entities}0\nENDSEC\n0\nEOF\n`;
  const lineOf = (x0: number, y0: number, x1: number, y1: number): string =>
    `0\nLINE\n8\nA\n10\n${x0}\n20\n${y0}\n11\n${x1}\n21\n${y1}\n`;
  const polylineOf = (points: readonly (readonly [number, number])[], flag: number): string =>
    `0\nLWPOLYLINE\n8\nA\n90\n${points.length}\n70\n${flag}\n${points.map(([x, y]) => `10\n${x}\n20\n${y}\n`).join('')}`;

  it('keeps the direction of a line, and starts a rectangle at its lower end', () => {
    const down = read(drawing(lineOf(50, 900, 50, 100)), { layer: 'A' });
    expect(down.segments).toEqual([upright(50, 900, 100)]);
    const corners = [
      [60, 900],
      [40, 900],
      [40, 100],
      [60, 100],
    ] as const;
    const box = read(drawing(polylineOf(corners, 1)), { layer: 'A' });
    expect(box.segments).toEqual([upright(50, 100, 900)]);
    expect(box.width_mm).toBe(20);
  });

  it('gives the same centre line whichever corner a turned rectangle begins at (seeded)', () => {
    const shape = fc.record({
      x: fc.double({ min: 5000, max: 9000, noNaN: true }),
      y: fc.double({ min: 5000, max: 9000, noNaN: true }),
      length: fc.double({ min: 200, max: 3000, noNaN: true }),
      width: fc.double({ min: 5, max: 100, noNaN: true }),
      turn: fc.double({ min: 0.05, max: Math.PI - 0.05, noNaN: true }),
      first: fc.nat(3),
      flip: fc.boolean(),
    });
    fc.assert(
      fc.property(shape, ({ x, y, length, width, turn, first, flip }) => {
        const [ux, uy] = [Math.cos(turn), Math.sin(turn)];
        const at = (along: number, across: number): [number, number] => [
          x + along * ux - across * uy,
          y + along * uy + across * ux,
        ];
        const round = [at(0, -width / 2), at(length, -width / 2), at(length, width / 2), at(0, width / 2)];
        const turned = [...round.slice(first), ...round.slice(0, first)];
        const { segments, width_mm } = read(drawing(polylineOf(flip ? turned.toReversed() : turned, 1)), {
          layer: 'A',
        });
        const [segment] = segments;
        expect(segments).toHaveLength(1);
        expect(width_mm).toBeCloseTo(width, 3);
        expect(segment!.x0_mm).toBeCloseTo(x, 3);
        expect(segment!.y0_mm).toBeCloseTo(y, 3);
        expect(segment!.x1_mm).toBeCloseTo(x + length * ux, 3);
        expect(segment!.y1_mm).toBeCloseTo(y + length * uy, 3);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it('lists what it leaves out: doubles, points, squares, other shapes, blocks', () => {
    const square = [
      [0, 0],
      [50, 0],
      [50, 50],
      [0, 50],
    ] as const;
    const entities = [
      lineOf(10, 10, 10, 500),
      lineOf(10, 500, 10, 10),
      lineOf(30, 30, 30, 30),
      polylineOf(square, 1),
      polylineOf(square.slice(0, 3), 1),
      '0\nINSERT\n8\nA\n2\nBLOCK\n10\n0\n20\n0\n',
      '0\nHELIX\n8\nA\n',
    ].join('');
    const { segments, ignored } = read(drawing(entities), { layer: 'A' });
    expect(segments).toEqual([upright(10, 10, 500)]);
    expect(ignored.map(({ what, count }) => [what, count])).toEqual([
      ['LINE', 1],
      ['LINE', 1],
      ['LWPOLYLINE', 1],
      ['LWPOLYLINE', 1],
      ['INSERT', 1],
      ['HELIX', 1],
    ]);
    expect(new Set(ignored.map(({ why }) => why)).size).toBe(6);
  });

  it('says so when lines may be the sides of slots, and when widths differ', () => {
    const sides = [
      lineOf(0, 0, 20, 0),
      lineOf(20, 0, 20, 900),
      lineOf(20, 900, 0, 900),
      lineOf(0, 900, 0, 0),
    ];
    expect(read(drawing(sides.join('')), { layer: 'A' }).notes.join()).toContain('closed rectangles');
    const box = (x: number, width: number) =>
      polylineOf(
        [
          [x, 0],
          [x + width, 0],
          [x + width, 900],
          [x, 900],
        ],
        1,
      );
    const two = read(drawing(box(0, 20) + box(100, 24)), { layer: 'A' });
    expect(two.width_mm).toBeNull();
    expect(two.notes.join()).toContain('20.0, 24.0 mm');
    expect(two.segments.map(({ width_mm }) => width_mm)).toEqual([20, 24]);
    const one = read(drawing(box(0, 20) + box(100, 20)), { layer: 'A' });
    expect(one.segments.map(({ width_mm }) => width_mm)).toEqual([undefined, undefined]);
  });
});

describe('a pasted table', () => {
  it('with a column of widths gives each slot its own', () => {
    const table = 'No;x0;y0;x1;y1;width\n1;120;90;120;1060;18\n2;395.5;90;395.5;1060;';
    const answer = slotsFromTable(table);
    expect(answer.ok && answer.value.segments).toEqual([
      { x0_mm: 120, y0_mm: 90, x1_mm: 120, y1_mm: 1060, width_mm: 18 },
      { x0_mm: 395.5, y0_mm: 90, x1_mm: 395.5, y1_mm: 1060 },
    ]);
  });

  const slots = [upright(120, 90, 1060), { x0_mm: 395.5, y0_mm: 90, x1_mm: 500.25, y1_mm: 1060 }];

  it.each([
    ['tabs and decimal commas', 'x0\ty0\tx1\ty1\n120\t90\t120\t1060\r\n395,5\t90,0\t500,25\t1060\n\n'],
    ['semicolons', '120;90;120;1060;\n395.5; 90; 500,25; 1060'],
    ['spaces', '  120 90 120 1060\n395,5 90 500,25 1060  '],
    ['commas with decimal points', '120,90,120,1060\n395.5,90,500.25,1060'],
    ['commas and spaces', '120, 90, 120, 1060\n395.5, 90, 500.25, 1060'],
    [
      'a column of numbers that its heading names',
      'No.\tx0\ty0\tx1\ty1\n1\t120\t90\t120\t1060\n2\t395,5\t90\t500,25\t1060',
    ],
    [
      'names in its first column',
      'Slot; X1 (mm); Y1 (mm); X2 (mm); Y2 (mm)\nA;120;90;120;1060\nB;395.5;90;500.25;1060',
    ],
    [
      'columns in another order',
      'start y;start x;end y;end x;remark\n90;120;1060;120;18\n90;395.5;1060;500.25;18',
    ],
  ])('is read with %s', (_, text) => {
    const outcome = slotsFromTable(text);
    expect(outcome.ok && outcome.value.segments).toEqual(slots);
  });

  it('lists headings and rows without length', () => {
    const outcome = slotsFromTable('Slot positions\nx0 y0 x1 y1\n120 90 120 1060\n5 5 5 5');
    expect(outcome.ok && outcome.value.ignored.map(({ what }) => what)).toEqual(['row 1', 'row 2', 'row 4']);
  });

  it.each([
    ['three numbers', '120 90 120 1060\n1 2 3', 2],
    ['a word among numbers', '120 90 wide 1060', 1],
    ['points between thousands', '1.234,5;0;1;2', 1],
    ['an exponent', '1e3 0 1 2', 1],
    ['five numbers', '120 90 120 1060 18', 1],
    ['five numbers under a heading that does not say which', 'a b c d e\n120 90 120 1060 18', 2],
    ['too few numbers for its heading', 'No. x0 y0 x1 y1\n120 90 120 1060', 2],
  ])('is refused with %s, naming the row', (_, text, row) => {
    const outcome = slotsFromTable(text);
    expect(outcome.ok).toBe(false);
    if (!outcome.ok) expect(outcome.issues[0]!.sentence).toContain(`Row ${row},`);
  });

  it('is refused when empty, too long or below the panel', () => {
    expect(slotsFromTable('').ok).toBe(false);
    expect(slotsFromTable('x y').ok).toBe(false);
    expect(slotsFromTable('1 2 3 4\n'.repeat(401)).ok).toBe(false);
    expect(slotsFromTable('-5 0 10 100').ok).toBe(false);
  });
});

describe('coordinates no panel has', () => {
  const line = (x: string): string =>
    `0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n8\nA\n10\n${x}\n20\n0\n11\n0\n21\n1000\n0\nENDSEC\n0\nEOF\n`;
  it.each(['1e308', '-1e308', '1e12'])('%s is refused as a broken file, by numbers that are numbers', (x) => {
    const outcome = slotsFromDxf(reading(line(x), { layer: 'A' }));
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    expect(outcome.issues[0]!.code).toBe('broken-file');
    expect(Object.values(outcome.issues[0]!.quantities).every(Number.isFinite)).toBe(true);
  });
  it('just beyond the panel is said to be outside', () => {
    expect(refusal(line('30001'), { layer: 'A' })).toBe('outside-range');
  });
});
