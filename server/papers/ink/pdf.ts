import PDFDocument from 'pdfkit';
import { faces, fontFile } from './fonts.ts';
import { layers } from './layers.ts';
import { letterReach } from './legible.ts';
import { textWidth } from './lettering.ts';
import { type Circle, type Lettering, letteringCorners, type Mark, type Path } from './mark.ts';
import { inReadingOrder } from './reading-order.ts';
import type { Paper } from './svg.ts';

/** Points of PDF in a millimetre. */
const point_per_mm = 72 / 25.4;

/** A sheet of the pack, and what stands on it, for the bookmarks. */
export interface InkedSheet extends Paper {
  readonly titles: readonly string[];
  readonly marks: readonly Mark[];
}

/** A file that travels in a PDF. */
export interface Attached {
  readonly name: string;
  readonly type: string;
  readonly description: string;
  readonly content: Buffer;
}

/** What a PDF says of itself. */
export interface PdfInfo {
  readonly title: string;
  readonly author: string;
  readonly subject: string;
  readonly created: Date;
  /** False leaves the text of the file readable for tests. */
  readonly compress: boolean;
  readonly attached: Attached;
}

/** Name of a sheet as something leads to it. */
export const sheetAnchor = (number: number): string => `sheet ${number}`;

type Pdf = InstanceType<typeof PDFDocument>;

function drawPath(pdf: Pdf, { points, closed, filled }: Path, height_mm: number): void {
  const [first, ...rest] = points;
  if (!first) return;
  pdf.moveTo(first[0], height_mm - first[1]);
  for (const [x, y] of rest) pdf.lineTo(x, height_mm - y);
  if (closed) pdf.closePath();
  if (filled) pdf.fill();
  else pdf.stroke();
}

function drawCircle(pdf: Pdf, { centre, radius, filled }: Circle, height_mm: number): void {
  pdf.circle(centre[0], height_mm - centre[1], radius);
  if (filled) pdf.fill();
  else pdf.stroke();
}

/** Figures are not kerned, so that the list of widths has theirs; anything else is shaped. */
const widthOf = (pdf: Pdf, text: string, em: number, bold: boolean): number =>
  /^[\d.−]+$/.test(text) ? textWidth(text, em, bold) : pdf.widthOfString(text);

