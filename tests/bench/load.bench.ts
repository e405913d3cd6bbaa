import { existsSync, readFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
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

const dispatcher = new Agent({ connections: 256 });

async function ask(origin: string, path: string, job: Job): Promise<number> {
  const headers = { 'content-type': 'application/json' };
  const asked = { method: 'POST', headers, body: JSON.stringify(job), dispatcher } as const;
  const reply = await request(origin + path, asked);
  await reply.body.arrayBuffer();
  return reply.statusCode;
}

const job = demoJobs.at(-1)!.job;

/** Quick answers for the largest demo job while two hundred careful ones are asked for at the same moment. */
async function quickBesideCareful(origin: string): Promise<void> {
  for (let i = 0; i < 20; i++) await ask(origin, '/api/sizing', job);
  const careful = Promise.all(
    Array.from({ length: 200 }, () => ask(origin, '/api/sizing?accuracy=careful', job)),
  );
  const quick = await timesDuring(careful, async () => {
    const status = await ask(origin, '/api/sizing', job);
    if (status !== 200) throw new Error(`a quick answer was refused with ${status}`);
  });
  line('quick sizing beside 200 careful requests', quick);
  const statuses = await careful;
  const answered = statuses.filter((status) => status === 200).length;
  const later = statuses.filter((status) => status === 503).length;
  console.log(
    `  of the 200: ${answered} answered, ${later} told to come again, ${200 - answered - later} others`,
  );
}

/** Memory after one and after ten thousand requests. */
async function memoryOverRequests({ origin, pid }: Running): Promise<void> {
  const small = demoJobs[0]!.job;
  const many = async (count: number): Promise<void> => {
    let left = count;
    const caller = async (): Promise<void> => {
      while (left-- > 0) await ask(origin, '/api/sizing', small);
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
