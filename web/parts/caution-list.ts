import { html, nothing, type TemplateResult } from 'lit';
import { StoreElement } from './store-element.ts';

/** What the papers cannot decide, and who decides it. */
export class CautionList extends StoreElement {
  override render(): TemplateResult | typeof nothing {
    const { answer } = this.store.get();
    if (!answer) return nothing;
    const { cautions, notes, engine } = answer.sizing;
    return html`<h2>Cautions</h2>
      <p class="remark">
        A design aid. Fixed wiring and everything on the mains side belong to a licensed electrician under the local
        wiring rules; the makers’ data sheets come before every figure here.
      </p>
      <ul class="cautions">
        ${cautions.map(
          (caution) =>
            html`<li>
              <p>${caution.sentence}</p>
              <p class="basis">${caution.because} ${caution.basis}</p>
            </li>`,
        )}
      </ul>
      ${
        notes.length > 0
          ? html`<h3>Remarks on these figures</h3>
              <ul class="cautions">
                ${notes.map((note) => html`<li><p>${note}</p></li>`)}
              </ul>`
          : nothing
      }
      <p class="basis">Reckoned with engine ${engine}.</p>`;
  }
}

customElements.define('caution-list', CautionList);
