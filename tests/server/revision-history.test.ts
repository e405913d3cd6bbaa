import { createHash } from 'node:crypto';
import { copyFile, mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { keptId, type ListedRevision } from '../../server/contract/kept-jobs.ts';
import { removeJob, restoreJob } from '../../server/store/bin.ts';
import { createJob, openJob, saveJob } from '../../server/store/kept-jobs.ts';
import { revisionIdsFor } from '../../server/store/revision-name.ts';
import { issueRevision, listRevisions, openRevision } from '../../server/store/revisions.ts';
import { openWorkshop, type Workshop } from '../../server/store/workshop.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import { revisionKey } from '../../src/job/revision-key.ts';
import { someJob, temporaryFolder } from './support.ts';

let workshop: Workshop;
let remove: () => Promise<void>;

beforeEach(async () => {
  const made = await temporaryFolder();
  remove = made.remove;
  workshop = await openWorkshop(made.folder);
});

afterEach(async () => {
  vi.useRealTimers();
  await workshop.close();
  await remove();
});

const job = (name: string, revision: string): Job => ({
  ...someJob(),
  title: { ...someJob().title, job: name, revision },
});
const size = async (): Promise<Sizing> => ({ engine: 'test' }) as unknown as Sizing;

/** Saves the job under a revision and issues it; returns the sentence where that was refused. */
async function issue(id: string, revision: string, by = ''): Promise<string | undefined> {
  const opened = await openJob(workshop, id);
  if (!opened.ok) throw new Error(opened.issues[0]!.sentence);
  const saved = await saveJob(workshop, { id, version: opened.value.etag }, job('Wall', revision));
  if (!saved.ok) throw new Error(saved.issues[0]!.sentence);
  const issued = await issueRevision(workshop, { id, version: saved.value.etag }, { size, note: '', by });
  return issued.ok ? undefined : issued.issues[0]!.sentence;
}

async function issuedWall(...revisions: string[]): Promise<string> {
  const { id } = await createJob(workshop, job('Wall', ''));
  for (const revision of revisions) expect(await issue(id, revision)).toBeUndefined();
  return id;
}

async function listed(id: string): Promise<ListedRevision[]> {
  const list = await listRevisions(workshop, id);
  if (!list.ok) throw new Error(list.issues[0]!.sentence);
  return list.value;
}

const names = async (id: string): Promise<string[]> => (await listed(id)).map(({ revision }) => revision);
const troubles = async (id: string): Promise<string[]> =>
  (await listed(id)).flatMap(({ trouble }) => trouble ?? []);
const fileOf = (id: string, revision: string): string =>
  join(workshop.root, id, 'revisions', `${revision}.json`);
const registerOf = (id: string): string => join(workshop.root, id, 'revisions-issued.json');
const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

/** Changes the content of a revision and seals it again, as somebody does who knows the format. */
async function resealed(path: string, change: object): Promise<void> {
  const document = JSON.parse(await readFile(path, 'utf8'));
  const content = { ...document.content, ...change };
  await rm(path);
  await writeFile(path, JSON.stringify({ ...document, seal: sha256(JSON.stringify(content)), content }));
}

/** A revision as the service wrote it before they were numbered. */
async function formerRevision(id: string, name: string, file: string, issued: string): Promise<void> {
  await mkdir(join(workshop.root, id, 'revisions'), { recursive: true });
  const content = {
    id: file,
    revision: name,
    issued,
    engine: '0.1.0',
    note: 'as it was',
    job: job('Wall', name),
    sizing: { engine: '0.1.0' },
  };
  const format = { name: 'slotwatt-revision', version: 1 };
  await writeFile(
    fileOf(id, file),
    JSON.stringify({ format, seal: sha256(JSON.stringify(content)), content }),
  );
}

describe('what a revision holds', () => {
  it('is its number, its job, the digest of the one before, and who issued it', async () => {
    const id = await issuedWall('A');
    expect(await issue(id, 'B', 'Ida Blom')).toBeUndefined();
    const [a, b] = [await openRevision(workshop, id, 'a'), await openRevision(workshop, id, 'b')];
    expect(a.ok && a.value).toMatchObject({ sequence: 1, jobId: id, predecessor: null, by: '' });
    const digest = sha256(await readFile(fileOf(id, 'a'), 'utf8'));
    expect(b.ok && b.value).toMatchObject({ sequence: 2, jobId: id, predecessor: digest, by: 'Ida Blom' });
  });

  it('keeps its place when the clock is set back, and none of it is in trouble', async () => {
    vi.useFakeTimers({ toFake: ['Date'], now: new Date('2026-05-05T10:00:00Z') });
    const id = await issuedWall('A');
    vi.setSystemTime(new Date('2024-01-01T10:00:00Z'));
    await issue(id, 'B');
    vi.setSystemTime(new Date('2025-01-01T10:00:00Z'));
    await issue(id, 'C');
    expect(await names(id)).toEqual(['A', 'B', 'C']);
    expect(await troubles(id)).toEqual([]);
  });

  it('stays good in the bin, back from it under another id, and without the register', async () => {
    const id = await issuedWall('A', 'B');
    const opened = await openJob(workshop, id);
    const binned = await removeJob(workshop, { id, version: opened.ok ? opened.value.etag : '' });
    await createJob(workshop, job('Wall', 'Z'));
    const back = await restoreJob(workshop, binned.ok ? binned.value.id : '');
    expect(back.ok && back.value.id).toBe('wall-2');
    expect(await troubles('wall-2')).toEqual([]);
    expect(await issue('wall-2', 'C')).toBeUndefined();
    expect(await names('wall-2')).toEqual(['A', 'B', 'C']);
    const other = await issuedWall('A', 'B');
    await rm(registerOf(other));
    expect(await troubles(other)).toEqual([]);
    await issue(other, 'C');
    expect(JSON.parse(await readFile(registerOf(other), 'utf8')).revisions).toHaveLength(3);
  });
});

describe('the job as it is kept', () => {
  it('is known as the revision that was issued of it, until something in it is another', async () => {
    const id = await issuedWall('A');
    const asKept = async (): Promise<boolean[]> => (await listed(id)).map(({ isAsKept }) => isAsKept);
    expect(await asKept()).toEqual([true]);
    const opened = await openJob(workshop, id);
    if (!opened.ok) throw new Error('it must open');
    const changed = { ...opened.value.job, panel: { width_mm: 1234, height_mm: 2000 } };
    await saveJob(workshop, { id, version: opened.value.etag }, changed);
    expect(await asKept()).toEqual([false]);
    await issue(id, 'B');
    expect(await asKept()).toEqual([false, true]);
  });
});

describe('a service that stopped', () => {
  it('twice between a revision and the register leaves both good, and the next issue registers them', async () => {
    const id = await issuedWall('A', 'B', 'C');
    const register = JSON.parse(await readFile(registerOf(id), 'utf8'));
    await writeFile(
      registerOf(id),
      JSON.stringify({ ...register, revisions: register.revisions.slice(0, 1) }),
    );
    expect(await troubles(id)).toEqual([]);
    expect(await issue(id, 'D')).toBeUndefined();
    expect(await troubles(id)).toEqual([]);
    const { revisions } = JSON.parse(await readFile(registerOf(id), 'utf8'));
    expect(revisions.map(({ sequence }: { sequence: number }) => sequence)).toEqual([1, 2, 3, 4]);
  });
});

describe('revisions of the former format', () => {
  it('list and open as they were, and stand before those that are numbered', async () => {
    const { id } = await createJob(workshop, job('Wall', ''));
    await formerRevision(id, 'Z', 'z', '2026-01-01T00:00:00Z');
    await formerRevision(id, 'Å', 'a', '2026-02-01T00:00:00Z');
    expect(await names(id)).toEqual(['Z', 'Å']);
    expect(await issue(id, 'A')).toBeUndefined();
    expect(await issue(id, 'å')).toMatch(/has been issued and never changes/);
    expect((await listed(id)).map(({ id, sequence, trouble }) => [id, sequence, trouble])).toEqual([
      ['z', null, null],
      ['a', null, null],
      ['u-61', 3, null],
    ]);
    const former = await openRevision(workshop, id, 'a');
    expect(former.ok && former.value).toMatchObject({ revision: 'Å', note: 'as it was', sequence: null });
    await rm(fileOf(id, 'a'));
    expect(await troubles(id)).toEqual([expect.stringMatching(/issued just before A is gone/)]);
  });
});

describe('a file among the revisions', () => {
  it('under another name is named, and so is one put in place of another', async () => {
    const id = await issuedWall('A', 'B');
    await rename(fileOf(id, 'a'), fileOf(id, 'x'));
    expect(await troubles(id)).toEqual([
      expect.stringMatching(
        /"revisions\/x.json" holds revision A under another name: call it "a.json" again/,
      ),
    ]);
    expect((await openRevision(workshop, id, 'x')).ok).toBe(false);
    expect(await issue(id, 'A')).toMatch(/has been issued/);
    await rename(fileOf(id, 'x'), fileOf(id, 'a'));
    await rm(fileOf(id, 'b'));
    await copyFile(fileOf(id, 'a'), fileOf(id, 'b'));
    expect((await listed(id)).map(({ revision, trouble }) => [revision, trouble === null])).toEqual([
      ['A', true],
      ['B', false],
    ]);
    expect(await troubles(id)).toEqual([expect.stringMatching(/Revision B is not the one that was issued/)]);
  });

  it('of another job is named, with the job it is of', async () => {
    const hall = await createJob(workshop, job('Hall', ''));
    await issuedWall('A');
    await mkdir(join(workshop.root, hall.id, 'revisions'));
    await copyFile(fileOf('wall', 'a'), fileOf(hall.id, 'a'));
    const said = /"revisions\/a.json" is revision A of the job "wall", not of this one/;
    expect(await troubles(hall.id)).toEqual([expect.stringMatching(said)]);
    expect((await openRevision(workshop, hall.id, 'a')).ok).toBe(false);
  });

  it('that is gone is named, the last one too, and its letter is not given again', async () => {
    const id = await issuedWall('A', 'B', 'C');
    await rm(fileOf(id, 'b'));
    await rm(fileOf(id, 'c'));
    expect(await names(id)).toEqual(['A', 'B', 'C']);
    expect(await troubles(id)).toEqual([
      expect.stringMatching(
        /^Revision B was issued on .* and its file is gone: take the file "revisions\/b.json"/,
      ),
      expect.stringMatching(/^Revision C was issued on .* and its file is gone/),
    ]);
    expect(await issue(id, 'B')).toMatch(/has been issued/);
    expect(await issue(id, 'D')).toBeUndefined();
    expect((await listed(id)).at(-1)).toMatchObject({ revision: 'D', sequence: 4, trouble: null });
  });

  it('that was changed and sealed again is named, the last one too', async () => {
    const id = await issuedWall('A', 'B');
    for (const revision of ['a', 'b']) await resealed(fileOf(id, revision), { note: 'never said' });
    expect(await troubles(id)).toEqual([
      expect.stringMatching(/^Revision A is not the one that was issued on .*sealed again/),
      expect.stringMatching(/^Revision B is not the one that was issued on .*sealed again/),
    ]);
    expect((await openRevision(workshop, id, 'b')).ok).toBe(false);
  });

  it('is told by the one that follows where the register is gone', async () => {
    const id = await issuedWall('A', 'B', 'C');
    await rm(registerOf(id));
    await resealed(fileOf(id, 'a'), { note: 'never said' });
    expect(await troubles(id)).toEqual([expect.stringMatching(/^Revision A is not the one that was issued/)]);
    await rm(fileOf(id, 'b'));
    expect(await troubles(id)).toContainEqual(expect.stringMatching(/issued just before C is gone/));
  });

  it('of a later version says so', async () => {
    const id = await issuedWall('A');
    const path = fileOf(id, 'a');
    const document = JSON.parse(await readFile(path, 'utf8'));
    await rm(path);
    await writeFile(path, JSON.stringify({ ...document, format: { ...document.format, version: 3 } }));
    expect(await troubles(id)).toEqual([
      expect.stringMatching(/later version of Slotwatt: open it with that/),
    ]);
  });
});

describe('names of revisions', () => {
  it.each([
    ['A', 'Å'],
    ['C-1', 'C.1'],
    ['C-1', 'C 1'],
    ['o', 'ø'],
    ['U-61', 'a'],
    ['CON', 'CON-1'],
    ['書', '斎'],
  ])('%j and %j are two', async (one, other) => {
    const id = await issuedWall(one, other);
    expect(await names(id)).toEqual([one, other]);
    expect(await troubles(id)).toEqual([]);
  });

  it.each([
    ['A', 'a'],
    ['\u00c5', 'A\u030a'],
    ['P 1', ' p  1 '],
  ])('%j and %j are one', async (one, other) => {
    const id = await issuedWall(one);
    expect(await issue(id, other)).toMatch(/has been issued/);
  });

  it('that people read as different have different ids, and every id is one', () => {
    const name = fc.string({ unit: fc.constantFrom(...'aAÅåÄbB-. 1uU6e書ßﬁ') as never, maxLength: 6 });
    fc.assert(
      fc.property(name, fc.oneof(name, fc.string({ unit: 'grapheme', maxLength: 6 })), (one, other) => {
        const [ids, others] = [revisionIdsFor(one), revisionIdsFor(other)];
        for (const id of [...ids, ...others]) expect(keptId.safeParse(id).success).toBe(true);
        const isSame = revisionKey(one) === revisionKey(other);
        if (!isSame) expect(ids.filter((id) => others.includes(id))).toEqual([]);
      }),
      { seed: 20260331, numRuns: 3000 },
    );
  });
});
