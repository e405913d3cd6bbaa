import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { build } from 'esbuild';
import { type AppOptions, buildApp } from '../../server/app.ts';
import { ownComputer } from '../../server/callers.ts';
import type { Problem } from '../../server/contract/problem.ts';
import { openPool, type Pool } from '../../server/pool.ts';
import type { App, Threads } from '../../server/service.ts';
import { demoJobs } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { hang_ms } from '../hang.ts';

/** A job to begin a test from; a fresh copy each time. */
export function someJob(): Job {
  return structuredClone(demoJobs[0]!.job);
}

const inMemory = '/dev/shm';

/**
 * Where tests keep their folders: in memory where this computer has such a place, since a file that is flushed waits for a
 * real disk, and nothing a test cuts off is the current.
 */
const quick = existsSync(inMemory) ? inMemory : tmpdir();

/** A folder of its own for a test, and the way to be rid of it. */
export async function temporaryFolder(
  under = quick,
): Promise<{ folder: string; remove: () => Promise<void> }> {
  const folder = await mkdtemp(join(under, 'slotwatt-'));
  return { folder, remove: () => rm(folder, { recursive: true, force: true }) };
}

const workers = { folder: new URL('../../build/server/workers/', import.meta.url), ending: '.js' } as const;

/**
 * A pool of one thread as built, which no service closes. Careful answers do not give way here to whatever else this computer
 * does, nor are they stopped: tests would wait for the others, and for threads to warm anew. `pool.test.ts` has both.
 */
function lasting(isLong: boolean): Pool {
  const pool = openPool(workers, { threadCount: 1, queueLimit: 64, timeLimit_ms: hang_ms, isLong });
  return { ...pool, close: async () => {} };
}

let threads: Threads | undefined;

/** The same threads for all services of a process, which are slow only until they have warmed to their work. */
const sharedThreads = (): Threads =>
  (threads ??= { quick: lasting(false), slow: lasting(false), heavy: lasting(true) });

/** Options of the service as the tests run it: no page, no log. */
export function testOptions(jobsFolder: string): AppOptions {
  return {
    jobsFolder,
    pageFolder: null,
    callers: ownComputer,
    workers,
    openThreads: sharedThreads,
    patience_ms: hang_ms,
    logger: false,
  };
}

/** What came back, whichever client asked. */
export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly text: string;
}

/** Throws unless the answer is one that the OpenAPI document of the service allows. */
export type AnswerCheck = (method: string, route: string, answer: Answer) => void;

const pointer = (step: string): string =>
  encodeURIComponent(step.replaceAll('~', '~0').replaceAll('/', '~1'));

let check: Promise<AnswerCheck> | undefined;

/** A check of answers by another JSON Schema program than the one that the service uses, the same for every service. */
export const answerCheck = (app: App): Promise<AnswerCheck> => (check ??= answerCheckOf(app));

async function answerCheckOf(app: App): Promise<AnswerCheck> {
  const reply = await app.inject('/api/openapi.json');
  const ajv = new Ajv2020({ strict: false, validateFormats: false });
  const document = reply.json();
  ajv.addSchema(document, 'service');
  const validators = new Map<string, ReturnType<typeof ajv.compile>>();
  function validatorOf(ref: string): ReturnType<typeof ajv.compile> {
    const validate = validators.get(ref) ?? ajv.compile({ $ref: ref });
    validators.set(ref, validate);
    return validate;
  }
  return (method, route, { status, headers, text }) => {
    const type = String(headers['content-type']).split(';')[0]!;
    const content = document.paths[route]?.[method.toLowerCase()]?.responses?.[status]?.content?.[type];
    if (!content)
      throw new Error(`${method} ${route} may not answer ${status} ${type}: ${text.slice(0, 400)}`);
    const path = [
      'paths',
      route,
      method.toLowerCase(),
      'responses',
      String(status),
      'content',
      type,
      'schema',
    ];
    const validate = validatorOf(`service#/${path.map(pointer).join('/')}`);
    if (!validate(type.endsWith('json') ? JSON.parse(text) : text)) {
      throw new Error(`${method} ${route} ${status}: ${ajv.errorsText(validate.errors)}`);
    }
  };
}

interface Question {
  /** The address as the OpenAPI document writes it; the same as the path when left out. */
  readonly route?: string;
  readonly headers?: Record<string, string>;
  readonly body?: unknown;
}

/** The service under test: every answer it gives is checked against its OpenAPI document. */
export interface TestService {
  readonly app: App;
  readonly jobsFolder: string;
  ask(
    method: 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE',
    path: string,
    question?: Question,
  ): Promise<Answer>;
  close(): Promise<void>;
}

function payload(body: unknown): { payload?: string; headers: Record<string, string> } {
  if (body === undefined) return { headers: {} };
  const text = typeof body === 'string' ? body : JSON.stringify(body);
  return { payload: text, headers: { 'content-type': 'application/json' } };
}

/** Opens the service in a folder of its own. */
export async function openTestService(): Promise<TestService> {
  const { folder, remove } = await temporaryFolder();
  const app = await buildApp(testOptions(folder));
  const check = await answerCheck(app);
  return {
    app,
    jobsFolder: folder,
    async ask(method, path, { route = path, headers = {}, body } = {}) {
      const sent = payload(body);
      const reply = await app.inject({
        method,
        url: path,
        headers: { ...sent.headers, ...headers },
        ...(sent.payload === undefined ? {} : { payload: sent.payload }),
      });
      const answer = { status: reply.statusCode, headers: reply.headers, text: reply.body };
      check(method, route, answer);
      return answer;
    },
    async close() {
      await app.close();
      await remove();
    },
  };
}

/** Reads an answer as a problem. */
export function problemIn(answer: Answer): Problem {
  return JSON.parse(answer.text);
}

/** Bundles a TypeScript program of the tests into one file that starts quickly; returns its path. */
export async function bundled(name: string, folder: string): Promise<string> {
  const outfile = join(folder, `${name}.cjs`);
  const entry = fileURLToPath(new URL(`${name}.ts`, import.meta.url));
  await build({
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    logLevel: 'error',
  });
  return outfile;
}
