import { createHash } from 'node:crypto';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { ListedRevision } from '../../server/contract/kept-jobs.ts';
import { openTestService, problemIn, someJob, type TestService } from './support.ts';

let service: TestService;

beforeAll(async () => {
  service = await openTestService();
});

afterAll(() => service.close());

const route = '/api/jobs/{id}/revisions';

/** Puts a revision beside the job whose answer an earlier engine wrote in another shape. */
async function earlierRevision(id: string): Promise<void> {
  const content = {
    ...{ id: 'a', revision: 'A', issued: '2024-01-01T00:00:00Z', engine: '0.0.9+abcdef0', note: '' },
    job: { format: 'of its own' },
    sizing: { engine: '0.0.9+abcdef0', tables: [] },
  };
  const seal = createHash('sha256').update(JSON.stringify(content)).digest('hex');
  const folder = join(service.jobsFolder, id, 'revisions');
  await mkdir(folder);
  const format = { name: 'slotwatt-revision', version: 1 };
  await writeFile(join(folder, 'a.json'), JSON.stringify({ format, seal, content }));
}

it('a revision of an earlier engine lists, gives its JSON, and says which version prints it; the next one prints', async () => {
  const job = { ...someJob(), title: { ...someJob().title, revision: 'B' } };
  const { id, etag } = JSON.parse((await service.ask('POST', '/api/jobs', { body: job })).text);
  await earlierRevision(id);
  const headers = { 'if-match': etag };
  const issued = await service.ask('POST', `/api/jobs/${id}/revisions`, {
    route,
    headers,
    body: { note: '' },
  });
  expect(issued.status).toBe(201);
  const list = await service.ask('GET', `/api/jobs/${id}/revisions`, { route });
  expect(
    (JSON.parse(list.text) as ListedRevision[]).map(({ revision, trouble }) => [revision, trouble]),
  ).toEqual([
    ['A', null],
    ['B', null],
  ]);
  const opened = await service.ask('GET', `/api/jobs/${id}/revisions/a`, { route: `${route}/{revision}` });
  expect(JSON.parse(opened.text).sizing.tables).toEqual([]);
  const pack = (revision: string) =>
    service.ask('GET', `/api/jobs/${id}/revisions/${revision}/pack.pdf?paper=A4`, {
      route: `${route}/{revision}/pack.pdf`,
    });
  const no = await pack('a');
  expect(no.status).toBe(409);
  expect(problemIn(no).detail).toMatch(/engine 0\.0\.9.*print it with Slotwatt 0\.0\.9, or issue a new/);
  const changes = await service.ask('GET', `/api/jobs/${id}/revisions/b/changes`, {
    route: `${route}/{revision}/changes`,
  });
  expect(changes.status).toBe(409);
  expect((await pack('b')).status).toBe(200);
});
