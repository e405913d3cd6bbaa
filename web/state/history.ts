import { withOutline } from '../../src/job/panels.ts';
import { underNextRevision } from './next-revision.ts';
import type { Draft, State, Store } from './store.ts';

const deepest = 200;

/**
 * Puts a changed draft in place and remembers the one before; typing on in the same field is one step. What was
 * issued is left behind under its revision: the change takes the next one along. A wall of panels is as large as they are.
 */
export function change(store: Store, changed: Draft, field?: string): void {
  const { draft: before, past, lastField, workshop } = store.get();
  const whole = { ...changed, job: withOutline(changed.job) };
  const draft = underNextRevision(before, whole, workshop.revisions);
  const goesOn = field !== undefined && field === lastField;
  const kept = before && !goesOn ? [...past, before].slice(-deepest) : past;
  store.set({ draft, past: kept, future: [], lastField: field });
}

/** Puts a draft in place without a step of undo, as when a finished entry is written out again. */
export function replaceDraft(store: Store, draft: Draft): void {
  store.set({ draft });
}

function step(store: Store, from: 'past' | 'future', to: 'past' | 'future', at: 'end' | 'start'): void {
  const state: State = store.get();
  const drafts = state[from];
  const draft = at === 'end' ? drafts.at(-1) : drafts[0];
  if (!draft || !state.draft) return;
  const left = at === 'end' ? drafts.slice(0, -1) : drafts.slice(1);
  const other = to === 'past' ? [...state[to], state.draft] : [state.draft, ...state[to]];
  store.set({ [from]: left, [to]: other, draft, lastField: undefined });
}

export function undo(store: Store): void {
  step(store, 'past', 'future', 'end');
}

export function redo(store: Store): void {
  step(store, 'future', 'past', 'start');
}

/** Changes the same thing in every draft that goes back to the same version of a kept job, undone ones too. */
export function throughout(store: Store, like: Draft, edit: (draft: Draft) => Draft): void {
  const { draft, past, future } = store.get();
  const isAlike = (other: Draft): boolean =>
    other.begun === like.begun && other.kept?.id === like.kept?.id && other.kept?.etag === like.kept?.etag;
  const edited = (other: Draft): Draft => (isAlike(other) ? edit(other) : other);
  store.set({ draft: draft && edited(draft), past: past.map(edited), future: future.map(edited) });
}
