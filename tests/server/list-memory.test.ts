import { execFileSync } from 'node:child_process';
import { cp, mkdir, readFile, rename, rm, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { buildApp } from '../../server/app.ts';
import type { ListedJob } from '../../server/contract/kept-jobs.ts';
import { removeJob } from '../../server/store/bin.ts';
import { realDisk, waitingDisk } from '../../server/store/disk.ts';
import { createJob, jobList, openJob, saveJob } from '../../server/store/kept-jobs.ts';
import {
  isWorthWriting,
  memoryFile,
  memoryOf,
  memoryText,
  readMemory,
  writeMemory,
} from '../../server/store/list-memory.ts';
import type { Memory } from '../../server/store/listing.ts';
import { issueRevision } from '../../server/store/revisions.ts';
import { openWorkshop, type Workshop } from '../../server/store/workshop.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import { failingDisk, manners } from './failing-disk.ts';
import { someJob, temporaryFolder, testOptions } from './support.ts';

let folder: string;
let root: string;
let remove: () => Promise<void>;
let workshop: Workshop;
beforeEach(async () => {
  ({ folder, remove } = await temporaryFolder());
  root = join(folder, 'jobs');
  workshop = await openWorkshop(root);
});
afterEach(async () => {
  vi.useRealTimers();
  await workshop.close();
  await remove();
});

const named = (job: string): Job => ({
  ...someJob(),
  title: { ...someJob().title, job, revision: 'A' },
});
const path = (...names: string[]): string => join(root, ...names);
const size = async (): Promise<Sizing> => ({ engine: 'test' }) as unknown as Sizing;

async function at(id: string): Promise<{ id: string; version: string }> {
  const opened = await openJob(workshop, id);
  if (!opened.ok) throw new Error(opened.issues[0]!.sentence);
  return { id, version: opened.value.etag };
}

/** What was written a moment ago is not remembered, so the clock goes on by an hour. */
const goOnByAnHour = (): void => void vi.useFakeTimers({ toFake: ['Date'], now: Date.now() + 3_600_000 });

/** Lists all of the folder, and what is remembered of that. */
async function listed(): Promise<Memory<ListedJob>> {
  const past = { memory: new Map() as Memory<ListedJob> };
  await jobList(workshop, past)();
  return past.memory;
}

async function keptTwelve(): Promise<Memory<ListedJob>> {
  for (let k = 0; k < 12; k++) await createJob(workshop, named(`Wall ${k}`));
  await issueRevision(workshop, await at('wall-3'), { size, note: '' });
  goOnByAnHour();
  return listed();
}

/** The list of the next start, how many files it read, and whether it says what one says that remembers nothing. */
async function nextStart(text: string): Promise<{ entries: ListedJob[]; reads: number }> {
  const disk = failingDisk(realDisk);
  const entries = await jobList({ ...workshop, disk }, { memory: memoryOf(root, text) })();
  expect(entries).toEqual(await jobList(workshop)());
  return { entries, reads: disk.opened.reads };
}

describe('the list of the next start', () => {
  it('reads no job that is as it was written down', async () => {
    const memory = await keptTwelve();
    expect(memory.size).toBe(12);
    expect(memoryOf(root, memoryText(memory))).toEqual(memory);
    expect(await nextStart(memoryText(memory))).toMatchObject({ entries: { length: 12 }, reads: 0 });
  });

  it('reads what was changed by whomever since, whatever its time and size say', async () => {
    const text = memoryText(await keptTwelve());
    vi.useRealTimers();
    await saveJob(workshop, await at('wall-1'), named('Saved'));
    await issueRevision(workshop, await at('wall-2'), { size, note: '' });
    await writeFile(path('wall-4', 'job.json'), JSON.stringify(named('By hand')));
    await removeJob(workshop, await at('wall-5'));
    // Two folders change their names, and one is another's copy with all its times.
    for (const [from, to] of [
      ['wall-6', 'aside'],
      ['wall-7', 'wall-6'],
      ['aside', 'wall-7'],
    ] as const)
      await rename(path(from), path(to));
    await rm(path('wall-8'), { recursive: true });
    await cp(path('wall-9'), path('wall-8'), { recursive: true, preserveTimestamps: true });
    await writeFile(path('wall-10', 'job.json'), '{');
    const { entries, reads } = await nextStart(text);
    expect(entries.map(({ id, name, trouble }) => `${id} ${trouble === null ? name : 'trouble'}`)).toEqual([
      ...['wall-0 Wall 0', 'wall-1 Saved', 'wall-10 trouble', 'wall-11 Wall 11', 'wall-2 Wall 2'],
      ...['wall-3 Wall 3', 'wall-4 By hand', 'wall-6 Wall 7', 'wall-7 Wall 6', 'wall-8 Wall 9'],
      'wall-9 Wall 9',
    ]);
    expect(entries[4]!.revisions).toEqual(['a']);
    // 1, 2, 4, 6, 7, 8 and 10, whose copy is looked into as well.
    expect(reads).toBe(8);
  });

  it('is read anew where what was written down is cut, changed, of another engine or no file', async () => {
    const memory = await keptTwelve();
    const text = memoryText(memory);
    const end = text.length - 1;
    for (const each of [
      '',
      '\n',
      '{}',
      text.slice(0, end - 1),
      text.slice(0, 200),
      text.replace('Wall 7', 'Hall 7'),
    ])
      expect(memoryOf(root, each).size, each.slice(0, 80)).toBe(0);
    expect(memoryOf(root, text.replace(/"engine":"/, '"engine":"0')).size).toBe(0);
    expect(memoryOf(root, text.replace('"version":1', '"version":2')).size).toBe(0);
    await writeFile(join(folder, 'outside'), text);
    await symlink(join(folder, 'outside'), path(memoryFile));
    expect((await readMemory(waitingDisk, root)).size).toBe(0);
    await rm(path(memoryFile));
    execFileSync('mkfifo', [path(memoryFile)]);
    expect((await readMemory(waitingDisk, root)).size).toBe(0);
    await rm(path(memoryFile));
    await mkdir(path(memoryFile));
    expect((await readMemory(waitingDisk, root)).size).toBe(0);
  });

  it('does not rest on what was seen of a job that changed a moment before', async () => {
    await createJob(workshop, named('Wall'));
    expect((await listed()).size).toBe(0);
  });
});

describe('what is remembered', () => {
  const seen = (count: number, from = 0): Memory<ListedJob> =>
    new Map(
      Array.from({ length: count }, (_, k) => [`wall-${from + k}`, { marks: [], entry: {} as ListedJob }]),
    );

  it('is worth writing down from 101 jobs read since, and more than a twentieth of all', () => {
    expect(isWorthWriting(seen(100), new Map())).toBe(false);
    expect(isWorthWriting(seen(101), new Map())).toBe(true);
    // A twentieth of 4000 is 200.
    const written = seen(3800);
    expect(isWorthWriting(new Map([...written, ...seen(200, 3800)]), written)).toBe(false);
    // A twentieth of 4001 is 200.05.
    expect(isWorthWriting(new Map([...written, ...seen(201, 3800)]), written)).toBe(true);
    expect(isWorthWriting(written, written)).toBe(false);
  });

  it('is the old or the new after whatever failure of the disk, and a failure is nobody’s trouble', async () => {
    await writeFile(path(memoryFile), 'old');
    const sound = failingDisk(realDisk);
    await writeMemory({ ...workshop, disk: sound }, 'new');
    expect(await readFile(path(memoryFile), 'utf8')).toBe('new');
    for (const manner of manners)
      for (let k = 0; k < sound.count(); k++) {
        await writeFile(path(memoryFile), 'old');
        await writeMemory(
          { ...workshop, disk: failingDisk(realDisk, { at: k, manner, code: 'ENOSPC' }) },
          'new',
        );
        expect(['old', 'new']).toContain(await readFile(path(memoryFile), 'utf8'));
      }
  });

  it('is written by nobody who does not hold the folder, and through no link', async () => {
    await rm(path('.slotwatt-lock'));
    await writeMemory(workshop, 'new');
    await expect(readFile(path(memoryFile))).rejects.toThrow(/ENOENT/);
    await workshop.close();
    workshop = await openWorkshop(root);
    await writeFile(join(folder, 'outside'), 'mine');
    await symlink(join(folder, 'outside'), path(memoryFile));
    await writeMemory(workshop, 'new');
    expect(await readFile(join(folder, 'outside'), 'utf8')).toBe('mine');
  });
});

describe('the service', () => {
  it('writes down the list of many jobs once they stayed as they are for a while, and lists the same at its next start', async () => {
    await createJob(workshop, named('Wall'));
    await workshop.close();
    for (let k = 0; k < 130; k++) await cp(path('wall'), path(`wall-${k}`), { recursive: true });
    const app = await buildApp(testOptions(root));
    const remembered = async (): Promise<number> => {
      await app.inject('/api/jobs');
      return (await readMemory(realDisk, root)).size;
    };
    await expect.poll(remembered).toBeGreaterThan(100);
    const first = (await app.inject('/api/jobs')).json();
    await app.close();
    expect(first).toHaveLength(131);
    const next = await buildApp(testOptions(root));
    expect((await next.inject('/api/jobs')).json()).toEqual(first);
    await next.close();
    workshop = await openWorkshop(root);
  });
});
