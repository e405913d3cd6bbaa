import { cpSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bringIn } from '../../server/own-products/import.ts';
import { binList, removeJob, restoreJob } from '../../server/store/bin.ts';
import { waitingDisk } from '../../server/store/disk.ts';
import {
  createJob,
  duplicateJob,
  jobList,
  openJob,
  renameJob,
  saveJob,
} from '../../server/store/kept-jobs.ts';
import {
  addProduct,
  changeProduct,
  changeProducts,
  listProducts,
  removeProduct,
} from '../../server/store/products.ts';
import { keepReadings } from '../../server/store/readings.ts';
import { issueRevision, listRevisions } from '../../server/store/revisions.ts';
import { StoreTrouble } from '../../server/store/trouble.ts';
import { openWorkshop, type Workshop } from '../../server/store/workshop.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import { found } from '../../src/outcome.ts';
import { differing, type Effect, type Failure, failingDisk, manners } from './failing-disk.ts';
import { someCable } from './products.ts';
import { openAfterStop, type StoreState, storeState } from './store-state.ts';
import { someJob, temporaryFolder } from './support.ts';

const codes = ['ENOSPC', 'EIO', 'EACCES'] as const;

/** With SLOTWATT_FAULTS=all every manner of failing with every code; else those that differ, with one of the codes in turn. */
const isLong = process.env.SLOTWATT_FAULTS === 'all';

/** How an operation is made to fail, by its number and what it does. */
function failuresAt(at: number, effect: Effect): Failure[] {
  if (isLong) return manners.flatMap((manner) => codes.map((code) => ({ at, manner, code })));
  return differing[effect].map((manner, m) => ({ at, manner, code: codes[(at + m) % codes.length]! }));
}

const job = (name: string, revision: string): Job => ({
  ...someJob(),
  title: { ...someJob().title, job: name, revision },
});
const size = async () => ({ engine: 'test' }) as unknown as Sizing;
const note = '';

/** The version of a job as it stands; every operation reads it first, so reading fails in its turn too. */
async function at(workshop: Workshop, id: string): Promise<{ id: string; version: string }> {
  const opened = await openJob(workshop, id);
  return { id, version: opened.ok ? opened.value.etag : '"unread"' };
}

const measuring = { id: 'wall', revision: 'a', by: 'Ida Blom' };
const reading = (row: string, value: number) => ({ row, quantity: 'noLoad_V', value, version: 0 }) as const;

/** The one product as it stands, which every change reads first. */
async function productAt(workshop: Workshop): Promise<{ id: string; version: string }> {
  const listed = await listProducts(workshop);
  const { product, etag } = (listed.ok ? listed.value[0] : undefined) ?? {
    product: { id: 'own-none' },
    etag: '"none"',
  };
  return { id: product.id, version: etag };
}

const table = 'Cable name,Typical values from\r\nThird,1.5mm2\r\nFourth,2.5mm2\r\nFifth,no such\r\n';

type Operation = (workshop: Workshop) => Promise<{ readonly ok: boolean } | object>;

const operations: Readonly<Record<string, Operation>> = {
  create: (workshop) => createJob(workshop, job('Hall', 'A')),
  save: async (workshop) => saveJob(workshop, await at(workshop, 'wall'), job('Wall', 'D'), 'Ida Blom'),
  rename: async (workshop) => renameJob(workshop, await at(workshop, 'wall'), 'North wall'),
  duplicate: (workshop) => duplicateJob(workshop, 'wall', 'South wall'),
  issue: async (workshop) => issueRevision(workshop, await at(workshop, 'wall'), { size, note }),
  'first issue': async (workshop) => issueRevision(workshop, await at(workshop, 'plain'), { size, note }),
  reading: async (workshop) => keepReadings(workshop, measuring, [reading('R02', 12)]),
  'first reading': async (workshop) =>
    keepReadings(workshop, { ...measuring, revision: 'b' }, [reading('R01', 11)]),
  'first product': (workshop) => addProduct(workshop, someCable('First')),
  'another product': (workshop) => addProduct(workshop, someCable('Second')),
  'change a product': async (workshop) =>
    changeProduct(workshop, await productAt(workshop), someCable('Renamed')),
  'delete a product': async (workshop) => removeProduct(workshop, await productAt(workshop)),
  'table of products': (workshop) =>
    changeProducts(workshop, (products) =>
      found(bringIn(products, table, { kind: 'cable', mayReplace: false })),
    ),
  delete: async (workshop) => removeJob(workshop, await at(workshop, 'wall')),
  restore: async (workshop) => restoreJob(workshop, (await binList(workshop)())[0]!.id),
};

