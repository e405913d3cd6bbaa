import type { Cable } from '../../../src/answer/cables.ts';
import type { CircuitRun } from '../../../src/answer/circuit.ts';
import type { Driver } from '../../../src/answer/drivers.ts';
import type { Sizing } from '../../../src/answer/sizing.ts';
import { cableEndText } from '../../../src/index.ts';
import type { Job } from '../../../src/job/job.ts';
import { fitted, textWidth } from '../ink/lettering.ts';
import { circle, corners, type Extents, filled, lettering, line, type Mark, outline } from '../ink/mark.ts';
import { shown } from '../shown.ts';
import { landingCable } from './elevation-labels.ts';
import { breakerSymbol, conductorCount, converterSymbol, fuseSymbol, lampSymbol } from './symbols.ts';

/** Heights of a row with one cable from comfortable to tight, and of the least a driver takes, mm of the paper. */
const rows_mm = [6.4, 6, 5.6] as const;
const driver_mm = 21;
/** Lettering, mm: capitals of 1.8 mm, and smaller only where a text would not fit. */
const em = 2.5;

/** One cable of a driver as it is drawn. */
interface CableLine {
  readonly cable: Cable;
  /** The driver output it hangs on, at whatever remove. */
  readonly output: string;
  /** Feed points it lands at, and how much flows into them; none for a part of a trunk. */
  readonly lands: boolean;
  readonly served: string;
}

/** A driver, or what goes on of it, on one sheet. */
interface Block {
  readonly driver: Driver;
  readonly isContinued: boolean;
  readonly lines: readonly CableLine[];
}

const listed = (ids: readonly string[]): string =>
  ids.length <= 3 ? ids.join(', ') : `${ids[0]} to ${ids.at(-1)} (${ids.length})`;

function servedText(cable: Cable, lands: boolean, sizing: Sizing): string {
  const feedPoints = sizing.setOut.runs.flatMap((run) => run.feedPoints);
  const here = feedPoints.filter((each) => cable.serves.includes(each.id));
  if (!lands || here.length !== 1) return `to ${listed(cable.serves)}`;
  const feedPoint = here[0]!;
  const run = sizing.setOut.runs.find((each) => each.id === feedPoint.run);
  const solved = sizing.circuit.runs.find((each) => each.run === feedPoint.run);
  const feed = solved?.feed_A.find((each) => each.feedPoint === feedPoint.id);
  const flow = feed ? `, ${shown(feed.current_A, 2)} A` : '';
  const sign = { both: '', positive: ' (+)', return: ' (−)' }[feedPoint.conductors];
  return `${feedPoint.id}${sign}, run ${feedPoint.run}: strip ${shown(run?.strip_mm ?? 0, 0)} mm${flow}`;
}

function linesOf(driver: Driver, sizing: Sizing): CableLine[] {
  const runs = new Map<string, CircuitRun>(sizing.circuit.runs.map((run) => [run.run, run]));
  const feedPoints = sizing.setOut.runs.flatMap((run) => run.feedPoints);
  const landing = new Set(feedPoints.map((each) => landingCable(each, sizing.cables)?.id));
  const lines = sizing.cables.flatMap((cable): CableLine[] => {
    const feedPoint = feedPoints.find((each) => cable.serves.includes(each.id));
    const run = feedPoint && runs.get(feedPoint.run);
    if (!run || run.driver !== driver.id) return [];
    const lands = landing.has(cable.id);
    return [{ cable, output: run.output, lands, served: servedText(cable, lands, sizing) }];
  });
  return driver.outputs.flatMap(({ id }) => lines.filter(({ output }) => output === id));
}

const heightOf = (lineCount: number, row_mm: number): number => Math.max(driver_mm, lineCount * row_mm + 5);

/** Drivers as blocks; a driver with more cables than fit a sheet goes on in another block. */
function blocksOf(sizing: Sizing, row_mm: number, room: number): Block[] {
  const most = Math.floor((room - 5) / row_mm);
  return sizing.drivers.drivers.flatMap((driver) => {
    const lines = linesOf(driver, sizing);
    return Array.from({ length: Math.max(1, Math.ceil(lines.length / most)) }, (_, i): Block => {
      return { driver, isContinued: i > 0, lines: lines.slice(i * most, (i + 1) * most) };
    });
  });
}

/** Blocks one below the other, a new sheet where the next does not fit. */
function stacked(blocks: readonly Block[], row_mm: number, room: number): Block[][] {
  const sheets: Block[][] = [[]];
  let used = 0;
  for (const block of blocks) {
    const height = heightOf(block.lines.length, row_mm);
    if (used + height > room && used > 0) {
      sheets.push([]);
      used = 0;
    }
    sheets.at(-1)!.push(block);
    used += height;
  }
  return sheets;
}

/** Steps by which sheets are filled more evenly, mm. */
const evener_mm = 4;

