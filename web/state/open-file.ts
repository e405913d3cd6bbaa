import { isSameJob } from '../../src/job/job-differences.ts';
import { askJobOfFile } from '../api.ts';
import { askRevisions } from '../api-kept-jobs.ts';
import { counted } from '../format.ts';
import { begin, takeJob } from './files.ts';
import { change } from './history.ts';
import { isPdf, jobInPdf } from './job-in-pdf.ts';
import { mergedReadings, type RecordFile, readRecord } from './record-file.ts';
import { look } from './revisions.ts';
import type { Draft, Remedy, Store } from './store.ts';
import { tell } from './workshop.ts';

/** The largest file that can be a job, and the largest that can be papers with a job in them; the service takes no more. */
const largest_bytes = 2_000_000;
const largestPapers_bytes = 30_000_000;

const notOpened = (store: Store, name: string, sentence: string): void =>
  tell(store, {
    title: `“${name}” was not opened. The job on the page is as it was.`,
    sentences: [sentence],
  });

/** The revision of a file among those issued in this workshop; undefined where it comes from elsewhere. */
async function issuedHere({ revision }: RecordFile) {
  if (!revision) return undefined;
  const reply = await askRevisions(revision.jobId);
  if (reply.kind !== 'answer') return undefined;
  return reply.value.find(({ id, issued, trouble }) => {
    return id === revision.id && issued === revision.issued && trouble === null;
  });
}

const boxText = (key: string): string => key.slice(0, key.lastIndexOf(' '));

/** Puts the readings of the file over those that were typed here; undo takes it back. */
function takeOfFile(store: Store, theirs: NonNullable<Draft['readings']>): void {
  const { draft } = store.get();
  if (draft) change(store, { ...draft, readings: { ...draft.readings, ...theirs } });
  store.set({ notice: undefined });
}

/** Puts the readings of a file into the test sheet of the draft: what is there stays, and boxes that differ are named. */
function mergeIntoDraft(store: Store, record: RecordFile): void {
  const { draft } = store.get();
  if (!draft) return;
  const { texts, theirs } = mergedReadings(draft.readings ?? {}, record);
  change(store, { ...draft, readings: texts, taken: [...(draft.taken ?? []), ...record.readings] });
  const differing = Object.entries(theirs).map(
    ([key, text]) => `${boxText(key)}: ${draft.readings?.[key]} here, ${text} in the file.`,
  );
  const take: Remedy = { text: 'Take those of the file', act: () => takeOfFile(store, theirs) };
  tell(store, {
    title:
      differing.length === 0
        ? 'What the file has measured stands in the test sheet.'
        : `${counted(differing.length, 'box holds', 'boxes hold')} something else in the file. What was typed here stays.`,
    sentences: differing.slice(0, 12),
    remedies: differing.length === 0 ? [] : [take],
  });
}

/** Opens a file with readings whose revision this workshop does not have: they stand in the test sheet of the draft. */
async function openElsewhere(store: Store, record: RecordFile, name: string): Promise<void> {
  const reply = await askJobOfFile(JSON.stringify(record.job));
  if (reply.kind !== 'answer') return takeJob(store, reply, `“${name}”`);
  const { draft } = store.get();
  if (draft && isSameJob(draft.job, reply.value)) return mergeIntoDraft(store, record);
  const { texts: readings } = mergedReadings({}, record);
  begin(store, reply.value, { readings, taken: record.readings });
  const from = record.revision
    ? `They were taken on revision ${record.revision.revision}, which this workshop does not have: issue the job here to keep them with it.`
    : 'They were typed on a draft: issue the job to keep them with it.';
  tell(store, {
    title: `${counted(Object.keys(readings).length, 'reading', 'readings')} came with the job, and ${Object.keys(readings).length === 1 ? 'stands' : 'stand'} in its test sheet.`,
    sentences: [from],
  });
}

/** The text of a job: of a file, or of the file that papers carry. */
async function textOf(file: File): Promise<string | { readonly refusal: string }> {
  if (isPdf(new Uint8Array(await file.slice(0, 5).arrayBuffer()))) {
    if (file.size > largestPapers_bytes)
      return { refusal: 'It is larger than 30 MB, and no papers of a job are.' };
    const refusal =
      'This PDF carries no job: it was not made by Slotwatt, or another program has saved it anew. Open the PDF as it was issued, or the job file.';
    return (await jobInPdf(new Uint8Array(await file.arrayBuffer()))) ?? { refusal };
  }
  if (file.size <= largest_bytes) return file.text();
  return { refusal: 'It is larger than 2 MB, and no job is. Choose the file that this page saved.' };
}

const isUnmeasured = ({ readings, typed }: RecordFile): boolean =>
  readings.length === 0 && Object.keys(typed).length === 0;

/**
 * Opens a saved file, or the PDF of a hand-over with its job in it. Where it holds what was measured on a revision of this workshop, that revision is shown and the readings are
 * put together box by box; else the job is put on the page, its readings with it.
 */
export async function openFile(store: Store, file: File): Promise<void> {
  const text = await textOf(file);
  if (typeof text !== 'string') return notOpened(store, file.name, text.refusal);
  const record = readRecord(text);
  if (typeof record === 'string') return notOpened(store, file.name, record);
  if (!record) return takeJob(store, await askJobOfFile(text), `“${file.name}”`);
  const entry = await issuedHere(record);
  if (entry && record.revision) return look(store, record.revision.jobId, entry, record);
  if (isUnmeasured(record))
    return takeJob(store, await askJobOfFile(JSON.stringify(record.job)), `“${file.name}”`);
  return openElsewhere(store, record, file.name);
}
