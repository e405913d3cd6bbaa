import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Agent, request } from 'undici';
import { type AppOptions, buildApp } from '../../server/app.ts';
import type { App } from '../../server/service.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { type AnswerCheck, answerCheck, temporaryFolder, testOptions } from '../server/support.ts';
import { type Kind, thrown } from './kind.ts';
import { chance, pick, randomOf, whole } from './random.ts';
import { randomJob } from './random-job.ts';

/** A request as it goes out; `route` is the address as the OpenAPI document writes it, or null for none of them. */
interface Request {
  readonly method: 'GET' | 'POST' | 'PUT' | 'DELETE' | 'PATCH' | 'HEAD';
  readonly route: string | null;
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string | null;
}

const routes = [
  ...['sizing', 'set-out', 'circuit', 'drivers', 'heat', 'light', 'findings', 'schedules', 'cautions'],
  ...['ask/strip-from-data-sheet', 'readings', 'job-file', 'drawing-in/dxf', 'drawing-in/table', 'jobs'],
  ...['catalogue', 'demo-jobs', 'health', 'bin', 'openapi.json', 'job-schema'],
].map((name) => `/api/${name}`);

const withNames = [
  ...['/api/demo-jobs/{id}', '/api/jobs/{id}', '/api/jobs/{id}/rename', '/api/jobs/{id}/duplicate'],
  ...['/api/jobs/{id}/last-good-copy', '/api/jobs/{id}/revisions', '/api/bin/{id}/restore'],
  ...['/api/schedules/{id}.csv', '/api/jobs/{id}/revisions/{revision}'],
  '/api/jobs/{id}/revisions/{revision}/changes',
];

const names = ['a', 'demo', '..', '%2e%2e', 'x'.repeat(300), '%00', 'A', 'con', '-', 'ä', '%', '__proto__'];
const noises = [
  '',
  '/',
  '//',
  '/\\x',
  '/%2e%2e/x',
  '/api',
  '/api/',
  '/api/nothing',
  `/${'a'.repeat(3000)}`,
  '/?token=x',
];

/** What a value of a job can be swapped for. */
const oddities: readonly unknown[] = [
  null,
  -1,
  1e308,
  1e-308,
  '',
  'NaN',
  [],
  {},
  true,
  'x'.repeat(5000),
  [[[]]],
  0,
];

function oddJob(random: Random): unknown {
  const job: unknown = structuredClone(randomJob(random));
  for (let i = whole(random, 0, 2); i > 0; i--) {
    let node = job as Record<string, unknown>;
    for (let depth = 0; depth < 6; depth++) {
      const key = pick(random, Object.keys(node));
      const inner = node[key];
      if (
        typeof inner === 'object' &&
        inner !== null &&
        Object.keys(inner).length > 0 &&
        chance(random, 0.7)
      ) {
        node = inner as Record<string, unknown>;
        continue;
      }
      node[chance(random, 0.1) ? 'stray' : key] = pick(random, oddities);
      break;
    }
  }
  return job;
}

/** A text with a stretch cut out, doubled, or overwritten. */
function spoilt(text: string, random: Random): string {
  const from = whole(random, 0, text.length);
  const to = Math.min(text.length, from + whole(random, 0, 40));
  const between = pick(random, [
    '',
    text.slice(from, to).repeat(2),
    '\u0000',
    '"',
    '{',
    'NaN',
    '\\"',
    '\ud800',
    '9'.repeat(400),
  ]);
  return text.slice(0, from) + between + text.slice(to);
}

const drawing = '0\nSECTION\n2\nENTITIES\n0\nLINE\n8\nA\n10\n10\n20\n0\n11\n10\n21\n900\n0\nENDSEC\n0\nEOF\n';

function bodyOf(random: Random): string {
  const text = pick(random, [
    () => JSON.stringify(oddJob(random)),
    () => JSON.stringify({ job: oddJob(random), readings: [{ row: 'T01', loop_ohm: -1 }] }),
    () => drawing,
    () => '1\t2\t3\n4;5;6\n',
    () => '['.repeat(whole(random, 1, 3000)),
    () => JSON.stringify({ name: 'x' }),
    () => '',
  ])();
  return chance(random, 0.4) ? spoilt(text, random) : text;
}

const types = ['application/json', 'text/plain', 'application/json; charset=utf-8', 'text/html', '', 'a/b/c'];

const methods = ['POST', 'POST', 'POST', 'GET', 'PUT', 'DELETE', 'PATCH', 'HEAD'] as const;