/** As few sheets as the tightest rows allow, with rows as comfortable as that permits, and evenly filled. */
function blocksBySheet(sizing: Sizing, room: number): { sheets: Block[][]; row_mm: number } {
  const ways = rows_mm.map((row_mm) => {
    const blocks = blocksOf(sizing, row_mm, room);
    return { row_mm, blocks, sheets: stacked(blocks, row_mm, room) };
  });
  const fewest = Math.min(...ways.map(({ sheets }) => sheets.length));
  const { row_mm, blocks, sheets } = ways.find((way) => way.sheets.length === fewest)!;
  let even = sheets;
  for (let less = room - evener_mm; less > 0; less -= evener_mm) {
    const trial = stacked(blocks, row_mm, less);
    if (trial.length > fewest) break;
    even = trial;
  }
  return { sheets: even, row_mm };
}

const note = (at: readonly [number, number], text: string, size = em): Mark =>
  lettering({ layer: 'LETTERING', at, text, em: size });

/** Where the columns of the diagram stand, mm from the left edge of the sheet's body. */
function columns(body: Extents) {
  const x = body.x0;
  const wider = Math.max(0, body.x1 - body.x0 - 250);
  return {
    mains: x + 6,
    converter: x + 20,
    bus: x + 75 + wider * 0.2,
    fuse: x + 94 + wider * 0.2,
    cable: x + 100 + wider * 0.2,
    lamp: x + 170 + wider * 0.65,
    text: x + 176 + wider * 0.65,
    end: body.x1,
  };
}

type Columns = ReturnType<typeof columns>;

const cable_ems = [em, 2.3, 2.1] as const;

/** Reference, type and length where they fit; a long type stands in the cable schedule only. */
function cableText({ cable }: CableLine, room: number): { text: string; em: number } {
  const cut = `cut ${shown(cable.length_mm, 0)} mm`;
  const whole = `${cable.id}  ${cable.name}, ${cut}`;
  const fitting = cable_ems.find((each) => textWidth(whole, each) <= room);
  return fitting ? { text: whole, em: fitting } : { text: `${cable.id}  ${cut}`, em };
}

function fuseMarks(cable: Cable, at: Columns, y: number): Mark[] {
  if (cable.fuse_A === null) {
    const bare = lettering({ layer: 'MARKED', at: [at.fuse - 4, y + 0.6], text: 'no fuse fits', em: 2.1 });
    return [line('CIRCUIT', [at.fuse, y], [at.cable, y]), ...(cable.protectedBy === 'nothing' ? [bare] : [])];
  }
  const text = `${shown(cable.fuse_A, Number.isInteger(cable.fuse_A) ? 0 : 1)} A`;
  return [
    ...fuseSymbol([at.fuse, y]),
    lettering({ layer: 'LETTERING', at: [at.fuse + 3, y + 1.4], text, em, align: 'middle' }),
  ];
}

function lineMarks(each: CableLine, at: Columns, y: number, row_mm: number): Mark[] {
  const { cable } = each;
  const end = each.lands ? at.lamp : at.lamp - 3;
  const room = { width: at.end - at.text, height: row_mm };
  const served = fitted(each.served, room, [em, 2.3, 2.1, 1.9]);
  const said = cableText(each, end - at.cable - 8);
  return [
    line('CIRCUIT', [at.bus, y], [at.fuse, y]),
    note([at.bus + 1.2, y + 0.7], cableEndText(cable.from)),
    ...fuseMarks(cable, at, y),
    line('CIRCUIT', [at.cable, y], [end, y]),
    ...conductorCount([at.cable + 2.5, y], cable.conductorCount),
    note([at.cable + 6, y + 0.8], said.text, said.em),
    ...(each.lands
      ? [circle('FEED_POINTS', [end - 1.2, y], 0.6, true), ...lampSymbol([end, y])]
      : [filled('CIRCUIT', [end, y - 0.9], [end, y + 0.9], [end + 2, y])]),
    ...served.lines.map((text, i) =>
      note(
        [at.text, y - 0.36 * served.em + ((served.lines.length - 1) / 2 - i) * 1.15 * served.em],
        text,
        served.em,
      ),
    ),
  ];
}

function driverTexts({ driver, isContinued }: Block): string[] {
  const usable_W = driver.outputs.reduce((sum, output) => sum + output.usable_W, 0);
  return [
    `${driver.id}${isContinued ? ', continued' : ''}`,
    driver.name,
    driver.place,
    `${shown(driver.watts, 1)} W of ${shown(usable_W, 1)} W usable`,
    `mains ${shown(driver.input_W, 1)} W, ${shown(driver.input_A, 2)} A`,
  ];
}

/** Where the terminals of a driver with several outputs begin, left of what hangs on them, mm. */
const terminals_mm = 7;

const hasSeveral = ({ driver }: Block): boolean => driver.outputs.length > 1;

