import { html, nothing, svg, type TemplateResult } from 'lit';
import { counted } from '../format.ts';
import { problemsOf } from '../state/edit.ts';
import { isBeginning } from '../state/first-wall.ts';
import { groupedReasons } from '../state/reasons.ts';
import type { Careful, State, Trouble } from '../state/store.ts';
import { statusCounts } from './finding-list.ts';
import { StoreElement } from './store-element.ts';

/** Everything the answer on the page can be. */
type Condition = Trouble['is'] | 'waiting' | 'quick' | 'careful' | 'issued';

const words: Readonly<Record<Condition, string>> = {
  waiting: 'Waiting',
  quick: 'Quick',
  careful: 'Careful',
  incomplete: 'Not complete',
  refused: 'Refused',
  failed: 'Failed',
  offline: 'Offline',
  issued: 'Issued',
};

const shapes: Readonly<Record<Condition, unknown>> = {
  waiting: svg`<circle class="outline is-dashed" cx="8" cy="8" r="6"></circle>`,
  quick: svg`<circle class="outline" cx="8" cy="8" r="6"></circle><path d="M8 2a6 6 0 0 1 0 12z"></path>`,
  careful: svg`<circle cx="8" cy="8" r="6.5"></circle>`,
  incomplete: svg`<path class="outline" d="M2.5 2.5h11v11h-11zM5 8h6"></path>`,
  refused: svg`<path d="M5 1.5h6L14.5 5v6L11 14.5H5L1.5 11V5z"></path><path class="inside" d="M5 8h6"></path>`,
  failed: svg`<path d="M8 1.5L15 14H1z"></path><path class="inside" d="M8 6v4M8 11.6v1"></path>`,
  offline: svg`<path class="outline" d="M8 2a6 6 0 1 0 0 12A6 6 0 0 0 8 2zM3.8 3.8l8.4 8.4"></path>`,
  issued: svg`<path class="outline" d="M3.5 1.5h6l3 3v10h-9zM5.5 8h5M5.5 11h5"></path>`,
};

function conditionOf({ standing, careful, frozen }: State): Condition {
  if (frozen) return 'issued';
  if (standing.is !== 'current') return standing.is;
  if (careful.is === 'coming') return 'quick';
  return careful.is === 'done' ? 'careful' : careful.is;
}

const carefulText: Readonly<Record<Careful['is'], string>> = {
  coming: 'Quick calculation; the careful one follows.',
  done: 'Careful calculation.',
  refused: 'Quick calculation only: the careful one found why this cannot be built.',
  failed: 'Quick calculation only: the careful one failed.',
  offline: 'Quick calculation only: the service has stopped answering.',
};

const oldFigures = 'The figures are of the last job that worked.';

function troubleText(trouble: Trouble): string {
  if (trouble.is === 'incomplete')
    return `${counted(groupedReasons(trouble.issues).length, 'thing is', 'things are')} missing.`;
  if (trouble.is === 'offline') return 'No answer from the service; the page goes on asking.';
  if (trouble.is === 'failed')
    return trouble.goesOn ? 'The service is too busy; the page asks again.' : 'The service made a mistake.';
  const count = groupedReasons(trouble.issues).length;
  return `This cannot be built as it stands${count > 1 ? `, for ${count} reasons` : ''}.`;
}

/** What the newest answer says, in a line that is read out when it changes. */
function newsOf(state: State): string {
  const { answer, standing, careful, frozen } = state;
  if (isBeginning(state)) return 'There are no slots yet: begin with the wall.';
  if (standing.is === 'waiting') {
    if (!answer) return 'Calculating…';
    return standing.former
      ? `Calculating the change… ${oldFigures}`
      : 'Calculating the change… The figures are from before it.';
  }
  if (standing.is !== 'current') return `${troubleText(standing)}${answer ? ` ${oldFigures}` : ''}`;
  if (!answer) return 'Calculating…';
  const { findings, setOut } = answer.sizing;
  const figures = `${counted(setOut.slots.length, 'slot')}. ${counted(findings.length, 'finding')}: ${statusCounts(findings)}.`;
  return frozen
    ? `${figures} Revision ${frozen.entry.revision} as it was issued.`
    : `${figures} ${carefulText[careful.is]}`;
}

/** What leads to the messages, where there are any. */
function messageText(state: State): string | undefined {
  const { notice, standing, careful, draft, otherTab, frozen } = state;
  if (notice) return notice.title;
  const isTrouble = !['waiting', 'current'].includes(standing.is) || !['coming', 'done'].includes(careful.is);
  if (frozen || isBeginning(state)) return undefined;
  if (isTrouble) return standing.is === 'incomplete' ? 'Show what is missing' : 'Show why';
  if (otherTab) return 'Another tab has changed the draft';
  return draft && problemsOf(draft).size > 0 ? 'Show what needs correcting' : undefined;
}

function showMessages(): void {
  const messages = document.getElementById('messages');
  messages?.scrollIntoView({ block: 'start' });
  messages?.focus({ preventScroll: true });
}

/** Where the page stands, in the one line that is always in sight. */
export class StateLine extends StoreElement {
  override render(): TemplateResult {
    const state = this.store.get();
    const condition = conditionOf(state);
    const lead = messageText(state);
    return html`<span class="condition is-${condition}">
        <svg class="shape" width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">${shapes[condition]}</svg>
        ${words[condition]}
      </span>
      <p class="news" role="status">${newsOf(state)}</p>
      ${
        lead === undefined
          ? nothing
          : html`<button type="button" class="plain news-lead" @click=${showMessages}>${lead}</button>`
      }`;
  }
}

customElements.define('state-line', StateLine);
