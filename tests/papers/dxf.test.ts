import * as otherReader from 'dxf';
import DxfParser from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import { elevation } from '../../server/papers/drawings/elevation.ts';
import { section } from '../../server/papers/drawings/section.ts';
import { dxfOf } from '../../server/papers/ink/dxf.ts';
import { layers } from '../../server/papers/ink/layers.ts';
import { extentsOf } from '../../server/papers/ink/mark.ts';
import { demos, laidOut, unusual } from './jobs.ts';

/** Group codes with their values, as a file has them. */
function groups(dxf: string): [code: number, value: string][] {
  const lines = dxf.split(/\r?\n/);
  return Array.from({ length: Math.floor(lines.length / 2) }, (_, i) => [
    Number(lines[2 * i]),
    lines[2 * i + 1]!.trim(),
  ]);
}

interface Read {
  readonly type: string;
  readonly layer: string;
  readonly name?: string;
  readonly block?: string;
  readonly tag?: string;
  readonly text?: string;
  readonly actualMeasurement?: number;
  readonly angle?: number;
  readonly linearOrAngularPoint1?: { x: number; y: number };
  readonly linearOrAngularPoint2?: { x: number; y: number };
}

const drawn = [...demos, ...unusual, ...laidOut].flatMap(({ name, job, sizing }) => [
  { name: `elevation of ${name}`, marks: elevation(job, sizing, 20).marks, perPaper: 20, sizing },
  { name: `section of ${name}`, marks: section(job, sizing, 0.5).marks, perPaper: 0.5, sizing: null },
]);

