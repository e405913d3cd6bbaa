import type { Cable } from '../../../src/answer/cables.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';
import { fitted, leastEm_mm, textWidth, wrapped } from '../ink/lettering.ts';
import { circle, corners, lettering, line, type Mark, outline } from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { conductorCount, dimmerSymbol, fuseSymbol, goesOn, junction, lampSymbol } from './symbols.ts';
import { isMadeOff, type WiringOutput, type WiringRow, type WiringWay } from './wiring-rows.ts';

export const em = leastEm_mm;

/** Where the columns of the diagram stand on the sheet, mm. */
export interface Columns {
  readonly mains: number;
  readonly circuit: number;
  readonly converter: number;
  readonly terminals: number;
  readonly block: number;
  readonly fuse: number;
  readonly bus: number;
  readonly trunk: number;
  readonly lamp: number;
  readonly text: number;
  readonly end: number;
}

/** What hangs on an output, or as much of it as is on one sheet, each row with its height. */
export interface OutputRows {
  readonly output: WiringOutput;
  readonly rows: readonly PlacedRow[];
  /** Of the line from the driver. */
  readonly y: number;
}

/** A row where it stands; `way` is what it hangs on. */
export interface PlacedRow {
  readonly row: WiringRow;
  readonly way: WiringWay;
  readonly y: number;
}

export const note = (at: readonly [number, number], text: string, leadsTo?: string): Mark =>
  lettering({ layer: 'LETTERING', at, text, em, ...(leadsTo === undefined ? {} : { leadsTo }) });

const blockWidth_mm = 8;

const cut = ({ length_mm }: Cable): string => `cut ${shown(length_mm, 0)} mm`;

/** Reference, type and length where they fit; a long type stands in the cable schedule only. */
function cableText(cable: Cable, room: number, more = ''): string {
  const whole = `${cable.id}  ${cable.name}, ${cut(cable)}${more}`;
  const short = `${cable.id}  ${cut(cable)}${more}`;
  const least = `${cable.id}  ${cut(cable)}`;
  return [whole, short].find((text) => textWidth(text, em) <= room) ?? least;
}

/** Other cables that land at the same run. */
const alsoAt = (cable: Cable, run: string, { cables }: Sizing): string[] =>
  cables.flatMap(({ id, to }) => (id !== cable.id && to.kind === 'pad' && to.run === run ? [id] : []));

/** The run a cable feeds, with what flows into it; a run fed by several cables says by which others. */
function servedText(cable: Cable, sizing: Sizing): string {
  if (cable.to.kind !== 'pad') return '';
  const { run: id, feedPoint } = cable.to;
  const run = sizing.setOut.runs.find((each) => each.id === id);
  const solved = sizing.circuit.runs.find((each) => each.run === id);
  const feed = solved?.feed_A.find((each) => each.feedPoint === feedPoint);
  const flow = feed ? `, ${shown(feed.current_A, 2)} A` : '';
  const sign = { both: '', positive: ' (+)', return: ' (−)' }[cable.conductors];
  const others = alsoAt(cable, id, sizing);
  const also = others.length > 0 ? `, also fed by ${others.join(', ')}` : '';
  return `${feedPoint}${sign}, run ${id}: strip ${shown(run?.strip_mm ?? 0, 0)} mm${flow}${also}`;
}

function landingMarks(cable: Cable, sizing: Sizing, at: Columns, y: number, row_mm: number): Mark[] {
  const room = { width: at.end - at.text, height: row_mm };
  const served = fitted(servedText(cable, sizing), room, [em]);
  const middle = (served.lines.length - 1) / 2;
  return [
    circle('FEED_POINTS', [at.lamp - 1.2, y], 0.6, true),
    ...lampSymbol([at.lamp, y]),
    ...served.lines.map((text, i) => note([at.text, y - 0.36 * em + (middle - i) * 1.15 * em], text)),
  ];
}

/** A cable from where it begins to the run it feeds, with what is said of it. */
function feedMarks({ row, y }: PlacedRow, from: number, given: Drawn): Mark[] {
  const { at, sizing, row_mm } = given;
  const { cable, tap } = row;
  const labelled = from + (tap ? textWidth(tap, em) + 3 : 2);
  const said = cableText(cable, at.lamp - labelled - 7);
  return [
    line('CIRCUIT', [from, y], [at.lamp, y]),
    ...(tap ? [note([from + 1.5, y + 0.8], tap)] : []),
    ...conductorCount([labelled + 0.6, y], cable.conductorCount),
    note([labelled + 4, y + 0.8], said, `Cable schedule: ${cable.id}`),
    ...landingMarks(cable, sizing, at, y, row_mm),
  ];
}

/** What drawing needs besides the rows. */
export interface Drawn {
  readonly at: Columns;
  readonly sizing: Sizing;
  readonly row_mm: number;
}

