import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdir, writeFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:net';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { request } from 'undici';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ownComputer } from '../../server/callers.ts';
import { readSettings } from '../../server/settings.ts';
import { startedSentences } from '../../server/started.ts';
import { someJob, temporaryFolder } from './support.ts';

/** As `npm start` runs it. */
const main = fileURLToPath(new URL('../../build/server/main.js', import.meta.url));

let folder: string;
let remove: () => Promise<void>;
beforeAll(async () => {
  ({ folder, remove } = await temporaryFolder());
});
afterAll(() => remove());

interface Started {
  readonly child: ChildProcess;
  readonly said: () => string;
  readonly complained: () => string;
}

function start(env: Record<string, string>): Started {
  const child = spawn(process.execPath, [main], {
    env: { ...process.env, SLOTWATT_JOBS: join(folder, 'jobs'), SLOTWATT_PAGE: folder, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const [out, err]: [Buffer[], Buffer[]] = [[], []];
  child.stdout.on('data', (chunk: Buffer) => out.push(chunk));
  child.stderr.on('data', (chunk: Buffer) => err.push(chunk));
  return {
    child,
    said: () => Buffer.concat(out).toString(),
    complained: () => Buffer.concat(err).toString(),
  };
}

async function takenPort(): Promise<{ server: Server; port: number }> {
  const server = createServer();
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('no port');
  return { server, port: address.port };
}

describe('starting and stopping', () => {
  it('says where it is, answers, finishes what it was asked when told to stop, and ends well', async () => {
    const { child, said, complained } = start({ PORT: '0' });
    await once(child.stdout!, 'data');
    const closed = once(child, 'close');
    const origin = /http:\/\/127\.0\.0\.1:\d+/.exec(said())![0];
    const asked = request(`${origin}/api/sizing`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(someJob()),
    });
    expect((await request(`${origin}/api/health`)).statusCode).toBe(200);
    child.kill('SIGTERM');
    const answer = await asked;
    expect(answer.statusCode).toBe(200);
    expect(JSON.parse(await answer.body.text())).toHaveProperty('findings');
    expect(await closed).toEqual([0, null]);
    expect(complained()).toBe('');
  });

  it('says in one sentence that the port is taken and what to do', async () => {
    const { server, port } = await takenPort();
    const { child, complained } = start({ PORT: String(port) });
    expect(await once(child, 'close')).toEqual([1, null]);
    expect(complained()).toBe(
      `Port ${port} is taken, perhaps by another Slotwatt: stop that one, or choose another with PORT=${port + 1}.\n`,
    );
    server.close();
  });

  it('says in one sentence that the folder of jobs cannot be one', async () => {
    const file = join(folder, 'a-file');
    await writeFile(file, '');
    for (const jobs of [file, join(file, 'deeper')]) {
      const { child, complained } = start({ PORT: '0', SLOTWATT_JOBS: jobs });
      expect(await once(child, 'close')).toEqual([1, null]);
      expect(complained()).toMatch(/^\S+ cannot be a folder of jobs, because a file is in the way: .*\n$/);
    }
  });

  it('says in one sentence that another one holds the folder, and starts when that one was killed', async () => {
    const first = start({ PORT: '0' });
    await once(first.child.stdout!, 'data');
    const second = start({ PORT: '0' });
    expect(await once(second.child, 'close')).toEqual([1, null]);
    expect(second.complained()).toMatch(
      new RegExp(
        `^The folder of jobs \\S+ is in use by another Slotwatt \\(process ${first.child.pid} on .*\\n$`,
      ),
    );
    first.child.kill('SIGKILL');
    await once(first.child, 'close');
    const third = start({ PORT: '0' });
    await once(third.child.stdout!, 'data');
    third.child.kill('SIGTERM');
    expect(await once(third.child, 'close')).toEqual([0, null]);
    expect(await readdir(join(folder, 'jobs'))).toEqual([]);
  });

  it('says in one sentence that there is no such port', async () => {
    const { child, complained } = start({ PORT: 'front door' });
    expect(await once(child, 'close')).toEqual([1, null]);
    expect(complained()).toBe(
      'PORT must be a whole number from 0 to 65535, not "front door": try PORT=4747.\n',
    );
  });
});

describe('settings', () => {
  it('are the ones of the contract when nothing is said', () => {
    expect(readSettings({})).toMatchObject({ ok: true, value: { host: '127.0.0.1', port: 4747 } });
  });
  it.each(['-1', '65536', '80.5', ' 80', '0x50', '1e3'])('refuse %j as a port', (PORT) => {
    expect(readSettings({ PORT }).ok).toBe(false);
  });
});

describe('what is said at the start', () => {
  it('is the address and the folder, and nothing of networks on this computer only', () => {
    const said = startedSentences('http://127.0.0.1:4747', '/wall/jobs', ownComputer);
    expect(said).toEqual([
      'Slotwatt is at http://127.0.0.1:4747 and keeps its jobs in /wall/jobs. Stop it with Ctrl+C.',
    ]);
  });
  it('warns of a network and gives the address with its token', () => {
    const said = startedSentences('http://0.0.0.0:4747', '/wall/jobs', { names: [], token: 'abc' });
    expect(said[0]).toContain('http://0.0.0.0:4747/?token=abc');
    expect(said[1]).toContain('not encrypted');
  });
});
