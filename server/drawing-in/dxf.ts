import { type DxfDrawing, type DxfEntity, parseString } from 'dxf';
import type { Segment } from '../../src/job/slots.ts';
import { found, type Outcome, refused } from '../../src/outcome.ts';
import { shapeOf } from './dxf-shapes.ts';
import { type EntityListed, entitiesListed } from './dxf-text.ts';
import { type DrawingIssue, drawingIssue } from './issues.ts';
import { holdable, type Ignored, type LayerRead, type SlotsRead } from './slots-read.ts';

/** Units a drawing may be in: the numbers of $INSUNITS, and millimetres in one. */
export const drawingUnits = {
  mm: { code: 4, scale_mm: 1 },
  cm: { code: 5, scale_mm: 10 },
  dm: { code: 14, scale_mm: 100 },
  m: { code: 6, scale_mm: 1000 },
  in: { code: 1, scale_mm: 25.4 },
  ft: { code: 2, scale_mm: 304.8 },
} as const;

export type DrawingUnit = keyof typeof drawingUnits;

/** How a drawing is to be read. */
export interface DxfReading {
  readonly text: string;
  /** Null to learn which layers there are. */
  readonly layer: string | null;
  /** What to take when the drawing does not say; null to be asked. */
  readonly unit: DrawingUnit | null;
  /** Where the panel's lower left corner is in the drawing. */
  readonly corner_mm: { readonly x: number; readonly y: number };
}

const unitNames = Object.keys(drawingUnits) as DrawingUnit[];

function unitOf(code: number | undefined, given: DrawingUnit | null): Outcome<DrawingUnit, DrawingIssue> {
  const stated = unitNames.find((name) => drawingUnits[name].code === code);
  if (stated) return found(stated);
  if (code !== undefined && code !== 0) {
    const sentence = `The drawing is in units of number ${code}, which slots are not drawn in: set its units to mm, cm, m, in or ft and save it again.`;
    return refused(drawingIssue('units-unknown', sentence, { insUnits: code }));
  }
  if (given) return found(given);
  const sentence =
    'The drawing does not say in what unit it is ($INSUNITS is missing or 0): say whether it is mm, cm, m, in or ft, or set it in the drawing and save it again.';
  return refused(drawingIssue('units-missing', sentence));
}

const isLine = (type: string): boolean => type === 'LINE';
const isPolyline = (type: string): boolean => type === 'POLYLINE' || type === 'LWPOLYLINE';

function layersOf(listed: readonly EntityListed[]): LayerRead[] {
  return [...new Set(listed.map(({ layer }) => layer))].toSorted().map((name) => {
    const here = listed.filter(({ layer }) => layer === name);
    const lineCount = here.filter(({ type }) => isLine(type)).length;
    const polylineCount = here.filter(({ type }) => isPolyline(type)).length;
    return { name, lineCount, polylineCount, otherCount: here.length - lineCount - polylineCount };
  });
}

/** The same things left out for the same reason are one line with a count. */
function counted(items: readonly Omit<Ignored, 'count'>[]): Ignored[] {
  const lines = new Map<string, Ignored>();
  for (const item of items) {
    const key = JSON.stringify([item.what, item.layer, item.why]);
    lines.set(key, { ...item, count: (lines.get(key)?.count ?? 0) + 1 });
  }
  return [...lines.values()];
}

function otherWhy(type: string): string {
  return type === 'INSERT'
    ? 'a block: explode it, then save the drawing again'
    : 'not a line, a polyline or a rectangle';
}

const otherThings = (listed: readonly EntityListed[], chosen: string): Omit<Ignored, 'count'>[] =>
  listed
    .filter(({ layer, type }) => layer !== chosen || !(isLine(type) || isPolyline(type)))
    .map(({ layer, type }) => ({
      what: type,
      layer,
      why: layer === chosen ? otherWhy(type) : 'on another layer',
    }));

interface Gathered {
  readonly segments: Segment[];
  readonly widths_mm: number[];
  readonly ignored: Omit<Ignored, 'count'>[];
  readonly bentCount: number;
}

const round = (value: number): number => Math.round(value * 1e4) / 1e4;

/** Two lines over one another, whichever way they were drawn. */
function placeKey({ x0_mm, y0_mm, x1_mm, y1_mm }: Segment): string {
  return [`${round(x0_mm)},${round(y0_mm)}`, `${round(x1_mm)},${round(y1_mm)}`].toSorted().join(' ');
}

function gather(
  entities: readonly DxfEntity[],
  layer: string,
  scale_mm: number,
): Outcome<Gathered, DrawingIssue> {
  const gathered: Gathered & { bentCount: number } = {
    segments: [],
    widths_mm: [],
    ignored: [],
    bentCount: 0,
  };
  const places = new Set<string>();
  for (const entity of entities) {
    const what = entity.type;
    const shape = shapeOf(entity, scale_mm);
    if (shape.kind === 'broken') {
      const sentence = `A ${what} on layer "${layer}" has coordinates missing: the file is damaged; save the drawing again.`;
      return refused(drawingIssue('broken-file', sentence));
    }
    if (shape.kind === 'ignored') {
      gathered.ignored.push({ what, layer, why: shape.why });
      continue;
    }
    if (shape.segments.length > 1) gathered.bentCount++;
    for (const segment of shape.segments) {
      const key = placeKey(segment);
      if (places.has(key))
        gathered.ignored.push({ what, layer, why: 'drawn a second time at the same place' });
      else {
        places.add(key);
        gathered.segments.push(
          shape.width_mm === null ? segment : { ...segment, width_mm: round(shape.width_mm) },
        );
        if (shape.width_mm !== null) gathered.widths_mm.push(shape.width_mm);
      }
    }
  }
  return found(gathered);
}