function trunkMarks({ row, y }: PlacedRow, from: number, { at }: Drawn): Mark[] {
  const taps = row.cable.legs.filter(({ to }) => to.kind === 'tap').length;
  const back = row.cable.to.kind === 'tap' ? '' : ' and back';
  const more = `, one piece past ${taps} ${taps === 1 ? 'tap' : 'taps'}${back}`;
  const said = cableText(row.cable, at.end - at.trunk - 8, more);
  return [
    line('CIRCUIT', [from, y], [at.trunk, y]),
    ...conductorCount([from + 1.6, y], row.cable.conductorCount),
    note([at.trunk + 2, y - 0.9], said, `Cable schedule: ${row.cable.id}`),
  ];
}

/** From the far pads of one run back and on to the next. */
function chainMarks(placed: PlacedRow, before: PlacedRow | undefined, given: Drawn): Mark[] {
  const { at, row_mm } = given;
  const { y } = placed;
  const centre = at.lamp + 1.9;
  const between = y + row_mm / 2;
  const start = before ? before.y - 1.9 : between + 1;
  return [
    line('CIRCUIT', [centre, start], [centre, between], [at.trunk, between], [at.trunk, y]),
    ...feedMarks(placed, at.trunk, given),
  ];
}

/** The upright part of each trunk through its taps; one that is not whole on this sheet says so. */
function uprights({ rows, output }: OutputRows, { at, row_mm }: Drawn): Mark[] {
  const all = output.ways.flatMap((way) => way.rows);
  const trunks = new Set(rows.flatMap(({ row }) => row.trunk ?? []));
  return [...trunks].flatMap((trunk) => {
    const here = rows.filter(({ row }) => row.trunk === trunk);
    const whole = all.filter((row) => row.trunk === trunk);
    const [first, last] = [here[0]!, here.at(-1)!];
    const begins = first.row === whole[0];
    const ends = last.row === whole.at(-1);
    const top = begins ? first.y : first.y + row_mm / 2;
    const bottom = ends ? last.y : last.y - row_mm / 2;
    const taps = here.filter(({ row }, i) => row.tap !== null && row.tap !== here[i - 1]?.row.tap);
    return [
      line('CIRCUIT', [at.trunk, top], [at.trunk, bottom]),
      ...taps.map(({ y }) => junction([at.trunk, y])),
      ...(begins ? [] : [note([at.trunk + 1.5, top - 0.4], `${trunk.id} goes on`)]),
      ...(ends ? [] : goesOn([at.trunk, bottom], 'down')),
    ];
  });
}

const isReturn = ({ row }: PlacedRow): boolean => row.cable.conductors === 'return';

/** The number of a way, in the block. */
const wayNumber = (number: number, x: number, y: number): Mark =>
  lettering({ layer: 'LETTERING', at: [x - 0.8, y - 0.8], text: String(number), em, align: 'right' });

/** The way out of a block: its number, its fuse once, or that none fits. */
function stemMarks({ way, rows }: WiringWay, { at }: Drawn, y: number): Mark[] {
  const x0 = at.block + blockWidth_mm;
  const number = way ? [wayNumber(way.number, x0, y)] : [];
  const label = (text: string, layer: 'LETTERING' | 'MARKED'): Mark =>
    lettering({ layer, at: [at.fuse + 3, y + 1.4], text, em, align: 'middle' });
  if (way?.fuse) {
    const { id, rating_A } = way.fuse;
    return [
      ...number,
      line('CIRCUIT', [x0, y], [at.fuse, y]),
      ...fuseSymbol([at.fuse, y]),
      line('CIRCUIT', [at.fuse + 6, y], [at.bus, y]),
      label(`${id} ${rating_A} A`, 'LETTERING'),
    ];
  }
  const isBare = rows.some(({ cable }) => cable.protectedBy === 'nothing');
  return [
    ...number,
    line('CIRCUIT', [x0, y], [at.bus, y]),
    ...(isBare ? [label('no fuse fits', 'MARKED')] : []),
  ];
}

/** What a way feeds hangs on one upright line behind its fuse; returns leave before it. */
function wayMarks(rows: readonly PlacedRow[], given: Drawn, output: OutputRows): Mark[] {
  const { at } = given;
  const { way } = rows[0]!;
  const made = rows.filter(({ row }) => isMadeOff(row));
  const begins = rows[0]!.row === way.rows[0];
  const [behind, before] = [made.filter((each) => !isReturn(each)), made.filter(isReturn)];
  const stem = begins ? (way.way ? rows[0]!.y : output.y) : null;
  const ys = [...behind.map(({ y }) => y), ...(stem === null ? [] : [stem])];
  const high = stem === null && made.length > 0 ? rows[0]!.y + given.row_mm / 2 : Math.max(...ys);
  const low = Math.min(...ys);
  const last = rows.at(-1)!;
  const left = way.rows.slice(way.rows.indexOf(last.row) + 1).some(isMadeOff);
  const end = left ? last.y - given.row_mm / 2 : low;
  const pass = at.fuse - 1.2;
  const top = stem ?? high;
  return [
    ...(stem === null ? [] : stemMarks(way, given, stem)),
    ...(made.length > 0 || left ? [line('CIRCUIT', [at.bus, high], [at.bus, end])] : []),
    ...(left ? goesOn([at.bus, end], 'down') : []),
    ...(before.length > 0
      ? [
          line('CIRCUIT', [pass, top], [pass, Math.min(...before.map(({ y }) => y))]),
          ...before.map(({ y }) => line('CIRCUIT', [pass, y], [at.bus, y])),
        ]
      : []),
  ];
}

