import { html, nothing, type TemplateResult } from 'lit';
import type { Issue } from '../../src/outcome.ts';
import { counted } from '../format.ts';
import { jumpTo, jumpToField } from '../state/jump.ts';
import { groupedReasons, placeName, type Reason } from '../state/reasons.ts';
import type { Store, Where } from '../state/store.ts';

/** So many reasons stand open; the others fold. */
const mostOpen = 4;
const mostNamed = 8;

function leads(store: Store, place: Where): TemplateResult {
  const isOnWall = placeName(place) !== '';
  const { field } = place;
  const show = html`<button type="button" class="plain" @click=${() => jumpTo(store, place)}>Show where</button>`;
  const change = html`<button type="button" class="plain" @click=${() => jumpToField(store, field!)}>Change it</button>`;
  if (isOnWall) return field === undefined ? show : html`${show} ${change}`;
  return field === undefined ? html`` : show;
}

function alike(store: Store, { others, count }: Reason): TemplateResult | typeof nothing {
  if (count === 1) return nothing;
  if (others.length === 0) return html`<span class="times">${counted(count, 'time', 'times')}.</span>`;
  const named = others.slice(0, mostNamed);
  const left = others.length - named.length;
  return html`<span class="times">
    ${counted(count, 'time', 'times')}; the same holds for
    ${named.map(
      (place, i) =>
        html`${i === 0 ? '' : ', '}<button
            type="button"
            class="plain"
            aria-label="Show ${placeName(place)}"
            @click=${() => jumpTo(store, place)}
          >${placeName(place)}</button>`,
    )}${left > 0 ? ` and ${left} more` : ''}.
  </span>`;
}

const item = (store: Store, reason: Reason): TemplateResult =>
  html`<li>${reason.issue.sentence} ${leads(store, reason.issue.place)} ${alike(store, reason)}</li>`;

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
