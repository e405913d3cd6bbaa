import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { IssuedReading, ReadingsKept } from '../../server/contract/issued-readings.ts';
import type { ListedRevision } from '../../server/contract/kept-jobs.ts';
import { readCsv } from './csv-reader.ts';
import { type Answer, openTestService, problemIn, someJob, type TestService } from './support.ts';

let service: TestService;
let id: string;
let etag: string;
let row: string;

const as = (name: string): Record<string, string> => ({ 'slotwatt-person': encodeURIComponent(name) });
const revisionRoute = '/api/jobs/{id}/revisions';

beforeAll(async () => {
  service = await openTestService();
  const made = await service.ask('POST', '/api/jobs', { body: someJob(), headers: as('Ida Blom') });
  ({ id, etag } = JSON.parse(made.text));
  const issued = await service.ask('POST', `/api/jobs/${id}/revisions`, {
    route: revisionRoute,
    headers: { 'if-match': etag, ...as('Örn Þórsson') },
    body: { note: '' },
  });
  expect(issued.status).toBe(201);
  const revision = await service.ask('GET', `/api/jobs/${id}/revisions/a`, {
    route: `${revisionRoute}/{revision}`,
  });
  const { schedules } = JSON.parse(revision.text).sizing;
  row = String(schedules.find((one: { id: string }) => one.id === 'test-sheet').rows[0][0]);
});

afterAll(() => service.close());

const route = `${revisionRoute}/{revision}/readings`;
const path = (revision = 'a'): string => `/api/jobs/${id}/revisions/${revision}/readings`;
const read = async (): Promise<IssuedReading[]> =>
  JSON.parse((await service.ask('GET', path(), { route })).text).readings;

function write(name: string, quantity: string, value: number | 'OL' | null, version: number, at = row) {
  const readings = [{ row: at, quantity, value, version }];
  return service.ask('PATCH', path(), { route, headers: as(name), body: { readings } });
}

const keptOf = (answer: Answer): ReadingsKept => {
  expect(answer.status).toBe(200);
  return JSON.parse(answer.text);
};

describe('who works here', () => {
  it('stands with the job in the list, with the revision, and in what is said to somebody who comes too late', async () => {
    const [job] = JSON.parse((await service.ask('GET', '/api/jobs')).text);
    expect(job.savedBy).toBe('Ida Blom');
    const opened = await service.ask('GET', `/api/jobs/${id}`, { route: '/api/jobs/{id}' });
    expect(opened.headers['slotwatt-saved-by']).toBe('Ida%20Blom');
    const listed = await service.ask('GET', `/api/jobs/${id}/revisions`, { route: revisionRoute });
    expect((JSON.parse(listed.text) as ListedRevision[])[0]).toMatchObject({ by: 'Örn Þórsson' });
    const late = await service.ask('PUT', `/api/jobs/${id}`, {
      route: '/api/jobs/{id}',
      headers: { 'if-match': '"older"' },
      body: someJob(),
    });
    expect(problemIn(late).detail).toMatch(/was saved by Ida Blom at /);
  });

  it('is nobody once somebody saved without a name, also for who has the file of the name before', async () => {
    const saved = await service.ask('POST', '/api/jobs', { body: someJob(), headers: as('Ida Blom') });
    const mine = JSON.parse(saved.text);
    const job = { ...someJob(), panel: { width_mm: 1700, height_mm: 900 } };
    const again = await service.ask('PUT', `/api/jobs/${mine.id}`, {
      route: '/api/jobs/{id}',
      headers: { 'if-match': mine.etag },
      body: job,
    });
    expect(JSON.parse(again.text).savedBy).toBe('');
  });

  it.each([
    ['a%', 'broken % sequence'],
    [encodeURIComponent('x'.repeat(41)), 'at most 40 letters'],
    [encodeURIComponent('a\nb'), 'no control characters'],
    ['{}', 'percent-encoded'],
  ])('cannot be %j', async (name, why) => {
    const headers = { 'slotwatt-person': name };
    const answer = await service.ask('POST', '/api/jobs', { body: someJob(), headers });
    expect(answer.status).toBe(400);
    expect(problemIn(answer).detail).toContain(why);
  });
});

