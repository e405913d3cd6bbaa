import {
  type DxfBlock,
  DxfWriter,
  HatchBoundaryPaths,
  HatchPolylineBoundary,
  HatchPredefinedPatterns,
  point2d,
  point3d,
  TextHorizontalAlignment,
  Units,
} from '@tarikjabiri/dxf';
import { type Span, spansOf } from './dimension.ts';
import { type Layer, layers } from './layers.ts';
import { extentsOf, type Lettering, type Mark, type Path, type Point } from './mark.ts';

/** Height of capitals in ems: DXF measures lettering by its capitals. */
const capital = 0.729;

const lineType = (layer: Layer): string => (layers[layer].dash_mm.length > 0 ? layer : 'Continuous');

/** Layers in use, each with its colour and its dashes; DXF knows strokes as positive and gaps as negative lengths. */
function addLayers(dxf: DxfWriter, marks: readonly Mark[], perPaper: number): void {
  for (const layer of new Set(marks.map((mark) => mark.layer))) {
    const { dash_mm, dxfColour } = layers[layer];
    const lengths = dash_mm.map((length, i) => (i % 2 === 0 ? length : -length) * perPaper);
    if (lengths.length > 0) dxf.addLType(layer, '', lengths);
    dxf.addLayer(layer, dxfColour, lineType(layer));
  }
}

/** Where entities go: the drawing itself, or a block. */
type Space = DxfBlock;

/** A filled shape is a solid hatch within its outline. */
function addFilled(space: Space, { points, layer }: Path): void {
  const boundary = new HatchBoundaryPaths();
  boundary.addPolylineBoundary(new HatchPolylineBoundary(points.map(([x, y]) => ({ x, y }))));
  space.addHatch(boundary, { name: HatchPredefinedPatterns.SOLID }, { layerName: layer });
}

function addPath(space: Space, path: Path): void {
  const { points, closed, layer } = path;
  const [first, second] = points;
  if (!first || !second) return;
  if (path.filled) addFilled(space, path);
  else if (points.length === 2 && !closed)
    space.addLine(point3d(...first), point3d(...second), { layerName: layer });
  else
    space.addLWPolyline(
      points.map(([x, y]) => ({ point: point2d(x, y) })),
      { layerName: layer, flags: closed ? 1 : 0 },
    );
}

const alignments = {
  left: TextHorizontalAlignment.Left,
  middle: TextHorizontalAlignment.Center,
  right: TextHorizontalAlignment.Right,
} as const;

function addLettering(space: Space, { at, text, em, align, angle_deg, layer }: Lettering): void {
  const point = point3d(...at);
  space.addText(point, em * capital, text, {
    layerName: layer,
    rotation: angle_deg,
    ...(align === 'left' ? {} : { horizontalAlignment: alignments[align], secondAlignmentPoint: point }),
  });
}

function addMark(space: Space, mark: Mark): void {
  if (mark.kind === 'path') addPath(space, mark);
  else if (mark.kind === 'text') addLettering(space, mark);
  else space.addCircle(point3d(...mark.centre), mark.radius, { layerName: mark.layer });
}

/** A drawing in the making: its blocks by their names. */
interface Making {
  readonly dxf: DxfWriter;
  readonly blocks: Map<string, DxfBlock>;
}

/** Blocks whose names begin with a star are known to no user: dimensions have one each. */
const addBlock = ({ dxf }: Making, name: string): DxfBlock =>
  dxf.blocks.addBlock(name, dxf.document.objects, false);

/** A dimension with its lines and figure as the block it shows. */
function addDimension(making: Making, span: Span, isUpright: boolean): void {
  const name = `*D${making.blocks.size}`;
  const block = addBlock(making, name);
  making.blocks.set(name, block);
  for (const mark of span.marks) addMark(block, mark);
  const [from, to] = span.ends;
  making.dxf.addLinearDim(point3d(...from), point3d(...to), {
    layerName: 'DIMENSIONS',
    blockName: name,
    definitionPoint: point3d(...span.lineAt),
    middlePoint: point3d(...span.textAt),
    ActualMeasurement: span.length,
    text: span.text,
    angle: isUpright ? 90 : 0,
    styleName: 'Standard',
  });
}

/** Where a block is put: the lower left corner of a case, the middle of a dot. */
function baseOf(mark: Mark): Point {
  if (mark.kind === 'circle') return mark.centre;
  const { x0, y0 } = extentsOf([mark]);
  return [x0, y0];
}

