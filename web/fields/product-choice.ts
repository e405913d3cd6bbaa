import { html, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { chooseProduct } from '../state/edit.ts';
import { fieldId } from '../state/paths.ts';
import { catalogueOf, type Product } from '../state/sheet.ts';
import type { FormContext } from './field.ts';

/** The list of typical strips, drivers or cables. What is chosen can be overridden from a data sheet below it. */
export function productChoice(form: FormContext, product: Product, label: string): TemplateResult {
  const name = `${product}.entry`;
  const entries = catalogueOf(product);
  const chosen = form.draft.job[product].entry;
  const take = (event: Event): void => {
    const entry = entries[(event.target as HTMLSelectElement).selectedIndex];
    if (entry) chooseProduct(form.store, product, entry.id);
  };
  return html`<div class="field is-product">
    <label for=${fieldId(name)}>${label}</label>
    <span class="entry is-choice">
      <select id=${fieldId(name)} data-field=${name} @change=${take}>
        ${entries.map((entry) => html`<option .selected=${live(entry.id === chosen)}>${entry.name}</option>`)}
      </select>
    </span>
  </div>`;
}
