import { html, type TemplateResult } from 'lit';
import { newHungThing } from '../../src/job/hung.ts';
import { counted } from '../format.ts';
import { chosenSlot } from '../state/chosen-slot.ts';
import { alter, removeItem } from '../state/edit.ts';
import { freeHungName } from '../state/free-names.ts';
import { type FormContext, field } from './field.ts';
import { foldOut } from './step.ts';

function thing(form: FormContext, index: number): TemplateResult {
  const at = (key: string, options: Parameters<typeof field>[2]): TemplateResult =>
    field(form, ['hung', index, key], options);
  return html`<div class="item">
    ${at('name', { help: 'What findings and papers call it.' })}
    ${at('slot', { help: 'The number of the slot it passes.' })}
    ${at('place_mm', { empty: 'slides', help: 'Left empty, it may slide, and all of its slot has to be clear.' })}
    ${at('width_mm', { help: 'Across the slot it is taken to fill it.' })}
    ${at('reach_mm', { help: 'How far it comes behind the room face, nuts and plates included.' })}
    <button type="button" @click=${() => removeItem(form.store, ['hung'], index)}>Remove this</button>
  </div>`;
}

function addThing(form: FormContext): void {
  const slot = chosenSlot(form.store.get());
  alter(form.store, (job) => ({
    ...job,
    hung: [...job.hung, newHungThing(freeHungName(job.hung), slot)],
  }));
}

/** Hooks, pegs and brackets that pass a slot: they need room behind it and shade it. */
export function hungFold(form: FormContext): TemplateResult {
  const { hung } = form.draft.job;
  return foldOut(
    hung.length === 0
      ? 'What hangs in the slots'
      : `${counted(hung.length, 'thing hangs', 'things hang')} in the slots`,
    html`<p class="hint">Hooks, pegs and brackets need room behind the slot, and darken a piece of it.</p>
      ${hung.map((_, i) => thing(form, i))}
      <button type="button" @click=${() => addThing(form)}>Hang something in the chosen slot</button>`,
  );
}
