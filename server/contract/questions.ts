import * as z from 'zod';
import { cable } from '../../src/answer/cables.ts';
import { caution } from '../../src/answer/cautions.ts';
import { circuit } from '../../src/answer/circuit.ts';
import { drivers } from '../../src/answer/drivers.ts';
import { finding } from '../../src/answer/findings.ts';
import { heat } from '../../src/answer/heat.ts';
import { light } from '../../src/answer/light.ts';
import { schedule } from '../../src/answer/schedules.ts';
import { setOut } from '../../src/answer/set-out.ts';
import { sizing } from '../../src/answer/sizing.ts';

/** The whole answer as a response. */
const sizingAnswer = sizing.meta({
  id: 'Sizing',
  title: 'Sizing',
  description: 'The whole answer to one job. Names carry units; ratios run 0 to 1; numbers are unrounded.',
});

const answer = <Schema extends z.ZodType>(id: string, title: string, schema: Schema): Schema =>
  schema.meta({ id, title }) as Schema;

/** One question of the service: its path under /api, what it answers, and the part of the sizing it returns. */
export const questions = {
  sizing: { summary: 'The whole job: every answer at once', answer: sizingAnswer },
  'set-out': {
    summary: 'Slots, runs, pieces, feed points and reels',
    answer: answer('SetOut', 'Set-out', setOut),
  },
  cables: {
    summary: 'Cables: way, length, current, loss',
    answer: answer('Cables', 'Cables', z.array(cable)),
  },
  circuit: { summary: 'Volts, amps and light of every run', answer: answer('Circuit', 'Circuit', circuit) },
  drivers: {
    summary: 'Drivers, their load and the mains side',
    answer: answer('Drivers', 'Drivers', drivers),
  },
  heat: { summary: 'Temperatures of the build-up', answer: answer('Heat', 'Heat', heat) },
  light: { summary: 'Brightness and evenness of a slot', answer: answer('Light', 'Light', light) },
  findings: {
    summary: 'Every check: value, limit, margin, basis',
    answer: answer('Findings', 'Findings', z.array(finding)),
  },
  cautions: {
    summary: 'Cautions that apply to this job',
    answer: answer('Cautions', 'Cautions', z.array(caution)),
  },
  schedules: {
    summary: 'The schedules an electrician works from',
    answer: answer('Schedules', 'Schedules', z.array(schedule)),
  },
} as const;

const accuracies = sizing.shape.accuracy.options;

/** How much trouble the engine takes; quick follows every keystroke, careful takes seconds. */
export const accuracyQuery = (usual: Accuracy) =>
  z.strictObject({
    accuracy: z
      .enum(accuracies, { error: `accuracy must be one of: ${accuracies.join(', ')}.` })
      .default(usual)
      .describe('quick, or careful: heat from the field, tolerances in every combination'),
  });

export type Accuracy = z.infer<typeof sizing.shape.accuracy>;
export type Question = keyof typeof questions;

const scheduleNames = schedule.shape.id.options;

/** Names of the schedules, as they stand in the paths of their CSV form. */
export const scheduleId = z
  .enum(scheduleNames, { error: `the schedule must be one of: ${scheduleNames.join(', ')}.` })
  .meta({ title: 'Schedule' });

export type { Schedule } from '../../src/answer/schedules.ts';
