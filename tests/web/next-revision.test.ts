import { describe, expect, it } from 'vitest';
import type { IssuedReading } from '../../server/contract/issued-readings.ts';
import type { ListedRevision } from '../../server/contract/kept-jobs.ts';
import { demoJobs } from '../../src/index.ts';
import { documentStatus, draftStanding } from '../../web/state/document-status.ts';
import { choose, typeText } from '../../web/state/edit.ts';
import { undo } from '../../web/state/history.ts';
import { measuredOf, mergedTexts, metMeanwhile, unkept } from '../../web/state/issued-readings.ts';
import { createStore, emptyState, type Store } from '../../web/state/store.ts';

const issued = (revision: string, isAsKept = false): ListedRevision => ({
  id: revision.toLowerCase(),
  revision,
  issued: '2026-03-03T10:00:00Z',
  engine: 'test',
  note: '',
  sequence: 1,
  by: '',
  trouble: null,
  isAsKept,
});

/** The first demo job as it is kept, with revision A in its title block, and what was issued of it. */
function storeWith(...revisions: ListedRevision[]): Store {
  const { job } = demoJobs[0]!;
  const kept = { id: 'wall', etag: '"1"', saved: '2026-03-03T09:00:00Z', job };
  const draft = { job, entries: {}, parked: {}, begun: 1, kept };
  return createStore({ ...emptyState, draft, workshop: { ...emptyState.workshop, revisions } });
}

const titled = (store: Store): string => store.get().draft!.job.title.revision;
const width = (store: Store): number => store.get().draft!.job.panel.width_mm;

describe('the first change after a revision was issued', () => {
  it('takes the next letter along in one step, which undo takes back with it', () => {
    const store = storeWith(issued('A', true));
    typeText(store, 'panel.width_mm', '18');
    typeText(store, 'panel.width_mm', '1800');
    expect([titled(store), width(store)]).toEqual(['B', 1800]);
    undo(store);
    expect([titled(store), width(store)]).toEqual(['A', 1620]);
  });

  it('takes the first letter that was not issued, however it is written', () => {
    const store = storeWith(issued('a', true), issued('B'));
    choose(store, ['panel', 'width_mm'], 1800);
    expect(titled(store)).toBe('C');
  });

  it('leaves a letter alone that was never issued, and one that is being typed', () => {
    const store = storeWith(issued('Z'));
    choose(store, ['panel', 'width_mm'], 1800);
    expect(titled(store)).toBe('A');
    typeText(store, 'title.revision', 'Z');
    expect(titled(store)).toBe('Z');
    choose(store, ['panel', 'width_mm'], 1810);
    expect(titled(store)).toBe('AA');
  });
});

describe('what the page says of a draft', () => {
  it('is never that it is issued, and which revision it is not', () => {
    const store = storeWith(issued('A', true));
    expect(documentStatus(store.get())).toBe('draft, not issued');
    expect(draftStanding(store.get())).toMatch(
      /^The same as revision A, issued .*first change makes it revision B/,
    );
    choose(store, ['panel', 'width_mm'], 1800);
    expect(draftStanding(store.get())).toBe('Revision B is a draft, not issued; issued last: A.');
    typeText(store, 'title.revision', 'A');
    expect(draftStanding(store.get())).toMatch(/^Not revision A as it was issued.*give the title block B/);
    expect(draftStanding(storeWith(issued('A')).get())).toMatch(/^Not revision A as it was issued/);
    expect(draftStanding(storeWith().get())).toBe('');
  });
});

describe('readings of an issued revision on the page', () => {
  const reading = (row: string, value: number | null, version = 1): IssuedReading => ({
    row,
    quantity: 'noLoad_V',
    value,
    version,
    by: 'Ida Blom',
    at: '2026-03-03T10:00:00Z',
  });
  const boxes = (...readings: IssuedReading[]) =>
    measuredOf(
      { id: 'wall', revision: 'a' },
      { onDraft: {}, taken: [], brought: { readings: [], typed: {} } },
      readings,
    ).measured;

  it('are sent where they are understood and other than what the workshop has, with the version seen', () => {
    const texts = { 'R01 noLoad_V': '24,1', 'R02 noLoad_V': '12', 'R04 noLoad_V': 'about 9' };
    const measured = boxes(reading('R02', 12), reading('R03', 7, 3));
    expect(unkept(texts, measured)).toEqual([
      { row: 'R01', quantity: 'noLoad_V', value: 24.1, version: 0 },
      { row: 'R03', quantity: 'noLoad_V', value: null, version: 3 },
    ]);
    const conflicts = [{ ...reading('R01', 24.1), theirs: reading('R01', 23) }];
    expect(unkept(texts, { ...measured, conflicts }).map(({ row }) => row)).toEqual(['R03']);
  });

  it('of others appear where nobody typed, and meet those typed here without giving way', () => {
    const texts = { 'R01 noLoad_V': '24.1', 'R02 noLoad_V': '12' };
    const before = boxes(reading('R02', 12)).boxes;
    const after = boxes(reading('R01', 23), reading('R02', 11, 2), reading('R03', 5)).boxes;
    expect(mergedTexts(texts, before, after)).toEqual({
      'R01 noLoad_V': '24.1',
      'R02 noLoad_V': '11',
      'R03 noLoad_V': '5',
    });
    expect(metMeanwhile(texts, before, after)).toMatchObject([
      { row: 'R01', value: 24.1, theirs: { value: 23, by: 'Ida Blom' } },
    ]);
  });
});