/** Lines that meet end to end may be the four sides of a slot: the reader cannot know, so it says so. */
function touchingCount(segments: readonly Segment[]): number {
  const ends = new Map<string, number>();
  const keys = segments.map(({ x0_mm, y0_mm, x1_mm, y1_mm }) => [
    `${round(x0_mm)},${round(y0_mm)}`,
    `${round(x1_mm)},${round(y1_mm)}`,
  ]);
  for (const key of keys.flat()) ends.set(key, (ends.get(key) ?? 0) + 1);
  return keys.filter((pair) => pair.every((key) => ends.get(key)! > 1)).length;
}

const isOneWidth = (widths_mm: readonly number[]): boolean =>
  widths_mm.length > 0 && Math.max(...widths_mm) - Math.min(...widths_mm) < 0.05;

function notesOf({ segments, widths_mm, bentCount }: Gathered): string[] {
  const widths = isOneWidth(widths_mm) ? [] : [...new Set(widths_mm.map((width) => width.toFixed(1)))];
  const touching = touchingCount(segments);
  return [
    ...(widths.length > 1
      ? [`The rectangles are ${widths.join(', ')} mm wide; each slot keeps its own.`]
      : []),
    ...(bentCount > 0
      ? [`Each straight part of a bent polyline became a slot of its own (${bentCount} bent).`]
      : []),
    ...(touching > 0
      ? [
          `${touching} lines meet others at both ends: if they are the edges of slots, join them into closed rectangles and read the drawing again.`,
        ]
      : []),
  ];
}

const moved = (segment: Segment, corner: DxfReading['corner_mm']): Segment => ({
  ...segment,
  x0_mm: segment.x0_mm - corner.x,
  y0_mm: segment.y0_mm - corner.y,
  x1_mm: segment.x1_mm - corner.x,
  y1_mm: segment.y1_mm - corner.y,
});

function layerIssue(layer: string, layers: readonly LayerRead[]): DrawingIssue | undefined {
  const names = layers.map(({ name }) => `"${name}"`).join(', ');
  const read = layers.find(({ name }) => name === layer);
  if (!read)
    return drawingIssue(
      'no-such-layer',
      `There is nothing on a layer called "${layer}": choose one of ${names}.`,
    );
  if (read.lineCount + read.polylineCount > 0) return undefined;
  return drawingIssue(
    'nothing-on-layer',
    `Layer "${layer}" holds no line, polyline or rectangle: choose another of ${names}.`,
  );
}

/** The package reads most damaged files as empty ones and stumbles over some. */
function parsed(text: string): Outcome<DxfDrawing, DrawingIssue> {
  try {
    return found(parseString(text));
  } catch {
    return refused(
      drawingIssue(
        'broken-file',
        'The file is damaged: open it in the program it came from and save it again.',
      ),
    );
  }
}

/**
 * Slots from a DXF: lines and straight polylines are centre lines in the direction they are drawn, closed
 * rectangles give a centre line (from the lower or left end) and a width. Everything else on the layer, and every
 * other layer, is listed as ignored. Without a layer it only says which layers there are.
 *
 * Refuses what is no complete text DXF, units it is not told, an unknown or empty layer, more slots than a job holds,
 * and slots outside the panel's quadrant. Reads with the package `dxf`, whose silence about broken files is made up
 * for by `entitiesListed`.
 */
export function slotsFromDxf({ text, layer, unit, corner_mm }: DxfReading): Outcome<SlotsRead, DrawingIssue> {
  const listed = entitiesListed(text);
  if (!listed.ok) return listed;
  const layers = layersOf(listed.value);
  const drawing = parsed(text);
  if (!drawing.ok) return drawing;
  const stated = unitOf(drawing.value.header.insUnits, unit);
  if (!stated.ok) return stated;
  const common = { layers, unit: stated.value };
  if (layer === null) {
    const notes = ['Choose the layer the slots are on.'];
    return found({ ...common, layer, segments: [], width_mm: null, ignored: [], notes });
  }
  const wrong = layerIssue(layer, layers);
  if (wrong) return refused(wrong);
  const here = drawing.value.entities.filter(
    (entity) => (entity.layer ?? '0').trim() === layer && (isLine(entity.type) || isPolyline(entity.type)),
  );
  const gathered = gather(here, layer, drawingUnits[stated.value].scale_mm);
  if (!gathered.ok) return gathered;
  const { segments, widths_mm, ignored } = gathered.value;
  const isOne = isOneWidth(widths_mm);
  const placed = segments.map((segment) => moved(segment, corner_mm));
  // Where all rectangles have one width, that is the width of all slots, the lines among them included.
  const kept = holdable(isOne ? placed.map(({ width_mm: _, ...ends }) => ends) : placed);
  if (!kept.ok) return kept;
  return found({
    ...common,
    layer,
    segments: kept.value,
    width_mm: isOne ? round(widths_mm[0]!) : null,
    ignored: counted([...ignored, ...otherThings(listed.value, layer)]),
    notes: notesOf(gathered.value),
  });
}
