import type { Schedule } from '../../src/answer/schedules.ts';
import { counted } from '../format.ts';
import { type ReadingBox, type TickBox, tickBoxes } from './readings.ts';

/** A step of the dead tests, by how the sheet begins it. */
const isDead = (sheet: Schedule, row: string): boolean => {
  const step = sheet.columns.findIndex(({ key }) => key === 'step');
  return sheet.rows.some((cells) => String(cells[0]) === row && /^Dead\b/.test(String(cells[step])));
};

const isLive = ({ written, judged }: ReadingBox): boolean => written !== 'loop_ohm' && judged !== 'empty';

/** Names, a few of them. */
const names = (ticks: readonly TickBox[]): string => {
  const rows = ticks.map(({ row }) => row);
  return rows.length > 5 ? `${rows.slice(0, 4).join(', ')} and ${rows.length - 4} more` : rows.join(', ');
};

/**
 * What is to be said where volts or amps stand in the sheet while a dead test is not ticked off or a link not ticked out: a link
 * left in is a short across the output. Undefined where the order was kept, and where nothing live was measured.
 */
export function liveTooEarly(
  sheet: Schedule,
  boxes: readonly ReadingBox[],
  readings: Readonly<Record<string, string>>,
): string | undefined {
  if (!boxes.some(isLive)) return undefined;
  const open = tickBoxes(sheet, readings).filter(({ isTicked }) => !isTicked);
  const links = open.filter(({ written }) => written === 'linkOut');
  const steps = open.filter(({ written, row }) => written === 'done' && isDead(sheet, row));
  if (links.length + steps.length === 0) return undefined;
  const missing = [
    ...(links.length > 0
      ? [`${counted(links.length, 'link is', 'links are')} not ticked out (${names(links)})`]
      : []),
    ...(steps.length > 0
      ? [`of the dead tests ${names(steps)} ${steps.length === 1 ? 'is' : 'are'} not ticked off`]
      : []),
  ].join(', and ');
  return `Volts or amps are written down while ${missing}. A link left in is a short across the output: mains off, finish the dead tests, take every link out and tick it, then measure live again.`;
}
