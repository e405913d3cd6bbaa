import type { Sizing } from '../../../src/answer/sizing.ts';
import type { Job } from '../../../src/job/job.ts';
import { cutTo, wrapped } from '../ink/lettering.ts';
import { circle, corners, type Extents, lettering, line, type Mark, outline } from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { type Columns, em, note, type OutputRows, outputMarks, type PlacedRow } from './single-line-rows.ts';
import {
  type DriverPart,
  driver_mm,
  heightOf,
  type Part,
  partsBySheet,
  slotCount,
  slotsOf,
} from './single-line-sheets.ts';
import { breakerSymbol, conductorCount, converterSymbol, goesOn } from './symbols.ts';

/** Columns, wider on a wider sheet; a dimmer takes room of its own. */
function columns(body: Extents, hasDimmers: boolean): Columns {
  const x = body.x0;
  const wider = Math.max(0, body.x1 - x - 250);
  const dimmer = hasDimmers ? Math.min(30, 14 + 0.13 * wider) : 0;
  const block = x + 88 + dimmer + wider * 0.18;
  return {
    mains: x + 3,
    circuit: x + 13,
    converter: x + 18,
    terminals: x + 61 + wider * 0.08,
    block,
    fuse: block + 12,
    bus: block + 24,
    trunk: block + 29,
    lamp: x + 172 + dimmer * 0.6 + wider * 0.65,
    text: x + 178 + dimmer * 0.6 + wider * 0.65,
    end: body.x1,
  };
}

function driverTexts({ driver, isContinued }: DriverPart): string[] {
  const usable_W = driver.outputs.reduce((sum, output) => sum + output.usable_W, 0);
  return [
    `${driver.id}${isContinued ? ', continued' : ''}`,
    driver.name,
    driver.place,
    `${shown(driver.watts, 1)} of ${shown(usable_W, 1)} W usable`,
    `mains ${shown(driver.input_W, 1)} W, ${shown(driver.input_A, 2)} A`,
  ];
}

/** Where the terminals of a driver with several outputs begin, left of what hangs on them, mm. */
const terminals_mm = 4;

/** Several outputs leave a strip of terminals apart. */
function terminalMarks(ys: readonly number[], at: Columns, middle: number): Mark[] {
  const end = at.converter + 11;
  if (ys.length === 1)
    return [line('CIRCUIT', [end, middle], [at.terminals, middle], [at.terminals, ys[0]!])];
  const x0 = at.terminals - terminals_mm;
  const [top, bottom] = [Math.max(middle, ...ys) + 1.5, Math.min(middle, ...ys) - 1.5];
  return [
    line('CIRCUIT', [end, middle], [x0, middle]),
    outline('CIRCUIT', ...corners({ x0, y0: bottom, x1: x0 + 3, y1: top })),
    ...ys.map((y) => line('CIRCUIT', [x0 + 3, y], [at.terminals, y])),
  ];
}

function textMarks(part: DriverPart, at: Columns, middle: number): Mark[] {
  const width = at.terminals - at.converter - 13 - (part.parts.length > 1 ? terminals_mm : 0);
  return driverTexts(part).map((text, i) => {
    const face = { em: i === 0 ? 3.2 : em, bold: i === 0 };
    return lettering({
      layer: 'LETTERING',
      at: [at.converter + 12.5, i < 3 ? middle + 7.6 - i * 3 : middle - 2.9 - (i - 3) * 3],
      text: cutTo(text, width, face),
      ...face,
    });
  });
}

/** Outputs below one another, from a height down. */
function placedOutputs(parts: readonly Part[], from: number, row_mm: number): OutputRows[] {
  let slot = 0;
  return parts.map((part) => {
    const slots = slotsOf(part);
    const first = slot + (slots - Math.max(1, part.rows.length)) / 2;
    const rows = part.rows.map((each, i): PlacedRow => ({ ...each, y: from - (first + i) * row_mm }));
    const y = from - (slot + (slots - 1) / 2) * row_mm;
    slot += slots;
    return { output: part.output, rows, y };
  });
}

interface DiagramSheet {
  readonly drivers: readonly DriverPart[];
  readonly row_mm: number;
  readonly body: Extents;
}

/** A driver with all that hangs on it, in the middle of its height. */
function driverMarks(
  part: DriverPart,
  given: { at: Columns; sizing: Sizing; row_mm: number },
  middle: number,
): Mark[] {
  const { at, row_mm } = given;
  const from = middle + ((slotCount(part.parts) - 1) * row_mm) / 2;
  const outputs = placedOutputs(part.parts, from, row_mm);
  return [
    line('CIRCUIT', [at.circuit, middle], [at.converter, middle]),
    ...converterSymbol([at.converter, middle]),
    ...textMarks(part, at, middle),
    ...terminalMarks(
      outputs.map(({ y }) => y),
      at,
      middle,
    ),
    ...outputs.flatMap((output) => outputMarks(output, given)),
  ];
}