function moved(mark: Mark, [dx, dy]: Point): Mark {
  if (mark.kind === 'path') return { ...mark, points: mark.points.map(([x, y]): Point => [x - dx, y - dy]) };
  return mark.kind === 'circle' ? { ...mark, centre: [0, 0] } : mark;
}

/** A device or a feed point as a block of its size, with its reference as an attribute that is not shown twice. */
function addStanding(making: Making, mark: Mark, perPaper: number): void {
  const { block: kind, ref } = mark.stands!;
  const base = baseOf(mark);
  const { x0, y0, x1, y1 } = extentsOf([mark]);
  const name = kind === 'DEVICE' ? `${kind}_${(x1 - x0).toFixed(0)}x${(y1 - y0).toFixed(0)}` : kind;
  const height = 2.5 * capital * perPaper;
  let block = making.blocks.get(name);
  if (!block) {
    block = addBlock(making, name);
    making.blocks.set(name, block);
    addMark(block, moved(mark, base));
    block.addAttdef(point3d(0, 0), height, 'REF', '', { layerName: mark.layer });
  }
  const insert = making.dxf.addInsert(name, point3d(...base), { layerName: mark.layer });
  making.dxf.addAttrib(point3d(...base), height, 'REF', ref, insert, { layerName: mark.layer });
}

/** Line weights that DXF knows, hundredths of a millimetre. */
const weights = [0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100] as const;

const weightOf = (layer: string): number => {
  const wanted = 100 * (layer in layers ? layers[layer as Layer].width_mm : 0.18);
  return weights.reduce((best, each) => (Math.abs(each - wanted) < Math.abs(best - wanted) ? each : best));
};

/**
 * What the writer has no option for, group by group: the width of each layer's lines, attributes that are not shown, since the
 * drawing has their text as lettering, and dimensions whose block is their own.
 */
function finishedGroups(text: string): string {
  const lines = text.split('\n');
  let [kind, name, isAttribute] = ['', '', false];
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = lines[i]!.trim();
    const value = lines[i + 1]!;
    if (code === '0') [kind, name, isAttribute] = [value.trim(), '', false];
    else if (code === '2' && kind === 'LAYER' && name === '') name = value.trim();
    else if (code === '370' && kind === 'LAYER') lines[i + 1] = String(weightOf(name));
    else if (code === '100' && /^AcDbAttribute/.test(value)) isAttribute = true;
    else if (code === '70' && isAttribute) lines[i + 1] = '1';
    else if (code === '70' && kind === 'DIMENSION') lines[i + 1] = String(Number(value) | 32);
    else if (code === '70' && kind === 'BLOCK' && /^\*D\d/.test(lines[i - 1]!)) lines[i + 1] = '1';
  }
  return lines.join('\n');
}

function setHeader(dxf: DxfWriter, marks: readonly Mark[]): void {
  const { x0, y0, x1, y1 } = extentsOf(marks);
  dxf.setUnits(Units.Millimeters);
  dxf.setVariable('$MEASUREMENT', { 70: 1 });
  dxf.setVariable('$LASTSAVEDBY', { 1: 'Slotwatt' });
  dxf.setVariable('$EXTMIN', { 10: x0, 20: y0, 30: 0 });
  dxf.setVariable('$EXTMAX', { 10: x1, 20: y1, 30: 0 });
  dxf.setVariable('$LIMMIN', { 10: x0, 20: y0 });
  dxf.setVariable('$LIMMAX', { 10: x1, 20: y1 });
}

/**
 * A drawing in millimetres of the piece as DXF (AC1021, units millimetres), its layers named by their content, with line widths:
 * filled shapes as solid hatches, devices and feed points as blocks with their reference, dimensions as dimensions. Hatching of
 * boards stays lines in a layer of its own: the writer's patterns cannot be turned. It has no layout sheets either. Check:
 * `tests/papers/dxf.test.ts`, by two readers.
 */
export function dxfOf(marks: readonly Mark[], perPaper: number): string {
  const dxf = new DxfWriter();
  const drawn = marks.filter(({ layer }) => layer !== 'PAPER');
  setHeader(dxf, drawn);
  addLayers(dxf, drawn, perPaper);
  const making: Making = { dxf, blocks: new Map() };
  for (const chain of new Set(drawn.flatMap(({ measures }) => measures ?? [])))
    for (const span of spansOf(chain)) addDimension(making, span, chain.axis === 'upright');
  for (const mark of drawn) {
    if (mark.measures) continue;
    if (mark.stands) addStanding(making, mark, perPaper);
    else addMark(dxf.modelSpace, mark);
  }
  return finishedGroups(dxf.stringify());
}
