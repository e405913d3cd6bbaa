import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { JudgedReadings, WrittenRow } from '../../src/answer/asked.ts';
import { openTestService, problemIn, someJob, type TestService } from './support.ts';

let service: TestService;

beforeAll(async () => {
  service = await openTestService();
});
afterAll(() => service.close());

const judge = (readings: unknown, job: unknown = someJob()) =>
  service.ask('POST', '/api/readings', { body: { job, readings } });

async function judged(readings: readonly WrittenRow[]): Promise<JudgedReadings> {
  const answer = await judge(readings);
  expect(answer.status, answer.text).toBe(200);
  return JSON.parse(answer.text);
}

const keys = { loop: 'loop_ohm', noLoad: 'noLoad_V', loaded: 'loaded_V', current: 'current_A' } as const;

/** The predicted value of every box, as if it had been measured. */
function asPredicted({ rows }: JudgedReadings): Map<string, WrittenRow> {
  const written = new Map<string, WrittenRow>();
  for (const { row, quantity, predicted } of rows)
    written.set(row, { ...(written.get(row) ?? { row }), [keys[quantity]]: predicted });
  return written;
}

describe('POST /api/readings', () => {
  it('gives every box of the test sheet with its band, and says that nothing was measured', async () => {
    const empty = await judged([]);
    const schedules = JSON.parse((await service.ask('POST', '/api/schedules', { body: someJob() })).text);
    const sheet = schedules.find((schedule: { id: string }) => schedule.id === 'test-sheet');
    const at = (key: string) => sheet.columns.findIndex((column: { key: string }) => column.key === key);
    for (const { row, quantity, predicted, low, high, judgement } of empty.rows) {
      const printed = sheet.rows.find((cells: unknown[]) => cells[0] === row);
      const shown = [quantity, `${quantity}Low`, `${quantity}High`].map((key) => printed[at(key)]);
      expect(shown).toEqual([predicted, low, high]);
      expect(judgement).toBe('not measured');
    }
    expect(empty.verdict).toBe('cannot tell');
  });

  it('agrees with what is as predicted, and points to a loop and volts that are not', async () => {
    const sound = await judged([]);
    const written = asPredicted(sound);
    expect((await judged([...written.values()])).verdict).toBe('as predicted');
    for (const [row, values] of written)
      if (row.startsWith('S02'))
        written.set(row, {
          ...values,
          ...(typeof values.loop_ohm === 'number' ? { loop_ohm: values.loop_ohm + 0.3 } : {}),
          ...(typeof values.loaded_V === 'number'
            ? { loaded_V: values.loaded_V - 0.3 * written.get('S02-F1')!.current_A! }
            : {}),
        });
    const worse = await judged([...written.values()]);
    const loop = worse.rows.find((row) => row.row === 'S02-F1' && row.quantity === 'loop')!;
    expect(loop.judgement).toBe('above band');
    expect(worse.verdict).toBe('found');
    expect(worse.suspects[0]).toMatchObject({
      kind: 'resistance',
      place: { feedPoint: 'S02-F1', run: 'S02' },
    });
    expect(worse.suspects[0]!.ohm).toBeCloseTo(0.3, 1);
    expect(worse.sentence).toContain('S02-F1');
  });

  it('refuses a row the sheet does not have and a value no meter shows, with a sentence each', async () => {
    const answer = await judge([
      { row: 'Z9-F1', loaded_V: 12 },
      { row: 'S01-F1', loaded_V: -12 },
    ]);
    expect(answer.status).toBe(422);
    const { issues } = problemIn(answer);
    expect(issues.map(({ code }) => code)).toEqual(['no-such-row', 'reading-impossible']);
    expect(issues.map(({ place }) => place.field)).toEqual(['readings.0.row', 'readings.1.loaded_V']);
  });

  it('refuses what is not a job with readings', async () => {
    expect((await judge('none')).status).toBe(400);
    expect((await judge([{ row: 'S01-F1', loaded_V: '12' }])).status).toBe(400);
    const wide = someJob();
    wide.panel.width_mm = 1e9;
    const answer = await judge([], wide);
    expect(answer.status).toBe(400);
    expect(problemIn(answer).issues[0]!.place.field).toBe('job.panel.width_mm');
  });
});
