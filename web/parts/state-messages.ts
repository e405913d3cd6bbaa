import { html, nothing, type TemplateResult } from 'lit';
import type { Issue } from '../../src/outcome.ts';
import { counted } from '../format.ts';
import { problemsOf } from '../state/edit.ts';
import { isBeginning } from '../state/first-wall.ts';
import { change } from '../state/history.ts';
import { jumpToField } from '../state/jump.ts';
import { keepOurs } from '../state/storage.ts';
import type { Careful, State, Trouble } from '../state/store.ts';
import { reasonList } from './reason-list.ts';
import { StoreElement } from './store-element.ts';

const issuesOf = ({ issues, detail }: { issues: readonly Issue[]; detail: string }): readonly Issue[] =>
  issues.length > 0 ? issues : [{ code: 'refused', place: {}, quantities: {}, sentence: detail }];

const failedTitle = ({ goesOn }: Extract<Trouble, { is: 'failed' }>): string =>
  goesOn ? 'The service is too busy' : 'The service made a mistake';

/** What keeps the page from an answer, in full, and what else wants to be known. */
export class StateMessages extends StoreElement {
  static override properties = { retry: { attribute: false } };
  declare retry: () => void;

  private again(): TemplateResult {
    return html`<button type="button" @click=${() => this.retry()}>Ask again now</button>`;
  }

  private trouble(trouble: Trouble): TemplateResult {
    if (trouble.is === 'incomplete')
      return html`<h2>Not complete yet</h2>
        ${reasonList(this.store, trouble.issues)}`;
    if (trouble.is === 'refused')
      return html`<h2>This cannot be built as it stands</h2>
        ${reasonList(this.store, issuesOf(trouble))}`;
    const goesOn = trouble.is === 'offline' || trouble.goesOn;
    return html`<h2>${trouble.is === 'offline' ? 'No answer' : failedTitle(trouble)}</h2>
      <p>
        ${trouble.detail} What you entered is kept. ${goesOn ? 'The page goes on asking by itself.' : ''}
        ${this.again()}
      </p>`;
  }

  private standing(state: State): TemplateResult | typeof nothing {
    const { standing, answer } = state;
    if (standing.is === 'current' || isBeginning(state)) return nothing;
    const isFormer = standing.is === 'waiting';
    const trouble = isFormer ? standing.former : standing;
    if (!trouble) return nothing;
    const kind = trouble.is === 'incomplete' ? 'is-entry' : `is-${trouble.is}`;
    return html`<div class="message ${kind} ${isFormer ? 'is-former' : ''}">
      ${isFormer ? html`<p class="former">Before the last change, which is being calculated:</p>` : nothing}
      ${this.trouble(trouble)}
      ${answer ? html`<p class="hint">The drawing and the figures still show the last job that worked.</p>` : nothing}
    </div>`;
  }

  private carefulMessage(careful: Exclude<Careful, { is: 'coming' | 'done' }>): TemplateResult {
    if (careful.is === 'refused')
      return html`<h2>The careful calculation found why this cannot be built</h2>
        ${reasonList(this.store, issuesOf(careful))}`;
    const goesOn = careful.is === 'offline' || careful.goesOn;
    return html`<h2>
        ${careful.is === 'failed' && !goesOn ? 'The careful calculation failed' : 'The careful calculation has not come'}
      </h2>
      <p>${careful.detail} ${goesOn ? 'The page goes on asking by itself.' : ''} ${this.again()}</p>`;
  }

  /** A careful answer that did not come: the quick figures stand alone, and papers need the careful ones. */
  private careful({ standing, careful }: State): TemplateResult | typeof nothing {
    if (standing.is !== 'current' || careful.is === 'coming' || careful.is === 'done') return nothing;
    return html`<div class="message is-${careful.is} is-careful">
      ${this.carefulMessage(careful)}
      <p class="hint">
        The figures below are the quick ones. Papers and revisions are made from the careful ones and cannot be made
        until then.
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
    return html`${this.notice(state)} ${this.otherTab(state)} ${this.standing(state)} ${this.careful(state)}
    ${this.wrongEntries(state)}`;
  }
}

customElements.define('state-messages', StateMessages);
