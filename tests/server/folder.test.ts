import { execFileSync } from 'node:child_process';
import {
  cp,
  mkdir,
  readdir,
  readFile,
  rename,
  rm,
  stat,
  symlink,
  truncate,
  unlink,
  utimes,
  writeFile,
} from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { ListedJob } from '../../server/contract/kept-jobs.ts';
import { binList, removeJob, restoreJob } from '../../server/store/bin.ts';
import { realDisk, waitingDisk } from '../../server/store/disk.ts';
import {
  createJob,
  duplicateJob,
  jobList,
  openJob,
  openLastGoodCopy,
  renameJob,
  saveJob,
} from '../../server/store/kept-jobs.ts';
import { issueRevision, listRevisions, openRevision } from '../../server/store/revisions.ts';
import { sharedRun } from '../../server/store/shared-run.ts';
import { openWorkshop, type Workshop } from '../../server/store/workshop.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import { failingDisk } from './failing-disk.ts';
import { openAfterStop } from './store-state.ts';
import { someJob, temporaryFolder } from './support.ts';

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
  await workshop.close();
  await remove();
});

const named = (job: string, revision = ''): Job => ({
  ...someJob(),
  title: { ...someJob().title, job, revision },
});
const size = async (): Promise<Sizing> => ({ engine: 'test' }) as unknown as Sizing;
const path = (...names: string[]): string => join(root, ...names);

/** The list, which is the same over the disk that a thread waits for. */
async function list(): Promise<ListedJob[]> {
  const entries = await jobList(workshop)();
  expect(await jobList({ root, disk: waitingDisk })()).toEqual(entries);
  return entries;
}

async function at(id: string): Promise<{ id: string; version: string }> {
  const opened = await openJob(workshop, id);
  if (!opened.ok) throw new Error(opened.issues[0]!.sentence);
  return { id, version: opened.value.etag };
}

async function issue(id: string): Promise<void> {
  const outcome = await issueRevision(workshop, await at(id), { size, note: '' });
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
}

/** Stops the service as a kill does, and starts it again over the same folder. */
async function startAgain(): Promise<void> {
  workshop = await openAfterStop(root);
}

async function everythingIn(top: string): Promise<string[]> {
  return (await readdir(top, { recursive: true })).sort();
}

describe('starting again', () => {
  it('leaves alone whatever it did not make', async () => {
    await createJob(workshop, named('Wall', 'A'));
    await issue('wall');
    const strangers = [
      'job.json.20260331',
      'wall/job.json.20260331',
      'wall/.part-mine',
      'wall/.slotwatt-part-notes',
      'wall/.slotwatt-part-0123456789ABCDEF',
      'wall/photo.jpg',
      'wall/revisions/a.json.1',
      'wall/revisions/.part-a.json',
      'no-job/.slotwatt-part-0123456789abcdef',
      'no-job/job.json.99',
      '.slotwatt-new/job.json',
      '.hidden/job.json.5',
      'Wall 2/job.json.7',
      '.bin/note.txt',
    ];
    for (const name of ['no-job', '.slotwatt-new', '.hidden', 'Wall 2', '.bin', 'empty', 'empty/also']) {
      await mkdir(path(name));
    }
    for (const name of strangers) await writeFile(path(name), `of somebody else: ${name}`);
    const before = await everythingIn(root);
    await startAgain();
    expect(await everythingIn(root)).toEqual(before);
    for (const name of strangers)
      expect(await readFile(path(name), 'utf8')).toBe(`of somebody else: ${name}`);
  });

  it('clears what it began and did not finish, beside a job only', async () => {
    await createJob(workshop, named('Wall', 'A'));
    await issue('wall');
    await createJob(workshop, named('Hall'));
    await removeJob(workshop, await at('hall'));
    const sound = await everythingIn(root);
    const aside = path('.slotwatt-new-0123456789abcdef');
    await mkdir(aside);
    const part = '.slotwatt-part-0123456789abcdef';
    const binned = (await binList(workshop)())[0]!.id;
    const left = [
      path('.bin', binned, part),
      path('wall', part),
      path('wall', 'revisions', part),
      path(part),
      join(aside, 'job.json'),
    ];
    for (const name of left) await writeFile(name, '{"half');
    await startAgain();
    expect(await everythingIn(root)).toEqual(sound);
  });

  it('keeps the folder of an unfinished job when somebody put something into it', async () => {
    const aside = path('.slotwatt-new-0123456789abcdef');
    await mkdir(aside);
    await writeFile(join(aside, 'job.json'), '{"half');
    await writeFile(join(aside, 'note.txt'), 'mine');
    await startAgain();
    expect(await everythingIn(aside)).toEqual(['note.txt']);
  });

  it('brings a job whose file is gone back from its copy', async () => {
    const kept = await createJob(workshop, named('Wall'));
    await unlink(path('wall', 'job.json'));
    expect(await list()).toMatchObject([
      { id: null, name: 'wall', trouble: expect.stringContaining('start') },
    ]);
    await startAgain();
    expect(await list()).toMatchObject([{ id: 'wall', etag: kept.etag, trouble: null }]);
  });

  it('touches nothing before it is asked to tidy, which is when lock and port are held', async () => {
    await createJob(workshop, named('Wall'));
    await writeFile(path('wall', '.slotwatt-part-0123456789abcdef'), '');
    await workshop.close();
    const before = await everythingIn(root);
    workshop = await openWorkshop(root);
    expect(await everythingIn(root)).toEqual([...before, '.slotwatt-lock'].sort());
    await workshop.tidied();
    expect(await readdir(path('wall'))).not.toContain('.slotwatt-part-0123456789abcdef');
  });
});

