import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../server/app.ts';
import type { ProposalLine } from '../../server/contract/proposals.ts';
import type { App } from '../../server/service.ts';
import { demoJobs } from '../../src/index.ts';
import { answerCheck, someJob, temporaryFolder, testOptions } from './support.ts';

let app: App;
let close: () => Promise<void>;
beforeAll(async () => {
  const { folder, remove } = await temporaryFolder();
  app = await buildApp(testOptions(folder));
  close = () => app.close().then(remove);
});
afterAll(() => close());

const ask = (payload: object) => app.inject({ method: 'POST', url: '/api/proposals', payload });

const linesOf = (text: string): ProposalLine[] =>
  text
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));

describe('POST /api/proposals', () => {
  it('answers line by line, the answer last', async () => {
    const reply = await ask({ job: someJob(), open: ['cables'] });
    expect(reply.statusCode).toBe(200);
    expect(reply.headers['content-type']).toContain('application/x-ndjson');
    const lines = linesOf(reply.body);
    expect(lines.slice(0, -1).every(({ kind }) => kind === 'progress' || kind === 'waiting')).toBe(true);
    const last = lines.at(-1)!;
    if (last.kind !== 'answer') throw new Error(JSON.stringify(last));
    expect(last.answer.open).toEqual(['cables']);
    expect(last.answer.designs.length).toBeGreaterThan(0);
    const check = await answerCheck(app);
    for (const line of lines)
      expect(() =>
        check('post', '/api/proposals', {
          ...{ status: 200, text: JSON.stringify(line) },
          headers: { 'content-type': 'application/x-ndjson' },
        }),
      ).not.toThrow();
  });

  it('says in the last line why there is no answer', async () => {
    const job = someJob();
    const reply = await ask({ job: { ...job, strip: { ...job.strip, entry: 'no such' } }, open: [] });
    expect(linesOf(reply.body).at(-1)).toMatchObject({ kind: 'problem', problem: { status: 422 } });
  });

  it('refuses a choice that is none, by name', async () => {
    const reply = await ask({ job: someJob(), open: ['colour of the wall'] });
    expect(reply.statusCode).toBe(400);
    expect(reply.json().issues[0].place.field).toContain('open');
  });

  it('lets the next one begin when the one before is given up', async () => {
    const origin = await app.listen({ host: '127.0.0.1', port: 0 });
    const { job } = demoJobs.find(({ id }) => id === 'foyer-wall')!;
    const caller = new AbortController();
    const asked = (body: object, signal?: AbortSignal) =>
      fetch(`${origin}/api/proposals`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
        ...(signal ? { signal } : {}),
      });
    const first = await asked({ job }, caller.signal);
    expect(first.status).toBe(200);
    const second = await asked({ job: someJob(), open: [] });
    caller.abort();
    const lines = linesOf(await second.text());
    expect(lines[0]).toMatchObject({ kind: 'waiting' });
    expect(lines.at(-1)).toMatchObject({ kind: 'answer' });
  });
});
