import { html, nothing, type TemplateResult } from 'lit';
import { type FormContext, field } from './field.ts';
import { foldOut } from './step.ts';

const faces = ['back', 'side', 'front'] as const;

/** Reflectance and emissivity of the faces by the maker of their finish. */
function ownFigures(form: FormContext): TemplateResult {
  const at = (face: string, key: string, empty: string, help?: string) =>
    field(form, ['section', 'faces', face, key], { empty, ...(help && { help }) });
  const asFinish = 'finish';
  return foldOut(
    'Figures of the finishes by their maker',
    html`<p class="hint">Left empty, the finish chosen above counts. Low emissivity, such as that of foil, keeps heat in.</p>
      ${faces.map((face) => html`${at(face, 'reflectance', asFinish)} ${at(face, 'emissivity', asFinish)} ${at(face, 'source', '', 'Printed on the section sheet.')}`)}
      ${at('reveal', 'reflectance', asFinish)} ${at('reveal', 'source', '', 'Printed on the section sheet.')}`,
  );
}

/** What the faces of cavity and slot look like. */
export function finishFields(form: FormContext): TemplateResult {
  const at = (key: string, options = {}) => field(form, ['section', key], options);
  return html`${at('backFinish')} ${at('sideFinish')} ${at('frontFinish')}
    ${at('revealFinish', { empty: 'as the inner face of the front', help: 'Where the slot’s edges are lipped or painted otherwise.' })}
    ${ownFigures(form)}`;
}

/** Conductivity of backing and front by their maker. */
export function boardFigures(form: FormContext): TemplateResult {
  const at = (board: string, key: string, options: { empty?: string; help?: string }) =>
    field(form, ['section', board, key], options);
  return foldOut(
    'Figures of the boards by their maker',
    html`${['backing', 'front'].map(
      (board) =>
        html`${at(board, 'conductivity_W_per_mK', { empty: 'usual', help: 'From the data sheet; left empty, a usual value of the material counts.' })}
        ${at(board, 'source', { help: 'Printed on the section sheet, such as the data sheet and its date.' })}`,
    )}`,
  );
}

/** The aluminium flat under the strip: its measures, its finish, and how it is held to the timber. */
export function carrierFields(form: FormContext): TemplateResult | typeof nothing {
  const at = (key: string, options = {}) => field(form, ['section', key], options);
  if (form.draft.job.section.carrier === 'none') return nothing;
  return html`${at('carrierWidth_mm')} ${at('carrierThickness_mm')}
    ${at('carrierFinish', { help: 'Bare aluminium gives off less heat than anodised.' })}
    ${at('carrierFixing', { empty: 'not said: taken as one with the timber', help: 'The joint beneath the flat makes strip and flat warmer.' })}
    ${at('carrierContact_m2K_per_W', { empty: 'fixing', help: 'Where a tape’s data sheet gives its resistance over its area.' })}`;
}