/** A driver on this sheet and the middle of its height. */
interface Standing {
  readonly part: DriverPart;
  readonly middle: number;
}

/** Drivers of one breaker hang on one line behind it; one begun on an earlier sheet goes on. */
function circuitMarks(standing: readonly Standing[], sizing: Sizing, at: Columns): Mark[] {
  const { breaker } = sizing.drivers;
  return breaker.loads.flatMap(({ id, drivers }) => {
    const here = standing.filter(({ part }) => drivers.includes(part.driver.id));
    if (here.length === 0) return [];
    const { part, middle } = here[0]!;
    const begins = part.driver.id === drivers[0] && !part.isContinued;
    const top = begins ? middle : middle + driver_mm / 2 - 3;
    const text = begins ? `${id} ${breaker.name}` : `${id} goes on`;
    return [
      ...(begins ? breakerSymbol([at.mains, middle]) : goesOn([at.circuit, top], 'up')),
      note(begins ? [at.mains + 1, middle + 3] : [at.circuit + 1.5, top - 0.3], text),
      line('CIRCUIT', [at.circuit, top], [at.circuit, here.at(-1)!.middle]),
    ];
  });
}

function mainsTexts(job: Job, { drivers: { breaker, drivers }, installation }: Sizing): string[] {
  const dimmer = installation.dimmers.length > 0 ? '; square with an arrow: a dimmer' : '';
  const each = `at most ${breaker.most} on each`;
  const count =
    breaker.loads.length === 0
      ? `no ${breaker.name} suits these drivers: see the open findings`
      : `circuit-breaker ${breaker.name}: ${breaker.loads.length} for ${drivers.length} ${drivers.length === 1 ? 'driver' : 'drivers'}, ${each}`;
  return [
    `Mains ${shown(job.site.mains_V, 0)} V, L N PE; ${count}. Everything right of the drivers is SELV where the driver is marked so.`,
    'Mains side chosen, placed and connected by a licensed electrician. Isolator, residual-current device and protective earth are not drawn.',
    `Stroke and number: conductors of a cable. Dot: a tap or joint; lines that cross without one are not joined. Rectangle on a line: fuse; tall box: distribution block with its ways; circle with a cross: a run of strip${dimmer}.`,
  ];
}

/** Lines of the head, of which there are five at most, mm. */
const line_mm = 3.2;
const head_mm = 18;

function mainsMarks(
  job: Job,
  standing: readonly Standing[],
  sizing: Sizing,
  at: Columns,
  top: number,
): Mark[] {
  const texts = mainsTexts(job, sizing);
  const width = at.end - at.mains - 6;
  const { loads } = sizing.drivers.breaker;
  const bare = loads.length === 0;
  const leaves = ({ part }: Standing): boolean =>
    bare || loads.some(({ drivers }) => drivers[0] === part.driver.id && !part.isContinued);
  const last = standing.findLast(leaves)?.middle;
  return [
    ...texts
      .flatMap((text) => wrapped(text, width, { em }))
      .map((text, i) => note([at.mains + 6, top - 3.2 - i * line_mm], text)),
    ...(last === undefined
      ? []
      : [
          circle('CIRCUIT', [at.mains, top - 1], 0.6),
          ...conductorCount([at.mains, top - 5], 3),
          line('CIRCUIT', [at.mains, top - 1.6], [at.mains, last]),
        ]),
    ...(bare ? standing.map(({ middle }) => line('CIRCUIT', [at.mains, middle], [at.circuit, middle])) : []),
    ...circuitMarks(standing, sizing, at),
  ];
}

function diagramSheet(job: Job, sizing: Sizing, { drivers, row_mm, body }: DiagramSheet): Mark[] {
  const at = columns(body, sizing.installation.dimmers.length > 0);
  let top = body.y1 - head_mm;
  const standing = drivers.map((part): Standing => {
    const height = heightOf(part, row_mm);
    const middle = top - height / 2;
    top -= height;
    return { part, middle };
  });
  return [
    ...mainsMarks(job, standing, sizing, at, body.y1),
    ...standing.flatMap(({ part, middle }) => driverMarks(part, { at, sizing, row_mm }, middle)),
  ];
}

/**
 * The single-line diagram with symbols after IEC 60617, sheet by sheet in millimetres of the paper: mains, each
 * circuit-breaker with its drivers, then the wiring as the tree it is: dimmers, distribution blocks with ways and fuses,
 * trunks with their taps, rings that come back, runs fed through one another. A sheet on which a breaker stands begins at the mains again.
 *
 * @param body the part of the sheet to draw in
 */
export function singleLineSheets(job: Job, sizing: Sizing, body: Extents): Mark[][] {
  const { sheets, row_mm } = partsBySheet(sizing, body.y1 - body.y0 - head_mm);
  return sheets.map((drivers) => diagramSheet(job, sizing, { drivers, row_mm, body }));
}
