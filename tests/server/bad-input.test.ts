import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Answer, openTestService, problemIn, someJob, type TestService } from './support.ts';

let service: TestService;
beforeAll(async () => {
  service = await openTestService();
});
afterAll(() => service.close());

/** No answer may show how the program is built, nor leave a reader without a sentence. */
function expectSentence(answer: Answer): void {
  const problem = problemIn(answer);
  expect(answer.headers['content-type']).toMatch(/^application\/problem\+json/);
  expect(problem.status).toBe(answer.status);
  expect(problem.detail.length).toBeGreaterThan(20);
  expect(problem.detail).toMatch(/[.:]/);
  expect(answer.text).not.toMatch(
    /node_modules|\.ts:\d|\bat .+:\d+:\d+|FST_ERR|ZodError|Internal Server Error/,
  );
}

/** A job in which one field was given another value, or taken away with undefined. */
function jobWith(path: string, value: unknown): unknown {
  const job: Record<string, unknown> = someJob();
  const steps = path.split('.');
  const last = steps.pop()!;
  const target = steps.reduce((node, step) => node[step] as Record<string, unknown>, job);
  if (value === undefined) delete target[last];
  else target[last] = value;
  return job;
}

describe('bad input gets 400 and a sentence that names the field and the remedy', () => {
  it.each([
    ['a negative width', 'panel.width_mm', -5, 'must lie between 50 mm and 30,000 mm'],
    ['an absurd width', 'panel.width_mm', 1e9, 'must lie between 50 mm and 30,000 mm'],
    ['a width of nothing', 'panel.width_mm', 0, 'must lie between'],
    ['a missing width', 'panel.width_mm', undefined, 'is missing: add it'],
    ['a missing part', 'section', undefined, 'is missing: add it'],
    ['text for a number', 'panel.width_mm', '2400', 'must be a number in mm'],
    ['the text NaN', 'panel.width_mm', 'NaN', 'must be a number in mm'],
    ['nothing for a number', 'panel.width_mm', null, 'must be a number in mm'],
    ['a list for a number', 'panel.width_mm', [2400], 'must be a number in mm'],
    ['a number for a part', 'panel', 5, 'panel'],
    ['an unknown key', 'panel.depth_mm', 40, 'is not part of a job: remove it, or check its spelling'],
    ['an unknown word', 'slots.from', 'thin air', 'must come from'],
    ['a half for a count', 'feeds.betweenCount', 1.5, 'must be a whole number'],
    ['a very long name', 'title.job', 'x'.repeat(500), 'must not be longer than 60 characters'],
    ['a date in words', 'title.date', 'tomorrow', 'such as 2026-03-31'],
  ])('%s', async (_, path, value, words) => {
    const answer = await service.ask('POST', '/api/sizing', { body: jobWith(path, value) });
    expect(answer.status).toBe(400);
    expectSentence(answer);
    const problem = problemIn(answer);
    expect(problem.issues[0]!.place.field).toBe(path);
    expect(problem.issues[0]!.sentence).toContain(words);
    expect(problem.detail).toContain(path);
  });

  it('every problem at once', async () => {
    const job = jobWith('panel.width_mm', -1) as ReturnType<typeof someJob>;
    job.panel.height_mm = Number.MAX_VALUE;
    job.site.room_degC = -273;
    const problem = problemIn(await service.ask('POST', '/api/sizing', { body: job }));
    expect(problem.issues.map((issue) => issue.place.field)).toEqual([
      'panel.width_mm',
      'panel.height_mm',
      'site.room_degC',
    ]);
  });

  it.each([
    ['a job from a later version', jobWith('format.version', 3), 'written by a later Slotwatt'],
    [
      'a document of another program',
      { format: { name: 'other', version: 1 } },
      'This is not a Slotwatt job',
    ],
    ['a list', [1, 2], 'must be a JSON object'],
    ['a number', 5, 'must be a JSON object'],
    ['nothing', null, 'must be a JSON object'],
    ['an empty object', {}, 'This is not a Slotwatt job'],
    ['a key that would change all objects', `{"__proto__": {"x": 1}}`, 'This is not a Slotwatt job'],
    ['JSON cut short', JSON.stringify(someJob()).slice(0, 300), 'may have been cut short'],
    [
      'bare NaN',
      JSON.stringify(someJob()).replace(/"width_mm":\d+/, '"width_mm":NaN'),
      '"width_mm" holds NaN',
    ],
    ['bare Infinity', '{"height_mm": -Infinity}', '"height_mm" holds -Infinity'],
    [
      'a number beyond all numbers',
      JSON.stringify(someJob()).replace(/"width_mm":\d+/, '"width_mm":1e999'),
      'width_mm',
    ],
    ['a lone quotation mark', '"', 'not complete JSON'],
    ['ten thousand brackets', '['.repeat(10_000), 'not complete JSON'],
    ['ten thousand brackets, closed', '['.repeat(10_000) + ']'.repeat(10_000), 'must be a JSON object'],
  ])('%s', async (_, body, words) => {
    const answer = await service.ask('POST', '/api/sizing', { body });
    expect(answer.status).toBe(400);
    expectSentence(answer);
    expect(problemIn(answer).detail).toContain(words);
  });

  it('a body of nothing', async () => {
    const answer = await service.ask('POST', '/api/sizing');
    expect(answer.status).toBe(400);
    expectSentence(answer);
  });

  it('a hundred thousand unknown keys, without an endless answer', async () => {
    const keys = Object.fromEntries(Array.from({ length: 100_000 }, (_, index) => [`k${index}`, 1]));
    const answer = await service.ask('POST', '/api/sizing', { body: { ...someJob(), ...keys } });
    expect(answer.status).toBe(400);
    expectSentence(answer);
    expect(answer.text.length).toBeLessThan(100_000);
    expect(problemIn(answer).detail).toContain('more problems');
  });

  it('whatever value any field is given: an answer, or a sentence', async () => {
    const paths = leavesOf(someJob());
    const value = fc.oneof(
      fc.constantFrom<unknown>(
        -1,
        0,
        1e308,
        -1e308,
        0.1,
        null,
        '',
        'NaN',
        true,
        [],
        {},
        '1; DROP TABLE',
        undefined,
      ),
      fc.double(),
      fc.jsonValue(),
    );
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...paths), value, async (path, given) => {
        const answer = await service.ask('POST', '/api/set-out', { body: jobWith(path, given) });
        expect([200, 400, 422]).toContain(answer.status);
        if (answer.status !== 200) expectSentence(answer);
      }),
      { seed: 20260331, numRuns: 150 },
    );
  });
});