describe('a bad entry', () => {
  /** Each is put where a job called "bad" would be, beside a good one; what its sentence says comes second. */
  const entries: readonly (readonly [string, string, () => Promise<unknown>])[] = [
    [
      'a folder in place of the file',
      'is not a file',
      () => mkdir(path('bad', 'job.json'), { recursive: true }),
    ],
    [
      'a pipe in place of the file',
      'is not a file',
      async () => {
        await mkdir(path('bad'));
        execFileSync('mkfifo', [path('bad', 'job.json')]);
      },
    ],
    [
      'a link to a file outside',
      'is a link, which is never followed',
      async () => {
        await mkdir(path('bad'));
        await writeFile(join(folder, 'outside.json'), JSON.stringify(named('Outside')));
        await symlink(join(folder, 'outside.json'), path('bad', 'job.json'));
      },
    ],
    [
      'a link in a circle',
      'is a link, which is never followed',
      async () => {
        await mkdir(path('bad'));
        await symlink('job.json', path('bad', 'job.json'));
      },
    ],
    [
      'a link to a folder outside',
      'is a link, which is never followed',
      async () => {
        await cp(path('good'), join(folder, 'elsewhere'), { recursive: true });
        await symlink(join(folder, 'elsewhere'), path('bad'));
      },
    ],
    ['a link to nothing', 'is a link, which is never followed', () => symlink('nowhere', path('bad'))],
    ['a file in place of the folder', 'no job but a file', () => writeFile(path('bad'), 'x')],
    ['an empty folder', 'holds no job', () => mkdir(path('bad'))],
    [
      'a file too large to be a job',
      'more than a job can have',
      async () => {
        await mkdir(path('bad'));
        await writeFile(path('bad', 'job.json'), '');
        await truncate(path('bad', 'job.json'), 5e9);
      },
    ],
  ];

  it.each(entries)('%s is listed with its trouble, and the others work', async (_, words, put) => {
    await createJob(workshop, named('Good'));
    await put();
    const before = await everythingIn(root);
    await startAgain();
    expect(await list()).toMatchObject([
      { id: null, name: 'bad', trouble: expect.stringContaining(words) },
      { id: 'good', trouble: null },
    ]);
    const version = '"any"';
    for (const outcome of [
      await openJob(workshop, 'bad'),
      await saveJob(workshop, { id: 'bad', version }, named('Bad')),
      await renameJob(workshop, { id: 'bad', version }, 'Bad'),
      await removeJob(workshop, { id: 'bad', version }),
      await duplicateJob(workshop, 'bad', 'Copy'),
      await issueRevision(workshop, { id: 'bad', version }, { size, note: '' }),
    ]) {
      expect(outcome.ok).toBe(false);
    }
    expect((await createJob(workshop, named('Bad'))).id).toBe('bad-2');
    expect(await everythingIn(root)).toEqual(
      [...before, ...['', '/job.json', '/last-good-copy.json'].map((name) => `bad-2${name}`)].sort(),
    );
  });

  it.each(['lost+found', 'Wall', 'wall bench', 'notes.txt', 'wall--2', 'ü', 'x'.repeat(100)])(
    'called %s is listed with its trouble',
    async (name) => {
      await mkdir(path(name));
      await writeFile(path(name, 'job.json'), JSON.stringify(named('Wall')));
      const entries = await list();
      expect(entries).toMatchObject([{ id: null, name }]);
      expect(entries[0]!.trouble).toMatch(/left as it is/);
    },
  );

  it('whose reading fails is listed with its trouble, at whichever operation it fails', async () => {
    for (const name of ['Bad', 'Good']) await createJob(workshop, named(name, 'A'));
    await issue('bad');
    const sound = failingDisk(realDisk);
    await jobList({ ...workshop, disk: sound })();
    for (let k = 1; k < sound.count(); k++) {
      for (const code of ['EIO', 'EACCES'] as const) {
        const disk = failingDisk(realDisk, { at: k, manner: 'not done', code });
        const entries = await jobList({ ...workshop, disk })();
        expect(entries.map(({ name }) => name.toLowerCase())).toEqual(['bad', 'good']);
        expect(entries.filter(({ trouble }) => trouble !== null).length, `${k}`).toBeLessThanOrEqual(1);
      }
    }
  });

  it('in place of the copy, the revisions or the bin stops what would go through it and nothing else', async () => {
    await createJob(workshop, named('Wall', 'A'));
    const outside = join(folder, 'outside');
    await mkdir(outside);
    await symlink(outside, path('wall', 'revisions'));
    await symlink(outside, path('.bin'));
    await unlink(path('wall', 'last-good-copy.json'));
    await symlink(join(outside, 'copy'), path('wall', 'last-good-copy.json'));
    const before = await readFile(path('wall', 'job.json'), 'utf8');

    await expect(saveJob(workshop, await at('wall'), named('Wall', 'B'))).rejects.toThrow(
      /not an ordinary file/,
    );
    await expect(issue('wall')).rejects.toThrow(/"revisions" in the folder of jobs is a link/);
    await expect(removeJob(workshop, await at('wall'))).rejects.toThrow(
      /".bin" in the folder of jobs is a link/,
    );
    await expect(binList(workshop)()).rejects.toThrow(/".bin"/);
    expect((await openLastGoodCopy(workshop, 'wall')).ok).toBe(false);
    expect(await listRevisions(workshop, 'wall')).toMatchObject({ ok: true });
    expect(await readdir(outside)).toEqual([]);
    expect(await readFile(path('wall', 'job.json'), 'utf8')).toBe(before);
    expect(await list()).toMatchObject([{ id: 'wall', trouble: null }]);
  });

  it('among the revisions is one that cannot be opened', async () => {
    await createJob(workshop, named('Wall', 'A'));
    await issue('wall');
    execFileSync('mkfifo', [path('wall', 'revisions', 'b.json')]);
    await mkdir(path('wall', 'revisions', 'c.json'));
    await writeFile(path('wall', 'revisions', 'A B.json'), '');
    const outcome = await listRevisions(workshop, 'wall');
    const troubles = outcome.ok ? outcome.value.map(({ id, trouble }) => [id, trouble !== null]) : [];
    expect(troubles.sort()).toEqual([
      ['a', false],
      ['b', true],
      ['c', true],
    ]);
    expect((await openRevision(workshop, 'wall', 'b')).ok).toBe(false);
  });

  it('in the bin is left alone, and one that cannot be read stays there', async () => {
    await createJob(workshop, named('Wall'));
    await removeJob(workshop, await at('wall'));
    const id = (await binList(workshop)())[0]!.id;
    await writeFile(path('.bin', 'note.txt'), 'mine');
    await mkdir(path('.bin', '20260101t000000000-Not an id'));
    await unlink(path('.bin', id, 'job.json'));
    execFileSync('mkfifo', [path('.bin', id, 'job.json')]);
    expect(await binList(workshop)()).toMatchObject([{ id, name: 'wall' }]);
    expect(await restoreJob(workshop, id)).toMatchObject({ ok: false, issues: [{ code: 'unreadable-job' }] });
    expect((await readdir(path('.bin'))).length).toBe(3);
  });

  it('is the whole folder when that is gone: the list says so instead of being empty', async () => {
    await createJob(workshop, named('Wall'));
    await rename(root, join(folder, 'taken-off'));
    await expect(list()).rejects.toThrow(/not there any more/);
    await expect(createJob(workshop, named('Hall'))).rejects.toThrow();
    await rename(join(folder, 'taken-off'), root);
    expect(await list()).toHaveLength(1);
  });
});

