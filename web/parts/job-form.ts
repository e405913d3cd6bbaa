import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { buildUpStep, pieceStep } from '../fields/build-up-step.ts';
import { driversStep } from '../fields/drivers-step.ts';
import { feedsStep } from '../fields/feeds-step.ts';
import type { FormContext } from '../fields/field.ts';
import { lightStep } from '../fields/light-step.ts';
import { pricesStep } from '../fields/prices-step.ts';
import { siteStep, titleStep } from '../fields/site-step.ts';
import { slotsStep } from '../fields/slots-step.ts';
import { type Step, stepTemplate } from '../fields/step.ts';
import { stripStep } from '../fields/strip-step.ts';
import { problemsOf } from '../state/edit.ts';
import { notPrinted } from '../state/printed-characters.ts';
import { StoreElement } from './store-element.ts';

const openOnWideScreens = new Set(['The piece', 'Slots', 'Strip', 'Light']);

/** What the maker sets, in the order of the job. */
export class JobForm extends StoreElement {
  private readonly wide = window.matchMedia('(min-width: 700px)').matches;

  private steps(form: FormContext): Step[] {
    return [
      pieceStep(form),
      slotsStep(form),
      lightStep(form),
      buildUpStep(form),
      stripStep(form),
      feedsStep(form),
      driversStep(form),
      siteStep(form),
      pricesStep(form),
      titleStep(form),
    ];
  }

  override render(): TemplateResult | typeof nothing {
    const { draft, frozen, printed } = this.store.get();
    if (!draft) return nothing;
    const unprintable = new Map(
      notPrinted(draft.job, printed).map(({ field, sentence }) => [field ?? '', sentence]),
    );
    const form = { store: this.store, draft, problems: problemsOf(draft), unprintable };
    const isOpen = (step: Step): boolean => this.wide && openOnWideScreens.has(step.title);
    return html`<h2>The job</h2>
      <fieldset class="form-frame" aria-label="Steps of the job" ?disabled=${frozen !== undefined}>
        ${repeat(
          this.steps(form),
          (step) => step.title,
          (step, i) => stepTemplate(form, step, i + 1, isOpen(step)),
        )}
      </fieldset>`;
  }
}

customElements.define('job-form', JobForm);
