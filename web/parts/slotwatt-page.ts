import { html, nothing, type TemplateResult } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import './finding-list.ts';
import './first-minute.ts';
import './job-bar.ts';
import './job-form.ts';
import './job-summary.ts';
import './state-line.ts';
import './state-messages.ts';
import './title-block.ts';
import './wall-elevation.ts';
import { broughtNotice, keepTyped, measuredOf } from '../state/issued-readings.ts';
import { type PictureId, pictureName } from '../state/pictures.ts';
import { isSameWork } from '../state/recompute.ts';
import { lookAway } from '../state/revisions.ts';
import { createStore, emptyState, type Frozen, type State, type Store } from '../state/store.ts';
import { StoreElement } from './store-element.ts';

/** A store of its own for a revision that is looked at, so that nothing done with it reaches the draft. */
function readingStore(frozen: Frozen, { view }: State): Store {
  const { answer } = frozen;
  const at = { id: frozen.id, revision: frozen.entry.id };
  const read = frozen.readings && measuredOf(at, frozen, frozen.readings);
  const draft = { job: answer.job, entries: {}, parked: {}, readings: read?.texts ?? {} };
  const chosenRun = answer.sizing.setOut.runs[0]?.id;
  const standing = { standing: { is: 'current' }, careful: { is: 'done' } } as const;
  return createStore({
    ...emptyState,
    draft,
    answer,
    frozen,
    view,
    chosenRun,
    measured: read?.measured,
    notice: broughtNotice(frozen),
    ...standing,
  });
}

/** How the figures on the page look: as those of the job, of the job before the last change, or of the last that worked. */
function ageOf({ answer, standing, draft }: State): string {
  if (!answer) return 'is-bare';
  if (standing.is === 'waiting') return 'is-waiting';
  return standing.is === 'current' && isSameWork(answer.job, draft?.job) ? '' : 'is-stale';
}

/** The whole page: the drawing in the middle, what is set on one side, what it comes to on the other. */
export class SlotwattPage extends StoreElement {
  static override properties = { retry: { attribute: false }, kept: { state: true } };
  declare retry: () => void;
  declare kept: PictureId | undefined;
  private reading: { readonly frozen: Frozen; readonly store: Store } | undefined;

  /** The store of the revision that is looked at, if one is; else the draft's. */
  private shownStore(): Store {
    const { frozen } = this.store.get();
    if (!frozen) return this.store;
    if (this.reading?.frozen !== frozen) {
      this.reading = { frozen, store: readingStore(frozen, this.store.get()) };
      void keepTyped(this.reading.store);
    }
    return this.reading.store;
  }

  /** A picture with the button that keeps it in sight while others pass below it; one is kept at a time. */
  private picture(id: PictureId, body: TemplateResult): TemplateResult {
    const isKept = this.kept === id;
    const keep = (): void => {
      this.kept = isKept ? undefined : id;
    };
    return html`<div class="picture is-${id} ${isKept ? 'is-kept' : ''}" id="picture-${id}">
      <button
        type="button"
        class="plain keep-in-sight"
        aria-pressed=${isKept ? 'true' : 'false'}
        @click=${keep}
      >
        Keep in sight<span class="unseen">: ${pictureName[id]}</span>
      </button>
      ${body}
    </div>`;
  }

  private sides(store: Store): TemplateResult {
    const isReading = store !== this.store;
    return html`<section class="side-form" aria-label="What you set">
        <job-form .store=${store} tabindex=${isReading ? 0 : nothing}></job-form>
      </section>
      <section class="middle" aria-label="Drawing">
        ${this.picture(
          'wall',
          html`<div class="sheet">
            <wall-elevation .store=${store}></wall-elevation>
            <title-block .store=${store}></title-block>
          </div>`,
        )}
        <caution-list .store=${store}></caution-list>
        ${this.picture('run', html`<run-profile .store=${store}></run-profile>`)}
        ${this.picture('comparison', html`<wall-comparison .store=${store}></wall-comparison>`)}
        ${this.picture('section', html`<build-up-section .store=${store}></build-up-section>`)}
        ${this.picture('slot', html`<slot-brightness .store=${store}></slot-brightness>`)}
      </section>
      <section class="side-findings" aria-label="Findings">
        <finding-list .store=${store}></finding-list>
      </section>
      <section class="papers" aria-label="Papers">
        <paper-tools .store=${store}></paper-tools>
        <schedule-tables .store=${store}></schedule-tables>
      </section>`;
  }

  protected override firstUpdated(): void {
    const line = this.querySelector('.where-it-stands');
    if (!line) return;
    const { style } = document.documentElement;
    const measure = (): void =>
      style.setProperty('--stuck', `${Math.ceil(line.getBoundingClientRect().height)}px`);
    new ResizeObserver(measure).observe(line);
  }

  override render(): TemplateResult {
    const store = this.shownStore();
    const { answer, standing, frozen } = store.get();
    const isWaiting = standing.is === 'waiting';
    const age = ageOf(store.get());
    const back = (): void => {
      void keepTyped(store);
      lookAway(this.store);
    };
    return html`<a class="skip" href="#elevation">To the drawing</a>
      <header class="masthead"><job-bar .store=${this.store}></job-bar></header>
      <workshop-jobs .store=${this.store}></workshop-jobs>
      <section class="where-it-stands ${age}" aria-label="Where the job stands">
        ${keyed(frozen, html`<state-line .store=${store}></state-line><job-summary .store=${store}></job-summary>`)}
      </section>
      <section class="messages" id="messages" tabindex="-1" aria-label="Messages">
        <conflict-message .store=${this.store}></conflict-message>
        ${keyed(
          frozen,
          html`${frozen ? html`<revision-banner .store=${store} .back=${back}></revision-banner>` : nothing}
            <state-messages .store=${store} .retry=${this.retry}></state-messages>`,
        )}
      </section>
      <first-minute .store=${this.store}></first-minute>
      <section class="proposing" aria-label="Proposals"><propose-panel .store=${this.store}></propose-panel></section>
      <section class="proposing" aria-label="Comparison"><job-comparing .store=${this.store}></job-comparing></section>
      <main
        class=${age}
        aria-busy=${isWaiting ? 'true' : 'false'}
        data-standing=${standing.is}
        data-accuracy=${answer?.sizing.accuracy ?? 'none'}
      >
        ${keyed(frozen, this.sides(store))}
      </main>`;
  }
}

customElements.define('slotwatt-page', SlotwattPage);
