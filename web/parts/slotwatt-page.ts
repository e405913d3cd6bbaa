import { html, type TemplateResult } from 'lit';
import './build-up-section.ts';
import './caution-list.ts';
import './finding-list.ts';
import './job-bar.ts';
import './job-form.ts';
import './run-profile.ts';
import './schedule-tables.ts';
import './slot-brightness.ts';
import './state-line.ts';
import './title-block.ts';
import './wall-comparison.ts';
import './wall-elevation.ts';
import { StoreElement } from './store-element.ts';

/** The whole page: the drawing in the middle, what is set on one side, what it comes to on the other. */
export class SlotwattPage extends StoreElement {
  static override properties = { retry: { attribute: false } };
  declare retry: () => void;

  override render(): TemplateResult {
    const { store } = this;
    const { answer, standing, draft } = store.get();
    const old = answer !== undefined && (standing.is !== 'current' || answer.job !== draft?.job);
    const stale = old && standing.is !== 'waiting' ? 'is-stale' : '';
    return html`<a class="skip" href="#elevation">To the drawing</a>
      <header class="masthead"><job-bar .store=${store}></job-bar></header>
      <section class="where-it-stands" aria-label="Where the job stands">
        <state-line .store=${store} .retry=${this.retry}></state-line>
      </section>
      <main class="${stale} ${answer ? '' : 'is-bare'}" data-standing=${standing.is} data-care=${answer?.sizing.care ?? 'none'}>
        <section class="side-form" aria-label="What you set"><job-form .store=${store}></job-form></section>
        <section class="middle" aria-label="Drawing">
          <div class="sheet">
            <wall-elevation .store=${store}></wall-elevation>
            <title-block .store=${store}></title-block>
          </div>
          <caution-list .store=${store}></caution-list>
          <run-profile .store=${store}></run-profile>
          <wall-comparison .store=${store}></wall-comparison>
          <build-up-section .store=${store}></build-up-section>
          <slot-brightness .store=${store}></slot-brightness>
        </section>
        <section class="side-findings" aria-label="Findings">
          <finding-list .store=${store}></finding-list>
        </section>
        <section class="papers" aria-label="Papers">
          <schedule-tables .store=${store}></schedule-tables>
        </section>
      </main>`;
  }
}

customElements.define('slotwatt-page', SlotwattPage);
