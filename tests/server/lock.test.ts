import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdir, readFile, unlink, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { realDisk } from '../../server/store/disk.ts';
import { createJob, openJob, saveJob } from '../../server/store/kept-jobs.ts';
import { lockFile, takeLock } from '../../server/store/lock.ts';
import { openWorkshop } from '../../server/store/workshop.ts';
import { failingDisk } from './failing-disk.ts';
import { bundled, someJob, temporaryFolder } from './support.ts';

/** How many saves two services make between them; `SLOTWATT_SAVES=2000` for the long run. */
const saveCount = Number(process.env.SLOTWATT_SAVES ?? 60);

let folder: string;
let remove: () => Promise<void>;
let root: string;
let count = 0;
beforeAll(async () => {
  ({ folder, remove } = await temporaryFolder());
});
afterAll(() => remove());
beforeEach(() => {
  root = join(folder, `jobs-${count++}`);
});

const children: ChildProcess[] = [];
afterEach(async () => {
  for (const child of children.splice(0)) {
    if (child.exitCode !== null || child.signalCode !== null) continue;
    child.kill('SIGKILL');
    await once(child, 'close');
  }
});

/** The lock of another computer, of this one in another start of its process number, or what was asked for. */
async function lockOf(change: Record<string, unknown>): Promise<void> {
  const workshop = await openWorkshop(root);
  const mine = JSON.parse(await readFile(join(root, lockFile), 'utf8'));
  await workshop.close();
  await writeFile(join(root, lockFile), JSON.stringify({ ...mine, ...change }));
}

describe('the lock of a workshop’s folder', () => {
  it('says who holds the folder and what to do, and lets the next one in when it is released', async () => {
    const first = await openWorkshop(root);
    await expect(openWorkshop(root)).rejects.toMatchObject({ code: 'folder-in-use' });
    await expect(openWorkshop(root)).rejects.toThrow(
      new RegExp(
        `${root} is in use by another Slotwatt \\(process ${process.pid} on ${hostname()}, since \\d{4}-.*\\)\\. Use that one, or stop it first, or choose another folder with SLOTWATT_JOBS\\..* delete the file ${join(root, lockFile)} `,
      ),
    );
    await first.close();
    await (await openWorkshop(root)).close();
    expect(await readdir(root)).toEqual([]);
  });

  it('of a process that has ended is taken over', async () => {
    const child = spawn(process.execPath, ['-e', '']);
    await once(child, 'close');
    await lockOf({ id: 'other', pid: child.pid, process: '' });
    await (await openWorkshop(root)).close();
    expect(await readdir(root)).toEqual([]);
  });

  it('of a process whose number another one has now is taken over', async () => {
    await lockOf({ id: 'other', process: 'an earlier start 17' });
    await (await openWorkshop(root)).close();
  });

  it('of another computer is not, because from here nobody can tell', async () => {
    await lockOf({ id: 'other', host: 'joinery-server', pid: 1 });
    await expect(openWorkshop(root)).rejects.toThrow(/process 1 on joinery-server/);
  });

  it('that cannot be read is not', async () => {
    await lockOf({});
    for (const text of ['', '{', '{}', '{"format":{"name":"slotwatt-lock","version":2}}']) {
      await writeFile(join(root, lockFile), text);
      await expect(openWorkshop(root)).rejects.toThrow(/its lock file cannot be read/);
      expect(await readFile(join(root, lockFile), 'utf8')).toBe(text);
    }
  });

  it('of twenty that start over a stale one goes to one', async () => {
    await lockOf({ id: 'other', process: 'an earlier start 17' });
    const started = await Promise.allSettled(Array.from({ length: 20 }, () => takeLock(realDisk, root)));
    const held = started.flatMap((each) => (each.status === 'fulfilled' ? [each.value] : []));
    const working = await Promise.allSettled(held.map((lock) => lock.expectHeld()));
    expect(working.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    for (const lock of held) await lock.release();
    expect(await readdir(root)).toEqual([]);
  });

  it('that was deleted or taken over stops the former holder from changing anything', async () => {
    const first = await openWorkshop(root);
    const { id, etag } = await createJob(first, someJob());
    await unlink(join(root, lockFile));
    const second = await openWorkshop(root);
    const before = await readFile(join(root, id, 'job.json'));
    const changed = { ...someJob(), panel: { width_mm: 1234, height_mm: 2000 } };
    await expect(saveJob(first, { id, version: etag }, changed)).rejects.toMatchObject({
      code: 'folder-lost',
      message: expect.stringContaining('Nothing was changed: this service no longer holds the folder'),
    });
    expect(await readFile(join(root, id, 'job.json'))).toEqual(before);
    await first.close();
    // The former holder does not release what is not its own.
    expect((await saveJob(second, { id, version: etag }, changed)).ok).toBe(true);
    await second.close();
  });

  it('is made on disks without hard links too', async () => {
    const link = async () => {
      throw Object.assign(new Error('no hard links here'), { code: 'EPERM' });
    };
    const disk = { ...failingDisk(realDisk), link };
    const first = await openWorkshop(root, disk);
    await expect(openWorkshop(root, disk)).rejects.toMatchObject({ code: 'folder-in-use' });
    await first.close();
    expect(await readdir(root)).toEqual([]);
  });
});

/** Starts a process that saves as long as it lives, and waits for the folder while another one holds it. */
function startSaver(program: string, id: string, heard: (count: number) => void): ChildProcess {
  const child = spawn(process.execPath, [program, root, id, 'wait'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  children.push(child);
  createInterface(child.stdout!).on('line', (line) => {
    const [word, count] = line.split(' ');
    if (word === 'saved') heard(Number(count));
  });
  return child;
}

describe('two services over one folder', () => {
  it(`take turns when one is killed, and none of ${saveCount} saves is lost`, async () => {
    const program = await bundled('saver', folder);
    const workshop = await openWorkshop(root);
    const { id } = await createJob(workshop, { ...someJob(), panel: { width_mm: 1000, height_mm: 1000 } });
    await workshop.close();
    const acknowledged: number[] = [];
    const everyTenth = { next: 10, reached: (): void => undefined };
    const heard = (saved: number): void => {
      acknowledged.push(saved);
      if (acknowledged.length >= everyTenth.next) everyTenth.reached();
    };
    let [holder, waiting] = [startSaver(program, id, heard), startSaver(program, id, heard)];
    while (acknowledged.length < saveCount) {
      everyTenth.next = acknowledged.length + 10;
      await new Promise<void>((resolve) => {
        everyTenth.reached = resolve;
      });
      // Whichever holds the folder now, one of the two goes and a new one comes.
      holder.kill('SIGKILL');
      await once(holder, 'close');
      [holder, waiting] = [waiting, startSaver(program, id, heard)];
    }
    for (const child of [holder, waiting]) {
      child.kill('SIGKILL');
      await once(child, 'close');
    }
    // Each save counts one further from the version it opened: a number twice would be a save lost.
    expect(new Set(acknowledged).size).toBe(acknowledged.length);
    const again = await openWorkshop(root);
    const opened = await openJob(again, id);
    await again.close();
    const width_mm = opened.ok ? opened.value.job.panel.width_mm : 0;
    expect(width_mm).toBeGreaterThanOrEqual(Math.max(...acknowledged));
    console.log(`${acknowledged.length} saves acknowledged, ${width_mm - 1000} made, none lost`);
  });
});
