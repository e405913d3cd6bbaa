import type { Sizing } from '../../../src/answer/sizing.ts';
import type { DriverPlace, Job } from '../../../src/job/job.ts';
import { casesIn } from '../drawings/driver-cases.ts';
import { driverPlaces } from '../drawings/driver-places.ts';
import { centred, type Drawing, largestThatFits, scaleText } from '../drawings/scale.ts';
import { leading, wrapped } from '../ink/lettering.ts';
import { type Extents, lettering } from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { heading, headingRoom_mm } from './heading.ts';
import { bodyOf, type Draft, type Format } from './sheet.ts';
import type { Table } from './table.ts';
import { tableParts } from './table-sheets.ts';

const em = 2.5;

/** Where cases are measured from: the panel's lower left corner, or that of a place that is far from the panel. */
const originOf = ({ kind, x_mm, y_mm }: DriverPlace): readonly [number, number] =>
  kind === 'remote' ? [x_mm, y_mm] : [0, 0];

/** Where each driver, dimmer and block is fixed. */
function positions(job: Job, sizing: Sizing): Table {
  const figures = (label: string) => ({ label, unit: 'mm', align: 'right', write_mm: 0, group: '' }) as const;
  const words = (label: string) => ({ label, unit: '', align: 'left', write_mm: 0, group: '' }) as const;
  const rows = job.drivers.places.flatMap((place) => {
    const { cases, without } = casesIn(place, sizing);
    const [x, y] = originOf(place);
    return [
      ...cases.map(({ id, box }) => [
        id,
        place.name,
        ...[box.x0 - x, box.y0 - y, box.x1 - box.x0, box.y1 - box.y0].map((value) => shown(value, 0)),
      ]),
      ...without.map((id) => [id, `${place.name}: no room`, '', '', '', '']),
    ];
  });
  return {
    title: 'Device positions',
    columns: [
      words('Device'),
      words('Place'),
      ...['Corner from left', 'Corner from bottom', 'Across', 'Up'].map(figures),
    ],
    rows,
    marked: new Set(),
  };
}

/** What the drawing of the places leaves unsaid. */
function seenText(places: readonly DriverPlace[]): string {
  const remote = places.filter(({ kind }) => kind === 'remote').map(({ name }) => name);
  const own = remote.length > 0 ? `, in ${remote.join(' and ')} from that of the place` : '';
  return `Seen from the room. Lower left corner of each case from the panel’s lower left corner (0, 0)${own}; the clearance its maker asks for is kept round each; the bar is the side of the outgoing terminals, the circle the hole cables leave by. Cables are drawn the straight way: lay them beside cases, not over them. Places are drawn beside one another, not as far apart as they are.`;
}

const most = 4;

/** Some of the driver places at the largest standard scale that fits the left of a sheet, with notes below them. */
function placesMarks(sizing: Sizing, places: readonly DriverPlace[], body: Extents): Drawing {
  const width = body.x1 - body.x0;
  const notes = [
    seenText(places),
    ...sizing.drivers.places
      .filter(({ name }) => places.some((place) => place.name === name))
      .map(({ name, fitNote }) => `${name}: ${fitNote}`),
    ...sizing.notes.filter(({ sheet }) => sheet === 'drivers').map(({ sentence }) => sentence),
  ].flatMap((text) => wrapped(text, width, { em }));
  const floor = body.y0 + (notes.length + 0.6) * em * leading;
  const box = { ...body, y0: floor, y1: body.y1 - headingRoom_mm };
  const drawing = largestThatFits((perPaper) => driverPlaces({ sizing, places }, perPaper, width), box);
  const marks = [
    heading(`Driver places ${scaleText(drawing.perPaper)}`, body),
    ...centred(drawing, box),
    ...notes.map((text, i) =>
      lettering({ layer: 'LETTERING', at: [body.x0, floor - (i + 1) * em * leading], text, em }),
    ),
  ];
  return { marks, perPaper: drawing.perPaper };
}

/** The driver places in boxes alike on one sheet after another, each driver in its own position, with a list of the positions beside them. */
export function driverPlacesIn(job: Job, sizing: Sizing, body: Extents): Drawing[] {
  const middle = body.x0 + (body.x1 - body.x0) * 0.6;
  const used = job.drivers.places.filter(({ name }) =>
    sizing.drivers.drivers.some(({ place }) => place === name),
  );
  const tables = tableParts(positions(job, sizing), { ...body, x0: middle });
  const sheets = Array.from({ length: Math.ceil(used.length / most) }, (_, i) =>
    placesMarks(sizing, used.slice(i * most, (i + 1) * most), { ...body, x1: middle - 8 }),
  );
  return Array.from(
    { length: Math.max(sheets.length, tables.length) },
    (_, i): Drawing => ({
      perPaper: sheets[i]?.perPaper ?? 0,
      marks: [...(sheets[i]?.marks ?? []), ...(tables[i]?.marks ?? [])],
    }),
  );
}

/** The driver places on sheets of their own. */
export const driverPlacesDrafts = (job: Job, sizing: Sizing, format: Format): Draft[] =>
  driverPlacesIn(job, sizing, bodyOf(format)).map((drawing) => ({ titles: ['Driver places'], ...drawing }));
