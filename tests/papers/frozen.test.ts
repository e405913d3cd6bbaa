import { afterEach, describe, expect, it } from 'vitest';
import { scheduleCsv } from '../../server/csv.ts';
import { packPdf } from '../../server/papers/pack.ts';
import { type PaperName, paperOf } from '../../server/papers/papers.ts';
import { type Job, type Sizing, sizeJob, sizeJobCarefully } from '../../src/index.ts';
import { cableCatalogue } from '../../src/job/cable-catalogue.ts';
import { driverCatalogue } from '../../src/job/driver-catalogue.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { demos, unusual } from './jobs.ts';

/** Papers are made from the job and the answer that were frozen together, whatever becomes of the catalogue. */

interface Frozen {
  readonly name: string;
  readonly job: Job;
  readonly sizing: Sizing;
}

/** As a revision is kept: text. */
const kept = (revision: Frozen): Frozen => JSON.parse(JSON.stringify(revision));

function careful({ name, job }: Frozen): Frozen {
  const sizing = sizeJobCarefully(job);
  if (!sizing.ok) throw new Error(JSON.stringify(sizing.issues));
  return { name: `${name}, careful`, job, sizing: sizing.value };
}

const drawings: PaperName[] = ['elevation.svg', 'elevation.dxf', 'section.svg', 'section.dxf'];

async function paperTexts({ job, sizing }: Frozen): Promise<Record<string, string>> {
  const input = { job, sizing, format: 'A3', issued: null, revisions: [], before: null } as const;
  const texts: Record<string, string> = {};
  const before = { revision: 'A', job, sizing };
  texts.pdf = (await packPdf({ ...input, before }, false)).toString('latin1');
  for (const name of drawings) texts[name] = String(await paperOf(name, input));
  for (const schedule of sizing.schedules) texts[`${schedule.id}.csv`] = scheduleCsv(schedule);
  return texts;
}

type Catalogue = Record<string, unknown>[];

const catalogues = [stripCatalogue, driverCatalogue, cableCatalogue] as unknown as Catalogue[];

/** Every figure a half more and every text another, as a new edition of the catalogue may have it. */
function alter(catalogue: Catalogue): void {
  for (const entry of catalogue)
    for (const [key, value] of Object.entries(entry)) {
      if (typeof value === 'number') entry[key] = 1.5 * value;
      if (typeof value === 'string' && key !== 'id') entry[key] = `${value}, new edition`;
    }
}

const first = structuredClone(catalogues);

// Other tests of this process read the same catalogue.
afterEach(() => {
  for (const [i, catalogue] of catalogues.entries()) catalogue.splice(0, catalogue.length, ...first[i]!);
});

describe('papers of an issued revision', () => {
  it('stay the same to the byte when the catalogue is altered, and when it is emptied', async () => {
    const [small, middle] = demos;
    const revisions = [small!, middle!, unusual[0]!, careful(small!)].map(kept);
    const issued: Record<string, string>[] = [];
    for (const revision of revisions) issued.push(await paperTexts(revision));
    for (const change of [alter, (catalogue: Catalogue) => catalogue.splice(0)]) {
      for (const catalogue of catalogues) change(catalogue);
      for (const [i, revision] of revisions.entries())
        for (const [name, text] of Object.entries(await paperTexts(revision)))
          expect(text === issued[i]![name], `${revision.name}: ${name}`).toBe(true);
    }
    // The catalogue is gone: a new answer is not to be had.
    const gone = ['strip.entry', 'drivers.entry', 'cables.entry'].map((field) => ({
      code: 'unknown-entry',
      place: { field },
    }));
    expect(sizeJob(small!.job)).toMatchObject({ ok: false, issues: gone });
  });
});