/** Paths of all values in a document that are not objects. */
function leavesOf(node: object, above: readonly string[] = []): string[] {
  return Object.entries(node).flatMap(([key, value]) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? leavesOf(value, [...above, key])
      : [[...above, key].join('.')],
  );
}

describe('other mistakes of a caller', () => {
  it('a wrong content type gets 415', async () => {
    for (const type of ['application/xml', 'text/plain;', 'multipart/form-data; boundary=x', 'nonsense']) {
      const headers = { 'content-type': type };
      const answer = await service.ask('POST', '/api/sizing', { headers, body: '<job/>' });
      expect([400, 415]).toContain(answer.status);
      expectSentence(answer);
    }
    const headers = { 'content-type': 'application/xml' };
    const answer = await service.ask('POST', '/api/sizing', { headers, body: '<job/>' });
    expect(answer.status).toBe(415);
    expect(problemIn(answer).detail).toContain('application/json');
  });

  it.each([
    ['POST', '/api/bin/{id}/restore'],
    ['DELETE', '/api/jobs/{id}'],
  ] as const)('a body of no known kind where none belongs gets 415 from %s %s', async (method, route) => {
    const headers = { 'content-type': 'application/xml' };
    const path = route.replace('{id}', 'wall');
    const answer = await service.ask(method, path, { route, headers, body: '<job/>' });
    expect(answer.status).toBe(415);
    expectSentence(answer);
  });

  it('an unknown address gets 404 and the way to the list of addresses', async () => {
    for (const url of ['/api/nothing', '/api', '/no-page', '/api/jobs/a/b/c']) {
      const reply = await service.app.inject(url);
      expect(reply.statusCode).toBe(404);
      expect(reply.json().detail).toContain('/api/openapi.json');
    }
  });

  it('the page that was not built gets 404 and the command that builds it', async () => {
    const reply = await service.app.inject('/');
    expect(reply.statusCode).toBe(404);
    expect(reply.json().detail).toContain('npm run build');
  });

  it('a wrong method gets 405 and the right ones', async () => {
    const reply = await service.app.inject({ method: 'GET', url: '/api/sizing' });
    expect(reply.statusCode).toBe(405);
    expect(reply.headers.allow).toBe('POST');
    expect(reply.json().detail).toBe('/api/sizing does not take GET: use POST.');
    const put = await service.app.inject({ method: 'PUT', url: '/api/jobs?x=1', payload: {} });
    expect(put.statusCode).toBe(405);
    expect(put.headers.allow).toBe('GET, HEAD, POST');
    const csv = await service.app.inject({ method: 'DELETE', url: '/api/schedules/drivers.csv' });
    expect(csv.statusCode).toBe(405);
  });

  it('a broken address gets 400', async () => {
    const reply = await service.app.inject('/api/demo-jobs/%zz');
    expect(reply.statusCode).toBe(400);
    expect(reply.headers['content-type']).toMatch(/problem\+json/);
    expect(reply.json().detail).toContain('%');
  });

  it('more than 2 MB gets 413', async () => {
    const answer = await service.ask('POST', '/api/sizing', { body: JSON.stringify('x'.repeat(10_000_000)) });
    expect(answer.status).toBe(413);
    expectSentence(answer);
    expect(problemIn(answer).detail).toContain('2 MB');
  });
});
