import { html, nothing, type TemplateResult } from 'lit';
import type { RevisionChanges } from '../../server/contract/kept-jobs.ts';
import { moment } from '../format.ts';
import type { State } from '../state/store.ts';
import { changeList } from './change-list.ts';
import { StoreElement } from './store-element.ts';

/** What is otherwise than in the revision before. */
function changesSince({ since, ...comparison }: RevisionChanges): TemplateResult {
  if (since === null) return html`<p>It is the first revision that was issued.</p>`;
  if (comparison.changes.length === 0 && comparison.made.length === 0)
    return html`<p>No row of the papers is otherwise than in revision ${since}.</p>`;
  return changeList(`Changed since revision ${since}`, comparison);
}

/** Says that an issued revision is on the page, and what it is. */
export class RevisionBanner extends StoreElement {
  static override properties = { back: { attribute: false } };
  declare back: () => void;

  protected override shows({ frozen }: State): readonly unknown[] {
    return [frozen];
  }

  override render(): TemplateResult | typeof nothing {
    const { frozen } = this.store.get();
    if (!frozen) return nothing;
    const { entry, answer, changes } = frozen;
    return html`<div class="message is-frozen">
      <h2>Revision ${entry.revision} of “${answer.job.title.job}”, as it was issued</h2>
      <p>
        Issued ${moment(entry.issued, new Date())}${entry.by === '' ? '' : ` by ${entry.by}`}, calculated by engine ${entry.engine}.
        ${entry.note === '' ? '' : `Its note: “${entry.note}”.`} It never changes: everything below is for reading, but for the boxes of its test sheet.
        <button type="button" @click=${this.back}>Back to the job on the page</button>
      </p>
      ${changes ? changesSince(changes) : html`<p>What changed since the revision before could not be had.</p>`}
    </div>`;
  }
}

customElements.define('revision-banner', RevisionBanner);
