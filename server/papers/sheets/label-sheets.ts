import type { Sizing } from '../../../src/answer/sizing.ts';
import { type CableLabel, cableLabels } from '../cable-labels.ts';
import { cutTo, leading, leastEm_mm } from '../ink/lettering.ts';
import { type Extents, lettering, line, type Mark } from '../ink/mark.ts';
import { heading } from './heading.ts';
import { bodyOf, type Draft, type Format } from './sheet.ts';

/** A label, to be cut out and wrapped round the end of its cable under clear tape, mm. */
const label_mm = { width: 42.5, height: 16 } as const;
/** Above the labels, mm. */
const above_mm = 14;
const name_mm = 4;

const note =
  'Two labels for each cable, one for each end: the name of the cable, what this end is made off to (at), where the other end is (to). Cut along the lines. The same as CSV, for a label printer, comes with the papers.';

function labelMarks({ cable, here, there }: CableLabel, { x0, y1, x1 }: Extents): Mark[] {
  const width = x1 - x0 - 3;
  const text = (words: string, down: number): Mark =>
    lettering({
      ...{ layer: 'LETTERING', em: leastEm_mm },
      text: cutTo(words, width, { em: leastEm_mm }),
      at: [x0 + 1.5, y1 - down],
    });
  return [
    lettering({ layer: 'LETTERING', at: [x0 + 1.5, y1 - 5], text: cable, em: name_mm, bold: true }),
    text(`at ${here}`, 5 + 1.4 * leading * leastEm_mm),
    text(`to ${there}`, 5 + 2.5 * leading * leastEm_mm),
  ];
}

function sheetOf(labels: readonly CableLabel[], body: Extents, across: number): Mark[] {
  const top = body.y1 - above_mm;
  const down = Math.ceil(labels.length / across);
  const [right, bottom] = [body.x0 + across * label_mm.width, top - down * label_mm.height];
  const x = (i: number): number => body.x0 + i * label_mm.width;
  const y = (i: number): number => top - i * label_mm.height;
  return [
    heading('Cable labels', body),
    lettering({
      ...{ layer: 'LETTERING', em: leastEm_mm, text: cutTo(note, body.x1 - body.x0, { em: leastEm_mm }) },
      at: [body.x0, body.y1 - 10],
    }),
    ...Array.from({ length: across + 1 }, (_, i) => line('SLOT_AXES', [x(i), top], [x(i), bottom])),
    ...Array.from({ length: down + 1 }, (_, i) => line('SLOT_AXES', [body.x0, y(i)], [right, y(i)])),
    ...labels.flatMap((label, i) => {
      const [column, row] = [i % across, Math.floor(i / across)];
      return labelMarks(label, { x0: x(column), x1: x(column + 1), y1: y(row), y0: y(row + 1) });
    }),
  ];
}

/** The labels of all cables as sheets to be cut, both of a cable beside each other. */
export function labelDrafts(sizing: Sizing, format: Format): Draft[] {
  const body = bodyOf(format, 'list');
  // Both labels of a cable stay in one row.
  const across = 2 * Math.floor((body.x1 - body.x0) / label_mm.width / 2);
  const most = across * Math.floor((body.y1 - body.y0 - above_mm) / label_mm.height);
  const labels = cableLabels(sizing);
  return Array.from({ length: Math.ceil(labels.length / most) }, (_, i) => ({
    ...{ titles: ['Cable labels'], perPaper: 0, carries: 'list' as const },
    marks: sheetOf(labels.slice(i * most, (i + 1) * most), body, across),
  }));
}
