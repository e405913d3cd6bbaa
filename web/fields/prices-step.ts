import { html } from 'lit';
import { counted } from '../format.ts';
import { pricesText, readPrices } from '../state/price-list.ts';
import { type FormContext, field } from './field.ts';
import { listField } from './list-field.ts';
import type { Step } from './step.ts';

/** What the workshop pays: a list of entries of the catalogue, and what those prices are. */
export function pricesStep(form: FormContext): Step {
  const { prices } = form.draft.job;
  return {
    title: 'Prices',
    picture: null,
    digest: prices.list.length === 0 ? 'none listed' : `${counted(prices.list.length, 'price')} listed`,
    holds: ['prices'],
    body: html`<p class="hint">Entries of the catalogue have no prices of their own. What is entered with a strip, driver or cable in use
        goes before this list. The bill adds up what is known and says what is missing.</p>
      ${listField(form, {
        name: 'prices.list',
        label: 'Prices listed',
        hint: 'One a line: strip (a reel), driver, cable (a metre) or dimmer, then its name as in the lists above, then the price, such as “driver 24 V 75 W driver 24.90”.',
        text: pricesText(prices.list),
        noun: 'price',
        read: readPrices,
      })}
      ${field(form, ['prices', 'note'], {
        empty: 'none',
        help: 'Whose, of when, in which currency, with or without tax. Printed with the bill.',
      })}`,
  };
}
