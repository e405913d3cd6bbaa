import { html, nothing, type TemplateResult } from 'lit';
import type { Asking, Given } from '../state/asking.ts';
import { apply } from '../state/edit.ts';
import { isInJob, type Proposal } from '../state/proposals.ts';
import type { Store } from '../state/store.ts';

interface AskedFold<Value> {
  readonly title: string;
  /** One line that says what the shut question would tell. */
  readonly digest: string;
  readonly body: (given: Given<Value>) => TemplateResult;
}

/** What keeps the answer, in words that are read out when they change. */
function standingText(asking: Asking<unknown>, store: Store): string {
  const { is } = asking.standing;
  if (is === 'asking')
    return asking.given ? 'Calculating again for the changed job…' : 'Calculating; this takes a few seconds…';
  if (is !== 'waiting') return '';
  const waits = ['refused', 'incomplete'].includes(store.get().standing.is);
  return waits
    ? 'This waits until the job can be calculated: what is missing stands at the top of the page.'
    : 'Calculating…';
}

function trouble(asking: Asking<unknown>): TemplateResult | typeof nothing {
  const { standing } = asking;
  if (standing.is !== 'refused' && standing.is !== 'failed') return nothing;
  const sentences =
    standing.is === 'refused' && standing.issues.length > 0
      ? standing.issues.map((issue) => issue.sentence)
      : [standing.detail];
  const old = asking.given ? ' The figures below belong to an earlier state of the job.' : '';
  return html`<div class="message is-${standing.is}" role="alert">
    <h4>${standing.is === 'refused' ? 'This has no answer as the job stands' : 'No answer'}</h4>
    ${sentences.map((sentence) => html`<p>${sentence}</p>`)}
    <p class="hint">
      ${old}
      ${standing.is === 'failed' ? html`<button type="button" @click=${() => asking.again()}>Ask again</button>` : nothing}
    </p>
  </div>`;
}

/**
 * A question beside its subject: shut until somebody wants to know, then the answer or what keeps it. A revision that
 * is only looked at is asked nothing.
 */
export function askedFold<Value>(
  asking: Asking<Value>,
  store: Store,
  { title, digest, body }: AskedFold<Value>,
): TemplateResult {
  if (store.get().frozen) return html``;
  const { given, standing } = asking;
  const isOld = given !== undefined && standing.is !== 'current' && standing.is !== 'shut';
  const text = standingText(asking, store);
  return html`<details
    class="asked"
    data-asked=${standing.is}
    @toggle=${(event: Event) => {
      const fold = event.currentTarget as HTMLDetailsElement;
      if (event.target === fold) asking.setOpen(fold.open);
    }}
  >
    <summary>
      <h3>${title}</h3>
      <span class="asked-digest">${digest}</span>
    </summary>
    <div class="asked-body ${given ? '' : 'is-empty'}" aria-busy=${standing.is === 'asking' ? 'true' : 'false'}>
      <p class="asked-state" role="status">${text}</p>
      ${trouble(asking)}
      ${given ? html`<div class="asked-answer ${isOld ? 'is-old' : ''}">${body(given)}</div>` : nothing}
    </div>
  </details>`;
}

/** Makes a proposal part of the job; where it is already, the button says so and keeps its place for the keyboard. */
export function applyButton(store: Store, proposal: Proposal | undefined): TemplateResult | typeof nothing {
  const { draft } = store.get();
  if (!proposal || !draft) return nothing;
  const isIn = isInJob(draft.job, proposal);
  const text = isIn ? 'In the job' : 'Apply';
  return html`<button
    type="button"
    class="apply"
    aria-label="${text}: ${proposal.what}"
    aria-disabled=${isIn ? 'true' : nothing}
    @click=${() => {
      if (!isIn) apply(store, proposal);
    }}
  >
    ${text}
  </button>`;
}

/** What was remarked on the way to an answer. */
export function remarkList(remarks: readonly string[]): TemplateResult | typeof nothing {
  if (remarks.length === 0) return nothing;
  return html`<ul class="remarks">
    ${remarks.map((remark) => html`<li>${remark}</li>`)}
  </ul>`;
}
