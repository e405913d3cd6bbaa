import type { IssuedReading } from '../../server/contract/issued-readings.ts';
import type { ListedRevision, Revision } from '../../server/contract/kept-jobs.ts';
import type { Job } from '../../src/job/job.ts';
import { readJob } from '../../src/job/read-job.ts';
import { askReadings, askRevision, askRevisionChanges, issueRevision } from '../api-kept-jobs.ts';
import { draftStanding } from './document-status.ts';
import { choose } from './edit.ts';
import { begin, saveFile } from './files.ts';
import { nextFree } from './next-revision.ts';
import type { Answer, Brought, Frozen, Store } from './store.ts';
import { differsFromKept, during, keepNow, setWorkshop, tell, tellRefusal } from './workshop.ts';

/** Writes a revision into the title block. */
export const setRevision = (store: Store, revision: string): void =>
  choose(store, ['title', 'revision'], revision);

/** Issues the revision in the title block; what the page has beyond what is kept is kept first. */
export function issue(store: Store, note: string): Promise<void> {
  return during(store, 'issuing', async () => {
    const { draft } = store.get();
    const base = draft && !differsFromKept(draft) ? draft.kept : await keepNow(store);
    if (!base) return;
    const reply = await issueRevision(base.id, base.etag, note);
    if (reply.kind !== 'answer') return tellRefusal(store, 'No revision was issued.', reply);
    const next = nextFree(reply.value.revision, store.get().workshop.revisions);
    const then = next === undefined ? 'the next revision' : `revision ${next}, which it becomes by itself`;
    tell(store, {
      title: `Revision ${reply.value.revision} is issued and frozen.`,
      sentences: [
        `The first change you make from here on belongs to ${then}.`,
        'Readings are taken on what was issued: look at it, and type them into its test sheet.',
      ],
    });
  });
}

const nothingBrought: Brought = { readings: [], typed: {} };

/** A revision with what is asked for beside it. */
interface Looked {
  readonly id: string;
  readonly entry: ListedRevision;
  readonly revision: Revision;
  readonly readings: readonly IssuedReading[] | undefined;
  readonly brought: Brought;
}

/**
 * Whether this page can lay the revision out: an earlier engine may have written its answer otherwise. The shape of an answer is
 * loaded when one is looked at, since nothing else on the page needs it.
 */
async function answerOf({ job, sizing }: Revision): Promise<Answer | undefined> {
  const shape = await import('../../src/answer/sizing.ts');
  const [jobRead, sizingRead] = [readJob(job), shape.sizing.safeParse(sizing)];
  return jobRead.ok && sizingRead.success ? { job: jobRead.value, sizing: sizingRead.data } : undefined;
}

function freeze(
  store: Store,
  { id, entry, readings, brought }: Looked,
  answer: Answer,
  changes: Frozen['changes'],
): void {
  setWorkshop(store, { isOpen: false });
  const { answer: now, draft } = store.get();
  const own = draft?.kept?.id === id ? draft : undefined;
  const isOfThisEngine = now?.sizing.engine === entry.engine;
  const beside = { onDraft: own?.readings ?? {}, taken: own?.taken ?? [], brought };
  store.set({
    frozen: { id, entry, answer, changes, readings, isOfThisEngine, ...beside },
    notice: undefined,
  });
  window.scrollTo(0, 0);
}

/** Puts the job of an earlier revision on the page, as a draft of its own; undo brings back what was there. */
function beginFrom(store: Store, job: Job, entry: ListedRevision): void {
  begin(store, job);
  setWorkshop(store, { isOpen: false });
  tell(store, {
    title: `The job of revision ${entry.revision} is on the page, as a new draft.`,
    sentences: [
      'It is calculated afresh, so that its figures may differ from those issued. Undo brings back what was here.',
    ],
  });
}

/** Says of a revision that this page cannot lay out what can be done with it. */
function tellEarlier(store: Store, { id, entry, revision, readings }: Looked): void {
  const content = new Blob([`${JSON.stringify({ ...revision, readings }, undefined, 2)}\n`], {
    type: 'application/json',
  });
  const save = { text: 'Save it as JSON', act: () => saveFile(`${id}-${entry.id}.json`, content) };
  const job = readJob(revision.job);
  const goOn = job.ok
    ? [{ text: 'Open its job as a new draft', act: () => beginFrom(store, job.value, entry) }]
    : [];
  const [version] = entry.engine.split('+');
  tell(store, {
    title: `Revision ${entry.revision} was issued by Slotwatt ${version}, whose papers this page cannot lay out.`,
    sentences: [
      `It is kept as it was issued, and nothing of it is lost: its figures can be saved as they are${job.ok ? ', and its job can be gone on with' : ''}. Slotwatt ${version} prints it as it was.`,
    ],
    remedies: [save, ...goOn],
  });
}

/** Shows an issued revision with its own answer, read only; the draft waits behind it. What a file brought is put together with it. */
export function look(
  store: Store,
  id: string,
  entry: ListedRevision,
  brought: Brought = nothingBrought,
): Promise<void> {
  return during(store, 'opening', async () => {
    const [reply, changes, kept] = await Promise.all([
      askRevision(id, entry.id),
      askRevisionChanges(id, entry.id),
      askReadings(id, entry.id),
    ]);
    if (reply.kind !== 'answer')
      return tellRefusal(store, `Revision ${entry.revision} was not opened.`, reply);
    const readings = kept.kind === 'answer' ? kept.value.readings : undefined;
    const looked = { id, entry, revision: reply.value, readings, brought };
    const answer = await answerOf(reply.value);
    if (!answer) return tellEarlier(store, looked);
    freeze(store, looked, answer, changes.kind === 'answer' ? changes.value : undefined);
  });
}

/** Goes back from an issued revision to the job on the page, and says which of the two is frozen. */
export function lookAway(store: Store): void {
  const { frozen, draft } = store.get();
  store.set({ frozen: undefined });
  if (!frozen || draft?.kept?.id !== frozen.id) return;
  const { entry } = frozen;
  tell(store, {
    title: `Revision ${entry.revision} is frozen; this is the job you work on.`,
    sentences: [draftStanding(store.get())].filter((sentence) => sentence !== ''),
  });
}
