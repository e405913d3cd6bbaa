import { mkdir, writeFile } from 'node:fs/promises';
import { connect } from 'node:net';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { Agent, request } from 'undici';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../server/app.ts';
import type { App } from '../../server/service.ts';
import { type AnswerCheck, answerCheck, someJob, temporaryFolder, testOptions } from './support.ts';

let app: App;
let origin: string;
let check: AnswerCheck;
let remove: () => Promise<void>;
let agent: Agent;

beforeAll(async () => {
  const temporary = await temporaryFolder();
  remove = temporary.remove;
  const pageFolder = join(temporary.folder, 'page');
  await mkdir(pageFolder);
  await writeFile(join(pageFolder, 'index.html'), '<!doctype html><title>Slotwatt</title>');
  await writeFile(join(pageFolder, 'page.js'), 'plain()');
  await writeFile(join(pageFolder, 'page.js.gz'), 'packed');
  app = await buildApp({ ...testOptions(join(temporary.folder, 'jobs')), pageFolder });
  origin = await app.listen({ host: '127.0.0.1', port: 0 });
  check = await answerCheck(app);
  agent = new Agent({ connections: 8 });
});
afterAll(async () => {
  await agent.close();
  await app.close();
  await remove();
});

const sent = (body: unknown): string | Readable =>
  typeof body === 'string' || body instanceof Readable ? body : JSON.stringify(body);

async function ask(method: 'GET' | 'POST' | 'PUT', path: string, body?: unknown, headers = {}) {
  const reply = await request(origin + path, {
    method,
    dispatcher: agent,
    ...(body === undefined ? {} : { body: sent(body) }),
    headers: { ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
  });
  return { status: reply.statusCode, headers: reply.headers, text: await reply.body.text() };
}

describe('over a real connection', () => {
  it('sends parts of the page packed to those who can unpack them', async () => {
    const packed = await ask('GET', '/page.js', undefined, { 'accept-encoding': 'gzip' });
    expect([packed.status, packed.headers['content-encoding'], packed.text]).toEqual([200, 'gzip', 'packed']);
    expect(packed.headers['content-type']).toContain('javascript');
    const plain = await ask('GET', '/page.js');
    expect([plain.headers['content-encoding'], plain.text]).toEqual([undefined, 'plain()']);
  });

  it('answers a job, and the same job always the same', async () => {
    const answers = await Promise.all(Array.from({ length: 8 }, () => ask('POST', '/api/sizing', someJob())));
    for (const answer of answers) {
      check('POST', '/api/sizing', answer);
      expect(answer.status).toBe(200);
      expect(answer.text).toBe(answers[0]!.text);
    }
  });

  it('hears ten megabytes out and says in a sentence that they are too many', async () => {
    const text = `"${'x'.repeat(10_000_000)}"`;
    // With its length announced, and in pieces without.
    for (const body of [text, Readable.from([text.slice(0, 5_000_000), text.slice(5_000_000)])]) {
      const answer = await ask('POST', '/api/sizing', body);
      check('POST', '/api/sizing', answer);
      expect(answer.status).toBe(413);
      expect(JSON.parse(answer.text).detail).toContain('at most 2 MB');
    }
    expect((await ask('GET', '/api/health')).status).toBe(200);
  });

  it('survives a caller who hangs up in the middle of a body', async () => {
    const { port } = new URL(origin);
    await new Promise<void>((resolve) => {
      const socket = connect(Number(port), '127.0.0.1', () => {
        socket.write('POST /api/sizing HTTP/1.1\r\nhost: a\r\ncontent-type: application/json\r\n');
        socket.write('content-length: 5000\r\n\r\n{"format":');
        app.server.once('request', () => socket.destroy());
      });
      socket.on('close', () => resolve());
      socket.on('error', () => undefined);
    });
    expect((await ask('GET', '/api/health')).status).toBe(200);
  });

  it('keeps a job, tells the second writer, and opens it again', async () => {
    const kept = await ask('POST', '/api/jobs', someJob());
    const { id, etag } = JSON.parse(kept.text);
    const changed = { ...someJob(), panel: { width_mm: 2345, height_mm: 2000 } };
    const first = await ask('PUT', `/api/jobs/${id}`, changed, { 'if-match': etag });
    const second = await ask('PUT', `/api/jobs/${id}`, someJob(), { 'if-match': etag });
    for (const answer of [first, second]) check('PUT', '/api/jobs/{id}', answer);
    expect([first.status, second.status]).toEqual([200, 412]);
    expect(JSON.parse((await ask('GET', `/api/jobs/${id}`)).text)).toEqual(changed);
  });

  it('serves the page at / with a policy that lets nothing in from elsewhere and forces nothing to https', async () => {
    const page = await ask('GET', '/');
    expect(page.status).toBe(200);
    expect(page.text).toContain('<title>Slotwatt</title>');
    const policy = String(page.headers['content-security-policy']);
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toContain('unsafe');
    expect(policy).not.toContain('upgrade-insecure-requests');
    expect(policy).not.toMatch(/https?:/);
    expect(page.headers['strict-transport-security']).toBeUndefined();
    expect(page.headers['x-content-type-options']).toBe('nosniff');
  });

  it('lets nobody store its answers', async () => {
    for (const path of ['/api/jobs', '/api/health', '/api/nothing'])
      expect((await ask('GET', path)).headers['cache-control']).toBe('no-store');
  });

  it('serves nothing outside the folder of the page', async () => {
    for (const path of [
      '/../package.json',
      '/%2e%2e/package.json',
      '/..%2f..%2fetc/passwd',
      '/.env',
      '/missing.js',
    ]) {
      const answer = await ask('GET', path);
      expect([400, 403, 404]).toContain(answer.status);
      expect(answer.headers['content-type']).toMatch(/problem\+json/);
    }
  });

  it('lets no other site call it from a browser', async () => {
    const answer = await ask('POST', '/api/sizing', someJob(), { origin: 'http://elsewhere.example' });
    expect(answer.headers['access-control-allow-origin']).toBeUndefined();
  });
});
