import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { schemaAt } from '../../src/job/schema-path.ts';
import { fieldHelp } from '../field-help.ts';
import { fieldId, pathOf } from '../state/paths.ts';

interface ListChoice {
  /** Of the field in the job. */
  readonly name: string;
  readonly label: string;
  readonly titles: readonly string[];
  /** Index of the first title that is the workshop’s own; none where it is left out. */
  readonly ownFrom?: number;
  /** Index of the title that is chosen. */
  readonly chosen: number;
  readonly take: (index: number) => void;
  /** One sentence beneath the list. */
  readonly help?: string;
}

/** One list of whole names, such as those of a catalogue; own products stand in a group of their own. */
export function listChoice(list: ListChoice): TemplateResult {
  const { name, label, titles, ownFrom, chosen, take, help: own } = list;
  const id = fieldId(name);
  const help = own ?? fieldHelp({ title: schemaAt(pathOf(name))?.title ?? '', why: '' });
  const taken = (event: Event): void => take((event.target as HTMLSelectElement).selectedIndex);
  const options = (from: number, to?: number): TemplateResult[] =>
    titles
      .slice(from, to)
      .map((title, i) => html`<option .selected=${live(from + i === chosen)}>${title}</option>`);
  const hasOwn = ownFrom !== undefined && ownFrom < titles.length;
  return html`<div class="field is-product">
    <label for=${id}>${label}</label>
    <span class="entry is-choice">
      <select id=${id} data-field=${name} aria-describedby=${help ? `${id}-help` : nothing} @change=${taken}>
        ${options(0, ownFrom)}
        ${hasOwn ? html`<optgroup label="Own products">${options(ownFrom)}</optgroup>` : nothing}
      </select>
    </span>
    ${help ? html`<p class="hint ${own ? '' : 'while-in-it'}" id="${id}-help">${help}</p>` : nothing}
  </div>`;
}