describe('readings of an issued revision', () => {
  it('are kept with who and when, in the folder, box by box', async () => {
    const begun_ms = Date.now();
    expect(await read()).toEqual([]);
    keptOf(await write('Ida Blom', 'noLoad_V', 24.1, 0));
    keptOf(await write('Örn', 'loop_ohm', 0.4, 0));
    const readings = await read();
    expect(readings).toMatchObject([
      { row, quantity: 'noLoad_V', value: 24.1, version: 1, by: 'Ida Blom' },
      { row, quantity: 'loop_ohm', value: 0.4, version: 1, by: 'Örn' },
    ]);
    expect(Date.parse(readings[0]!.at)).toBeGreaterThanOrEqual(begun_ms);
    expect(Date.parse(readings[0]!.at)).toBeLessThanOrEqual(Date.now());
    expect(await readFile(join(service.jobsFolder, id, 'readings', 'a.json'), 'utf8')).toContain('24.1');
  });

  it('of one box from two devices meet: both values are named, and neither is lost', async () => {
    const answer = keptOf(await write('Örn', 'noLoad_V', 23.2, 0));
    expect(answer.conflicts).toMatchObject([
      { row, quantity: 'noLoad_V', value: 23.2, theirs: { value: 24.1, by: 'Ida Blom', version: 1 } },
    ]);
    expect((await read())[0]).toMatchObject({ value: 24.1, version: 1 });
    // The same value is no conflict, and is not written again.
    expect(keptOf(await write('Örn', 'noLoad_V', 24.1, 0)).conflicts).toEqual([]);
    const over = keptOf(await write('Örn', 'noLoad_V', 23.2, 1));
    expect(over.conflicts).toEqual([]);
    expect(over.readings[0]).toMatchObject({ value: 23.2, version: 2, by: 'Örn' });
    // What was written before stays in the file, as a record does.
    expect(await readFile(join(service.jobsFolder, id, 'readings', 'a.json'), 'utf8')).toMatch(
      /24\.1.*\n.*\n.*23\.2/,
    );
  });

  it('of two devices at once are both kept', async () => {
    const quantities = ['loaded_V', 'current_A'] as const;
    const answers = await Promise.all(quantities.map((quantity, k) => write(`P${k}`, quantity, k + 1, 0)));
    for (const answer of answers) expect(keptOf(answer).conflicts).toEqual([]);
    expect((await read()).map(({ value }) => value)).toEqual(expect.arrayContaining([1, 2, 23.2, 0.4]));
  });

  it('are refused for a row the sheet has not, a revision never issued, and what is no reading', async () => {
    expect((await write('', 'noLoad_V', 1, 0, 'R999')).status).toBe(422);
    expect((await write('', 'noLoad_V', -1, 0)).status).toBe(400);
    expect((await write('', 'ohms', 1, 0)).status).toBe(400);
    expect((await service.ask('GET', path('z'), { route })).status).toBe(404);
    const body = { readings: [] };
    expect((await service.ask('PATCH', path('z'), { route, body })).status).toBe(404);
  });

  it('are OL where a loop is open, and the test sheet as CSV has it in its box', async () => {
    const feed = 'S01-F1';
    expect(keptOf(await write('Ida Blom', 'loop_ohm', 'OL', 0, feed)).conflicts).toEqual([]);
    expect(keptOf(await write('Örn', 'loop_ohm', 0.41, 0, feed)).conflicts).toMatchObject([
      { value: 0.41, theirs: { value: 'OL', by: 'Ida Blom' } },
    ]);
    const volts = await write('Ida Blom', 'noLoad_V', 'OL', 0, feed);
    expect([volts.status, volts.text]).toEqual([400, expect.stringContaining('give it for loop_ohm')]);
    const csv = await service.ask('GET', `/api/jobs/${id}/revisions/a/test-sheet.csv`, {
      route: `${revisionRoute}/{revision}/test-sheet.csv`,
    });
    expect(csv.headers['content-disposition']).toBe(`attachment; filename="${id}-a-test-sheet.csv"`);
    const rows = readCsv(csv.text.slice(1));
    const [open] = rows.filter(([ref]) => ref === feed);
    expect(open).toEqual(expect.arrayContaining(['OL', 'Ida Blom']));
    expect(open).not.toContain('0.41');
    // Volts written to the first step of the sheet have no box there: nothing is put where it does not belong.
    expect(rows.find(([ref]) => ref === row)).not.toContain('23.2');
    keptOf(await write('Ida Blom', 'loop_ohm', null, 1, feed));
  });

  it('in a damaged file are not written over, and the sentence names the file', async () => {
    const file = join(service.jobsFolder, id, 'readings', 'a.json');
    const text = await readFile(file, 'utf8');
    await writeFile(file, text.slice(0, -20));
    const answer = await write('Ida', 'noLoad_V', 5, 2);
    expect(answer.status).toBe(409);
    expect(problemIn(answer).detail).toContain('"readings/a.json" was changed or damaged');
    expect((await service.ask('GET', path(), { route })).status).toBe(409);
    expect(await readFile(file, 'utf8')).toBe(text.slice(0, -20));
    await writeFile(file, text);
    expect(await read()).toHaveLength(5);
  });

  it('have ticks beside them: a step done is kept, taken back and met like a value', async () => {
    expect(keptOf(await write('Ida', 'done', 1, 0)).conflicts).toEqual([]);
    expect(keptOf(await write('Örn', 'done', null, 0)).conflicts).toMatchObject([
      { row, quantity: 'done', value: null, theirs: { value: 1, by: 'Ida' } },
    ]);
    expect(keptOf(await write('Örn', 'done', null, 1)).conflicts).toEqual([]);
    expect((await read()).at(-1)).toMatchObject({ quantity: 'done', value: null, version: 2, by: 'Örn' });
    const half = await write('Ida', 'linkOut', 0.5, 0);
    expect(half.status).toBe(400);
    expect(half.text).toContain('give 1, or null for none');
  });
});
