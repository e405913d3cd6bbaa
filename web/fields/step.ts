import { html, nothing, type TemplateResult } from 'lit';
import { followStep, goToPicture, type PictureId, pictureName } from '../state/pictures.ts';
import type { FormContext } from './field.ts';

/** One step of the form, in the order of the job. */
export interface Step {
  readonly title: string;
  /** What it changes is seen in this picture; null where no picture shows it. */
  readonly picture: PictureId | null;
  /** One line that says what the closed step holds. */
  readonly digest: string;
  /** Parts of the job document whose fields stand in this step. */
  readonly holds: readonly string[];
  readonly body: TemplateResult;
}

const belongs = (name: string, holds: readonly string[]): boolean =>
  holds.some((part) => name === part || name.startsWith(`${part}.`) || name.startsWith(`${part}[`));

const pictureButton = (id: PictureId): TemplateResult =>
  html`<button type="button" class="plain to-picture" @click=${() => goToPicture(id)}>See ${pictureName[id]}</button>`;

/** A step that folds; closed, it still says what it holds and whether an entry in it needs correcting. */
export function stepTemplate(form: FormContext, step: Step, number: number, open: boolean): TemplateResult {
  const wrong = [...form.problems.keys()].some((name) => belongs(name, step.holds));
  return html`<details
    class="step"
    data-step=${step.title}
    ?open=${open}
    @focusin=${() => step.picture !== null && followStep(step.picture)}
  >
    <summary>
      <span class="step-number">${number}</span>
      <h3>${step.title}</h3>
      ${wrong ? html`<span class="step-wrong">correct an entry</span>` : nothing}
      <span class="digest">${step.digest}</span>
    </summary>
    <div class="step-body">
      ${step.body}
      ${step.picture === null ? nothing : pictureButton(step.picture)}
    </div>
  </details>`;
}

/** A fold-out for what most people leave as it is. */
export function foldOut(title: string, body: TemplateResult): TemplateResult {
  return html`<details class="fold"><summary>${title}</summary><div class="fold-body">${body}</div></details>`;
}
