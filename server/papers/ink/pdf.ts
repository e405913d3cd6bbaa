import PDFDocument from 'pdfkit';
import { faces, fontFile } from './fonts.ts';
import { layers } from './layers.ts';
import type { Circle, Lettering, Mark, Path } from './mark.ts';
import { inReadingOrder } from './reading-order.ts';
import type { Paper } from './svg.ts';

/** Points of PDF in a millimetre. */
const point_per_mm = 72 / 25.4;

/** A sheet of the pack. */
export interface InkedSheet extends Paper {
  readonly marks: readonly Mark[];
}

/** What a PDF says of itself. */
export interface PdfInfo {
  readonly title: string;
  readonly author: string;
  readonly subject: string;
  readonly created: Date;
  /** False leaves the text of the file readable for tests. */
  readonly compress: boolean;
}

type Pdf = InstanceType<typeof PDFDocument>;

function drawPath(pdf: Pdf, { points, closed, filled }: Path): void {
  const [first, ...rest] = points;
  if (!first) return;
  pdf.moveTo(first[0], first[1]);
  for (const [x, y] of rest) pdf.lineTo(x, y);
  if (closed) pdf.closePath();
  if (filled) pdf.fill();
  else pdf.stroke();
}

function drawCircle(pdf: Pdf, { centre, radius, filled }: Circle): void {
  pdf.circle(centre[0], centre[1], radius);
  if (filled) pdf.fill();
  else pdf.stroke();
}

/** Lettering stands on its head in a page whose y runs up: it is drawn in a frame of its own that runs down. */
function drawLettering(pdf: Pdf, { at, text, em, align, angle_deg, bold }: Lettering): void {
  if (text === '') return;
  pdf.font(bold ? 'bold' : 'regular').fontSize(em);
  const pieces = inReadingOrder(text).map((piece) => ({ piece, width: pdf.widthOfString(piece) }));
  const width = pieces.reduce((sum, each) => sum + each.width, 0);
  let x = align === 'left' ? 0 : width / (align === 'middle' ? -2 : -1);
  const turn = (angle_deg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  pdf.save();
  pdf.transform(cos, sin, sin, -cos, at[0], at[1]);
  for (const each of pieces) {
    pdf.text(each.piece, x, 0, { lineBreak: false, baseline: 'alphabetic' });
    x += each.width;
  }
  pdf.restore();
}

function usePen(pdf: Pdf, layer: Mark['layer']): void {
  const pen = layers[layer];
  pdf.lineWidth(pen.width_mm).strokeColor(pen.colour).fillColor(pen.colour);
  pdf.addContent(`[${pen.dash_mm.join(' ')}] 0 d`);
}

function drawSheet(pdf: Pdf, { width_mm, height_mm, marks }: InkedSheet): void {
  pdf.addPage({ size: [width_mm * point_per_mm, height_mm * point_per_mm], margin: 0 });
  pdf.transform(point_per_mm, 0, 0, -point_per_mm, 0, height_mm * point_per_mm);
  pdf.lineJoin('round');
  let layer: Mark['layer'] | undefined;
  for (const mark of marks) {
    if (mark.layer !== layer) usePen(pdf, mark.layer);
    layer = mark.layer;
    if (mark.kind === 'path') drawPath(pdf, mark);
    else if (mark.kind === 'circle') drawCircle(pdf, mark);
    else drawLettering(pdf, mark);
  }
}

function collected(pdf: Pdf): Promise<Buffer> {
  const chunks: Buffer[] = [];
  return new Promise((resolve, reject) => {
    pdf.on('data', (chunk: Buffer) => chunks.push(chunk));
    pdf.on('end', () => resolve(Buffer.concat(chunks)));
    pdf.on('error', reject);
  });
}

/** Sheets as one PDF with embedded fonts; the same sheets and the same date give the same bytes. */
export async function pdfOf(sheets: readonly InkedSheet[], info: PdfInfo): Promise<Buffer> {
  const pdf = new PDFDocument({
    autoFirstPage: false,
    compress: info.compress,
    lang: 'en',
    displayTitle: true,
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
  for (const sheet of sheets) drawSheet(pdf, sheet);
  pdf.end();
  return bytes;
}
