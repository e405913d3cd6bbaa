import type { Condition } from '../answer/conditions.ts';
import type { Check } from './context.ts';

/** Findings about drivers that go by watts over time, as heat does. */
const heatOfDrivers: readonly string[] = ['driver-ambient', 'driver-case'];

/** A data sheet, a length and the depth are what they are, whatever is dimmed. */
const restOnNothing: readonly string[] = ['driver-efficiency', 'dimmer-voltage', 'depth'];

function restsOn({ question, id }: Check, { holds }: Condition): boolean {
  if (restOnNothing.includes(id)) return false;
  if (question === 'heat' || heatOfDrivers.includes(id)) return true;
  return holds === 'everything' && ['circuit', 'cables', 'drivers'].includes(question);
}

/** The condition as a check of its own: never passed, because nobody but who commissions the wall can pass it. */
const asFinding = ({ id, holds, levels, sentence }: Condition): Check => ({
  id,
  question: holds === 'heat' ? 'heat' : 'drivers',
  status: 'watch',
  place: { field: id === 'mixing-limit' ? 'dimming.mixingLimit' : 'dimming.sizeFor' },
  title: id === 'mixing-limit' ? 'Limit of the mix' : 'Limit of the dimmer',
  value: id === 'mixing-limit' ? levels.reduce((a, b) => a + b, 0) : Math.max(...levels),
  limit: null,
  margin: null,
  unit: 'ratio',
  basis: `the choice in the job to size for ${id === 'mixing-limit' ? 'the worst mix' : 'the working levels'}`,
  sentence,
});

function held(finding: Check, conditions: readonly Condition[]): Check {
  const its = conditions.filter((condition) => restsOn(finding, condition));
  if (its.length === 0) return finding;
  const said = finding.value === null ? '' : its.map(({ short }) => ` This holds ${short}.`).join('');
  const sentence = finding.sentence + said;
  if (finding.status !== 'passes') return { ...finding, sentence };
  return { ...finding, status: 'watch', sentence, passesUnder: its.map(({ id }) => id) };
}

/**
 * Findings with the conditions they rest on: one for each condition, and those that hold only under it say so and are
 * at best a warning.
 */
export function onConditions(findings: readonly Check[], conditions: readonly Condition[]): Check[] {
  return [...conditions.map(asFinding), ...findings.map((finding) => held(finding, conditions))];
}
