import { html, nothing, type TemplateResult } from 'lit';
import { counted } from '../format.ts';
import type { State } from '../state/store.ts';
import { StoreElement } from './store-element.ts';

/** What the papers cannot decide, and who decides it. */
export class CautionList extends StoreElement {
  protected override shows({ answer }: State): readonly unknown[] {
    return [answer?.sizing];
  }

  override render(): TemplateResult | typeof nothing {
    const { answer } = this.store.get();
    if (!answer) return nothing;
    const { cautions, notes, engine } = answer.sizing;
    return html`<h2>Cautions</h2>
      <p class="remark">
        A design aid. Fixed wiring and everything on the mains side belong to a licensed electrician under the local
        wiring rules; the makers’ data sheets come before every figure here. Calculated with engine ${engine}.
      </p>
      ${foldedList(
        counted(cautions.length, 'caution for this job', 'cautions for this job'),
        cautions.map(
          (caution) => html`<p>${caution.sentence}</p>
            <p class="basis">${caution.because} Rests on: ${caution.basis}.</p>`,
        ),
      )}
      ${foldedList(
        counted(notes.length, 'remark on these figures', 'remarks on these figures'),
        notes.map(({ sentence }) => html`<p>${sentence}</p>`),
      )}`;
  }
}

function foldedList(title: string, items: readonly TemplateResult[]): TemplateResult | typeof nothing {
  if (items.length === 0) return nothing;
  return html`<details class="folded-list">
    <summary>${title}</summary>
    <ul class="cautions">
      ${items.map((item) => html`<li>${item}</li>`)}
    </ul>
  </details>`;
}

customElements.define('caution-list', CautionList);