/** Level lettering is drawn in the frame of the page, any other in a frame of its own that is turned. */
function drawLettering(
  pdf: Pdf,
  { at, text, em, align, angle_deg, bold }: Lettering,
  height_mm: number,
): void {
  if (text === '') return;
  pdf.font(bold ? 'bold' : 'regular').fontSize(em);
  const pieces = inReadingOrder(text);
  const isPlain = pieces.length === 1 && align === 'left';
  const widths = isPlain ? [0] : pieces.map((piece) => widthOf(pdf, piece, em, bold));
  const width = widths.reduce((sum, each) => sum + each, 0);
  const [x0, y0] = [at[0], height_mm - at[1]];
  const turn = (angle_deg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  if (angle_deg !== 0) pdf.save().transform(cos, -sin, sin, cos, x0, y0);
  const from = angle_deg === 0 ? [x0, y0] : [0, 0];
  let x = from[0]! - { left: 0, middle: width / 2, right: width }[align];
  for (const [i, piece] of pieces.entries()) {
    pdf.text(piece, x, from[1]!, { lineBreak: false, baseline: 'alphabetic' });
    x += widths[i]!;
  }
  if (angle_deg !== 0) pdf.restore();
}

function usePen(pdf: Pdf, layer: Mark['layer']): void {
  const pen = layers[layer];
  pdf.lineWidth(pen.width_mm).strokeColor(pen.colour).fillColor(pen.colour);
  pdf.addContent(`[${pen.dash_mm.join(' ')}] 0 d`);
}

/** Marks of one kind that follow one another: lines of lettering, which are read, or lines and shapes, which are not. */
function stretchesOf(marks: readonly Mark[]): Mark[][] {
  const stretches: Mark[][] = [];
  for (const mark of marks) {
    const last = stretches.at(-1);
    if (last && (last[0]!.kind === 'text') === (mark.kind === 'text')) last.push(mark);
    else stretches.push([mark]);
  }
  return stretches;
}

/** How far above a place that is led to a reader begins, mm. */
const over_mm = 12;

function addAnchor(pdf: Pdf, { anchor, at }: Lettering, height_mm: number): void {
  if (anchor === undefined) return;
  const down_mm = Math.max(0, height_mm - at[1] - over_mm);
  pdf.addNamedDestination(anchor, 'XYZ', 0, down_mm * point_per_mm, 0);
}

/** The lettering leads to a name, where the pack has it. */
function addLink(pdf: Pdf, mark: Lettering, anchors: ReadonlySet<string>, height_mm: number): void {
  if (mark.leadsTo === undefined || !anchors.has(mark.leadsTo)) return;
  const points = letteringCorners(mark, letterReach);
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [x0, y1] = [Math.min(...xs), Math.max(...ys)];
  pdf.goTo(x0, height_mm - y1, Math.max(...xs) - x0, y1 - Math.min(...ys), mark.leadsTo);
}

/** What sheets are drawn with. */
interface Drawing {
  readonly pdf: Pdf;
  readonly anchors: ReadonlySet<string>;
  readonly reading: ReturnType<Pdf['struct']>;
}

function drawSheet(
  { pdf, anchors, reading }: Drawing,
  { width_mm, height_mm, marks }: InkedSheet,
  number: number,
): void {
  pdf.addPage({ size: [width_mm * point_per_mm, height_mm * point_per_mm], margin: 0 });
  pdf.addNamedDestination(sheetAnchor(number), 'Fit');
  pdf.scale(point_per_mm);
  pdf.lineJoin('round');
  const section = pdf.struct('Sect');
  reading.add(section);
  let layer: Mark['layer'] | undefined;
  const draw = (mark: Mark): void => {
    if (mark.layer !== layer) usePen(pdf, mark.layer);
    layer = mark.layer;
    if (mark.kind === 'path') drawPath(pdf, mark, height_mm);
    else if (mark.kind === 'circle') drawCircle(pdf, mark, height_mm);
    else drawLettering(pdf, mark, height_mm);
  };
  for (const stretch of stretchesOf(marks)) {
    const isRead = stretch[0]!.kind === 'text';
    if (isRead) section.add(pdf.struct('P', {}, pdf.markStructureContent('P')));
    else pdf.markContent('Artifact', { type: 'Layout' });
    for (const mark of stretch) draw(mark);
    pdf.endMarkedContent();
  }
  section.end();
  const letterings = marks.filter((mark): mark is Lettering => mark.kind === 'text');
  for (const mark of letterings) {
    addAnchor(pdf, mark, height_mm);
    addLink(pdf, mark, anchors, height_mm);
  }
}

/** Bookmarks: each title once, at the first sheet it stands on. */
function addBookmarks(pdf: Pdf, titles: readonly string[], known: Set<string>): void {
  for (const title of titles) if (!known.has(title)) pdf.outline.addItem(title);
  for (const title of titles) known.add(title);
}

function anchorsOf(sheets: readonly InkedSheet[]): Set<string> {
  const own = sheets.flatMap(({ marks }) =>
    marks.flatMap((mark) => (mark.kind === 'text' && mark.anchor !== undefined ? [mark.anchor] : [])),
  );
  return new Set([...sheets.map((_, i) => sheetAnchor(i + 1)), ...own]);
}

function collected(pdf: Pdf): Promise<Buffer> {
  const chunks: Buffer[] = [];
  return new Promise((resolve, reject) => {
    pdf.on('data', (chunk: Buffer) => chunks.push(chunk));
    pdf.on('end', () => resolve(Buffer.concat(chunks)));
    pdf.on('error', reject);
  });
}

/**
 * Sheets as one PDF with embedded fonts, bookmarks and links; lettering is tagged in the order it is drawn in, lines are
 * not read. The same sheets and the same date give the same bytes.
 */
export async function pdfOf(sheets: readonly InkedSheet[], info: PdfInfo): Promise<Buffer> {
  const pdf = new PDFDocument({
    autoFirstPage: false,
    compress: info.compress,
    lang: 'en',
    displayTitle: true,
    tagged: true,
    // Bookmarks, marked content and attachments are of PDF 1.7.
    pdfVersion: '1.7',
    info: {
      Title: info.title,
      Author: info.author,
      Subject: info.subject,
      Creator: 'Slotwatt',
      Producer: 'Slotwatt',
      CreationDate: info.created,
      ModDate: info.created,
    },
  });
  const bytes = collected(pdf);
  for (const face of Object.keys(faces) as (keyof typeof faces)[]) pdf.registerFont(face, fontFile(face));
  const drawing = { pdf, anchors: anchorsOf(sheets), reading: pdf.struct('Document') };
  pdf.addStructure(drawing.reading);
  const known = new Set<string>();
  for (const [i, sheet] of sheets.entries()) {
    drawSheet(drawing, sheet, i + 1);
    addBookmarks(pdf, sheet.titles, known);
  }
  drawing.reading.end();
  const { content, ...about } = info.attached;
  pdf.file(content, { ...about, creationDate: info.created, modifiedDate: info.created });
  pdf.end();
  return bytes;
}