describe('a folder that is a link itself', () => {
  it('is followed, as the one place where a workshop says where its jobs are', async () => {
    await workshop.close();
    await symlink(root, join(folder, 'way-there'));
    workshop = await openWorkshop(join(folder, 'way-there'));
    await createJob(workshop, named('Wall'));
    expect(await readdir(path('wall'))).toContain('job.json');
  });
});

describe('a list asked for again', () => {
  const many = 40;
  async function keptMany(): Promise<void> {
    for (let k = 0; k < many; k++) await createJob(workshop, named(`Wall ${k}`, 'A'));
    for (const id of ['wall-3', 'wall-4']) await issue(id);
    await removeJob(workshop, await at('wall-0'));
  }

  /** What was written a moment ago is read again, so the clock goes on by an hour. */
  async function later<Value>(task: () => Promise<Value>): Promise<Value> {
    vi.useFakeTimers({ toFake: ['Date'], now: Date.now() + 3_600_000 });
    try {
      return await task();
    } finally {
      vi.useRealTimers();
    }
  }

  it('reads only what changed', async () => {
    await keptMany();
    await later(async () => {
      const disk = failingDisk(realDisk);
      const [jobs, bin] = [jobList({ ...workshop, disk }), binList({ ...workshop, disk })];
      const first = [await jobs(), await bin()];
      expect(disk.opened.reads).toBe(many);
      expect([await jobs(), await bin()]).toEqual(first);
      expect(disk.opened.reads).toBe(many);

      await saveJob(workshop, await at('wall-7'), named('Other'));
      await issue('wall-8');
      await writeFile(path('wall-9', 'job.json'), JSON.stringify(named('By hand')));
      const second = await jobs();
      expect(disk.opened.reads).toBe(many + 3);
      expect(
        second.filter((entry, k) => JSON.stringify(entry) !== JSON.stringify(first[0]![k])),
      ).toMatchObject([
        { id: 'wall-7', name: 'Other' },
        { id: 'wall-8', revisions: ['a'] },
        { id: 'wall-9', name: 'By hand' },
      ]);
    });
  });

  it('sees a change that left time and size as they were', async () => {
    await createJob(workshop, named('Wall'));
    const jobs = jobList(workshop);
    await jobs();
    const file = path('wall', 'job.json');
    const { atime, mtime } = await stat(file);
    await writeFile(file, (await readFile(file, 'utf8')).replace('"Wall"', '"Hall"'));
    await utimes(file, atime, mtime);
    expect(await jobs()).toMatchObject([{ name: 'Hall' }]);
  });

  it('opens a bounded number of files at once, also when a hundred ask', async () => {
    await keptMany();
    const disk = failingDisk(realDisk);
    const all = { ...workshop, disk };
    const asked = Array.from({ length: 100 }, (_, k) => [
      jobList(all)(),
      listRevisions(all, `wall-${k % 40}`),
    ]);
    await Promise.all(asked.flat());
    expect(disk.opened.most).toBeGreaterThan(1);
    expect(disk.opened.most).toBeLessThanOrEqual(48);
  });

  it('while it is being read is read once more for all who asked, after their question', async () => {
    await keptMany();
    const disk = failingDisk(realDisk);
    const jobs = sharedRun(jobList({ ...workshop, disk }));
    const first = jobs();
    await createJob(workshop, named('New'));
    const others = await Promise.all(Array.from({ length: 20 }, () => jobs()));
    await first;
    for (const entries of others) expect(entries.map(({ name }) => name)).toContain('New');
    expect(disk.opened.reads).toBeLessThanOrEqual(3 * (many + 1));
  });
});

