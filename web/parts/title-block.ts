import { html, nothing, type TemplateResult } from 'lit';
import { documentStatus } from '../state/document-status.ts';
import type { State } from '../state/store.ts';
import { StoreElement } from './store-element.ts';

const statusBeside = (state: Pick<State, 'frozen'>): TemplateResult =>
  html` <span class="document-status">${documentStatus(state)}</span>`;

/** The title block of the sheet, after ISO 7200, in the lower corner as on any drawing. */
export class TitleBlock extends StoreElement {
  protected override shows({ answer, draft, frozen }: State): readonly unknown[] {
    return [answer?.job, draft?.job, frozen];
  }

  override render(): TemplateResult | typeof nothing {
    const { answer, draft, frozen } = this.store.get();
    const title = (answer?.job ?? draft?.job)?.title;
    if (!title) return nothing;
    const boxes: readonly (readonly [string, string, string])[] = [
      ['job', 'Job', title.job],
      ['client', 'Client', title.client],
      ['place', 'Place', title.place],
      ['maker', 'Maker', title.maker],
      ['drawn', 'Drawn by', title.drawnBy],
      ['number', 'Document', title.documentNumber],
      ['revision', 'Rev.', title.revision],
      ['date', 'Date', title.date],
    ];
    return html`<dl class="title-block">
      ${boxes.map(
        ([kind, name, value]) =>
          html`<div class="box-${kind}">
            <dt>${name}</dt>
            <dd>${value || '\u00a0'}${kind === 'revision' ? statusBeside({ frozen }) : nothing}</dd>
          </div>`,
      )}
    </dl>`;
  }
}

customElements.define('title-block', TitleBlock);
