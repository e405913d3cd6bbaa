import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { ListedRevision } from '../../server/contract/kept-jobs.ts';
import { counted, moment } from '../format.ts';
import { problemsOf } from '../state/edit.ts';
import { jumpToField } from '../state/jump.ts';
import { issuedAs, nextFree } from '../state/next-revision.ts';
import { issue, look, setRevision } from '../state/revisions.ts';
import type { Draft, KeptBase, State } from '../state/store.ts';
import { differsFromKept } from '../state/workshop.ts';
import { StoreElement } from './store-element.ts';

const longestNote = 200;

const by = (name: string): string => (name === '' ? '' : ` by ${name}`);

/** Revisions of the job on the page: those issued, and issuing the next. */
export class JobRevisions extends StoreElement {
  static override properties = { note: { state: true } };
  declare note: string;

  constructor() {
    super();
    this.note = '';
  }

  protected override shows({ workshop, draft }: State): readonly unknown[] {
    return [workshop, draft];
  }

  private row(entry: ListedRevision, { id }: KeptBase, isBusy: boolean): TemplateResult {
    return html`<tr>
      <th scope="row">${entry.revision}</th>
      <td data-label="Issued" class="is-short">${moment(entry.issued, new Date())}${by(entry.by)}</td>
      <td data-label="Engine" class="is-short">${entry.engine}</td>
      <td data-label="What changed">
        ${entry.note || '\u2013'}${entry.trouble === null ? nothing : html`<p class="sentence">${entry.trouble}</p>`}
      </td>
      <td class="tools-cell">
        ${
          entry.trouble === null
            ? html`<button
                type="button"
                aria-label="Look at it: revision ${entry.revision}"
                ?disabled=${isBusy}
                @click=${() => void look(this.store, id, entry)}
              >
                Look at it
              </button>`
            : nothing
        }
      </td>
    </tr>`;
  }

  private list(revisions: readonly ListedRevision[], kept: KeptBase, isBusy: boolean): TemplateResult {
    if (revisions.length === 0) return html`<p class="hint">No revision of this job has been issued yet.</p>`;
    return html`<table class="register is-revisions">
      <caption class="unseen">Revisions issued, the oldest first</caption>
      <thead>
        <tr>
          ${['Rev.', 'Issued', 'Engine', 'What changed'].map((text) => html`<th scope="col">${text}</th>`)}
          <th scope="col"><span class="unseen">What to do with it</span></th>
        </tr>
      </thead>
      <tbody>
        ${revisions.map((entry) => this.row(entry, kept, isBusy))}
      </tbody>
    </table>`;
  }

  /** What keeps the revision in the title block from being issued, with the way out. */
  private obstacle(draft: Draft, revisions: readonly ListedRevision[]): TemplateResult | undefined {
    const { revision } = draft.job.title;
    const change = (text: string): TemplateResult =>
      html`<button type="button" class="plain" @click=${() => jumpToField(this.store, 'title.revision')}>${text}</button>`;
    const wrong = problemsOf(draft).size;
    if (wrong > 0)
      return html`<p>${counted(wrong, 'entry needs', 'entries need')} correcting before a revision can be issued.</p>`;
    if (revision.trim() === '')
      return html`<p>The title block has no revision yet. ${change('Write one into it')}, such as A.</p>`;
    if (!issuedAs(revision, revisions)) return undefined;
    const next = nextFree(revisions.at(-1)?.revision ?? revision, revisions);
    return html`<p>
      Revision ${revision} has been issued and stays as it is; the first change makes this the next one.
      ${
        next === undefined
          ? change('Give the title block the next one')
          : html`<button type="button" @click=${() => setRevision(this.store, next)}>Go on with revision ${next}</button>`
      }
    </p>`;
  }

  private take(event: Event): void {
    event.preventDefault();
    const { note } = this;
    void issue(this.store, note.trim()).then(() => {
      const issued = this.store.get().workshop.revisions.at(-1);
      if (issued?.note === note.trim()) this.note = '';
    });
  }

  private form(draft: Draft, { revisions, busy }: State['workshop']): TemplateResult {
    const obstacle = this.obstacle(draft, revisions);
    if (obstacle) return html`<div class="issue-form">${obstacle}</div>`;
    const { revision } = draft.job.title;
    return html`<form class="issue-form" @submit=${(event: Event) => this.take(event)}>
      <label for="issue-note">What changed, in a line</label>
      <input
        id="issue-note"
        type="text"
        maxlength=${longestNote}
        autocomplete="off"
        .value=${live(this.note)}
        @input=${(event: InputEvent) => {
          this.note = (event.target as HTMLInputElement).value;
        }}
      />
      <button type="submit" ?disabled=${busy !== undefined}>
        ${busy === 'issuing' ? 'Calculating with care…' : `Issue revision ${revision}`}
      </button>
      <p class="hint">
        Freezes the job with its figures, the date and the engine.
        ${differsFromKept(draft) ? 'The page differs from what is kept, so it is kept first.' : ''}
      </p>
    </form>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { draft, workshop } = this.store.get();
    if (!draft) return nothing;
    const { kept } = draft;
    const isKept = kept && workshop.jobs.some((job) => job.id === kept.id);
    return html`<h3>Revisions of “${draft.job.title.job || 'Job without a name'}”</h3>
      ${
        isKept
          ? html`${this.list(workshop.revisions, kept, workshop.busy !== undefined)} ${this.form(draft, workshop)}`
          : html`<p class="hint">Keep the job first; then its revisions can be issued.</p>`
      }`;
  }
}

customElements.define('job-revisions', JobRevisions);