describe('a save', () => {
  it('does not wait for a revision that is being sized, and the revision is of the version asked for', async () => {
    await createJob(workshop, named('Wall', 'A'));
    let finish = (): void => undefined;
    const sized = new Promise<void>((resolve) => {
      finish = resolve;
    });
    const slow = async (): Promise<Sizing> => {
      await sized;
      return size();
    };
    const issued = issueRevision(workshop, await at('wall'), { size: slow, note: '' });
    const saved = await saveJob(workshop, await at('wall'), named('Changed', 'A'));
    expect(saved.ok).toBe(true);
    finish();
    expect(await issued).toMatchObject({ ok: true, value: { revision: 'A' } });
    const revision = await openRevision(workshop, 'wall', 'a');
    expect(revision).toMatchObject({ ok: true, value: { job: { title: { job: 'Wall' } } } });
  });

  it('of a job deleted while it was sized leaves no revision, not even in another of that id', async () => {
    await createJob(workshop, named('Wall', 'A'));
    const replaced = async (): Promise<Sizing> => {
      await removeJob(workshop, await at('wall'));
      await createJob(workshop, named('Wall', 'A'));
      return size();
    };
    const outcome = await issueRevision(workshop, await at('wall'), { size: replaced, note: '' });
    expect(outcome).toMatchObject({ ok: false, issues: [{ code: 'no-such-job' }] });
    expect(await list()).toMatchObject([{ id: 'wall', revisions: [] }]);
  });
});

describe('a job that could not be kept', () => {
  it('leaves nothing behind, whatever the disk says', async () => {
    const disk = failingDisk(realDisk, { at: 3, manner: 'cut short', code: 'ENOSPC' });
    await expect(createJob({ ...workshop, disk }, named('Wall'))).rejects.toMatchObject({ code: 'ENOSPC' });
    expect(await readdir(root)).toEqual(['.slotwatt-lock']);
    await rm(path('.slotwatt-lock'));
  });
});
