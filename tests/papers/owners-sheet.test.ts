import { expect, it } from 'vitest';
import { ownersSheet } from '../../server/papers/sheets/work-tables.ts';
import { demoJobs, sizeJob } from '../../src/index.ts';

it('the sheet for the owner counts spare parts and gives spare cable in metres', () => {
  const { job } = demoJobs.find(({ id }) => id === 'window-seat')!;
  const outcome = sizeJob(job);
  if (!outcome.ok) throw new Error('refused');
  const spares = ownersSheet(job, outcome.value).rows.find(([what]) => what === 'Spare parts kept')![1]!;
  // Of 9.9 m of cable a tenth, rounded up to a metre; one driver beside the one in use.
  expect(spares).toMatch(/^1 m, Cable: 2 × 1\.5 mm² fine-wire, 2 cores; 1 × Driver: 12 V 20 W driver;/);
});