describe.each(drawn)('$name as DXF', ({ marks, perPaper, sizing }) => {
  const dxf = dxfOf(marks, perPaper);
  const parsed = new DxfParser().parseSync(dxf)!;
  const entities = parsed.entities as unknown as Read[];
  const blocks = Object.values(parsed.blocks) as unknown as { name: string; entities?: Read[] }[];
  const all = [...entities, ...blocks.flatMap((block) => block.entities ?? [])];

  it('has each handle once, is whole, and has no figure that is none', () => {
    const read = groups(dxf);
    expect(read.at(-1)).toEqual([0, 'EOF']);
    const records = new Set(['5', '105']);
    let inHeader = true;
    const handles = read.flatMap(([code, value]) => {
      if (code === 2 && value === 'TABLES') inHeader = false;
      return !inHeader && records.has(String(code)) ? [value] : [];
    });
    expect(handles.length).toBeGreaterThan(entities.length);
    expect(new Set(handles).size).toBe(handles.length);
    expect(dxf).not.toMatch(/NaN|undefined|Infinity/);
    expect(dxf).not.toContain('tarikjabiri');
  });

  it('uses layers it has, each as wide as its pen and in a line type it has', () => {
    const table = parsed.tables.layer.layers;
    for (const { layer } of all) expect(Object.keys(table)).toContain(layer);
    const read = groups(dxf);
    const types = new Set(
      read.flatMap(([code, value], i) =>
        code === 2 && read[i - 1]?.[1] === 'AcDbLinetypeTableRecord' ? [value] : [],
      ),
    );
    let name = '';
    const widths = new Map<string, [width: number, type: string]>();
    for (const [i, [code, value]] of read.entries()) {
      if (code === 100 && value === 'AcDbLayerTableRecord') name = read[i + 1]![1];
      if (name !== '' && code === 6) widths.set(name, [0, value]);
      if (name !== '' && code === 370) {
        widths.get(name)![0] = Number(value);
        name = '';
      }
    }
    for (const [layer, [width, type]] of widths) {
      expect(types).toContain(type);
      // ISO 128 widths and those of DXF are the same series, 0.7 among them.
      if (layer !== '0')
        expect(width, layer).toBe(Math.round(100 * layers[layer as keyof typeof layers].width_mm));
    }
  });

  it('has a dimension for every span, of the length between its points, with its lines in a block', () => {
    const chains = new Set(marks.flatMap(({ measures }) => measures ?? []));
    const spans = [...chains].flatMap(({ texts }) => texts);
    const dimensions = entities.filter(({ type }) => type === 'DIMENSION');
    expect(dimensions.map(({ text }) => text)).toEqual(spans);
    expect(dimensions.length).toBeGreaterThan(2);
    for (const {
      block,
      text,
      angle,
      actualMeasurement,
      linearOrAngularPoint1: a,
      linearOrAngularPoint2: b,
    } of dimensions) {
      const along = angle === 90 ? b!.y - a!.y : b!.x - a!.x;
      expect(actualMeasurement).toBeCloseTo(along, 6);
      const own = blocks.find(({ name }) => name === block)!;
      expect(own.entities!.map(({ type }) => type).toSorted()).toEqual([
        'LINE',
        'LINE',
        'LINE',
        'LINE',
        'LINE',
        // A figure that has no room is left out on paper.
        ...(text === '' ? [] : ['TEXT']),
      ]);
    }
  });

  // DXF reference of 2007, "Linear and Rotated Dimension Group Codes" (from memory): the angle ends the aligned part, and the
  // name of the rotated part follows it.
  it('writes the groups of its dimensions in the order of the DXF reference', () => {
    const read = groups(dxf);
    const starts = read.flatMap(([code, value], i) => (code === 0 && value === 'DIMENSION' ? [i] : []));
    expect(starts.length).toBeGreaterThan(2);
    for (const start of starts) {
      const end = read.findIndex(([code], i) => i > start && code === 0);
      const own = read.slice(start, end);
      const parts = own.filter(([code]) => code === 100).map(([, value]) => value);
      expect(parts).toEqual(['AcDbEntity', 'AcDbDimension', 'AcDbAlignedDimension', 'AcDbRotatedDimension']);
      const aligned = own.slice(own.findIndex(([, value]) => value === 'AcDbAlignedDimension') + 1);
      expect(aligned.map(([code]) => code)).toEqual([13, 23, 33, 14, 24, 34, 50, 100]);
    }
  });

  it('names every device and feed point by a block with its reference', () => {
    const placed = entities.filter(({ type }) => type === 'INSERT');
    const names = new Set(blocks.map(({ name }) => name));
    for (const { name } of placed) expect(names).toContain(name);
    const read = groups(dxf);
    const refs = read.flatMap(([code, value], i) =>
      code === 0 && value === 'ATTRIB' ? [read.slice(i).find(([each]) => each === 1)![1]] : [],
    );
    expect(refs).toHaveLength(placed.length);
    expect(new Set(refs).size).toBe(refs.length);
    if (!sizing) return;
    const feeds = sizing.setOut.runs.flatMap((run) => run.feedPoints.map(({ id }) => id));
    expect(refs).toEqual(expect.arrayContaining(feeds));
  });

  it('says how far it reaches', () => {
    const { x0, y0, x1, y1 } = extentsOf(marks.filter(({ layer }) => layer !== 'PAPER'));
    const header = parsed.header as Record<string, { x: number; y: number }>;
    expect(header.$EXTMIN!.x).toBeCloseTo(x0, 6);
    expect(header.$EXTMIN!.y).toBeCloseTo(y0, 6);
    expect(header.$EXTMAX!.x).toBeCloseTo(x1, 6);
    expect(header.$EXTMAX!.y).toBeCloseTo(y1, 6);
  });

  it('has as many entities of each kind for another reader', () => {
    const other = otherReader.parseString(dxf);
    const count = (list: readonly { type: string }[], type: string): number =>
      list.filter((each) => each.type === type).length;
    for (const type of ['LINE', 'LWPOLYLINE', 'INSERT', 'DIMENSION', 'TEXT'])
      expect(count(other.entities, type), type).toBe(count(entities, type));
  });
});
