import { html, nothing, type TemplateResult } from 'lit';
import type { Issue } from '../../src/outcome.ts';
import { counted } from '../format.ts';
import { jumpTo, jumpToField } from '../state/jump.ts';
import { groupedReasons, placeName, type Reason } from '../state/reasons.ts';
import type { Store, Where } from '../state/store.ts';

/** So many reasons stand open; the others fold. */
const mostOpen = 4;
const mostNamed = 8;

function leads(store: Store, place: Where): TemplateResult | typeof nothing {
  const { field } = place;
  const onWall = placeName(place) === '' ? nothing : lead('Show where', () => jumpTo(store, place));
  const toField = field === undefined ? nothing : lead('Change it', () => jumpToField(store, field));
  return onWall === nothing && toField === nothing
    ? nothing
    : html`<span class="leads">${onWall} ${toField}</span>`;
}

const lead = (text: string, act: () => void): TemplateResult =>
  html`<button type="button" class="plain" @click=${act}>${text}</button>`;

/** `The same holds for S02, S03 and 4 more: 7 in all.` */
function alike({ others, count }: Reason): TemplateResult | typeof nothing {
  if (count === 1) return nothing;
  if (others.length === 0) return html`<span class="times">Said ${count} times.</span>`;
  const named = others.slice(0, mostNamed).map(placeName);
  const left = others.length - named.length;
  const more = left > 0 ? ` and ${left} more` : '';
  return html`<span class="times">The same holds for ${named.join(', ')}${more}: ${count} in all.</span>`;
}

const item = (store: Store, reason: Reason): TemplateResult =>
  html`<li>${reason.issue.sentence} ${alike(reason)} ${leads(store, reason.issue.place)}</li>`;

/** Why something has no answer: each reason once, the way to its place and to the field that changes it. */
export function reasonList(store: Store, issues: readonly Issue[]): TemplateResult {
  const reasons = groupedReasons(issues);
  const [open, rest] = [reasons.slice(0, mostOpen), reasons.slice(mostOpen)];
  return html`<ul>
      ${open.map((reason) => item(store, reason))}
    </ul>
    ${
      rest.length > 0
        ? html`<details class="folded-list">
            <summary>${counted(rest.length, 'more reason')}</summary>
            <ul>
              ${rest.map((reason) => item(store, reason))}
            </ul>
          </details>`
        : nothing
    }`;
}
