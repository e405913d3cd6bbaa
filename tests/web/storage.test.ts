import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { newJob } from '../../src/job/new-job.ts';
import { gaps } from '../../web/state/recompute.ts';
import { readDraft } from '../../web/state/storage.ts';

const seat = JSON.parse(readFileSync(new URL('../job/format-1/window-seat.json', import.meta.url), 'utf8'));
const draftOf = (job: unknown, more: object = {}): string =>
  JSON.stringify({ job, entries: { 'panel.width_mm': '16,' }, parked: {}, begun: 7, ...more });

describe('a draft in the storage of the browser', () => {
  it('of a job of format 1 comes back in format 2, whole, with what was typed', () => {
    const kept = { id: 'seat', etag: '"1"', saved: '2026-01-01T00:00:00Z', job: seat };
    const draft = readDraft(draftOf(seat, { kept }))!;
    expect(draft.job.format.version).toBe(2);
    expect(gaps(draft.job)).toEqual([]);
    expect([draft.job.cables.fuses, draft.job.feeds.cutLines, draft.job.site.rules]).toEqual([
      'blade',
      [],
      'IEC',
    ]);
    expect(draft.entries).toEqual({ 'panel.width_mm': '16,' });
    expect(draft.kept).toEqual({ ...kept, job: draft.job });
  });

  it('without slots yet comes back as unfinished, in either format', () => {
    const slots = { from: 'segments', width_mm: 20, segments: [] };
    for (const job of [seat, newJob()]) {
      const draft = readDraft(draftOf({ ...job, slots }))!;
      expect(draft.job.slots).toEqual(slots);
      expect(draft.job.dimming.restName).toBe('');
    }
  });

  it.each([
    ['nothing', null],
    ['half a file', '{"job":'],
    ['a job of a later format', draftOf({ ...newJob(), format: { name: 'slotwatt-job', version: 99 } })],
    ['a broken job', draftOf({ ...newJob(), panel: {} })],
    ['slots of no kind', draftOf({ ...newJob(), slots: { from: 'guess' } })],
  ])('that is %s is none', (_, text) => {
    expect(readDraft(text)).toBeUndefined();
  });
});
