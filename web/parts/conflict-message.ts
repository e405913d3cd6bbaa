import { html, nothing, type TemplateResult } from 'lit';
import type { JobDifference } from '../../src/job/job-differences.ts';
import { counted, moment } from '../format.ts';
import { differences, differenceText } from '../state/difference.ts';
import type { Conflict, Draft, State } from '../state/store.ts';
import { keepAsNew, keepBoth, takeTheirs } from '../state/workshop.ts';
import { StoreElement } from './store-element.ts';

const mostShown = 6;

function changes(title: string, list: readonly JobDifference[]): TemplateResult {
  return html`<div>
    <h3>${title}</h3>
    ${list.length === 0 ? html`<p>Nothing.</p>` : nothing}
    <ul>
      ${list.slice(0, mostShown).map((one) => html`<li>${differenceText(one)}</li>`)}
    </ul>
    ${list.length > mostShown ? html`<p>And ${counted(list.length - mostShown, 'more field')}.</p>` : nothing}
  </div>`;
}

/** Fields that both changed, each to something of its own. */
function contested(mine: readonly JobDifference[], theirs: readonly JobDifference[]): string[] {
  const fields = new Map(mine.map((one) => [one.field, one.after]));
  return theirs
    .filter(({ field, after }) => fields.has(field) && fields.get(field) !== after)
    .map(({ label }) => label);
}

/** Somebody else kept the job meanwhile: what each changed, and what can be done without losing either. */
export class ConflictMessage extends StoreElement {
  protected override shows({ conflict, draft, workshop }: State): readonly unknown[] {
    return [conflict, draft, workshop.busy];
  }

  private tools(isBusy: boolean): TemplateResult {
    const button = (text: string, act: () => void): TemplateResult =>
      html`<button type="button" ?disabled=${isBusy} @click=${act}>${text}</button>`;
    return html`<p class="conflict-tools">
      ${button('Open the other version', () => takeTheirs(this.store))}
      ${button('Keep yours as a new job', () => void keepAsNew(this.store, ', my version'))}
      ${button('Keep yours here and theirs as a copy', () => void keepBoth(this.store))}
      ${button('Go on without keeping', () => this.store.set({ conflict: undefined }))}
    </p>`;
  }

  private message({ theirs }: Conflict, { job, kept }: Draft, isBusy: boolean): TemplateResult {
    const base = kept?.job ?? job;
    const [mine, other] = [differences(base, job), differences(base, theirs.job)];
    const both = contested(mine, other);
    const by = theirs.job.title.drawnBy;
    return html`<div class="message is-conflict" role="alert">
      <h2>${theirs.savedBy || 'Somebody else'} kept this job at ${moment(theirs.saved, new Date())}, after you opened it</h2>
      <p>
        Nothing was overwritten, and what you typed is still on the page.
        ${by === '' ? '' : `Their title block says drawn by ${by}.`}
        ${both.length > 0 ? `Both of you changed: ${both.slice(0, mostShown).join('; ')}.` : ''}
      </p>
      <div class="conflict-sides">${changes('They changed', other)} ${changes('You changed', mine)}</div>
      ${this.tools(isBusy)}
    </div>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { conflict, draft, workshop } = this.store.get();
    if (!conflict || draft?.kept?.id !== conflict.id) return nothing;
    return this.message(conflict, draft, workshop.busy !== undefined);
  }
}

customElements.define('conflict-message', ConflictMessage);
