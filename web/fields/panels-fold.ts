import { html, nothing, type TemplateResult } from 'lit';
import type { Job } from '../../src/job/job.ts';
import { withOnePanelMore } from '../../src/job/panels.ts';
import { counted } from '../format.ts';
import { alter, removeItem } from '../state/edit.ts';
import { type FormContext, field } from './field.ts';
import { foldOut } from './step.ts';

/** The fields of one panel; of the first neither gap nor joint is asked. */
function panelItem(form: FormContext, index: number): TemplateResult {
  const { job } = form.draft;
  const at = (key: string, options = {}) => field(form, ['panels', index, key], options);
  return html`<div class="item">
    ${at('id', { help: 'Stands on drawings, lists and the back of the panel.' })} ${at('name')} ${at('width_mm')}
    ${at('height_mm')} ${at('raised_mm', { help: 'For a panel that begins higher than the others, such as over a counter.' })}
    ${
      index === 0
        ? nothing
        : html`${at('joint', { help: 'Round a corner nobody compares the light of two slots; the wall is drawn unfolded.' })}
          ${at('gap_mm')}`
    }
    ${
      job.slots.from === 'generator'
        ? at('slotCount', {
            empty: 'as the slots say',
            help: 'Evenly spaced in this panel; 0 leaves it plain.',
          })
        : nothing
    }
    <button type="button" @click=${() => removeItem(form.store, ['panels'], index)}>Remove this panel</button>
  </div>`;
}

/** Halves of a wall share its slots out where these are given by their number. */
function sharedOut(job: Job, panels: Job['panels']): Job['panels'] {
  const { slots } = job;
  if (job.panels.length > 0 || slots.from !== 'generator' || slots.spacing.by !== 'count') return panels;
  const { count } = slots.spacing;
  return panels.map((panel, i) => ({
    ...panel,
    slotCount: i === 0 ? Math.ceil(count / 2) : Math.floor(count / 2),
  }));
}

function addPanel(form: FormContext): void {
  alter(form.store, (job) => ({ ...job, panels: sharedOut(job, withOnePanelMore(job)) }));
}

/** The panels the piece is made of; without any it is one. */
export function panelsFold(form: FormContext): TemplateResult {
  const { panels } = form.draft.job;
  const title = panels.length === 0 ? 'Several panels' : counted(panels.length, 'panel');
  return foldOut(
    title,
    html`<p class="hint">
        For a piece that leaves the workshop in parts: from left to right, as seen from the room. A slot lies in one panel; cables
        go on from one to the next along the cable way.
      </p>
      ${panels.map((_, i) => panelItem(form, i))}
      <button type="button" @click=${() => addPanel(form)}>
        ${panels.length === 0 ? 'Make it of two panels' : 'Add a panel'}
      </button>`,
  );
}
