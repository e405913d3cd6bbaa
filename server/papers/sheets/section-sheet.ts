import type { Sizing } from '../../../src/answer/sizing.ts';
import type { Job } from '../../../src/job/job.ts';
import { touchText } from '../../../src/job/site.ts';
import { centred, largestThatFits, scaleText } from '../drawings/scale.ts';
import { section } from '../drawings/section.ts';
import { leading, wrapped } from '../ink/lettering.ts';
import { type Extents, extentsOf, lettering, type Mark } from '../ink/mark.ts';
import { apart, figure, shown } from '../shown.ts';
import { behindInFull } from '../wall-behind.ts';
import { driverPlacesDrafts, driverPlacesIn } from './driver-places-sheet.ts';
import { heading, headingRoom_mm } from './heading.ts';
import { bodyOf, type Draft, type Format } from './sheet.ts';
import type { Table } from './table.ts';
import { type TablePart, tableParts } from './table-sheets.ts';

const em = 2.5;
const table_mm = 125;

function temperatures(sizing: Sizing): Table {
  const figures = (label: string) => ({ label, unit: '°C', align: 'right', write_mm: 0, group: '' }) as const;
  return {
    title:
      sizing.heat.unknown === null
        ? 'Temperatures as computed'
        : 'Not known: temperatures of an upright slot',
    columns: [
      { label: 'Where', unit: '', align: 'left', write_mm: 0, group: '' },
      figures('Expected'),
      figures('Low'),
      figures('High'),
      figures('Limit'),
    ],
    rows: sizing.heat.temperatures.map(({ name, value_degC, low_degC, high_degC, limit_degC }) => {
      const [high, limit] = limit_degC === null ? [shown(high_degC, 0), '–'] : apart(high_degC, limit_degC);
      return [name, shown(value_degC, 0), shown(low_degC, 0), high, limit];
    }),
    marked: new Set(),
  };
}

/** Limits beside those that decide, such as "Hottest timber 60 and 90 °C". */
function furtherLimits({ heat }: Sizing): string {
  const further = heat.temperatures.flatMap(({ name, limits }) =>
    limits.length < 2
      ? []
      : [
          `${name} ${limits
            .slice(1)
            .map(({ limit_degC }) => shown(limit_degC, 0))
            .join(' and ')} °C`,
        ],
  );
  return further.length === 0 ? '' : `Further limits: ${further.join('; ')}.`;
}

/** How the front was taken to be met, and what that allows it. */
function touchRemark({ site }: Job, { temperatures }: Sizing['heat']): string {
  const limit = temperatures
    .find(({ id }) => id === 'face')
    ?.limits.find(({ id }) => id.startsWith('roomFace-touch'));
  const most = limit ? `: ${shown(limit.limit_degC, 0)} °C at most (${limit.basis})` : '';
  return `Front within reach taken as ${touchText[site.touch]}${most}.`;
}

/** Figures of boards and finishes that were entered from a maker's sheet, each with where it is from. */
function ownFigures({ section }: Job): string {
  // Revisions issued before such figures could be entered have no faces.
  const { front, backing, faces } = section;
  const said = (source: string | undefined): string => (source ? ` (${source})` : '');
  const board = (name: string, { conductivity_W_per_mK: own, source }: typeof front): string[] =>
    own === undefined || own === null ? [] : [`${name} ${figure(own, 3)} W/(m·K)${said(source)}`];
  const face = (name: string, reflectance: number | null, emissivity: number | null, source: string) => {
    const figures = [
      ...(reflectance === null ? [] : [`reflectance ${shown(reflectance, 2)}`]),
      ...(emissivity === null ? [] : [`emissivity ${shown(emissivity, 2)}`]),
    ];
    return figures.length === 0 ? [] : [`${name} ${figures.join(', ')}${said(source)}`];
  };
  const given = [
    ...board('front', front),
    ...board('backing', backing),
    ...(faces
      ? [
          ...face('face of the backing', faces.back.reflectance, faces.back.emissivity, faces.back.source),
          ...face('sides of the cavity', faces.side.reflectance, faces.side.emissivity, faces.side.source),
          ...face(
            'inner face of the front',
            faces.front.reflectance,
            faces.front.emissivity,
            faces.front.source,
          ),
          ...face('sides of the slot', faces.reveal.reflectance, null, faces.reveal.source),
        ]
      : []),
  ];
  return given.length === 0 ? '' : `Entered from makers' data sheets: ${given.join('; ')}.`;
}

/** The profile's own temperatures and light. */
function profileRemark({ heat: { profile }, light: { ofProfile } }: Sizing): string {
  // Revisions issued before there were profiles have neither key.
  if (!profile || !ofProfile) return '';
  const { mean_degC, coverInside_degC, coverOutside_degC, contact_W_per_m } = profile;
  const cover =
    coverInside_degC === null || coverOutside_degC === null
      ? 'without a cover'
      : `its cover ${shown(coverInside_degC, 0)} °C inside and ${shown(coverOutside_degC, 0)} °C outside`;
  const ripple =
    ofProfile.ripple === null
      ? ''
      : `, contrast of the LEDs on the cover ${shown(100 * ofProfile.ripple, 1)} %`;
  const cutOff =
    ofProfile.cutOff_deg === null
      ? ''
      : `, straight light cut off at ${shown(ofProfile.cutOff_deg, 0)}° from its normal`;
  return `Profile on average ${shown(mean_degC, 0)} °C, ${cover}, ${shown(contact_W_per_m, 1)} W/m into the timber it touches; ${shown(100 * ofProfile.leavingShare, 0)} % of the light leaves it${ripple}${cutOff}.`;
}

