import { html, type TemplateResult } from 'lit';
import { counted } from '../format.ts';
import { alter, removeItem } from '../state/edit.ts';
import { shownValue } from '../state/sheet.ts';
import { choiceText } from '../words.ts';
import { type FormContext, field } from './field.ts';
import { productChoice } from './product-choice.ts';
import { foldOut, type Step } from './step.ts';

const cableKeys = ['name', 'area_mm2', 'conductor_ohm_per_km', 'limit_degC'] as const;

function exception(form: FormContext, index: number): TemplateResult {
  const path = ['feeds', 'exceptions', index];
  const between = form.draft.job.feeds.exceptions[index]?.arrangement === 'between';
  return html`<div class="item">
    ${field(form, [...path, 'slot'])} ${field(form, [...path, 'arrangement'])}
    ${between ? field(form, [...path, 'betweenCount']) : ''}
    <button type="button" @click=${() => removeItem(form.store, ['feeds', 'exceptions'], index)}>
      Remove this exception
    </button>
  </div>`;
}

/** The number of the slot whose run is chosen on the drawing, else the first that has no exception yet. */
function nextSlot(form: FormContext): number {
  const { answer, chosenRun } = form.store.get();
  const run = answer?.sizing.setOut.runs.find((candidate) => candidate.id === chosenRun);
  return answer?.sizing.setOut.slots.find((slot) => slot.id === run?.slot)?.number ?? 1;
}

function addException(form: FormContext): void {
  const slot = nextSlot(form);
  alter(form.store, (job) => {
    const fresh = { slot, arrangement: 'both' as const, betweenCount: 1, cutLines: [] };
    return { ...job, feeds: { ...job.feeds, exceptions: [...job.feeds.exceptions, fresh] } };
  });
}

function exceptions(form: FormContext): TemplateResult {
  const list = form.draft.job.feeds.exceptions;
  return html`${list.map((_, i) => exception(form, i))}
    <button type="button" @click=${() => addException(form)}>Feed the chosen slot another way</button>`;
}

/** Where each run is fed and by what cable. */
export function feedsStep(form: FormContext): Step {
  const { feeds, cables } = form.draft.job;
  const name = shownValue(form.draft.job, ['cables', 'data', 'name']);
  const at = (key: string) => field(form, ['cables', key]);
  return {
    title: 'Feeds and cables',
    digest: `fed ${choiceText('arrangement', feeds.arrangement, '')}; ${typeof name === 'string' ? name : cables.entry}`,
    holds: ['feeds', 'cables'],
    body: html`${field(form, ['feeds', 'arrangement'])}
      ${feeds.arrangement === 'between' ? field(form, ['feeds', 'betweenCount']) : ''}
      ${foldOut(
        feeds.exceptions.length === 0
          ? 'Slots fed another way'
          : `${counted(feeds.exceptions.length, 'slot')} fed another way`,
        exceptions(form),
      )}
      ${productChoice(form, 'cables', 'Cable')}
      ${foldOut('Every figure of the cable', html`${cableKeys.map((key) => field(form, ['cables', 'data', key]))}`)}
      ${at('layout')} ${at('way')} ${at('wayInset_mm')} ${at('tail_mm')} ${at('allowance')} ${at('cable_degC')}
      ${at('grouped')}
      ${foldOut(
        'Contacts and joints',
        html`${field(form, ['feeds', 'terminal_mohm'])} ${field(form, ['feeds', 'joint_mohm'])}`,
      )}`,
  };
}
