import { once } from 'node:events';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { someJob } from '../server/support.ts';
import { type PageService, sharedBrowser, startService } from './browser.ts';

/**
 * A page that means harm, in a real browser, on this same computer: once under a foreign name that leads to the
 * service's own port (as a name server can arrange), once from another port.
 */
let service: PageService;
let hostile: Server;
let browser: Browser;
let id: string;

beforeAll(async () => {
  service = await startService();
  hostile = createServer((_, reply) => reply.setHeader('content-type', 'text/html').end('<!doctype html>'));
  hostile.listen(0, '127.0.0.1');
  await once(hostile, 'listening');
  browser = await sharedBrowser();
  const kept = await fetch(`${service.address}/api/jobs`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(someJob()),
  });
  id = ((await kept.json()) as { id: string }).id;
});
afterAll(async () => {
  await browser?.close();
  hostile.close();
  await service.stop();
});

interface Tried {
  readonly url: string;
  readonly method: string;
  readonly status: number | null;
  readonly text: string;
}

/** Whatever a page can try with `fetch`, with and without asking to read the answer. */
async function tryFrom(page: string, target: string): Promise<Tried[]> {
  const tab = await browser.newPage();
  await tab.goto(page);
  const tried = await tab.evaluate(
    async ({ target, id }) => {
      const plans = [
        { method: 'GET', path: '/api/jobs' },
        { method: 'GET', path: `/api/jobs/${id}` },
        { method: 'DELETE', path: `/api/jobs/${id}`, headers: { 'if-match': '*' } },
        { method: 'POST', path: `/api/bin/${id}/restore` },
        { method: 'POST', path: '/api/drawing-in/dxf', headers: { 'content-type': 'text/plain' }, body: '0' },
      ];
      const done = [];
      for (const mode of ['cors', 'no-cors'] as const)
        for (const { path, method, ...rest } of plans) {
          const url = target + path;
          try {
            const reply = await fetch(url, { method, mode, ...rest });
            done.push({ url, method, status: reply.status, text: await reply.text() });
          } catch {
            done.push({ url, method, status: null, text: '' });
          }
        }
      return done;
    },
    { target, id },
  );
  await tab.close();
  return tried;
}

describe('a hostile page', () => {
  it('under a foreign name reads nothing and changes nothing', async () => {
    const target = `http://wall.example:${new URL(service.address).port}`;
    for (const { status, text } of await tryFrom(`${target}/api/health`, target)) {
      expect([421, null]).toContain(status);
      expect(text).not.toContain(someJob().title.job);
    }
  });

  it('from another port reads nothing and changes nothing', async () => {
    const page = `http://127.0.0.1:${(hostile.address() as AddressInfo).port}/`;
    // Status 0 is an answer that the browser does not let the page see.
    for (const { status, text } of await tryFrom(page, service.address)) {
      expect([0, null]).toContain(status);
      expect(text).toBe('');
    }
  });

  it('leaves every job where it was', async () => {
    const jobs = (await (await fetch(`${service.address}/api/jobs`)).json()) as { id: string }[];
    expect(jobs.map((job) => job.id)).toEqual([id]);
    expect(await (await fetch(`${service.address}/api/bin`)).json()).toEqual([]);
  });
});
