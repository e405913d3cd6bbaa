import { html, nothing, type TemplateResult } from 'lit';
import { jumpTo, jumpToFinding, jumpToPapers, jumpToReading, jumpToSchedule } from '../state/jump.ts';
import { type NextStep, nextStep } from '../state/next-step.ts';
import type { State, Store } from '../state/store.ts';
import { type Lead, type SummaryFigure, summaryOf } from '../state/summary.ts';
import { keep, toggleWorkshop } from '../state/workshop.ts';
import { statusText } from '../words.ts';
import { statusShape } from './finding-list.ts';
import { StoreElement } from './store-element.ts';

function follow(store: Store, lead: Lead): void {
  if (lead.to === 'place') jumpTo(store, lead.place);
  else if (lead.to === 'reading') jumpToReading(store, lead.id);
  else jumpToSchedule(lead.id);
}

const isBad = (status: SummaryFigure['status']): boolean => status === 'fails' || status === 'watch';

/** What is judged badly has the shape and the word of its verdict; what passes needs neither. */
function verdict({ status }: SummaryFigure): TemplateResult | typeof nothing {
  if (status === undefined || !isBad(status)) return nothing;
  return html`${statusShape(status)}<span class="unseen">${statusText[status].one}</span>`;
}

function stepText(step: NextStep): string {
  if (step.is === 'settle') {
    const more = step.count > 1 ? `, then ${step.count - 1} more` : '';
    return `Next: settle “${step.finding.title}”${more}`;
  }
  if (step.is === 'keep') return 'Next: keep the job';
  if (step.is === 'print') return 'Next: print the papers';
  return step.revision.trim() === '' ? 'Next: give it a revision' : `Next: issue revision ${step.revision}`;
}

async function toIssueForm(store: Store): Promise<void> {
  await toggleWorkshop(store, true);
  await document.querySelector<StoreElement>('job-revisions')?.updateComplete;
  document.querySelector<HTMLElement>('.issue-form :is(input, button)')?.focus();
}

function take(store: Store, step: NextStep): void {
  if (step.is === 'settle') jumpToFinding(step.finding.id);
  else if (step.is === 'keep') void keep(store);
  else if (step.is === 'print') jumpToPapers(store);
  else void toIssueForm(store);
}

/** The job in one line that never scrolls away, each figure leading to its place, and the one thing to do next. */
export class JobSummary extends StoreElement {
  protected override shows({ answer, draft, standing, frozen, workshop }: State): readonly unknown[] {
    return [answer, draft, standing, frozen, workshop];
  }

  private figure(figure: SummaryFigure): TemplateResult {
    return html`<li>
      <button type="button" class="sum" @click=${() => follow(this.store, figure.lead)}>
        <span class="sum-name">${figure.name}</span>
        <span class="sum-value">${verdict(figure)}<b>${figure.value}</b> ${figure.more}</span>
      </button>
    </li>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { answer } = this.store.get();
    if (!answer) return nothing;
    const step = nextStep(this.store.get());
    return html`<ul class="sums" aria-label="The job in figures">
        ${summaryOf(answer).map((figure) => this.figure(figure))}
      </ul>
      ${
        step
          ? html`<button type="button" class="next-step" @click=${() => take(this.store, step)}>${stepText(step)}</button>`
          : nothing
      }`;
  }
}

customElements.define('job-summary', JobSummary);
