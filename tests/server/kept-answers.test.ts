import { describe, expect, it } from 'vitest';
import { askEngine, sizedText } from '../../server/engine.ts';
import { keepAnswers } from '../../server/kept-answers.ts';
import type { Pool } from '../../server/pool.ts';
import type { EngineTask } from '../../server/workers/engine.ts';
import { newJob } from '../../src/index.ts';

const wide = (width_mm: number) => {
  const job = newJob();
  job.panel.width_mm = width_mm;
  return job;
};

describe('answers kept', () => {
  it('are found by what the job says, not by which copy of it asks', () => {
    const answers = keepAnswers();
    answers.keep(wide(2000), 'an answer');
    expect(answers.get(wide(2000))).toBe('an answer');
    expect(answers.get(wide(2001))).toBeUndefined();
  });

  it('are sixteen at most, the one not asked for longest going first', () => {
    const answers = keepAnswers();
    for (let i = 0; i < 16; i++) answers.keep(wide(2000 + i), `${i}`);
    expect(answers.get(wide(2000))).toBe('0');
    answers.keep(wide(3000), 'new');
    expect(answers.get(wide(2001))).toBeUndefined();
    expect([answers.get(wide(2000)), answers.get(wide(3000))]).toEqual(['0', 'new']);
  });

  it('are 32 million characters at most, whatever their number, and kept again they count once', () => {
    const answers = keepAnswers();
    const half = 'x'.repeat(16 * 1024 * 1024);
    answers.keep(wide(2000), half);
    answers.keep(wide(2000), half);
    answers.keep(wide(2001), half);
    expect(answers.get(wide(2000))).toHaveLength(half.length);
    answers.keep(wide(2002), 'one more');
    expect(answers.get(wide(2001))).toBeUndefined();
    expect(answers.get(wide(2000))).toHaveLength(half.length);
  });
});

/** An engine that notes what it is asked and answers with a number. */
function notingEngine() {
  const asked: EngineTask[] = [];
  const pool: Pool = {
    run: async <Result>(_worker: string, task: unknown) => {
      asked.push(task as EngineTask);
      return { ok: true, text: String(asked.length) } as Result;
    },
    follow: () => Promise.reject(new Error('nothing here is followed')),
    close: async () => {},
  };
  return { asked, engine: { quick: pool, slow: pool, answers: keepAnswers() } };
}

describe('the engine', () => {
  const { signal } = new AbortController();

  it('calculates a careful answer once, and takes its parts from it', async () => {
    const { asked, engine } = notingEngine();
    const whole = { job: wide(2000), accuracy: 'careful' } as const;
    expect(await askEngine(engine, { kind: 'sizing', question: 'sizing', ...whole }, signal)).toBe('1');
    expect(await sizedText(engine, { ...whole, job: wide(2000) }, signal)).toBe('1');
    await askEngine(engine, { kind: 'sizing', question: 'schedules', ...whole }, signal);
    expect(asked).toHaveLength(2);
    expect(asked[1]).toMatchObject({ question: 'schedules', kept: '1' });
    // Another job, be it by a millimetre, is another answer.
    expect(await sizedText(engine, { ...whole, job: wide(2001) }, signal)).toBe('3');
  });

  it('keeps no quick answer, which would pass for a careful one', async () => {
    const { asked, engine } = notingEngine();
    const job = wide(2000);
    await sizedText(engine, { job, accuracy: 'quick' }, signal);
    expect(await sizedText(engine, { job, accuracy: 'careful' }, signal)).toBe('2');
    await sizedText(engine, { job, accuracy: 'quick' }, signal);
    expect(asked.map((task) => task.kind === 'sizing' && task.accuracy)).toEqual([
      'quick',
      'careful',
      'quick',
    ]);
  });
});