let folder: string;
let remove: () => Promise<void>;
let template: string;
let before: StoreState;

/** A workshop with a job that has a revision and is at the next, one without any, and one in the bin. */
beforeAll(async () => {
  ({ folder, remove } = await temporaryFolder());
  template = join(folder, 'template');
  const workshop = await openWorkshop(template);
  for (const name of ['Wall', 'Gone', 'Plain']) await createJob(workshop, job(name, 'A'));
  await issueRevision(workshop, await at(workshop, 'wall'), { size, note });
  await keepReadings(workshop, measuring, [reading('R01', 11.5)]);
  await saveJob(workshop, await at(workshop, 'wall'), job('Wall', 'B'));
  await issueRevision(workshop, await at(workshop, 'wall'), { size, note });
  await saveJob(workshop, await at(workshop, 'wall'), job('Wall', 'C'));
  await issueRevision(workshop, await at(workshop, 'gone'), { size, note });
  await removeJob(workshop, await at(workshop, 'gone'));
  await addProduct(workshop, someCable('First'));
  await workshop.close();
  before = comparable(await storeState(template));
});
afterAll(() => remove());

/** Before the first product is kept there is no folder of them. */
const isFirst = (name: string): boolean => name === 'first product';

function copyOfTemplate(name: string): string {
  const root = join(folder, 'run');
  rmSync(root, { recursive: true, force: true });
  cpSync(template, root, { recursive: true });
  if (isFirst(name)) rmSync(join(root, '.products'), { recursive: true });
  return root;
}

/** The same without the moment of deleting, which is in the names of the bin. */
const comparable = (state: StoreState): StoreState => ({
  ...state,
  bin: state.bin.map((entry) => ({ ...entry, name: entry.id })),
});

/** What came of it: done, refused or failed for sure, or not sure. */
type Outcome = 'done' | 'not done' | 'unsure';

async function run(
  name: string,
  failure?: Failure,
): Promise<{ outcome: Outcome; effects: readonly Effect[]; root: string }> {
  const root = copyOfTemplate(name);
  const operate = operations[name]!;
  // The folder is opened on a sound disk; from then on every operation counts.
  const workshop = await openWorkshop(root, failingDisk(waitingDisk));
  const disk = failingDisk(waitingDisk, failure);
  try {
    const answer = await operate({ ...workshop, disk });
    const isRefused = 'ok' in answer && !answer.ok;
    return { outcome: isRefused ? 'not done' : 'done', effects: disk.effects, root };
  } catch (error) {
    const isUnsure =
      (error instanceof StoreTrouble && error.code === 'unsure') || failure?.manner === 'stopped';
    return { outcome: isUnsure ? 'unsure' : 'not done', effects: disk.effects, root };
  }
}

/** The new job with its copy not yet renewed, as a failure between the two leaves it. */
function withOldCopies(after: StoreState): StoreState {
  const jobs = Object.entries(after.jobs).map(([id, state]) => [
    id,
    { ...state, copy: before.jobs[id]?.copy ?? state.copy },
  ]);
  return { ...after, jobs: Object.fromEntries(jobs) };
}

describe('a disk that fails', () => {
  it.each(Object.keys(operations))(
    'at any operation of %s leaves the old bytes or the new ones, and the answer says which',
    async (name) => {
      const former = isFirst(name) ? { ...before, products: 'ENOENT' } : before;
      const sound = await run(name);
      expect(sound.outcome).toBe('done');
      const after = comparable(await storeState(sound.root));
      expect(after).not.toEqual(former);
      let tried = 0;
      for (const [k, effect] of sound.effects.entries()) {
        for (const failure of failuresAt(k, effect)) {
          const { outcome, root } = await run(name, failure);
          const workshop = await openAfterStop(root);
          const troubles = (await jobList(workshop)()).filter(({ trouble }) => trouble !== null);
          const revisions = await listRevisions(workshop, name === 'first issue' ? 'plain' : 'wall');
          const state = comparable(await storeState(root));
          await workshop.close();
          const allowed = {
            done: [after],
            'not done': [former],
            unsure: [former, after, withOldCopies(after)],
          }[outcome];
          const where = `${name}, ${failure.code} at ${k}, ${failure.manner}: ${outcome}`;
          expect(troubles, where).toEqual([]);
          const issuedTroubles = revisions.ok ? revisions.value.map(({ trouble }) => trouble) : [];
          expect(
            issuedTroubles.filter((trouble) => trouble !== null),
            where,
          ).toEqual([]);
          expect(allowed, where).toContainEqual(state);
          tried++;
        }
      }
      console.log(`${name}: ${sound.effects.length} operations on files, ${tried} failures tried`);
    },
    600_000,
  );
});