function remarks(job: Job, sizing: Sizing): string[] {
  const { heat, notes, conditions } = sizing;
  const level = conditions.length > 0 ? 'on average under the limit of the dimmer' : 'at full';
  return [
    `Heat of the strip: ${shown(heat.strip_W_per_m, 1)} W/m electrical at the worst place, ${level}, ${shown(heat.heat_W_per_m, 1)} W/m left in the build-up; room ${shown(job.site.room_degC, 0)} °C.`,
    `Behind the backing: ${behindInFull(job, sizing)}.`,
    ownFigures(job),
    profileRemark(sizing),
    furtherLimits(sizing),
    touchRemark(job, heat),
    `Computed by: ${heat.method}.`,
    heat.validity,
    ...notes.filter(({ sheet }) => sheet === 'section').map(({ sentence }) => sentence),
  ].filter((text) => text !== '');
}

/** A drawing with what is said of it, in a box, and tables that did not fit it. */
interface Block {
  readonly marks: readonly Mark[];
  readonly perPaper: number;
  readonly rest: readonly TablePart[];
}

/** The section at the largest standard scale that fits above the temperatures of its parts and the remarks beside them. */
function sectionAbove(job: Job, sizing: Sizing, body: Extents): Block {
  const x1 = body.x0 + table_mm;
  const highest = (body.y1 - body.y0) * 0.6;
  const table = temperatures(sizing);
  const notes = remarks(job, sizing).flatMap((text) => wrapped(text, body.x1 - x1 - 8, { em }));
  const notes_mm = headingRoom_mm + (notes.length + 0.4) * em * leading;
  const tableHeight_mm = tableParts(table, { ...body, x1, y1: body.y0 + highest })[0]!.height;
  const tableTop = body.y0 + Math.max(tableHeight_mm, notes_mm);
  const box = { ...body, y0: tableTop + 4, y1: body.y1 - headingRoom_mm };
  const drawing = largestThatFits((perPaper) => section(job, sizing, perPaper), box);
  const [first, ...rest] = tableParts(table, { ...body, x1, y1: tableTop });
  const marks = [
    heading(`Section through a slot ${scaleText(drawing.perPaper)}`, body),
    ...centred(drawing, box),
    ...first!.marks,
    ...linesAt(notes, x1 + 8, tableTop - headingRoom_mm),
  ];
  return { perPaper: drawing.perPaper, marks, rest };
}

const linesAt = (lines: readonly string[], x: number, top: number): Mark[] =>
  lines.map((text, i) =>
    lettering({ layer: 'LETTERING', at: [x, top - (i + 0.9) * em * leading], text, em }),
  );

/** The section at no smaller scale than asked for, temperatures and remarks beside it; undefined where that does not fit. */
function sectionBeside(
  job: Job,
  sizing: Sizing,
  body: Extents,
  perPaper: number,
): (Block & { height: number }) | undefined {
  const drawing = section(job, sizing, perPaper);
  const { x0, x1, y0, y1 } = extentsOf(drawing.marks);
  const [width, height] = [(x1 - x0) / perPaper, (y1 - y0) / perPaper];
  const left = body.x0 + width + 8;
  if (body.x1 - left < table_mm - 10) return undefined;
  const [part, ...further] = tableParts(temperatures(sizing), { ...body, x0: left });
  const notes = remarks(job, sizing).flatMap((text) => wrapped(text, body.x1 - left, { em }));
  const beside = part!.height + 2 + notes.length * em * leading;
  const used = Math.max(headingRoom_mm + height, beside);
  if (further.length > 0 || used > body.y1 - body.y0) return undefined;
  const box = {
    ...body,
    x1: body.x0 + width,
    y0: body.y1 - headingRoom_mm - height,
    y1: body.y1 - headingRoom_mm,
  };
  return {
    perPaper,
    height: used,
    rest: [],
    marks: [
      heading(`Section through a slot ${scaleText(perPaper)}`, body),
      ...centred(drawing, box),
      ...part!.marks,
      ...linesAt(notes, left, body.y1 - part!.height - 2),
    ],
  };
}

/** The section on a sheet, with temperatures and remarks. */
export function sectionDrafts(job: Job, sizing: Sizing, format: Format): Draft[] {
  const { rest, ...block } = sectionAbove(job, sizing, bodyOf(format));
  return [
    { titles: ['Section'], ...block },
    ...rest.map((part) => ({ titles: ['Section, temperatures'], perPaper: 0, marks: part.marks })),
  ];
}

/** Air between two drawings on one sheet, mm. */
const apart_mm = 8;

/** Driver places and section on one sheet of A3 where both are no smaller than on a sheet of A4 each, else on sheets of their own. */
export function placesAndSection(job: Job, sizing: Sizing, format: Format): Draft[] {
  const alone = () => [...driverPlacesDrafts(job, sizing, format), ...sectionDrafts(job, sizing, format)];
  if (format === 'A4') return alone();
  const body = bodyOf(format);
  const onA4 = {
    places: driverPlacesDrafts(job, sizing, 'A4'),
    section: sectionDrafts(job, sizing, 'A4')[0]!.perPaper,
  };
  const block = sectionBeside(job, sizing, body, onA4.section);
  if (!block || onA4.places.length > 1) return alone();
  const [places, ...further] = driverPlacesIn(job, sizing, {
    ...body,
    y1: body.y1 - block.height - apart_mm,
  });
  if (further.length > 0 || places!.perPaper > onA4.places[0]!.perPaper) return alone();
  return [
    {
      titles: ['Section', 'Driver places'],
      perPaper: block.perPaper,
      marks: [...block.marks, ...places!.marks],
    },
  ];
}