function rowMarks(placed: PlacedRow, before: PlacedRow | undefined, given: Drawn): Mark[] {
  const { at } = given;
  const { row, y } = placed;
  if (row.draws === 'trunk') return trunkMarks(placed, at.bus, given);
  if (row.draws === 'back') return [line('CIRCUIT', [at.trunk, y], [at.bus, y])];
  if (row.draws === 'chain') return chainMarks(placed, before, given);
  if (row.draws === 'feed') return feedMarks(placed, at.bus, given);
  return branchMarks(placed, before, given);
}

/** A branch from its tap; a second from the same tap leaves the first. */
function branchMarks(placed: PlacedRow, before: PlacedRow | undefined, given: Drawn): Mark[] {
  const { at } = given;
  const { row, y } = placed;
  if (before?.row.tap !== row.tap) return feedMarks(placed, at.trunk, given);
  const from = at.trunk + 1.5;
  const bare = { ...placed, row: { ...row, tap: null } };
  return [line('CIRCUIT', [from, before.y], [from, y]), ...feedMarks(bare, from, given)];
}

/** A short cable between two devices of one place: reference and length above its line, its type below. */
function linkMarks(link: Cable, x0: number, x1: number, y: number): Mark[] {
  const room = x1 - x0 - 3;
  const text = `${link.id}  ${cut(link)}`;
  const said = textWidth(text, em) <= room - 4 ? text : `${link.id}  ${shown(link.length_mm, 0)} mm`;
  const name = wrapped(link.name, room, { em });
  return [
    ...conductorCount([x0 + 1.8, y], link.conductorCount),
    note([x0 + 5.4, y + 0.8], said, `Cable schedule: ${link.id}`),
    ...name.map((each, i) => note([x0 + 1.5, y - (i + 1) * 1.15 * em], each)),
  ];
}

/** The dimmer, 7 mm wide, and its name below it. */
const dimmerMarks = (id: string, x: number, y: number): Mark[] => [
  ...dimmerSymbol([x, y]),
  lettering({ layer: 'LETTERING', at: [x + 3.5, y - 6.4], text: id, em, align: 'middle' }),
];

function blockMarks(id: string, isContinued: boolean, { at }: Drawn, of: OutputRows): Mark[] {
  const ys = of.rows.map(({ y }) => y);
  const [top, bottom] = [
    Math.max(of.y + 4.5, ...ys.map((y) => y + 2.5)),
    Math.min(of.y - 4.5, ...ys.map((y) => y - 2.5)),
  ];
  const box = { x0: at.block, y0: bottom, x1: at.block + blockWidth_mm, y1: top };
  return [
    outline('CIRCUIT', ...corners(box)),
    lettering({
      layer: 'LETTERING',
      at: [at.block + 3, (top + bottom) / 2],
      text: isContinued ? `${id} goes on` : id,
      em,
      align: 'middle',
      angle_deg: 90,
    }),
  ];
}

/** From the terminals of the output over a dimmer to the block. */
function headMarks(of: OutputRows, given: Drawn, isContinued: boolean): Mark[] {
  const { at } = given;
  const { output, y } = of;
  const { id, links, dimmer, block } = output;
  const end = block ? at.block : at.block + blockWidth_mm;
  const middle = dimmer && !isContinued ? (at.terminals + end - 7) / 2 : null;
  const spans =
    middle === null
      ? [[at.terminals, end]]
      : [
          [at.terminals, middle],
          [middle + 7, end],
        ];
  return [
    ...spans.map(([x0, x1]) => line('CIRCUIT', [x0!, y], [x1!, y])),
    ...(isContinued
      ? []
      : [
          note([at.terminals + 1.2, y + (links.length > 0 ? 3.8 : 0.8)], id),
          ...links.flatMap((link, i) => linkMarks(link, spans[i]![0]!, spans[i]![1]!, y)),
        ]),
    ...(dimmer && middle !== null ? dimmerMarks(dimmer.id, middle, y) : []),
    ...(block ? blockMarks(block.id, isContinued, given, of) : []),
  ];
}

/** All that hangs on an output, as much of it as is on this sheet. */
export function outputMarks(of: OutputRows, given: Drawn): Mark[] {
  const ways = [...new Set(of.rows.map(({ way }) => way))];
  const first = of.output.ways.find(({ rows }) => rows.length > 0);
  const isContinued = of.rows.length > 0 && of.rows[0]!.row !== first?.rows[0];
  return [
    ...headMarks(of, given, isContinued),
    ...ways.flatMap((way) =>
      wayMarks(
        of.rows.filter((each) => each.way === way),
        given,
        of,
      ),
    ),
    ...of.rows.flatMap((each, i) => rowMarks(each, of.rows[i - 1], given)),
    ...uprights(of, given),
  ];
}
