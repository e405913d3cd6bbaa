import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { fieldName, type Path } from '../../src/job/field-name.ts';
import { fieldHelp } from '../field-help.ts';
import { ratiosAsPercent, stepped } from '../format.ts';
import { choose, leave, typeText } from '../state/edit.ts';
import { type FieldSpec, fieldSpec, numberText } from '../state/field-spec.ts';
import { fieldId } from '../state/paths.ts';
import { isOverridden, sheetValue, shownValue } from '../state/sheet.ts';
import type { Draft, Store } from '../state/store.ts';
import { choiceText } from '../words.ts';

/** What every field of the form needs to know. */
export interface FormContext {
  readonly store: Store;
  readonly draft: Draft;
  /** Sentences of entries that are not understood, by field name. */
  readonly problems: ReadonlyMap<string, string>;
  /** What the papers cannot print of an entry, by field name. */
  readonly unprintable: ReadonlyMap<string, string>;
}

interface FieldOptions {
  /** Instead of the label of the document's schema, where the heading above already says half of it. */
  readonly label?: string;
  /** Shown in an empty field that may stay empty. */
  readonly empty?: string;
  /** One sentence beneath the field: what it changes. */
  readonly help?: string;
  /** Written and chosen as the browser of the reader does. */
  readonly isDate?: true;
}

const written = (value: unknown, spec: FieldSpec): string => {
  if (typeof value === 'number') return numberText(value, spec.kind);
  return typeof value === 'string' ? value : '';
};

function sentence(id: string, problem: string | undefined): TemplateResult | typeof nothing {
  return problem === undefined ? nothing : html`<p class="sentence" id="${id}-why">${problem}</p>`;
}

function sheetMark(form: FormContext, path: Path, spec: FieldSpec): TemplateResult | typeof nothing {
  if (!isOverridden(form.draft.job, path)) return nothing;
  const sheet = sheetValue(form.draft.job, path);
  const before = typeof sheet === 'string' ? choiceText(spec.key, sheet, '') : written(sheet, spec);
  return html`<p class="own-value">
    Your data sheet.
    <button type="button" class="plain" @click=${() => choose(form.store, path, sheet)}>
      Back to ${before === '' ? 'none' : before}${spec.unit && before ? html`&#8239;${spec.unit}` : nothing}
    </button>
  </p>`;
}

/** What helps with a field: what its step says of it stands there always, what the document says while somebody is in it. */
function helpNote(name: string, spec: FieldSpec, { help }: FieldOptions): TemplateResult | typeof nothing {
  const id = `${fieldId(name)}-help`;
  if (help !== undefined) return html`<p class="hint" id=${id}>${help}</p>`;
  const said = helpOf(spec);
  return said === undefined ? nothing : html`<p class="hint while-in-it" id=${id}>${said}</p>`;
}

const helpOf = ({ label, why }: FieldSpec): string | undefined => fieldHelp({ title: label, why });

/** An entry that the papers cannot print is taken all the same. */
function paperNote({ unprintable }: FormContext, name: string): TemplateResult | typeof nothing {
  const note = unprintable.get(name);
  return note === undefined
    ? nothing
    : html`<p class="hint unprintable" id="${fieldId(name)}-paper">${note}</p>`;
}

/** The arrow keys count the last digit that is written up and down, with Shift the one before it. */
function stepEntry(store: Store, name: string, event: KeyboardEvent): void {
  const way = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0;
  const next = stepped((event.target as HTMLInputElement).value, event.shiftKey ? 10 * way : way);
  if (way === 0 || event.ctrlKey || event.altKey || event.metaKey || next === undefined) return;
  event.preventDefault();
  typeText(store, name, next);
}

function textEntry(form: FormContext, path: Path, spec: FieldSpec, options: FieldOptions): TemplateResult {
  const name = fieldName(path);
  const id = fieldId(name);
  const problem = form.problems.get(name);
  const shown = form.draft.entries[name] ?? written(shownValue(form.draft.job, path), spec);
  const described = [
    spec.unit ? `${id}-unit` : '',
    problem ? `${id}-why` : '',
    form.unprintable.has(name) ? `${id}-paper` : '',
    options.help || helpOf(spec) ? `${id}-help` : '',
  ]
    .join(' ')
    .trim();
  const isNumber = spec.kind !== 'text';
  return html`<span class="entry ${isNumber ? 'is-number' : 'is-text'}">
    <input
      id=${id}
      data-field=${name}
      type=${options.isDate ? 'date' : 'text'}
      inputmode=${isNumber ? 'decimal' : 'text'}
      autocomplete="off"
      spellcheck="false"
      placeholder=${options.empty ?? nothing}
      aria-invalid=${problem ? 'true' : nothing}
      aria-describedby=${described || nothing}
      .value=${live(shown)}
      @input=${(event: InputEvent) => typeText(form.store, name, (event.target as HTMLInputElement).value)}
      @change=${() => leave(form.store, name)}
      @blur=${() => leave(form.store, name)}
      @keydown=${(event: KeyboardEvent) => isNumber && stepEntry(form.store, name, event)}
    />${spec.unit ? html`<span class="unit" id="${id}-unit">${spec.unit}</span>` : nothing}
  </span>`;
}

/** A list of words; one that may be left open begins with the word for that. */
function choiceEntry(form: FormContext, path: Path, spec: FieldSpec, options: FieldOptions): TemplateResult {
  const name = fieldName(path);
  const value = shownValue(form.draft.job, path);
  const words = spec.nullable ? [null, ...spec.words] : spec.words;
  const take = (event: Event): void =>
    choose(form.store, path, words[(event.target as HTMLSelectElement).selectedIndex]);
  const text = (word: string | number | null): string =>
    word === null ? (options.empty ?? 'none') : choiceText(spec.key, word, spec.unit);
  return html`<span class="entry is-choice">
    <select
      id=${fieldId(name)}
      data-field=${name}
      aria-describedby=${options.help || helpOf(spec) ? `${fieldId(name)}-help` : nothing}
      @change=${take}
    >
      ${words.map((word) => html`<option .selected=${live(word === value)}>${text(word)}</option>`)}
    </select>
  </span>`;
}

function tickEntry(form: FormContext, path: Path, spec: FieldSpec, options: FieldOptions): TemplateResult {
  const name = fieldName(path);
  return html`<span class="entry is-tick">
    <input
      id=${fieldId(name)}
      data-field=${name}
      type="checkbox"
      aria-describedby=${options.help || helpOf(spec) ? `${fieldId(name)}-help` : nothing}
      .checked=${live(shownValue(form.draft.job, path) === true)}
      @change=${(event: Event) => choose(form.store, path, (event.target as HTMLInputElement).checked)}
    />
  </span>`;
}

/** A field of the job document with its label, its unit, and beneath it the reason why an entry is not taken. */
export function field(form: FormContext, path: Path, options: FieldOptions = {}): TemplateResult {
  const spec = fieldSpec(path);
  const name = fieldName(path);
  const entry =
    spec.kind === 'choice'
      ? choiceEntry(form, path, spec, options)
      : spec.kind === 'yes-no'
        ? tickEntry(form, path, spec, options)
        : textEntry(form, path, spec, options);
  return html`<div class="field is-${spec.kind} ${form.problems.has(name) ? 'is-wrong' : ''}">
    <label for=${fieldId(name)}>${options.label ?? ratiosAsPercent(spec.label)}</label>
    ${entry} ${helpNote(name, spec, options)} ${sentence(fieldId(name), form.problems.get(name))} ${paperNote(form, name)} ${sheetMark(form, path, spec)}
  </div>`;
}
