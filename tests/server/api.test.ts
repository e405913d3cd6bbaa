import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Question, questions, scheduleId } from '../../server/contract/questions.ts';
import {
  cableCatalogue,
  demoJobs,
  driverCatalogue,
  engineVersion,
  jobJsonSchema,
  readJobText,
  sizeJob,
  sizeJobCarefully,
  stripCatalogue,
} from '../../src/index.ts';
import { readCsv } from './csv-reader.ts';
import { openTestService, problemIn, someJob, type TestService } from './support.ts';

let service: TestService;
beforeAll(async () => {
  service = await openTestService();
});
afterAll(() => service.close());

const csvRoute = '/api/schedules/{id}.csv';

/** What the engine answers without the service between; text and back, as numbers travel. */
function direct(id: string, size = sizeJob) {
  const outcome = size(demoJobs.find((demo) => demo.id === id)!.job);
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return JSON.parse(JSON.stringify(outcome.value));
}

describe('the service', () => {
  it('says that it is up and which engine it has', async () => {
    const answer = await service.ask('GET', '/api/health');
    expect(JSON.parse(answer.text)).toEqual({ status: 'up', engine: engineVersion });
  });

  it('offers the demo jobs, each as its engine has it', async () => {
    const list = JSON.parse((await service.ask('GET', '/api/demo-jobs')).text);
    expect(list.map((entry: { id: string }) => entry.id)).toEqual(demoJobs.map((demo) => demo.id));
    for (const { id, job } of demoJobs) {
      const answer = await service.ask('GET', `/api/demo-jobs/${id}`, { route: '/api/demo-jobs/{id}' });
      expect(JSON.parse(answer.text)).toEqual(job);
    }
  });

  it('names the demo jobs there are when asked for another', async () => {
    const answer = await service.ask('GET', '/api/demo-jobs/castle', { route: '/api/demo-jobs/{id}' });
    expect(answer.status).toBe(404);
    expect(problemIn(answer).detail).toContain(demoJobs[0]!.id);
  });

  it('offers the catalogues and the schema of a job', async () => {
    const catalogue = JSON.parse((await service.ask('GET', '/api/catalogue')).text);
    expect(catalogue).toMatchObject({
      strips: stripCatalogue,
      drivers: driverCatalogue,
      cables: cableCatalogue,
    });
    expect(JSON.parse((await service.ask('GET', '/api/job-schema')).text)).toEqual(jobJsonSchema());
  });

  it.each(demoJobs.map((demo) => demo.id))(
    'answers every question about %s as the engine does',
    async (id) => {
      const expected = direct(id);
      const body = demoJobs.find((demo) => demo.id === id)!.job;
      for (const question of Object.keys(questions) as Question[]) {
        const answer = await service.ask('POST', `/api/${question}`, { body });
        const part =
          question === 'sizing' ? expected : expected[question === 'set-out' ? 'setOut' : question];
        expect(JSON.parse(answer.text), question).toEqual(part);
      }
    },
  );

  it('answers with care when asked to, and says so', async () => {
    const { id, job } = demoJobs[0]!;
    const careful = await service.ask('POST', '/api/sizing?accuracy=careful', {
      route: '/api/sizing',
      body: job,
    });
    expect(JSON.parse(careful.text)).toEqual(direct(id, sizeJobCarefully));
    const wrong = await service.ask('POST', '/api/sizing?accuracy=some', { route: '/api/sizing', body: job });
    expect(wrong.status).toBe(400);
    expect(problemIn(wrong).detail).toContain('accuracy must be one of: quick, careful.');
    const unknown = await service.ask('POST', '/api/sizing?car=quick', { route: '/api/sizing', body: job });
    expect(problemIn(unknown).detail).toContain('"car" is not expected here');
  });

  it('writes every schedule as CSV with the rows of the schedule', async () => {
    const { id: demo, job } = demoJobs[0]!;
    for (const schedule of direct(demo, sizeJobCarefully).schedules) {
      const answer = await service.ask('POST', `/api/schedules/${schedule.id}.csv`, {
        route: csvRoute,
        body: job,
      });
      expect(answer.headers['content-type']).toBe('text/csv; charset=utf-8');
      expect(answer.headers['content-disposition']).toMatch(/^attachment; filename="[a-z0-9-]+\.csv"$/);
      const [heading, ...rows] = readCsv(answer.text.slice(1));
      expect(heading).toHaveLength(schedule.columns.length);
      // What a schedule rests on stands below its rows, a record each.
      const first = [...schedule.rows.map((row: unknown[]) => String(row[0] ?? '')), ...schedule.notes];
      expect(rows.map((row) => row[0])).toEqual(first);
    }
  });

  it('names the schedules there are when asked for another', async () => {
    const answer = await service.ask('POST', '/api/schedules/soup.csv', { route: csvRoute, body: someJob() });
    expect(answer.status).toBe(400);
    for (const id of scheduleId.options) expect(problemIn(answer).detail).toContain(id);
  });

  it('reads a saved file as the engine does, with and without the mark that some editors put in front', async () => {
    const text = JSON.stringify(someJob(), null, 2);
    for (const file of [text, `\uFEFF${text}`]) {
      const headers = { 'content-type': 'text/plain' };
      const answer = await service.ask('POST', '/api/job-file', { headers, body: file });
      expect(JSON.parse(answer.text)).toEqual(someJob());
    }
  });

  it('says what is wrong with a file in the sentences of the engine', async () => {
    const text = JSON.stringify(someJob());
    for (const file of [
      text.slice(0, 200),
      '',
      'PK\u0003\u0004',
      '{"format":{"name":"other","version":1}}',
    ]) {
      const read = readJobText(file);
      const headers = { 'content-type': 'text/plain' };
      const answer = await service.ask('POST', '/api/job-file', { headers, body: file });
      expect(answer.status).toBe(400);
      expect(read.ok || problemIn(answer).detail).toBe(read.ok || read.issues[0]!.sentence);
    }
  });

  it('passes a refusal of the engine on as data, with 422', async () => {
    const body = someJob();
    body.strip.entry = 'no such strip';
    const outcome = sizeJob(body);
    const answer = await service.ask('POST', '/api/sizing', { body });
    expect(answer.status).toBe(422);
    expect(outcome.ok || outcome.issues).toEqual(problemIn(answer).issues);
    expect(problemIn(answer).issues[0]!.place.field).toBe('strip.entry');
  });
});
