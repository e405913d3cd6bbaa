import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { ListedRevision } from '../../server/contract/kept-jobs.ts';
import { openTestService, type TestService } from './support.ts';

let service: TestService;

beforeAll(async () => {
  service = await openTestService();
});

afterAll(() => service.close());

const seatText = readFileSync(new URL('../job/format-1/window-seat.json', import.meta.url), 'utf8');
const seat = JSON.parse(seatText);
const route = '/api/jobs/{id}/revisions';

/** A workshop's job as it stood when the job had format 1: its file, and a revision issued from it. */
async function keptThen(): Promise<{ id: string; paths: { job: string; revision: string } }> {
  const made = await service.ask('POST', '/api/jobs', { body: seat });
  const { id } = JSON.parse(made.text);
  const folder = join(service.jobsFolder, id);
  const content = {
    ...{ id: 'a', revision: 'A', issued: '2026-10-07T00:00:00Z', engine: '0.2.0+6482fcb', note: '' },
    job: seat,
    sizing: { engine: '0.2.0+6482fcb' },
  };
  const seal = createHash('sha256').update(JSON.stringify(content)).digest('hex');
  const paths = { job: join(folder, 'job.json'), revision: join(folder, 'revisions', 'a.json') };
  await mkdir(join(folder, 'revisions'));
  await writeFile(paths.job, seatText);
  await writeFile(
    paths.revision,
    JSON.stringify({ format: { name: 'slotwatt-revision', version: 1 }, seal, content }),
  );
  return { id, paths };
}

it('a job kept in format 1 opens in format 2, and nothing on the disk is touched by it', async () => {
  const { id, paths } = await keptThen();
  const before = [await readFile(paths.job, 'utf8'), await readFile(paths.revision, 'utf8')];
  const opened = await service.ask('GET', `/api/jobs/${id}`, { route: '/api/jobs/{id}' });
  expect(JSON.parse(opened.text)).toMatchObject({ format: { version: 2 }, cables: { fuses: 'blade' } });
  const list = await service.ask('GET', `/api/jobs/${id}/revisions`, { route });
  expect((JSON.parse(list.text) as ListedRevision[]).map((one) => [one.trouble, one.isAsKept])).toEqual([
    [null, true],
  ]);
  const revision = await service.ask('GET', `/api/jobs/${id}/revisions/a`, { route: `${route}/{revision}` });
  expect(JSON.parse(revision.text).job).toEqual(seat);
  expect([await readFile(paths.job, 'utf8'), await readFile(paths.revision, 'utf8')]).toEqual(before);
});

it('a job kept in format 1 is saved in format 2, and is then still the one that was issued', async () => {
  const { id, paths } = await keptThen();
  const opened = await service.ask('GET', `/api/jobs/${id}`, { route: '/api/jobs/{id}' });
  const saved = await service.ask('PUT', `/api/jobs/${id}`, {
    route: '/api/jobs/{id}',
    headers: { 'if-match': String(opened.headers.etag) },
    body: JSON.parse(opened.text),
  });
  expect(saved.status).toBe(200);
  expect(JSON.parse(await readFile(paths.job, 'utf8')).format.version).toBe(2);
  const list = await service.ask('GET', `/api/jobs/${id}/revisions`, { route });
  expect((JSON.parse(list.text) as ListedRevision[]).map(({ isAsKept }) => isAsKept)).toEqual([true]);
});

it('a job file of format 1 is read as one of format 2', async () => {
  const read = await service.ask('POST', '/api/job-file', {
    headers: { 'content-type': 'text/plain' },
    body: seatText,
  });
  expect(JSON.parse(read.text)).toMatchObject({ format: { version: 2 }, title: seat.title });
});
