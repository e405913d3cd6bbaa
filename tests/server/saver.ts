import { writeSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';
import type { Job } from '../../server/contract/job.ts';
import { openJob, saveJob } from '../../server/store/kept-jobs.ts';
import { addProduct } from '../../server/store/products.ts';
import { keepReadings } from '../../server/store/readings.ts';
import { issueRevision } from '../../server/store/revisions.ts';
import { StoreTrouble } from '../../server/store/trouble.ts';
import { openWorkshop, type Workshop } from '../../server/store/workshop.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import { someCable } from './products.ts';

/**
 * Saves a job over and over until it is killed: each save counts one further in the panel width, each second is
 * issued as a revision and measured, and a product of that number is kept, as well. It says "saved n", "issued n",
 * "measured n" or "stocked n" only after the store has said so.
 */
const [folder, id, patience] = process.argv.slice(2) as [string, string, string | undefined];

const say = (line: string): void => void writeSync(1, `${line}\n`);

function next(job: Job): Job {
  const count = job.panel.width_mm + 1;
  return { ...job, panel: { ...job.panel, width_mm: count }, title: { ...job.title, revision: `r${count}` } };
}

/** Opens the folder; told to wait, it asks again until whoever holds it is gone. */
async function opened(): Promise<Workshop> {
  for (;;) {
    try {
      return await openWorkshop(folder);
    } catch (error) {
      if (patience !== 'wait' || !(error instanceof StoreTrouble)) throw error;
      await wait(20);
    }
  }
}

async function main(): Promise<void> {
  const workshop = await opened();
  await workshop.tidied();
  const kept = await openJob(workshop, id);
  if (!kept.ok) throw new Error(kept.issues[0]!.sentence);
  let { job, etag } = kept.value;
  for (;;) {
    job = next(job);
    const saved = await saveJob(workshop, { id, version: etag }, job);
    if (!saved.ok) throw new Error(saved.issues[0]!.sentence);
    etag = saved.value.etag;
    say(`saved ${job.panel.width_mm}`);
    if (job.panel.width_mm % 2 === 0) {
      const size = async () => ({ engine: 'test', width_mm: job.panel.width_mm }) as unknown as Sizing;
      const issued = await issueRevision(workshop, { id, version: etag }, { size, note: '' });
      if (!issued.ok) throw new Error(issued.issues[0]!.sentence);
      say(`issued ${job.panel.width_mm}`);
      const measuring = { id, revision: `r${job.panel.width_mm}`, by: 'Ida Blom' };
      for (const row of ['R01', 'R02']) {
        const reading = { row, quantity: 'noLoad_V', value: job.panel.width_mm, version: 0 } as const;
        const measured = await keepReadings(workshop, measuring, [reading]);
        if (!measured.ok) throw new Error(measured.issues[0]!.sentence);
        say(`measured ${job.panel.width_mm}`);
      }
      const stocked = await addProduct(workshop, someCable(`Cable ${job.panel.width_mm}`));
      if (!stocked.ok) throw new Error(stocked.issues[0]!.sentence);
      say(`stocked ${job.panel.width_mm}`);
    }
  }
}

void main();
