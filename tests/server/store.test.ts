import { mkdir, readdir, readFile, rename, rm, stat, unlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { KeptJob, Revision } from '../../server/contract/kept-jobs.ts';
import { lockFile } from '../../server/store/lock.ts';
import { sizeJobCarefully } from '../../src/index.ts';
import type { Job } from '../../src/job/job.ts';
import { type Answer, openTestService, problemIn, someJob, type TestService } from './support.ts';

let service: TestService;
beforeAll(async () => {
  service = await openTestService();
});
afterAll(() => service.close());
// The store remembers nothing that is not in its folder, so an empty folder is a new workshop.
beforeEach(async () => {
  for (const name of (await readdir(service.jobsFolder)).filter((name) => name !== lockFile)) {
    await rm(join(service.jobsFolder, name), { recursive: true });
  }
});

const one = { route: '/api/jobs/{id}' };
const named = (name: string): Job => ({ ...someJob(), title: { ...someJob().title, job: name } });
const fileOf = (id: string): string => join(service.jobsFolder, id, 'job.json');

async function keep(job: Job): Promise<KeptJob> {
  const answer = await service.ask('POST', '/api/jobs', { body: job });
  expect(answer.status).toBe(201);
  return JSON.parse(answer.text);
}

const open = (id: string): Promise<Answer> => service.ask('GET', `/api/jobs/${id}`, one);

const save = (id: string, etag: string | undefined, job: Job): Promise<Answer> =>
  service.ask('PUT', `/api/jobs/${id}`, {
    ...one,
    body: job,
    headers: etag === undefined ? {} : { 'if-match': etag },
  });

function issue(id: string, etag: string, note = ''): Promise<Answer> {
  return service.ask('POST', `/api/jobs/${id}/revisions`, {
    route: '/api/jobs/{id}/revisions',
    headers: { 'if-match': etag },
    body: { note },
  });
}

const list = async (): Promise<KeptJob[]> => JSON.parse((await service.ask('GET', '/api/jobs')).text);

describe('keeping a job', () => {
  it('gives it an id from its name, and opens it again as it was', async () => {
    const kept = await keep(named('Reading room'));
    expect(kept).toMatchObject({ id: 'reading-room', name: 'Reading room', revisions: [], trouble: null });
    const opened = await open(kept.id);
    expect(JSON.parse(opened.text)).toEqual(named('Reading room'));
    expect(opened.headers.etag).toBe(kept.etag);
    expect(await list()).toEqual([kept]);
  });

  it('gives jobs of one name different ids, also when they arrive together', async () => {
    const ids = (await Promise.all(Array.from({ length: 12 }, () => keep(named('Wall'))))).map(
      (kept) => kept.id,
    );
    expect(ids.sort()).toEqual(['wall', ...Array.from({ length: 11 }, (_, k) => `wall-${k + 2}`)].sort());
  });

  it('stays in the folder whatever the address says', async () => {
    await keep(named('Hall'));
    await writeFile(join(service.jobsFolder, 'job.json'), JSON.stringify(someJob()));
    for (const id of [
      '..',
      '%2e%2e',
      '..%2f',
      '%2e',
      '..%5c',
      'hall%2f..',
      '.bin',
      'hall%00',
      'HALL',
      '%ff',
    ]) {
      for (const rest of ['', '/last-good-copy', '/revisions', '/revisions/..', '/revisions/%2e%2e%2fjob']) {
        const reply = await service.app.inject(`/api/jobs/${id}${rest}`);
        expect([400, 404], `${id}${rest}`).toContain(reply.statusCode);
        expect(reply.json().detail.length).toBeGreaterThan(20);
      }
    }
  });
});

describe('two writers', () => {
  it('the second is told, and nothing is overwritten', async () => {
    const { id, etag } = await keep(named('Wall'));
    const first = { ...named('Wall'), panel: { width_mm: 2000, height_mm: 2000 } };
    const second = { ...named('Wall'), panel: { width_mm: 3000, height_mm: 2000 } };
    expect((await save(id, etag, first)).status).toBe(200);
    const answer = await save(id, etag, second);
    expect(answer.status).toBe(412);
    expect(problemIn(answer).detail).toMatch(
      /saved by somebody else at .* Nothing was overwritten: open it again/,
    );
    expect(JSON.parse((await open(id)).text)).toEqual(first);
  });

  it('goes on from the version that saving answers', async () => {
    const kept = await keep(named('Wall'));
    let etag = kept.etag;
    for (let width_mm = 1000; width_mm < 1005; width_mm++) {
      const answer = await save(kept.id, etag, { ...named('Wall'), panel: { width_mm, height_mm: 2000 } });
      expect(answer.headers.etag).toBe((await open(kept.id)).headers.etag);
      etag = String(answer.headers.etag);
    }
  });

  it('of twenty at the same moment one wins and the others are told', async () => {
    const { id, etag } = await keep(named('Wall'));
    const widths = Array.from({ length: 20 }, (_, k) => 1000 + k);
    const answers = await Promise.all(
      widths.map((width_mm) => save(id, etag, { ...named('Wall'), panel: { width_mm, height_mm: 2000 } })),
    );
    const won = widths.filter((_, k) => answers[k]!.status === 200);
    expect(won).toHaveLength(1);
    expect(answers.filter((answer) => answer.status === 412)).toHaveLength(19);
    expect(JSON.parse((await open(id)).text).panel.width_mm).toBe(won[0]);
  });

  it('must say which version they opened', async () => {
    const { id } = await keep(named('Wall'));
    for (const version of [undefined, '*', '"a", *']) {
      const answer = await save(id, version, named('Wall'));
      expect(answer.status).toBe(428);
      expect(problemIn(answer).detail).toContain('If-Match');
    }
    for (const version of ['', '"other"', 'W/"x"', 'nonsense']) {
      expect((await save(id, version, named('Wall'))).status).toBe(412);
    }
  });

  it('cannot save a job that is not there', async () => {
    const answer = await save('nowhere', '"x"', named('Wall'));
    expect(answer.status).toBe(404);
    expect(problemIn(answer).detail).toContain('Take one from the list');
  });
});

describe('renaming, duplicating, deleting', () => {
  it('renames the job and leaves its id', async () => {
    const { id, etag } = await keep(named('Wall'));
    const answer = await service.ask('POST', `/api/jobs/${id}/rename`, {
      route: '/api/jobs/{id}/rename',
      headers: { 'if-match': etag },
      body: { name: 'North wall' },
    });
    expect(JSON.parse(answer.text)).toMatchObject({ id, name: 'North wall' });
    expect(JSON.parse((await open(id)).text)).toEqual(named('North wall'));
    expect((await save(id, etag, named('Wall'))).status).toBe(412);
  });

  it.each([{}, { name: '' }, { name: '   ' }, { name: 5 }, { name: 'x'.repeat(61) }, { name: 'a', more: 1 }])(
    'refuses %j as a name',
    async (body) => {
      const { id, etag } = await keep(named('Wall'));
      const answer = await service.ask('POST', `/api/jobs/${id}/rename`, {
        route: '/api/jobs/{id}/rename',
        headers: { 'if-match': etag },
        body,
      });
      expect(answer.status).toBe(400);
      expect(problemIn(answer).detail).toMatch(/name|more/);
    },
  );

  it('duplicates a job without its revisions', async () => {
    const { id, etag } = await keep({ ...named('Wall'), title: { ...named('Wall').title, revision: 'A' } });
    expect((await issue(id, etag)).status).toBe(201);
    const answer = await service.ask('POST', `/api/jobs/${id}/duplicate`, {
      route: '/api/jobs/{id}/duplicate',
      body: { name: 'South wall' },
    });
    expect(JSON.parse(answer.text)).toMatchObject({ id: 'south-wall', name: 'South wall', revisions: [] });
    expect(answer.headers.location).toBe('/api/jobs/south-wall');
    expect((await list()).map((kept) => kept.id)).toEqual(['south-wall', 'wall']);
  });

  it('moves a job to the bin with its revisions, and brings it back', async () => {
    const begun_ms = Date.now();
    const { id, etag } = await keep({ ...named('Wall'), title: { ...named('Wall').title, revision: 'A' } });
    await issue(id, etag);
    const removed = await service.ask('DELETE', `/api/jobs/${id}`, { ...one, headers: { 'if-match': etag } });
    expect(removed.status).toBe(200);
    expect(await list()).toEqual([]);
    expect((await open(id)).status).toBe(404);
    const bin = JSON.parse((await service.ask('GET', '/api/bin')).text);
    expect(bin).toEqual([JSON.parse(removed.text)]);
    expect(Date.parse(bin[0].deleted)).toBeGreaterThanOrEqual(begun_ms);
    expect(Date.parse(bin[0].deleted)).toBeLessThanOrEqual(Date.now());

    await keep(named('Wall'));
    const route = '/api/bin/{id}/restore';
    const back = await service.ask('POST', `/api/bin/${bin[0].id}/restore`, { route });
    expect(JSON.parse(back.text)).toMatchObject({ id: 'wall-2', name: 'Wall', revisions: ['a'] });
    const twice = await service.ask('POST', `/api/bin/${bin[0].id}/restore`, { route });
    expect(twice.status).toBe(404);
    expect(JSON.parse((await service.ask('GET', '/api/bin')).text)).toEqual([]);
  });

  it('does not delete what somebody else has changed meanwhile', async () => {
    const { id, etag } = await keep(named('Wall'));
    await save(id, etag, { ...named('Wall'), panel: { width_mm: 1234, height_mm: 2000 } });
    expect(
      (await service.ask('DELETE', `/api/jobs/${id}`, { ...one, headers: { 'if-match': etag } })).status,
    ).toBe(412);
    expect((await service.ask('DELETE', `/api/jobs/${id}`, one)).status).toBe(428);
    expect(JSON.parse((await open(id)).text).panel.width_mm).toBe(1234);
  });
});

describe('a file that cannot be read', () => {
  it.each([
    ['cut short', (text: string) => text.slice(0, text.length / 2), 'cut short'],
    ['empty', () => '', 'cut short'],
    ['from another program', () => '{"a": 1}', 'This is not a Slotwatt job'],
    ['with a slip of the pen', (text: string) => text.replace('"width_mm"', '"with_mm"'), 'with_mm'],
  ])('%s gets a sentence, and the last good copy takes its place', async (_, damage, words) => {
    const { id } = await keep(named('Wall'));
    await writeFile(fileOf(id), damage(await readFile(fileOf(id), 'utf8')));
    const answer = await open(id);
    expect(answer.status).toBe(409);
    expect(problemIn(answer).detail).toContain(words);
    expect((await list())[0]).toMatchObject({ id, trouble: problemIn(answer).detail });

    const copy = await service.ask('GET', problemIn(answer).lastGoodCopy!, {
      route: '/api/jobs/{id}/last-good-copy',
    });
    expect(JSON.parse(copy.text)).toEqual(named('Wall'));
    expect(copy.headers.etag).toBe(answer.headers.etag);
    expect((await save(id, String(answer.headers.etag), JSON.parse(copy.text))).status).toBe(200);
    expect(JSON.parse((await open(id)).text)).toEqual(named('Wall'));
  });

  it('from a later version stays as it is, whoever saves over it', async () => {
    const { id } = await keep(named('Wall'));
    const later = (await readFile(fileOf(id), 'utf8')).replace(/"version": \d+/, '"version": 99');
    await writeFile(fileOf(id), later);
    const answer = await open(id);
    expect(answer.status).toBe(409);
    expect(problemIn(answer).detail).toContain('later Slotwatt');
    const saved = await save(id, String(answer.headers.etag), named('Wall'));
    expect(saved.status).toBe(409);
    expect(problemIn(saved).detail).toMatch(/later Slotwatt.*save yours as a new job/);
    expect(await readFile(fileOf(id), 'utf8')).toBe(later);
  });

  it('without a good copy says so', async () => {
    const { id } = await keep(named('Wall'));
    for (const name of ['job.json', 'last-good-copy.json'])
      await writeFile(join(service.jobsFolder, id, name), '{');
    const answer = await open(id);
    expect(problemIn(answer).detail).toContain('look in your backup');
    expect(problemIn(answer).lastGoodCopy).toBeUndefined();
    const copy = await service.ask('GET', `/api/jobs/${id}/last-good-copy`, {
      route: '/api/jobs/{id}/last-good-copy',
    });
    expect(copy.status).toBe(404);
  });
});

describe('a revision', () => {
  const revised = (revision: string): Job => ({
    ...named('Wall'),
    title: { ...named('Wall').title, revision },
  });
  const openRevision = (id: string, revision: string): Promise<Answer> =>
    service.ask('GET', `/api/jobs/${id}/revisions/${revision}`, {
      route: '/api/jobs/{id}/revisions/{revision}',
    });

  it('holds the job, its sizing, the engine and the date', async () => {
    const begun_ms = Date.now();
    const { id, etag } = await keep(revised('A'));
    const answer = await issue(id, etag, 'First issue');
    expect(answer.headers.location).toBe(`/api/jobs/${id}/revisions/a`);
    const revision: Revision = JSON.parse((await openRevision(id, 'a')).text);
    const outcome = sizeJobCarefully(revised('A'));
    if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
    expect(revision).toMatchObject({ revision: 'A', note: 'First issue', engine: outcome.value.engine });
    expect(revision.job).toEqual(revised('A'));
    expect(revision.sizing).toEqual(JSON.parse(JSON.stringify(outcome.value)));
    expect(Date.parse(revision.issued)).toBeGreaterThanOrEqual(begun_ms);
    expect(Date.parse(revision.issued)).toBeLessThanOrEqual(Date.now());
  });

  it('never changes, whatever happens to the job', async () => {
    const { id, etag } = await keep(revised('A'));
    await issue(id, etag);
    const path = join(service.jobsFolder, id, 'revisions', 'a.json');
    const [bytes, { mtimeMs, mode }] = [await readFile(path), await stat(path)];
    expect(mode & 0o222).toBe(0);

    const changed = await save(id, etag, { ...revised('A'), panel: { width_mm: 2222, height_mm: 2000 } });
    const again = await issue(id, String(changed.headers.etag));
    expect(again.status).toBe(409);
    expect(problemIn(again).detail).toMatch(
      /has been issued and never changes: give the job the next revision/,
    );
    const next = await save(id, String(changed.headers.etag), revised('B'));
    expect((await issue(id, String(next.headers.etag))).status).toBe(201);
    expect(await readFile(path)).toEqual(bytes);
    expect((await stat(path)).mtimeMs).toBe(mtimeMs);

    const route = '/api/jobs/{id}/revisions';
    const entries = JSON.parse((await service.ask('GET', `/api/jobs/${id}/revisions`, { route })).text);
    expect(entries.map((entry: { revision: string }) => entry.revision)).toEqual(['A', 'B']);
    expect((await list())[0]!.revisions).toEqual(['a', 'b']);
  });

  it('is issued once when asked for ten times at the same moment', async () => {
    const { id, etag } = await keep(revised('A'));
    const statuses = (await Promise.all(Array.from({ length: 10 }, () => issue(id, etag)))).map(
      (a) => a.status,
    );
    expect(statuses.filter((status) => status === 201)).toHaveLength(1);
    expect(statuses.filter((status) => status === 409)).toHaveLength(9);
  });

  it('needs a name, the version that was opened, and a job that can be sized', async () => {
    const unnamed = await keep(revised(''));
    expect((await issue(unnamed.id, unnamed.etag)).status).toBe(409);
    const { id, etag } = await keep(revised('A'));
    expect((await issue(id, '"older"')).status).toBe(412);
    const impossible = revised('A');
    impossible.strip.entry = 'no such strip';
    const saved = await save(id, etag, impossible);
    expect(saved.status).toBe(200);
    const answer = await issue(id, String(saved.headers.etag));
    expect(answer.status).toBe(422);
    expect((await list()).every((kept) => kept.revisions.length === 0)).toBe(true);
  });

  it('is not shown when somebody changed it by hand, and the list says so', async () => {
    const { id, etag } = await keep(revised('A'));
    await issue(id, etag);
    const path = join(service.jobsFolder, id, 'revisions', 'a.json');
    const text = await readFile(path, 'utf8');
    for (const damaged of [text.replace('"note":""', '"note":"x"'), text.slice(0, -20), '{}', '']) {
      await unlink(path);
      await writeFile(path, damaged);
      const answer = await openRevision(id, 'a');
      expect(answer.status).toBe(409);
      expect(problemIn(answer).detail).toContain('changed or damaged after it was issued');
      const route = '/api/jobs/{id}/revisions';
      const [entry] = JSON.parse((await service.ask('GET', `/api/jobs/${id}/revisions`, { route })).text);
      expect(entry.trouble).toBe(problemIn(answer).detail);
    }
    await unlink(path);
    await writeFile(path, text);
    expect((await openRevision(id, 'a')).status).toBe(200);
  });

  it('that was never issued is not found', async () => {
    const { id } = await keep(revised('A'));
    expect((await openRevision(id, 'z')).status).toBe(404);
    expect((await openRevision('nowhere', 'a')).status).toBe(404);
  });
});

describe('a disk in trouble', () => {
  it('that was taken off is named by the list, which is not just empty, and nothing is written elsewhere', async () => {
    await keep(named('Wall'));
    await rename(service.jobsFolder, `${service.jobsFolder}-away`);
    const answers = [
      await service.ask('GET', '/api/jobs'),
      await service.ask('POST', '/api/jobs', { body: named('Hall') }),
    ];
    await rename(`${service.jobsFolder}-away`, service.jobsFolder);
    expect(answers.map(({ status }) => status)).toEqual([507, 507]);
    expect(problemIn(answers[0]!).detail).toMatch(/not there any more.*put it back/);
    expect(await list()).toMatchObject([{ id: 'wall', trouble: null }]);
  });

  it('is named in the answer, and the job stays as it was', async () => {
    const { id, etag } = await keep(named('Wall'));
    // A folder stands where the copy would be written: the write fails before the job is touched.
    const copy = join(service.jobsFolder, id, 'last-good-copy.json');
    await unlink(copy);
    await mkdir(copy);
    const answer = await save(id, etag, { ...named('Wall'), panel: { width_mm: 1234, height_mm: 2000 } });
    expect(answer.status).toBe(507);
    expect(problemIn(answer).reference).toMatch(/^[0-9a-f-]{36}$/);
    expect(problemIn(answer).detail).toContain('"wall/last-good-copy.json"');
    expect(answer.text).not.toContain(service.jobsFolder);
    expect(JSON.parse(await readFile(fileOf(id), 'utf8'))).toEqual(named('Wall'));
  });
});
