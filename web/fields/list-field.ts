import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { counted } from '../format.ts';
import { leave, typeText } from '../state/edit.ts';
import { fieldId } from '../state/paths.ts';
import type { PastedList } from '../state/slot-list.ts';
import type { FormContext } from './field.ts';

interface ListField {
  readonly name: string;
  readonly label: string;
  readonly hint: string;
  /** The list as it stands in the document. */
  readonly text: string;
  readonly noun: string;
  /** Lines of the field; seven where it is left out. */
  readonly rows?: number;
  readonly read: (text: string) => PastedList<unknown>;
}

const leftOverSentence = (words: readonly string[]): string => {
  const shown = words.slice(0, 6).map((word) => `“${word}”`);
  const more =
    words.length > shown.length ? ` and ${counted(words.length - shown.length, 'more word', 'more')}` : '';
  return `Not understood and left out: ${shown.join(', ')}${more}.`;
};

/** A list pasted or typed as text: it says how many items it found in it and which words it could not read. */
export function listField(form: FormContext, list: ListField): TemplateResult {
  const id = fieldId(list.name);
  const shown = form.draft.entries[list.name] ?? list.text;
  const { values, leftOver } = list.read(shown);
  const problem = form.problems.get(list.name);
  return html`<div class="field is-list ${problem ? 'is-wrong' : ''}">
    <label for=${id}>${list.label}</label>
    <textarea
      id=${id}
      data-field=${list.name}
      rows=${list.rows ?? 7}
      spellcheck="false"
      aria-describedby="${id}-hint ${id}-why"
      aria-invalid=${problem ? 'true' : nothing}
      .value=${live(shown)}
      @input=${(event: InputEvent) => typeText(form.store, list.name, (event.target as HTMLTextAreaElement).value)}
      @change=${() => leave(form.store, list.name)}
      @blur=${() => leave(form.store, list.name)}
    ></textarea>
    <p class="hint" id="${id}-hint">${list.hint} ${counted(values.length, list.noun)} understood.</p>
    <p class="sentence" id="${id}-why" ?hidden=${!problem && leftOver.length === 0}>
      ${problem ?? ''} ${leftOver.length > 0 ? leftOverSentence(leftOver) : ''}
    </p>
  </div>`;
}
