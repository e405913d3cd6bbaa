import type { HeatAnswer } from '../answer/heat.ts';
import type { HeatIssue } from '../heat/issues.ts';
import { found, type Outcome } from '../outcome.ts';
import { figures } from '../words.ts';
import { type HeatQuestion, heatAnswer } from './heat-answer.ts';
import { loadsOfStrip } from './heat-loads.ts';
import { lifeAnswer } from './life-answer.ts';
import type { WarmWidth } from './slots-by-width.ts';

type Temperature = HeatAnswer['temperatures'][number];

/** Of every place the warmest of all widths, by its warm end, which its limits are held against. */
function warmestOf(all: readonly Temperature[]): Temperature[] {
  const places = [...new Set(all.map(({ id }) => id))];
  return places.map((id) =>
    all.filter((row) => row.id === id).reduce((a, b) => (b.high_degC > a.high_degC ? b : a)),
  );
}

const ofWidth = ({ temperatures }: HeatAnswer, slotWidth_mm: number): Temperature[] =>
  temperatures.map((row) => ({ ...row, slotWidth_mm }));

/**
 * Heat of a wall whose slots have several widths: each width's section with the watts of the unit that draws most anywhere, and of
 * every place the warmest of them, so that none passes that is too warm in one. Watts by their ways, profile and picture are those
 * of the first, whose strip is warmest. Refuses as `heatAnswer`. Check: `tests/sizing/slot-widths.test.ts`.
 */
export function heatOfWidths(
  question: HeatQuestion,
  others: readonly WarmWidth[],
): Outcome<HeatAnswer, HeatIssue> {
  const first = heatAnswer(question);
  if (!first.ok || others.length === 0) return first;
  const first_mm = question.job.slots.width_mm;
  const rows = ofWidth(first.value, first_mm);
  for (const { width_mm, job, section, light, law } of others) {
    const loads = loadsOfStrip(question.electrical_W_per_m, question.strip, light);
    const other = heatAnswer({ ...question, job, section, law, loads });
    if (!other.ok) return other;
    rows.push(...ofWidth(other.value, width_mm));
  }
  const temperatures = warmestOf(rows);
  const said = `slots ${figures(first_mm)} mm wide, whose strip is warmest, with the highest temperatures of all widths`;
  const answer = {
    ...first.value,
    method: `${first.value.method}; of ${said}`,
    temperatures,
    life: lifeAnswer(question.job.strip.lifeTests, temperatures, question.unknown),
  };
  return found(answer, first.notes);
}
