import { html, nothing, type TemplateResult } from 'lit';
import type { RevisionChanges } from '../../server/contract/kept-jobs.ts';
import { counted, moment } from '../format.ts';
import type { State } from '../state/store.ts';
import { StoreElement } from './store-element.ts';

/** What came of the change that is said at once; the rest folds out. */
const mostSaid = 8;

const said = ({ label, before, after }: RevisionChanges['made'][number]): string =>
  `${label}: ${before} became ${after}`;

const became = (text: string): string => text.replaceAll(' → ', ' became ');

const listOf = (texts: readonly string[]): TemplateResult =>
  html`<ul class="change-list">
    ${texts.map((text) => html`<li>${text}</li>`)}
  </ul>`;

function rowList(changes: RevisionChanges['changes']): TemplateResult {
  return html`<details class="folded-list">
    <summary>Every row that is otherwise (${changes.length})</summary>
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
                <td>${became(what)}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </div>
  </details>`;
}

function results(texts: readonly string[]): TemplateResult | typeof nothing {
  if (texts.length === 0) return nothing;
  const rest = texts.slice(mostSaid);
  return html`<h3>What became of it</h3>
    ${listOf(texts.slice(0, mostSaid).map(became))}
    ${
      rest.length === 0
        ? nothing
        : html`<details class="folded-list">
            <summary>${counted(rest.length, 'more change', 'more changes')}</summary>
            ${listOf(rest.map(became))}
          </details>`
    }`;
}

/** The maker's own changes first, then what became of them, and what hardly moved in one line. */
function changeList({ since, made, became: came, shifts, changes }: RevisionChanges): TemplateResult {
  if (since === null) return html`<p>It is the first revision that was issued.</p>`;
  if (changes.length === 0 && made.length === 0)
    return html`<p>No row of the papers is otherwise than in revision ${since}.</p>`;
  return html`<h3>Changed since revision ${since}</h3>
    ${made.length === 0 ? html`<p>No field of the job: what is otherwise comes of the engine it was calculated with.</p>` : listOf(made.map(said))} ${results(came)}
    ${shifts === '' ? nothing : html`<p class="hint">Moved by 5 % or less: ${shifts}.</p>`}
    ${changes.length === 0 ? nothing : rowList(changes)}`;
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
