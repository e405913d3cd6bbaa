import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Comparison, Side } from '../../server/contract/comparison.ts';
import { openTestService, someJob, type TestService } from './support.ts';

let service: TestService;

beforeAll(async () => {
  service = await openTestService();
});

afterAll(() => service.close());

const ask = (before: Side, after: Side) =>
  service.ask('POST', '/api/comparison', { body: { before, after } });

async function compared(before: Side, after: Side): Promise<Comparison> {
  const { status, text } = await ask(before, after);
  expect(status).toBe(200);
  return JSON.parse(text);
}

const longer = (by_mm: number): Side => {
  const job = someJob();
  job.cables.tail_mm += by_mm;
  return { job };
};

describe('two that are compared', () => {
  it('are the same where they are the same, wherever they come from', async () => {
    const made = await service.ask('POST', '/api/jobs', { body: someJob() });
    const { id } = JSON.parse(made.text);
    await service.ask('POST', `/api/jobs/${id}/revisions`, {
      route: '/api/jobs/{id}/revisions',
      headers: { 'if-match': String(made.headers.etag) },
      body: { note: '' },
    });
    const all: Side[] = [{ job: someJob() }, { kept: id }, { kept: id, revision: 'a' }];
    for (const before of all)
      for (const after of all)
        expect(await compared(before, after)).toEqual({ made: [], became: [], shifts: '', changes: [] });
  });

  it('say what the maker changed first, and the same the other way round when they are turned round', async () => {
    const tail = someJob().cables.tail_mm;
    const [there, back] = [await compared(longer(0), longer(250)), await compared(longer(250), longer(0))];
    const label = 'Tail at each end of a cable';
    expect(there.made).toEqual([{ label, before: `${tail} mm`, after: `${tail + 250} mm` }]);
    expect(back.made).toEqual([{ label, before: `${tail + 250} mm`, after: `${tail} mm` }]);
    expect(there.changes.length).toBeGreaterThan(0);
    expect(back.changes.map(({ schedule, ref }) => [schedule, ref])).toEqual(
      there.changes.map(({ schedule, ref }) => [schedule, ref]),
    );
  });

  it('are refused in a sentence where one is not there or cannot be calculated', async () => {
    expect((await ask({ kept: 'nobody-kept-this' }, longer(0))).status).toBe(404);
    const hollow = someJob();
    hollow.strip.entry = 'no such strip';
    const { status, text } = await ask(longer(0), { job: hollow });
    expect(status).toBe(422);
    expect(text).toContain('no such strip');
  });
});
