import { html, type TemplateResult } from 'lit';
import { chooseProduct } from '../state/edit.ts';
import type { Product } from '../state/sheet.ts';
import type { FormContext } from './field.ts';
import { listChoice } from './list-choice.ts';
import { offeredIn, ownNote } from './own-choice.ts';

/** The list of typical and own strips, drivers or cables. What is chosen can be overridden from a data sheet below it. */
export function productChoice(form: FormContext, product: Product, label: string): TemplateResult {
  const chosen = form.draft.job[product].entry;
  const { entries, ownFrom } = offeredIn(form, product, chosen);
  return html`${listChoice({
    name: `${product}.entry`,
    label,
    titles: entries.map(({ name }) => name),
    ownFrom,
    chosen: entries.findIndex(({ id }) => id === chosen),
    take: (index) => chooseProduct(form.store, product, entries[index]!.id),
  })}
  ${ownNote(form, chosen)}`;
}
