import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Sizing } from '../../src/answer/sizing.ts';
import { demoJobs, sizeJob } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import type { Reply } from '../../web/api.ts';
import { typeText } from '../../web/state/edit.ts';
import { begin } from '../../web/state/files.ts';
import { undo } from '../../web/state/history.ts';
import { keepComputed } from '../../web/state/recompute.ts';
import { createStore, emptyState } from '../../web/state/store.ts';

interface Question {
  readonly job: Job;
  readonly accuracy: Sizing['accuracy'];
  readonly signal: AbortSignal;
  readonly reply: (reply: Reply<Sizing>) => Promise<void>;
}

/** What an answer is worth here: which job it answers, and how. */
const sizing = (job: Job, accuracy: Sizing['accuracy']): Sizing =>
  ({ accuracy, notes: [String(job.panel.width_mm)] }) as unknown as Sizing;

const busy: Reply<Sizing> = { kind: 'failed', cause: 'busy', detail: 'Too busy.' };
const mistake: Reply<Sizing> = { kind: 'failed', cause: 'mistake', detail: 'A mistake. Reference: 7' };
const no: Reply<Sizing> = { kind: 'refused', status: 422, detail: 'No.', issues: [], hasGoodCopy: false };

/** A page with a job, and a service whose answers come when the test says so. */
function begun() {
  const store = createStore({ ...emptyState, draft: { job: newJob(), entries: {}, parked: {}, begun: 1 } });
  const asked: Question[] = [];
  const again = keepComputed(store, (job, accuracy, signal) => {
    return new Promise((resolve) => {
      const reply = async (answer: Reply<Sizing>): Promise<void> => {
        resolve(answer);
        await vi.advanceTimersByTimeAsync(0);
      };
      signal.addEventListener('abort', () => resolve({ kind: 'withdrawn' }));
      asked.push({ job, accuracy, signal, reply });
    });
  });
  const width = (mm: number): void => typeText(store, 'panel.width_mm', String(mm));
  const answered = (question: Question | undefined): Promise<void> =>
    question!.reply({ kind: 'answer', value: sizing(question!.job, question!.accuracy) });
  const shown = () => store.get().answer?.sizing.notes[0];
  const passes = (ms: number) => vi.advanceTimersByTimeAsync(ms);
  return { store, asked, again, width, answered, shown, passes };
}

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('the answer to the job on the page', () => {
  it('is asked for once when a stored draft is opened, whatever else happens meanwhile', async () => {
    const { store, asked, passes } = begun();
    store.set({ demoJobs: [] });
    await passes(100);
    expect(asked.map(({ accuracy }) => accuracy)).toEqual(['quick']);
  });

  it('keeps one question under way while somebody types, and shows each answer that comes, as waiting', async () => {
    const { store, asked, width, answered, shown, passes } = begun();
    await passes(20);
    width(2000);
    await passes(100);
    width(2100);
    width(2200);
    await passes(100);
    expect(asked).toHaveLength(1);
    expect(asked[0]!.signal.aborted).toBe(false);
    await answered(asked[0]);
    expect([shown(), store.get().standing.is]).toEqual(['2400', 'waiting']);
    expect(asked.map(({ job }) => job.panel.width_mm)).toEqual([2400, 2200]);
    await answered(asked[1]);
    expect([shown(), store.get().standing.is]).toEqual(['2200', 'current']);
  });

  it('gives up a question that hangs while a newer job waits', async () => {
    const { asked, width, passes } = begun();
    await passes(20);
    await passes(60_000);
    expect(asked[0]!.signal.aborted).toBe(false);
    width(2000);
    await passes(3100);
    expect(asked[0]!.signal.aborted).toBe(true);
    expect(asked.map(({ job }) => job.panel.width_mm)).toEqual([2400, 2000]);
  });

  it('is never that of another job that was on the page before', async () => {
    const { store, asked, answered, passes } = begun();
    await passes(20);
    begin(store, { ...newJob(), panel: { width_mm: 999, height_mm: 999 } });
    await answered(asked[0]);
    expect(store.get().answer).toBeUndefined();
    expect(asked[1]!.job.panel.width_mm).toBe(999);
  });

  it('waits again when a refused job is edited, and remembers that it was refused', async () => {
    const { store, asked, width, answered, passes } = begun();
    await passes(20);
    await answered(asked[0]);
    width(2000);
    await passes(20);
    await asked[1]!.reply(no);
    expect(store.get().standing.is).toBe('refused');
    width(2100);
    expect(store.get().standing).toEqual({
      is: 'waiting',
      former: { is: 'refused', detail: 'No.', issues: [] },
    });
    await passes(20);
    await answered(asked[2]);
    expect(store.get().standing).toEqual({ is: 'current' });
  });

  it('is asked for again by itself where that may help, and not where it would repeat a mistake', async () => {
    const { store, asked, again, passes } = begun();
    await passes(20);
    await asked[0]!.reply(busy);
    expect(store.get().standing).toEqual({ is: 'failed', detail: 'Too busy.', goesOn: true });
    await passes(2000);
    expect(asked).toHaveLength(2);
    await asked[1]!.reply(mistake);
    await passes(60_000);
    expect(asked).toHaveLength(2);
    expect(store.get().standing).toMatchObject({ is: 'failed', goesOn: false });
    again();
    expect(asked).toHaveLength(3);
  });
});

