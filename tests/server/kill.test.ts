import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdir, readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isPart } from '../../server/store/durable-file.ts';
import { createJob, openJob, openLastGoodCopy } from '../../server/store/kept-jobs.ts';
import { productsOf } from '../../server/store/products.ts';
import { readingsOf } from '../../server/store/readings.ts';
import { readRevisionFile } from '../../server/store/revision-files.ts';
import { listRevisions } from '../../server/store/revisions.ts';
import { openWorkshop, type Workshop } from '../../server/store/workshop.ts';
import { readJobText } from '../../src/index.ts';
import { bundled, someJob, temporaryFolder } from './support.ts';

/** How often the saving process is killed; `SLOTWATT_KILLS=1000` for the long run. */
const killCount = Number(process.env.SLOTWATT_KILLS ?? 24);
const seed = Number(process.env.SLOTWATT_SEED ?? 4747);

/** Park and Miller's minimal generator (Comm. ACM 31, 1988, 1192): the moments are the same in every run. */
function momentsFrom(start: number): () => number {
  let state = start;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/** What a saving process has said: the last number of each kind. */
interface Said {
  saved: number;
  readonly issued: number[];
  /** Of which revisions a reading was kept, once for each reading. */
  readonly measured: number[];
  /** Which own products were kept. */
  readonly stocked: number[];
  /** Resolves with the first of the awaited kind. */
  readonly awaited: Promise<void>;
}

const kinds = ['saved', 'issued', 'measured', 'stocked'] as const;
type Kind = (typeof kinds)[number];

function listen(child: ChildProcess, kind: Kind): Said {
  let begun = (): void => undefined;
  const awaited = new Promise<void>((resolve) => {
    begun = resolve;
  });
  const said: Said = { saved: 0, issued: [], measured: [], stocked: [], awaited };
  let rest = '';
  child.stdout!.on('data', (chunk: Buffer) => {
    const lines = (rest + chunk.toString()).split('\n');
    rest = lines.pop()!;
    for (const line of lines) {
      const [word, count] = line.split(' ');
      if (word === kind) begun();
      if (word === 'saved') said.saved = Number(count);
      if (word === 'issued') said.issued.push(Number(count));
      if (word === 'measured') said.measured.push(Number(count));
      if (word === 'stocked') said.stocked.push(Number(count));
    }
  });
  return said;
}

/** Runs the saving process until it has said so, and a while longer, and kills it where it stands. */
async function saveAndKill(
  [program, folder, id]: readonly [string, string, string],
  kind: Kind,
  after_ms: number,
): Promise<Said> {
  const child = spawn(process.execPath, [program, folder, id], { stdio: ['ignore', 'pipe', 'pipe'] });
  const errors: Buffer[] = [];
  child.stderr.on('data', (chunk: Buffer) => errors.push(chunk));
  const said = listen(child, kind);
  const closed = once(child, 'close');
  await Promise.race([said.awaited, closed]);
  await wait(after_ms);
  child.kill('SIGKILL');
  const [code, signal] = await closed;
  expect([code, signal, Buffer.concat(errors).toString()]).toEqual([null, 'SIGKILL', '']);
  return said;
}

/** Before anything tidies up: the job and its copy are whole files wherever the process was stopped. */
async function expectNoTornFile(folder: string, id: string): Promise<void> {
  for (const name of ['job.json', 'last-good-copy.json']) {
    const read = readJobText(await readFile(join(folder, id, name), 'utf8'));
    expect(read.ok, name).toBe(true);
  }
}

async function opened<Value>(jobs: string, task: (workshop: Workshop) => Promise<Value>): Promise<Value> {
  const workshop = await openWorkshop(jobs);
  await workshop.tidied();
  try {
    return await task(workshop);
  } finally {
    await workshop.close();
  }
}

let program: string;
let folder: string;
let remove: () => Promise<void>;

beforeAll(async () => {
  // A real disk, on which a process is often enough within a file.
  ({ folder, remove } = await temporaryFolder(tmpdir()));
  program = await bundled('saver', folder);
});
afterAll(() => remove());

describe('a service killed in the middle of saving', () => {
  it(`has every save it acknowledged, ${killCount} times`, async () => {
    const jobs = join(folder, 'jobs');
    const made = await opened(jobs, (workshop) =>
      createJob(workshop, { ...someJob(), panel: { width_mm: 1000, height_mm: 1000 } }),
    );
    const moment = momentsFrom(seed);
    const issued: number[] = [];
    const measured: number[] = [];
    const stocked: number[] = [];
    let [before, saveCount, unfinishedCount] = [1000, 0, 0];
    for (let kill = 0; kill < killCount; kill++) {
      const kind = kinds[kill % kinds.length]!;
      const said = await saveAndKill([program, jobs, made.id], kind, moment() * 60);
      await expectNoTornFile(jobs, made.id);
      unfinishedCount += (await readdir(join(jobs, made.id))).filter(isPart).length;

      // The lock of the killed process is taken over.
      const [kept, copy] = await opened(jobs, (workshop) =>
        Promise.all([openJob(workshop, made.id), openLastGoodCopy(workshop, made.id)]),
      );
      if (!kept.ok) throw new Error(kept.issues[0]!.sentence);
      const width_mm = kept.value.job.panel.width_mm;
      const last = Math.max(said.saved, before);
      // The save that was under way may have arrived without being acknowledged, but no more than that one.
      expect(width_mm === last || width_mm === last + 1, `${last} acknowledged, ${width_mm} found`).toBe(
        true,
      );
      expect(copy.ok).toBe(true);
      expect((await readdir(join(jobs, made.id))).filter(isPart)).toEqual([]);
      issued.push(...said.issued);
      measured.push(...said.measured);
      stocked.push(...said.stocked);
      saveCount += width_mm - before;
      before = width_mm;
    }
    await opened(jobs, async (workshop) => {
      const listed = await listRevisions(workshop, made.id);
      expect(listed.ok && listed.value.filter(({ trouble }) => trouble !== null)).toEqual([]);
      for (const count of issued) {
        const { read } = await readRevisionFile(workshop.disk, join(jobs, made.id), `r${count}`);
        expect(read.ok && read.value.job).toMatchObject({ panel: { width_mm: count } });
      }
    });
    await opened(jobs, async (workshop) => {
      for (const count of new Set(measured)) {
        const acknowledged = measured.filter((one) => one === count).length;
        const kept = await readingsOf(workshop, made.id, `r${count}`);
        expect(kept.ok && kept.value.length).toBeGreaterThanOrEqual(acknowledged);
        expect(kept.ok && kept.value.every(({ value }) => value === count)).toBe(true);
      }
    });
    await opened(jobs, async (workshop) => {
      const products = await productsOf(workshop);
      const names = products.ok ? products.value.map(({ data }) => data.name) : [];
      expect(names).toEqual(expect.arrayContaining(stocked.map((count) => `Cable ${count}`)));
      expect(new Set(names).size).toBe(names.length);
    });
    // The moments did fall into the writing, not only between.
    expect(saveCount).toBeGreaterThanOrEqual(killCount);
    expect(unfinishedCount).toBeGreaterThan(0);
    expect(Math.min(issued.length, measured.length, stocked.length)).toBeGreaterThanOrEqual(
      Math.floor(killCount / kinds.length),
    );
    console.log(
      `${killCount} kills, ${unfinishedCount} of them within a file: of ${saveCount} saves, ${issued.length} revisions, ${measured.length} readings and ${stocked.length} products acknowledged none was lost`,
    );
  });
});