function randomRequest(random: Random): Request {
  const template = chance(random, 0.1) ? null : pick(random, [...routes, ...routes, ...withNames]);
  const path =
    template === null ? pick(random, noises) : template.replaceAll(/\{\w+\}/g, () => pick(random, names));
  const query = chance(random, 0.2)
    ? pick(random, ['?accuracy=careful', '?paper=A3', '?x=%ff', '?a=1&a=2', '?'])
    : '';
  const isPage = template === null && chance(random, 0.7);
  const method = isPage ? 'GET' : pick(random, methods);
  const hasBody = method === 'POST' || method === 'PUT' || method === 'PATCH' || chance(random, 0.05);
  const type = chance(random, 0.7) ? 'application/json' : pick(random, types);
  const more: Record<string, string> = pick(random, [
    {},
    {},
    {},
    { 'if-match': '"x"' },
    { 'if-match': '*' },
    { origin: 'http://wall.example' },
  ]);
  const headers = { ...more, ...(hasBody && type !== '' ? { 'content-type': type } : {}) };
  return {
    method,
    route: template,
    path: (path || '/') + query,
    headers,
    body: hasBody ? bodyOf(random) : null,
  };
}

interface Open {
  readonly origin: string;
  readonly check: AnswerCheck;
  /** "POST /api/sizing" and whatever else the document describes. */
  readonly described: ReadonlySet<string>;
  readonly agent: Agent;
  readonly logged: string[];
  readonly close: () => Promise<void>;
}

async function describedBy(app: App): Promise<Set<string>> {
  const { paths } = (await app.inject('/api/openapi.json')).json();
  return new Set(
    Object.entries<object>(paths).flatMap(([route, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${route}`),
    ),
  );
}

/** The whole service on a free port, its log kept: nothing a caller sends may end up in it as a fault. */
async function openService(): Promise<Open> {
  const { folder, remove } = await temporaryFolder();
  const logged: string[] = [];
  const logger: AppOptions['logger'] = {
    level: 'error',
    stream: { write: (line) => void logged.push(line) },
  };
  const pageFolder = join(folder, 'page');
  await mkdir(pageFolder);
  await writeFile(join(pageFolder, 'index.html'), '<!doctype html>');
  const app = await buildApp({ ...testOptions(join(folder, 'jobs')), pageFolder, logger });
  const origin = await app.listen({ host: '127.0.0.1', port: 0 });
  const agent = new Agent({ connections: 1 });
  const close = async () => {
    await agent.close();
    await app.close();
    await remove();
  };
  return { origin, check: await answerCheck(app), described: await describedBy(app), agent, logged, close };
}

let open: Promise<Open> | undefined;
const opened = (): Promise<Open> => (open ??= openService());

/** Where the request is one that the document describes, its answer must be one that the document allows. */
function undescribed(
  { check, described }: Open,
  { method, route }: Request,
  answer: Parameters<AnswerCheck>[2],
): string[] {
  if (route === null || !described.has(`${method} ${route}`) || answer.status === 404) return [];
  try {
    check(method, route, answer);
    return [];
  } catch (error) {
    return thrown(error);
  }
}

function hasSentence(text: string): boolean {
  const { detail }: { detail?: unknown } = JSON.parse(text);
  return typeof detail === 'string' && detail.length > 20;
}

async function brokenBy(of: Request): Promise<string[]> {
  const service = await opened();
  const before = service.logged.length;
  const { method, path, headers, body } = of;
  const url = new URL(service.origin);
  const reply = await request(url, { path, method, headers, body, dispatcher: service.agent } as never);
  const text = await reply.body.text();
  const answer = { status: reply.statusCode, headers: reply.headers, text };
  const wrong: string[] = [];
  if (answer.status >= 500) wrong.push(`answered ${answer.status}: ${text.slice(0, 300)}`);
  if (service.logged.length > before) wrong.push(`logged ${service.logged.at(-1)!.slice(0, 400)}`);
  if (answer.status >= 400 && method !== 'HEAD' && !hasSentence(text))
    wrong.push(`${answer.status} without a sentence: ${text.slice(0, 200)}`);
  if (/node_modules|\.ts:\d|FST_ERR|ZodError/.test(text))
    wrong.push(`shows how it is built: ${text.slice(0, 300)}`);
  return [...wrong, ...undescribed(service, of, answer)];
}

/** Random requests to the whole service: whatever is sent, an answer that its own document describes. */
export const http: Kind<Request> = {
  name: 'http',
  make: (seed, number) => randomRequest(randomOf(seed, number)),
  broken: (of) => brokenBy(of).catch(thrown),
  read: (text) => {
    const of: Partial<Request> = JSON.parse(text);
    return typeof of.method === 'string' && typeof of.path === 'string' ? (of as Request) : null;
  },
  close: async () => {
    await (await open)?.close();
    open = undefined;
  },
};
