import { html, nothing, type TemplateResult } from 'lit';
import { newKeepOut, newOpening } from '../../src/job/opening.ts';
import { counted, quantity } from '../format.ts';
import { alter, removeItem } from '../state/edit.ts';
import { freeOpeningName } from '../state/free-names.ts';
import { type FormContext, field } from './field.ts';
import { boardFigures, carrierFields, finishFields } from './finish-fields.ts';
import { panelsFold } from './panels-fold.ts';
import { profileFields } from './profile-fields.ts';
import { foldOut, type Step } from './step.ts';
import { wallFields } from './wall-fields.ts';

const openingKeys = ['x_mm', 'y_mm', 'width_mm', 'height_mm', 'rim_mm'] as const;

function openingItem(form: FormContext, index: number): TemplateResult {
  const at = (key: string, options = {}) => field(form, ['openings', index, key], options);
  return html`<div class="item">
    ${at('name')} ${at('kind', { help: 'A keep-out is a socket, a bracket or a stud behind the face: no strip lies there.' })}
    ${form.draft.job.openings[index]?.kind === 'keep-out' ? at('cablesPass') : nothing}
    ${openingKeys.map((key) => at(key))}
    <button type="button" @click=${() => removeItem(form.store, ['openings'], index)}>Remove this opening</button>
  </div>`;
}

function addOpening(form: FormContext, begin: typeof newOpening): void {
  alter(form.store, (job) => {
    const fresh = begin(freeOpeningName(job.openings), job.panel);
    return { ...job, openings: [...job.openings, fresh] };
  });
}

/** Doors, windows and keep-outs: slots end beside them, cables go round. */
function openingsFold(form: FormContext): TemplateResult {
  const { openings } = form.draft.job;
  const title = openings.length === 0 ? 'Doors, windows and keep-outs' : counted(openings.length, 'opening');
  return foldOut(
    title,
    html`<p class="hint">Slots end beside an opening, and go on beyond it as slots of their own; cables go round it.</p>
      ${openings.map((_, i) => openingItem(form, i))}
      <button type="button" @click=${() => addOpening(form, newOpening)}>Add a door or a window</button>
      <button type="button" @click=${() => addOpening(form, newKeepOut)}>Add a keep-out</button>`,
  );
}

/** The piece itself: its outside measures. */
export function pieceStep(form: FormContext): Step {
  const { panel, panels } = form.draft.job;
  const { width_mm, height_mm } = panel;
  const size = `${quantity(width_mm, 'mm')} × ${quantity(height_mm, 'mm')}`;
  return {
    title: 'The piece',
    picture: 'wall',
    digest: panels.length === 0 ? size : `${size}, ${counted(panels.length, 'panel')}`,
    holds: ['panel', 'panels', 'openings'],
    body: html`${
      panels.length === 0
        ? html`${field(form, ['panel', 'width_mm'])} ${field(form, ['panel', 'height_mm'])}`
        : html`<p class="hint">${size} together, unfolded: the panels with the gaps between them.</p>`
    } ${panelsFold(form)} ${openingsFold(form)}`,
  };
}

/** The horizontal cut through the build-up, from the wall to the room. */
export function buildUpStep(form: FormContext): Step {
  const { section } = form.draft.job;
  const at = (...path: string[]) => field(form, ['section', ...path]);
  return {
    title: 'Build-up',
    picture: 'section',
    digest: `${quantity(section.available_mm, 'mm')} available, cavity ${quantity(section.cavity_mm, 'mm')}`,
    holds: ['section'],
    body: html`${at('available_mm')} ${at('tolerance_mm')} ${wallFields(form)} ${at('backing', 'material')}
      ${at('backing', 'thickness_mm')} ${at('cavity_mm')} ${at('batten_mm')} ${at('front', 'material')}
      ${at('front', 'thickness_mm')} ${at('cover')}
      ${section.cover === 'open' ? nothing : at('coverThickness_mm')} ${at('strip')}
      ${section.strip === 'recessed' ? nothing : at('stripOffset_mm')} ${profileFields(form)}
      ${section.profile === null || section.carrier !== 'none' ? at('carrier') : nothing}
      ${carrierFields(form)} ${boardFigures(form)}
      ${foldOut('Finishes inside', finishFields(form))}`,
  };
}
