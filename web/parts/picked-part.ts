import { html, nothing, type TemplateResult } from 'lit';
import { pickedName } from '../state/belonging.ts';
import { unpick } from '../state/jump.ts';
import { linesOf } from '../state/picked-lines.ts';
import type { State } from '../state/store.ts';
import { StoreElement } from './store-element.ts';

/** Beneath the wall: what the picked cable, feed point or driver is, as the schedules have it. */
export class PickedPartLine extends StoreElement {
  protected override shows({ answer, marked }: State): readonly unknown[] {
    return [answer?.sizing, marked];
  }

  override render(): TemplateResult | typeof nothing {
    const { answer, marked } = this.store.get();
    const lines = answer && marked ? linesOf(answer.sizing, marked) : [];
    if (!marked || lines.length === 0) return nothing;
    return html`<div class="picked-part" role="status">
      <h3>${pickedName(marked)}</h3>
      ${lines.map(
        (line) =>
          html`<dl>${line.map(([label, text]) => html`<div><dt>${label}</dt><dd>${text}</dd></div>`)}</dl>`,
      )}
      <button type="button" @click=${() => unpick(this.store)}>Unmark</button>
    </div>`;
  }
}

customElements.define('picked-part', PickedPartLine);