/** What one output feeds hangs on one upright line; several outputs leave a strip of terminals apart. */
function outputMarks(block: Block, at: Columns, rows: readonly number[]): Mark[] {
  if (rows.length === 0) return [];
  const outputs = [...new Set(block.lines.map(({ output }) => output))];
  const spans = outputs.map((output) => {
    const here = rows.filter((_, i) => block.lines[i]!.output === output);
    return { top: here[0]!, bottom: here.at(-1)! };
  });
  const bars = spans.map(({ top, bottom }) => line('CIRCUIT', [at.bus, top], [at.bus, bottom]));
  if (!hasSeveral(block)) return bars;
  const x0 = at.bus - terminals_mm;
  const strip = { x0, y0: rows.at(-1)! - 1.5, x1: x0 + 3, y1: rows[0]! + 1.5 };
  return [
    ...bars,
    outline('CIRCUIT', ...corners(strip)),
    ...spans.map(({ top, bottom }) =>
      line('CIRCUIT', [strip.x1, (top + bottom) / 2], [at.bus, (top + bottom) / 2]),
    ),
  ];
}

function blockMarks(block: Block, at: Columns, top: number, row_mm: number): Mark[] {
  const height = heightOf(block.lines.length, row_mm);
  const middle = top - height / 2;
  const first = middle + ((block.lines.length - 1) * row_mm) / 2;
  const rows = block.lines.map((_, i) => first - i * row_mm);
  const box = { width: at.bus - at.converter - 15 - (hasSeveral(block) ? terminals_mm : 0), height: 4.6 };
  return [
    line('CIRCUIT', [at.mains, middle], [at.converter, middle]),
    circle('CIRCUIT', [at.mains, middle], 0.6, true),
    ...converterSymbol([at.converter, middle]),
    line('CIRCUIT', [at.converter + 11, middle], [at.bus - (hasSeveral(block) ? terminals_mm : 0), middle]),
    ...driverTexts(block).map((text, i) => {
      const { em: size, lines } = fitted(text, box, [i === 0 ? 3.2 : em, 2.3, 2, 1.8, 1.6]);
      const y = i < 3 ? middle + 7.6 - i * 3 : middle - 2.9 - (i - 3) * 3;
      return lettering({
        layer: 'LETTERING',
        at: [at.converter + 12.5, y],
        text: lines.join(' '),
        em: Math.min(
          size,
          size * (box.width / Math.max(box.width, textWidth(lines.join(' '), size, i === 0))),
        ),
        bold: i === 0,
      });
    }),
    ...outputMarks(block, at, rows),
    ...block.lines.flatMap((each, i) => lineMarks(each, at, rows[i]!, row_mm)),
  ];
}

function mainsMarks(job: Job, sizing: Sizing, at: Columns, top: number, bottom: number): Mark[] {
  const { breaker, drivers } = sizing.drivers;
  const texts = [
    `Mains ${shown(job.site.mains_V, 0)} V, L N PE. Circuit-breaker ${breaker.name}, ${breaker.breakerCount} needed for ${drivers.length} ${drivers.length === 1 ? 'driver' : 'drivers'}, at most ${breaker.mostDrivers} on each.`,
    'Chosen, placed and connected by a licensed electrician. Everything right of the drivers is SELV.',
  ];
  return [
    ...texts.map((text, i) => note([at.mains + 6, top - 3.4 - i * 3.6], text)),
    ...conductorCount([at.mains, top - 11.8], 3),
    ...breakerSymbol([at.mains, top - 1]),
    line('CIRCUIT', [at.mains, top - 11], [at.mains, bottom]),
  ];
}

const head_mm = 14;

interface DiagramSheet {
  readonly blocks: readonly Block[];
  readonly row_mm: number;
  readonly body: Extents;
}

function diagramSheet(job: Job, sizing: Sizing, { blocks, row_mm, body }: DiagramSheet): Mark[] {
  const at = columns(body);
  let top = body.y1 - head_mm;
  let lastMiddle = top;
  const marks = blocks.flatMap((block) => {
    const drawn = blockMarks(block, at, top, row_mm);
    const height = heightOf(block.lines.length, row_mm);
    lastMiddle = top - height / 2;
    top -= height;
    return drawn;
  });
  return [...mainsMarks(job, sizing, at, body.y1, lastMiddle), ...marks];
}

/**
 * The single-line diagram with symbols after IEC 60617, sheet by sheet in millimetres of the paper: mains,
 * circuit-breaker, drivers, fuses, cables, feed points and runs. Drivers stand below one another; each sheet begins
 * at the mains again.
 *
 * @param body the part of the sheet to draw in
 */
export function singleLineSheets(job: Job, sizing: Sizing, body: Extents): Mark[][] {
  const { sheets, row_mm } = blocksBySheet(sizing, body.y1 - body.y0 - head_mm);
  return sheets.map((blocks) => diagramSheet(job, sizing, { blocks, row_mm, body }));
}