describe('the careful answer', () => {
  it('follows when nobody has typed for a moment, and is withdrawn by a change', async () => {
    const { store, asked, width, answered, passes } = begun();
    await passes(20);
    await answered(asked[0]);
    expect(store.get().careful.is).toBe('coming');
    await passes(700);
    expect(asked.map(({ accuracy }) => accuracy)).toEqual(['quick', 'careful']);
    width(2000);
    expect(asked[1]!.signal.aborted).toBe(true);
    await passes(20);
    await answered(asked[2]);
    await passes(700);
    await answered(asked[3]);
    expect(store.get().careful.is).toBe('done');
    expect(store.get().answer!.sizing.accuracy).toBe('careful');
  });

  it('says that it was refused, and the quick figures stay', async () => {
    const { store, asked, answered, shown, passes } = begun();
    await passes(20);
    await answered(asked[0]);
    await passes(700);
    await asked[1]!.reply(no);
    expect(store.get().careful).toEqual({ is: 'refused', detail: 'No.', issues: [] });
    expect([shown(), store.get().standing.is]).toEqual(['2400', 'current']);
  });

  it('says that it failed, and asks again for itself alone when told to', async () => {
    const { store, asked, again, answered, passes } = begun();
    await passes(20);
    await answered(asked[0]);
    await passes(700);
    await asked[1]!.reply(mistake);
    expect(store.get().careful).toEqual({ is: 'failed', detail: 'A mistake. Reference: 7', goesOn: false });
    await passes(60_000);
    expect(asked).toHaveLength(2);
    again();
    expect(asked[2]!.accuracy).toBe('careful');
    await asked[2]!.reply({ kind: 'failed', cause: 'silence', detail: 'Nobody.' });
    expect(store.get().careful.is).toBe('offline');
    await passes(2000);
    await answered(asked[3]);
    expect(store.get().careful.is).toBe('done');
  });
});

describe('the title block', () => {
  it('is no part of what is calculated', () => {
    const { job } = demoJobs[0]!;
    const title = { ...job.title, job: 'Other', client: 'Another', revision: 'Q', date: '2031-01-01' };
    expect(sizeJob({ ...job, title })).toEqual(sizeJob(job));
  });

  it('asks nothing, before and after the answer has come, and the answer goes with it', async () => {
    const { store, asked, answered, passes } = begun();
    await passes(20);
    typeText(store, 'title.client', 'Anna');
    await answered(asked[0]);
    expect(store.get().standing.is).toBe('current');
    expect(store.get().answer!.job).toBe(store.get().draft!.job);
    typeText(store, 'title.client', 'Anna B');
    expect(store.get().answer!.job.title.client).toBe('Anna B');
    await passes(700);
    await answered(asked[1]);
    undo(store);
    await passes(700);
    expect(asked.map(({ accuracy }) => accuracy)).toEqual(['quick', 'careful']);
    expect(store.get().answer!.job).toBe(store.get().draft!.job);
    expect(store.get().careful.is).toBe('done');
  });
});
