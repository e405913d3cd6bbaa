import { DxfWriter, point2d, point3d, TextHorizontalAlignment, Units } from '@tarikjabiri/dxf';
import { type Layer, layers } from './layers.ts';
import type { Lettering, Mark, Path } from './mark.ts';

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

function addPath(dxf: DxfWriter, { points, closed, layer }: Path): void {
  const [first, second] = points;
  if (!first || !second) return;
  if (points.length === 2 && !closed) {
    dxf.addLine(point3d(...first), point3d(...second), { layerName: layer });
    return;
  }
  dxf.addLWPolyline(
    points.map(([x, y]) => ({ point: point2d(x, y) })),
    { layerName: layer, flags: closed ? 1 : 0 },
  );
}

const alignments = {
  left: TextHorizontalAlignment.Left,
  middle: TextHorizontalAlignment.Center,
  right: TextHorizontalAlignment.Right,
} as const;

function addLettering(dxf: DxfWriter, { at, text, em, align, angle_deg, layer }: Lettering): void {
  const point = point3d(...at);
  dxf.addText(point, em * capital, text, {
    layerName: layer,
    rotation: angle_deg,
    ...(align === 'left' ? {} : { horizontalAlignment: alignments[align], secondAlignmentPoint: point }),
  });
}

/** A drawing in millimetres of the piece as DXF (AC1021, units millimetres), its layers named by their content. */
export function dxfOf(marks: readonly Mark[], perPaper: number): string {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  const drawn = marks.filter(({ layer }) => layer !== 'PAPER');
  addLayers(dxf, drawn, perPaper);
  for (const mark of drawn) {
    if (mark.kind === 'path') addPath(dxf, mark);
    else if (mark.kind === 'text') addLettering(dxf, mark);
    else dxf.addCircle(point3d(...mark.centre), mark.radius, { layerName: mark.layer });
  }
  return dxf.stringify();
}
