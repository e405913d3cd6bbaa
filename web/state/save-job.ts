import { askReadings } from '../api-kept-jobs.ts';
import type { Paper } from '../api-papers.ts';
import { counted } from '../format.ts';
import { problemsOf } from './edit.ts';
import { plainName, saveFile } from './files.ts';
import { issuedAs } from './next-revision.ts';
import { type Recorded, recordText } from './record-file.ts';
import type { Draft, State, Store } from './store.ts';
import { tell } from './workshop.ts';

const fileOf = (recorded: Recorded): Paper => ({
  name: `${plainName(recorded.job)}.slotwatt.json`,
  content: new Blob([recordText(recorded)], { type: 'application/json' }),
});

const nothingMeasured = { revision: null, boxes: {} } as const;

/** The revision that the draft goes by the name of, with what was measured on it; a sentence where that cannot be had. */
async function measuredOn({
  draft,
  workshop,
}: State): Promise<Pick<Recorded, 'revision' | 'boxes'> | string> {
  const entry = draft?.kept && issuedAs(draft.job.title.revision, workshop.revisions);
  if (!draft?.kept || !entry) return nothingMeasured;
  const jobId = draft.kept.id;
  const reply = await askReadings(jobId, entry.id);
  if (reply.kind === 'withdrawn') return nothingMeasured;
  if (reply.kind !== 'answer')
    return `The readings of revision ${entry.revision} are not in it, since they could not be had: ${reply.detail}`;
  const { id, revision, issued } = entry;
  const boxes = reply.value.readings.map((one) => [`${one.row} ${one.quantity}`, one] as const);
  return { revision: { jobId, id, revision, issued }, boxes: Object.fromEntries(boxes) };
}

function leftOut(draft: Draft): string[] {
  const wrong = problemsOf(draft).size;
  if (wrong === 0) return [];
  return [
    `Without ${counted(wrong, 'entry that needs', 'entries that need')} correcting: the file holds the last values that made sense in those fields.`,
  ];
}

/**
 * Saves the job as a file, with what was measured on the revision it goes by, and what was typed on the draft. Entries that are
 * not understood cannot be in it, and the page says so.
 */
export async function saveJob(store: Store): Promise<void> {
  const state = store.get();
  const { draft } = state;
  if (!draft) return;
  const measured = await measuredOn(state);
  const known = typeof measured === 'string' ? nothingMeasured : measured;
  const { name, content } = fileOf({
    job: draft.job,
    ...known,
    texts: draft.readings,
    taken: draft.taken ?? [],
  });
  saveFile(name, content);
  const sentences = [...leftOut(draft), ...(typeof measured === 'string' ? [measured] : [])];
  if (sentences.length > 0) tell(store, { title: 'Saved, but not all of it.', sentences });
}

/** An issued revision to be opened again elsewhere: its job, and what was measured on it, kept or not. */
export function issuedFile({ answer, draft, frozen, measured }: State): Paper {
  const { id, revision, issued } = frozen!.entry;
  return fileOf({
    job: answer!.job,
    revision: { jobId: frozen!.id, id, revision, issued },
    boxes: measured?.boxes ?? {},
    texts: draft?.readings,
    taken: measured?.taken ?? [],
  });
}
