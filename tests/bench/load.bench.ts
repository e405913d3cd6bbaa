import { existsSync, readFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { Agent, request } from 'undici';
import { demoJobs } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { type Running, startService } from './service.ts';
import { line, timed, timesDuring } from './times.ts';

/** Memory the process holds, MB; null where the system does not tell it this way. */
function memory_MB(pid: number): number | null {
  const file = `/proc/${pid}/status`;
  if (!existsSync(file)) return null;
  return Number(/VmRSS:\s+(\d+) kB/.exec(readFileSync(file, 'utf8'))![1]) / 1024;
}

/** Begins bodies that trickle in for ever, a space a second, and says after how long each was cut. */
function trickling(origin: string, count: number): Promise<number[]> {
  const { port } = new URL(origin);
  const one = async (): Promise<void> => {
    const socket = connect(Number(port), '127.0.0.1').on('error', () => undefined);
    socket.write('POST /api/sizing HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-type: application/json\r\n');
    socket.write('content-length: 500000\r\n\r\n{"format":');
    const timer = setInterval(() => socket.write(' '), 1000);
    // Not by `once`, which takes a reset connection for its own failure.
    await new Promise((resolve) => socket.resume().on('close', resolve));
    clearInterval(timer);
  };
  return Promise.all(Array.from({ length: count }, () => timed(one)));
}

const seconds = (count: number): Promise<void> => wait(1000 * count);

const dispatcher = new Agent({ connections: 256 });

interface Reply {
  readonly status: number;
  /** After how many seconds to come again, where that was said. */
  readonly retryAfter_s: number;
}

async function ask(origin: string, path: string, body: object): Promise<Reply> {
  const headers = { 'content-type': 'application/json' };
  const asked = { method: 'POST', headers, body: JSON.stringify(body), dispatcher } as const;
  const reply = await request(origin + path, asked);
  await reply.body.arrayBuffer();
  return { status: reply.statusCode, retryAfter_s: Number(reply.headers['retry-after'] ?? 0) };
}

/** Asks for one quick sizing, which is never refused. */
async function askQuick(origin: string, job: Job): Promise<void> {
  const { status } = await ask(origin, '/api/sizing', job);
  if (status !== 200) throw new Error(`a quick answer was refused with ${status}`);
}

/** Asks with care, and comes again whenever told to. */
async function askUntilAnswered(origin: string, job: Job): Promise<void> {
  for (;;) {
    const { status, retryAfter_s } = await ask(origin, '/api/sizing?accuracy=careful', job);
    if (status === 200) return;
    if (status !== 503 || retryAfter_s === 0) throw new Error(`a careful answer was refused with ${status}`);
    await seconds(retryAfter_s);
  }
}

/** A demo job of its own width, the last of its panels with it, so that nobody has asked for its answer before. */
function widened(k: number): Job {
  const { job } = demoJobs[k % demoJobs.length]!;
  const wider = <Part extends { width_mm: number }>(part: Part) => ({ ...part, width_mm: part.width_mm + k });
  const panels = job.panels.map((panel, at) => (at === job.panels.length - 1 ? wider(panel) : panel));
  return { ...job, panel: wider(job.panel), panels };
}

/** Times quick answers for each demo job in turn, for as long as the work goes on. */
async function quickDuring(origin: string, work: Promise<unknown>): Promise<void> {
  const times = demoJobs.map((): number[] => []);
  let turn = 0;
  await timesDuring(work, async () => {
    const which = turn++ % demoJobs.length;
    times[which]!.push(await timed(() => askQuick(origin, demoJobs[which]!.job)));
  });
  demoJobs.forEach(({ id }, which) => void line(`  ${id}`, times[which]!));
}

/**
 * Quick answers for each demo job: alone, and while two hundred callers ask with care at the same moment, another
 * asks without end how thin, deep and long is enough, a proposal is worked out, and a thousand send bodies that do not come to
 * their end.
 */
async function quickBesideCareful(origin: string): Promise<void> {
  await Promise.all([1, 2].map(() => quickDuring(origin, seconds(5))));
  console.log('quick sizing alone');
  await quickDuring(origin, seconds(20));
  let isOver = false;
  const waits = Array.from({ length: 200 }, (_, k) => timed(() => askUntilAnswered(origin, widened(k))));
  const careful = Promise.all(waits).finally(() => {
    isOver = true;
  });
  const slow = trickling(origin, 1000);
  const asking = (async () => {
    for (let k = 0; !isOver; k++) await ask(origin, '/api/ask/heat', widened(k));
  })();
  const proposing = timed(() => ask(origin, '/api/proposals', { job: widened(2) }));
  console.log('quick sizing beside 200 careful ones, a question the other way round and a proposal');
  await quickDuring(origin, careful);
  line('the 200 careful ones, coming again when told', await careful);
  await asking;
  line('the proposal', [await proposing]);
  line('a thousand bodies that trickle in, cut after', await slow);
}

/** Memory after one and after ten thousand requests. */
async function memoryOverRequests({ origin, pid }: Running): Promise<void> {
  const small = demoJobs[0]!.job;
  const many = async (count: number): Promise<void> => {
    let left = count;
    const caller = async (): Promise<void> => {
      while (left-- > 0) await askQuick(origin, small);
    };
    await Promise.all(Array.from({ length: 8 }, caller));
  };
  await many(1_000);
  const first = memory_MB(pid);
  const took_ms = await timed(() => many(9_000));
  const last = memory_MB(pid);
  if (first === null || last === null) return console.log('memory: skipped, this system has no /proc');
  const change = Math.round(100 * (last / first - 1));
  console.log(
    `memory after 1,000 requests ${first.toFixed(0)} MB, after 10,000 ${last.toFixed(0)} MB (${change >= 0 ? '+' : ''}${change} %), 9,000 in ${(took_ms / 1000).toFixed(0)} s`,
  );
}

/** The built service under load: whether quick answers stay quick, and whether memory stays flat. */
export async function benchLoad(): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'slotwatt-load-'));
  const service = await startService(folder);
  try {
    await quickBesideCareful(service.origin);
    await memoryOverRequests(service);
  } finally {
    await dispatcher.close();
    await service.stop();
    await rm(folder, { recursive: true });
  }
}
