import { html, nothing, type TemplateResult } from 'lit';
import type { Issue } from '../../src/outcome.ts';
import { counted } from '../format.ts';
import { problemsOf } from '../state/edit.ts';
import { change } from '../state/history.ts';
import { jumpTo, jumpToField } from '../state/jump.ts';
import { keepOurs } from '../state/storage.ts';
import type { State } from '../state/store.ts';
import { statusCounts } from './finding-list.ts';
import { StoreElement } from './store-element.ts';

/** What the newest answer says, in a line that is read out when it changes. */
function newsOf(state: State): string {
  const { answer, standing } = state;
  if (standing.is === 'incomplete') return 'The job is not complete yet.';
  if (standing.is === 'refused') return 'This cannot be built as it stands.';
  if (standing.is === 'failed') return 'No answer from the service.';
  if (!answer) return 'Reckoning…';
  const { findings, setOut } = answer.sizing;
  const accuracy = answer.sizing.accuracy === 'quick' ? ' Quick reckoning; the careful one follows.' : '';
  return `${counted(setOut.slots.length, 'slot')}. ${counted(findings.length, 'finding')}: ${statusCounts(findings)}.${accuracy}`;
}

/** Where the page stands: the newest answer, what keeps it from one, and what else wants to be known. */
export class StateLine extends StoreElement {
  static override properties = { retry: { attribute: false } };
  declare retry: () => void;

  private issues(kind: string, title: string, issues: readonly Issue[]): TemplateResult {
    return html`<div class="message ${kind}">
      <h2>${title}</h2>
      <ul>
        ${issues.slice(0, 12).map((issue) => {
          const leads = Object.keys(issue.place).length > 0;
          return html`<li>
            ${issue.sentence}
            ${
              leads
                ? html`<button type="button" class="plain" @click=${() => jumpTo(this.store, issue.place)}>
                    Show where</button
                  >`
                : nothing
            }
          </li>`;
        })}
      </ul>
      ${issues.length > 12 ? html`<p>${counted(issues.length - 12, 'more reason')} like these.</p>` : nothing}
      ${this.store.get().answer ? html`<p class="hint">The drawing and the figures still show the last job that worked.</p>` : nothing}
    </div>`;
  }

  private standing({ standing, answer }: State): TemplateResult | typeof nothing {
    if (standing.is === 'incomplete') return this.issues('is-entry', 'Not complete yet', standing.issues);
    if (standing.is === 'refused') {
      const issues = standing.issues.length > 0 ? standing.issues : [plainIssue(standing.detail)];
      return this.issues('is-refused', 'This cannot be built as it stands', issues);
    }
    if (standing.is !== 'failed') return nothing;
    return html`<div class="message is-failed">
      <h2>No answer</h2>
      <p>
        ${standing.detail} ${answer ? 'The figures below are the last ones it gave.' : ''} What you entered is kept. The
        page goes on asking by itself.
        <button type="button" @click=${() => this.retry()}>Ask again now</button>
      </p>
    </div>`;
  }

  private wrongEntries({ draft }: State): TemplateResult | typeof nothing {
    const problems = draft ? [...problemsOf(draft)] : [];
    const [first] = problems;
    if (!first) return nothing;
    return html`<div class="message is-entry">
      <p>
        ${counted(problems.length, 'entry needs', 'entries need')} correcting; until then the figures rest on the last
        value that made sense.
        <button type="button" class="plain" @click=${() => jumpToField(this.store, first[0])}>Show where</button>
      </p>
    </div>`;
  }

  private otherTab({ otherTab, draft }: State): TemplateResult | typeof nothing {
    if (!otherTab || !draft) return nothing;
    const takeTheirs = (): void => {
      change(this.store, otherTab);
      keepOurs(this.store);
    };
    return html`<div class="message is-other-tab">
      <p>
        Another tab has changed the stored draft. This tab keeps its own until you choose.
        <button type="button" @click=${takeTheirs}>Take the other tab’s</button>
        <button type="button" @click=${() => keepOurs(this.store)}>Keep this one</button>
      </p>
    </div>`;
  }

  private notice({ notice }: State): TemplateResult | typeof nothing {
    if (!notice) return nothing;
    return html`<div class="message is-notice" role="alert">
      <h2>${notice.title}</h2>
      <ul>
        ${notice.sentences.slice(0, 12).map((sentence) => html`<li>${sentence}</li>`)}
      </ul>
      <p class="message-tools">
        ${(notice.remedies ?? []).map(
          ({ text, act }) => html`<button type="button" @click=${act}>${text}</button>`,
        )}
        <button type="button" @click=${() => this.store.set({ notice: undefined })}>Close this message</button>
      </p>
    </div>`;
  }

  override render(): TemplateResult {
    const state = this.store.get();
    return html`<p class="news" role="status">${newsOf(state)}</p>
      ${this.notice(state)} ${this.otherTab(state)} ${this.standing(state)} ${this.wrongEntries(state)}`;
  }
}

const plainIssue = (sentence: string): Issue => ({ code: 'refused', place: {}, quantities: {}, sentence });

customElements.define('state-line', StateLine);
