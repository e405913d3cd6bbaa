import { describe, expect, it } from 'vitest';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import type { Reply } from '../../web/api.ts';
import { Asking } from '../../web/state/asking.ts';
import { createStore, emptyState } from '../../web/state/store.ts';

/** A host without a page, and a service whose answers come when the test says so. */
function begun() {
  const store = createStore(emptyState);
  const asked: { job: Job; signal: AbortSignal; answer: (reply: Reply<number>) => void }[] = [];
  const host = {
    store,
    addController: () => undefined,
    removeController: () => undefined,
    requestUpdate: () => undefined,
    updateComplete: Promise.resolve(true),
  };
  const asking = new Asking<number>(host, (job, signal) => {
    return new Promise((answer) => asked.push({ job, signal, answer }));
  });
  asking.hostConnected();
  const show = (job: Job): void => {
    store.set({ draft: { job, entries: {}, parked: {} } });
  };
  const size = (job: Job): void => store.set({ answer: { job, sizing: {} as Sizing } });
  return { asking, asked, show, size };
}

const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

describe('a question that takes seconds', () => {
  it('is asked only while it is open, and only of a job that has its answer', async () => {
    const { asking, asked, show, size } = begun();
    const job = newJob();
    show(job);
    size(job);
    expect(asked).toHaveLength(0);
    asking.setOpen(true);
    expect(asked).toHaveLength(1);
    asked[0]!.answer({ kind: 'answer', value: 1 });
    await settled();
    expect(asking.standing.is).toBe('current');
    const next = newJob();
    show(next);
    expect(asking.standing.is).toBe('waiting');
    expect(asked).toHaveLength(1);
    expect(asking.given?.of.job).toBe(job);
  });

  it('drops what comes back for an earlier job', async () => {
    const { asking, asked, show, size } = begun();
    const [first, second] = [newJob(), newJob()];
    show(first);
    size(first);
    asking.setOpen(true);
    show(second);
    size(second);
    expect(asked.map(({ job }) => job)).toEqual([first, second]);
    expect(asked[0]!.signal.aborted).toBe(true);
    asked[1]!.answer({ kind: 'answer', value: 2 });
    await settled();
    asked[0]!.answer({ kind: 'answer', value: 1 });
    await settled();
    expect(asking.given?.value).toBe(2);
    expect(asking.standing.is).toBe('current');
  });

  it('keeps the answer when it is shut and opened again, and asks anew what was cut short', async () => {
    const { asking, asked, show, size } = begun();
    const job = newJob();
    show(job);
    size(job);
    asking.setOpen(true);
    asking.setOpen(false);
    expect(asked[0]!.signal.aborted).toBe(true);
    asking.setOpen(true);
    expect(asked).toHaveLength(2);
    asked[1]!.answer({ kind: 'answer', value: 7 });
    await settled();
    asking.setOpen(false);
    asking.setOpen(true);
    expect(asked).toHaveLength(2);
    expect(asking.given?.value).toBe(7);
  });

  it('keeps the old answer beside a refusal or a failure, and asks again when told to', async () => {
    const { asking, asked, show, size } = begun();
    const job = newJob();
    show(job);
    size(job);
    asking.setOpen(true);
    asked[0]!.answer({ kind: 'failed', cause: 'silence', detail: 'The service does not answer.' });
    await settled();
    expect(asking.standing).toEqual({ is: 'failed', detail: 'The service does not answer.' });
    asking.again();
    expect(asked).toHaveLength(2);
    asked[1]!.answer({ kind: 'refused', status: 422, detail: 'No.', issues: [], hasGoodCopy: false });
    await settled();
    expect(asking.standing).toEqual({ is: 'refused', detail: 'No.', issues: [] });
    expect(asking.given).toBeUndefined();
  });
});
