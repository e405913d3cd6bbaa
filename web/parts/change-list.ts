import { html, nothing, type TemplateResult } from 'lit';
import type { Comparison } from '../../server/contract/comparison.ts';
import { counted } from '../format.ts';

/** What came of the change that is said at once; the rest folds out. */
const mostSaid = 8;

const said = ({ label, before, after }: Comparison['made'][number]): string =>
  `${label}: ${before} became ${after}`;

const became = (text: string): string => text.replaceAll(' → ', ' became ');

const listOf = (texts: readonly string[]): TemplateResult =>
  html`<ul class="change-list">
    ${texts.map((text) => html`<li>${text}</li>`)}
  </ul>`;

function rowList(changes: Comparison['changes']): TemplateResult {
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
export function changeList(
  title: string,
  { made, became: came, shifts, changes }: Comparison,
  whereNothingMade = 'No field of the job: what is otherwise comes of the engine it was calculated with.',
): TemplateResult {
  return html`<h3>${title}</h3>
    ${made.length === 0 ? html`<p>${whereNothingMade}</p>` : listOf(made.map(said))} ${results(came)}
    ${shifts === '' ? nothing : html`<p class="hint">Moved by 5 % or less: ${shifts}.</p>`}
    ${changes.length === 0 ? nothing : rowList(changes)}`;
}
