import type { Side } from '../../server/contract/comparison.ts';
import { letterOf } from './proposing.ts';
import type { State } from './store.ts';

/** Something that can be held against another. */
export interface Comparable {
  readonly key: string;
  readonly group: string;
  readonly label: string;
  readonly side: Side;
}

/** The job on the page, what was proposed for it, what was issued of it, and what the workshop keeps. */
export function comparables({ draft, proposed, workshop }: State): Comparable[] {
  if (!draft) return [];
  const { kept } = draft;
  const designs = proposed.map((job, i) => ({
    ...{ key: `design ${i}`, group: 'Proposed', label: `Design ${letterOf(i)}`, side: { job } },
  }));
  const revisions = workshop.revisions.flatMap(({ id, revision, trouble }) => {
    if (!kept || trouble !== null) return [];
    const side = { kept: kept.id, revision: id };
    return [{ key: `revision ${id}`, group: 'Issued', label: `Revision ${revision}`, side }];
  });
  const jobs = workshop.jobs.flatMap((job) => {
    if (job.id === null || job.trouble !== null) return [];
    const name = [job.documentNumber, job.name || 'Job without a name']
      .filter((text) => text !== '')
      .join(', ');
    const label = job.id === kept?.id ? `${name}, as last kept` : name;
    return [{ key: `kept ${job.id}`, group: 'Kept in this workshop', label, side: { kept: job.id } }];
  });
  const here = { key: 'draft', group: 'Here', label: 'The job on the page', side: { job: draft.job } };
  return [here, ...designs, ...revisions, ...jobs];
}

/** What the job on the page is usually held against: the last revision issued of it, else as it was kept, else a design. */
export function usualBefore(all: readonly Comparable[], { draft }: State): string {
  const issued = all.findLast(({ group }) => group === 'Issued');
  const kept = all.find(({ key }) => key === `kept ${draft?.kept?.id}`);
  return (issued ?? kept ?? all[1] ?? all[0])?.key ?? '';
}
