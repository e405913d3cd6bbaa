import { html, nothing, type TemplateResult } from 'lit';
import type { RevisionChanges } from '../../server/contract/kept-jobs.ts';
import { counted, moment } from '../format.ts';
import type { State } from '../state/store.ts';
import { StoreElement } from './store-element.ts';

function changeList({ since, changes }: RevisionChanges): TemplateResult {
  if (since === null) return html`<p>It is the first revision that was issued.</p>`;
  if (changes.length === 0) return html`<p>No row of the papers is otherwise than in revision ${since}.</p>`;
  return html`<details class="folded-list">
    <summary>${counted(changes.length, 'row is', 'rows are')} otherwise than in revision ${since}</summary>
    <div class="schedule-changes" tabindex="0" role="region" aria-label="Rows that changed">
      <table class="small-table">
        <thead>
          <tr>
            <th scope="col">Schedule</th>
            <th scope="col">Row</th>
            <th scope="col">What changed</th>
          </tr>
        </thead>
        <tbody>
          ${changes.map(
            ({ title, ref, what }) =>
              html`<tr>
                <td>${title}</td>
                <th scope="row">${ref}</th>
                <td>${what.replaceAll(' → ', ' became ')}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
  </details>`;
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
      ${changes ? changeList(changes) : html`<p>What changed since the revision before could not be had.</p>`}
    </div>`;
  }
}

customElements.define('revision-banner', RevisionBanner);
