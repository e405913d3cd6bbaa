import { html, nothing, type TemplateResult } from 'lit';
import { isOwnId } from '../../src/job/own-product.ts';
import { takeOverOwn } from '../state/edit.ts';
import { type Changed, changedSince, keepCopy, sourceText } from '../state/own-products.ts';
import { offeredFor } from '../state/sheet.ts';
import type { FormContext } from './field.ts';

type Offered = ReturnType<typeof offeredFor>;

/** What a list offers for a part, own products last, and where those begin. */
export function offeredIn(
  { store, draft }: FormContext,
  part: Parameters<typeof offeredFor>[1],
  chosen: string | undefined,
): { readonly entries: Offered; readonly ownFrom: number } {
  const workshop = store.get().ownProducts.products.map(({ product }) => product);
  const entries = offeredFor(draft.job, part, chosen ?? '', workshop);
  const first = entries.findIndex(({ id }) => isOwnId(id));
  return { entries, ownFrom: first < 0 ? entries.length : first };
}

const changeRow = ({ label, before, after }: Changed): TemplateResult =>
  html`<li>${label}: ${before || 'nothing'} \u2192 ${after || 'nothing'}</li>`;

/** Whose the copy of an own product is, and what the workshop has otherwise by now; nothing for a typical entry. */
export function ownNote(
  { store, draft }: FormContext,
  id: string | null | undefined,
): TemplateResult | typeof nothing {
  const copy = draft.job.products.find((product) => product.id === id);
  if (!copy) return nothing;
  const { ownProducts, frozen } = store.get();
  const { name } = copy.data;
  const source = html`<p class="hint">Own product, carried by the job. ${sourceText(copy)}</p>`;
  if (frozen || !ownProducts.isKnown) return html`<div class="own-note">${source}</div>`;
  const theirs = ownProducts.products.find(({ product }) => product.id === id && product.kind === copy.kind);
  if (!theirs)
    return html`<div class="own-note">
      ${source}
      <p class="hint">It is not among the own products of this workshop; the job works by its copy.</p>
      <button type="button" aria-label="Keep in this workshop: ${name}" @click=${() => void keepCopy(store, copy)}>Keep it in this workshop</button>
    </div>`;
  const changed = changedSince(copy, theirs.product);
  if (changed.length === 0) return html`<div class="own-note">${source}</div>`;
  return html`<div class="own-note is-changed">
    ${source}
    <p>The workshop has other values by now:</p>
    <ul>
      ${changed.map(changeRow)}
    </ul>
    <button type="button" aria-label="Take over what the workshop has now: ${name}" @click=${() => takeOverOwn(store, theirs.product)}>Take over what the workshop has now</button>
  </div>`;
}
