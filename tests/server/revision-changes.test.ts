import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { RevisionChanges } from '../../server/contract/kept-jobs.ts';
import { openTestService, someJob, type TestService } from './support.ts';

let service: TestService;

beforeAll(async () => {
  service = await openTestService();
});

afterAll(() => service.close());

const changesOf = (id: string, revision: string) =>
  service.ask('GET', `/api/jobs/${id}/revisions/${revision}/changes`, {
    route: '/api/jobs/{id}/revisions/{revision}/changes',
  });

async function issue(id: string, etag: string): Promise<void> {
  const answer = await service.ask('POST', `/api/jobs/${id}/revisions`, {
    route: '/api/jobs/{id}/revisions',
    headers: { 'if-match': etag },
    body: { note: '' },
  });
  expect(answer.status).toBe(201);
}

describe('what changed since the revision before', () => {
  it('is nothing for the first, the rows that are otherwise for the second, and stays so', async () => {
    const made = await service.ask('POST', '/api/jobs', { body: someJob() });
    const { id } = JSON.parse(made.text);
    await issue(id, String(made.headers.etag));
    const next = someJob();
    next.title.revision = 'B';
    next.cables.tail_mm += 250;
    const saved = await service.ask('PUT', `/api/jobs/${id}`, {
      route: '/api/jobs/{id}',
      headers: { 'if-match': String(made.headers.etag) },
      body: next,
    });
    await issue(id, String(saved.headers.etag));
    const none = { since: null, made: [], became: [], shifts: '', changes: [] };
    expect(JSON.parse((await changesOf(id, 'a')).text)).toEqual(none);
    const {
      since,
      made: byMaker,
      became,
      changes,
    }: RevisionChanges = JSON.parse((await changesOf(id, 'b')).text);
    expect(since).toBe(someJob().title.revision);
    // The maker changed one field, besides the letter of the revision.
    const tail = someJob().cables.tail_mm;
    expect(byMaker).toEqual([
      { label: 'Tail at each end of a cable', before: `${tail} mm`, after: `${tail + 250} mm` },
    ]);
    expect(became.length).toBeGreaterThan(0);
    expect(became.length).toBeLessThan(changes.length);
    const cables = changes.filter(({ schedule }) => schedule === 'cables');
    expect(cables.length).toBeGreaterThan(0);
    for (const { what } of cables) expect(what).toMatch(/ → /);
    expect(changes.some(({ schedule }) => schedule === 'cutting')).toBe(false);
    expect((await changesOf(id, 'z')).status).toBe(404);
    expect((await changesOf('nowhere', 'a')).status).toBe(404);
  });
});
