import { layers } from './layers.ts';
import type { Circle, Lettering, Mark, Path } from './mark.ts';

/** A sheet of paper with its marks in millimetres from its lower left corner. */
export interface Paper {
  readonly width_mm: number;
  readonly height_mm: number;
}

const number = (value: number): string => String(Number(value.toFixed(3)));

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

function pathText({ points, closed, filled }: Path, height_mm: number): string {
  const d = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${number(x)} ${number(height_mm - y)}`).join('');
  return `<path d="${d}${closed ? 'Z' : ''}"${filled ? ' class="filled"' : ''}/>`;
}

function circleText({ centre, radius, filled }: Circle, height_mm: number): string {
  const [x, y] = centre;
  const kind = filled ? ' class="filled"' : '';
  return `<circle cx="${number(x)}" cy="${number(height_mm - y)}" r="${number(radius)}"${kind}/>`;
}

const anchors = { left: 'start', middle: 'middle', right: 'end' } as const;

function letteringText({ at, text, em, align, angle_deg, bold }: Lettering, height_mm: number): string {
  const [x, y] = [number(at[0]), number(height_mm - at[1])];
  const turn = angle_deg === 0 ? '' : ` transform="rotate(${number(-angle_deg)} ${x} ${y})"`;
  const weight = bold ? ' font-weight="bold"' : '';
  return `<text x="${x}" y="${y}" font-size="${number(em)}" text-anchor="${anchors[align]}"${weight}${turn}>${escaped(text)}</text>`;
}

function markText(mark: Mark, height_mm: number): string {
  if (mark.kind === 'path') return pathText(mark, height_mm);
  return mark.kind === 'circle' ? circleText(mark, height_mm) : letteringText(mark, height_mm);
}

function groupText(layer: Mark['layer'], marks: readonly Mark[], height_mm: number): string {
  const pen = layers[layer];
  const dash = pen.dash_mm.length > 0 ? ` stroke-dasharray="${pen.dash_mm.join(' ')}"` : '';
  const body = marks.map((mark) => markText(mark, height_mm)).join('\n');
  return `<g class="${layer}" stroke="${pen.colour}" color="${pen.colour}" stroke-width="${pen.width_mm}"${dash}>\n${body}\n</g>`;
}

/** Marks of one layer that follow one another go into one group; the order of drawing stays. */
function inGroups(marks: readonly Mark[]): Mark[][] {
  const groups: Mark[][] = [];
  for (const mark of marks) {
    const last = groups.at(-1);
    if (last?.[0]?.layer === mark.layer) last.push(mark);
    else groups.push([mark]);
  }
  return groups;
}

const style =
  'g{fill:none;stroke-linejoin:round;stroke-linecap:butt}.filled{fill:currentColor;stroke:none}' +
  'text{font-family:"DejaVu Sans",Verdana,sans-serif;fill:currentColor;stroke:none}';

/** A sheet as an SVG document at its true size, one group for each layer in the order of drawing. */
export function svgOf(paper: Paper, marks: readonly Mark[], title: string): string {
  const { width_mm, height_mm } = paper;
  const groups = inGroups(marks).map((group) => groupText(group[0]!.layer, group, height_mm));
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width_mm}mm" height="${height_mm}mm" viewBox="0 0 ${width_mm} ${height_mm}">`,
    `<title>${escaped(title)}</title>`,
    `<style>${style}</style>`,
    ...groups,
    '</svg>\n',
  ].join('\n');
}
