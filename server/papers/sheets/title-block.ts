import type { Job } from '../../../src/job/job.ts';
import { scaleText } from '../drawings/scale.ts';
import { cutTo, fitted, leading, leastEm_mm } from '../ink/lettering.ts';
import { corners, type Extents, lettering, line, type Mark, outline } from '../ink/mark.ts';
import { type Draft, type Format, formats, frameOf, type Sheet, titleBlockOf, titleRow_mm } from './sheet.ts';
import { type Standing, statusText } from './status.ts';

/** What the title block says that is not in the job. */
export interface SheetNumber {
  readonly number: number;
  readonly count: number;
}

/** What the title block says of the job and its standing. */
export interface Titled extends Standing {
  readonly job: Job;
  readonly format: Format;
}

interface Field {
  readonly label: string;
  readonly value: string;
  /** Share of the width of the row. */
  readonly share: number;
}

const label_mm = leastEm_mm;
const ems_mm = [3.4, 3, leastEm_mm] as const;

function fieldMarks({ label, value }: Field, box: Extents): Mark[] {
  const room = { width: box.x1 - box.x0 - 2, height: box.y1 - box.y0 - label_mm - 1 };
  const { em, lines } = fitted(value, room, ems_mm);
  const top = box.y1 - label_mm - 0.7;
  const most = Math.max(1, Math.floor(room.height / (leading * em)));
  const held = lines.slice(0, most);
  if (lines.length > most) held[most - 1] = cutTo(lines.slice(most - 1).join(' '), room.width, { em });
  return [
    lettering({ layer: 'LABELS', at: [box.x0 + 1, box.y1 - label_mm - 0.1], text: label, em: label_mm }),
    ...held.map((text, i) =>
      lettering({
        layer: 'LETTERING',
        at: [box.x0 + 1, top - (i + 0.85) * leading * em],
        text,
        em,
      }),
    ),
  ];
}

function rowMarks(fields: readonly Field[], box: Extents): Mark[] {
  const whole = fields.reduce((sum, field) => sum + field.share, 0);
  let x = box.x0;
  return fields.flatMap((field, i) => {
    const x0 = x;
    x += ((box.x1 - box.x0) * field.share) / whole;
    const edge = i === 0 ? [] : [line('BREAKS', [x0, box.y0], [x0, box.y1])];
    return [...edge, ...fieldMarks(field, { ...box, x0, x1: x })];
  });
}

/** The fields of ISO 7200: those it asks for, and of the rest those a workshop uses, the status among them. */
function fieldsOf(
  titled: Titled,
  draft: Draft,
  sheet: SheetNumber,
): { upper: Field[]; lower: Field[]; list: Field[] } {
  const { job, sizing, issued, format } = titled;
  const { title } = job;
  const date = { label: 'Date of issue', value: issued?.date ?? 'not issued', share: 26 };
  const upper = [
    { label: 'Legal owner', value: title.maker, share: 42 },
    { label: 'Title', value: title.job, share: 54 },
    { label: 'Document type', value: draft.titles.join(', '), share: 46 },
    { label: 'Document number', value: title.documentNumber, share: 32 },
    { label: 'Document status', value: statusText(titled), share: 60 },
    { label: 'Revision', value: title.revision, share: 16 },
    { label: 'Sheet', value: `${sheet.number} of ${sheet.count}`, share: 18 },
  ];
  const lower = [
    { label: 'Client', value: title.client, share: 52 },
    { label: 'Place', value: title.place, share: 54 },
    { label: 'Created by', value: title.drawnBy, share: 42 },
    { label: 'Released by', value: '', share: 34 },
    date,
    { label: 'Scale', value: draft.perPaper === 0 ? '–' : scaleText(draft.perPaper), share: 18 },
    { label: 'Paper', value: format, share: 14 },
    { label: 'Computed with', value: `Slotwatt ${sizing.engine}`, share: 34 },
  ];
  return { upper, lower, list: [...upper.slice(0, -2), date, ...upper.slice(-2)] };
}

/** A sheet with its frame and its title block along the lower edge: of a list, the row that tells it apart. */
export function finished(titled: Titled, draft: Draft, number: SheetNumber): Sheet {
  const { format } = titled;
  const frame = frameOf(format);
  const isList = draft.carries === 'list';
  const top = frame.y0 + titleBlockOf(draft.carries ?? 'drawing');
  const middle = top - titleRow_mm;
  const { upper, lower, list } = fieldsOf(titled, draft, number);
  const marks: Mark[] = [
    outline('FRAME', ...corners(frame)),
    line('FRAME', [frame.x0, top], [frame.x1, top]),
    ...rowMarks(isList ? list : upper, { ...frame, y0: middle, y1: top }),
    ...(isList
      ? []
      : [
          line('BREAKS', [frame.x0, middle], [frame.x1, middle]),
          ...rowMarks(lower, { ...frame, y1: middle }),
        ]),
  ];
  return { ...formats[format], ...draft, frame, marks: [...draft.marks, ...marks] };
}
