import { html, nothing, type TemplateResult } from 'lit';
import type { Proposals } from '../../src/answer/proposals.ts';
import type { Job } from '../../src/job/job.ts';
import { type Openable, openables } from '../../src/job/open-choices.ts';
import { fixed, percent } from '../format.ts';
import { Proposing } from '../state/proposing.ts';
import type { State } from '../state/store.ts';
import { Measured } from './measured.ts';
import { applyDesign, changeList, designTable, designWords, tradeOff } from './proposal-designs.ts';
import { StoreElement } from './store-element.ts';

const openWords: Readonly<Record<Openable, string>> = {
  strip: 'Strip',
  level: 'Working level',
  feeds: 'How runs are fed',
  layout: 'How cables are laid',
  cables: 'Thickness of cables',
  drivers: 'Drivers',
  carrier: 'Aluminium under the strip',
  protection: 'Kind of protection',
  depth: 'Depth of the cavity',
  cover: 'Slot cover',
  mount: 'Where the strip sits',
  pitch: 'Number of slots',
};

/** Of more slots than this a search over strips takes minutes. */
const fewSlots = 20;

/** What a first proposal is open in: most of what is bought, as far as it is soon found. */
const firstOpen = (slotCount: number): readonly Openable[] =>
  slotCount > fewSlots ? ['level', 'drivers'] : ['strip', 'level', 'drivers'];

/** What stands in the row of prices. */
function pricesOf({ designs }: Proposals): string {
  const isPriced = designs.some(({ measures }) => measures.price_cents !== null);
  if (!isPriced)
    return 'Prices are not known: list those of your suppliers in the job, and designs are ranked by them.';
  const note = designs[0]?.job.prices.note ?? '';
  return `Price of strip, cable, drivers and dimmers, spares included; aluminium, blocks, fuses and work are not in it. Cable with another number of cores counts at the price of its entry.${note === '' ? '' : ` Prices: ${note}.`}`;
}

/** The tool proposes: which choices are open, the search, and the designs that pass. */
export class ProposePanel extends StoreElement {
  private readonly proposing = new Proposing(this);
  private readonly measured = new Measured(this);

  protected override shows({ draft, frozen }: State): readonly unknown[] {
    return [draft?.job, frozen];
  }

  /** Opens the panel and looks for what decides most of a job; the rest stays as it is until somebody opens it. */
  begin(): void {
    const fold = this.querySelector('details');
    const { draft, answer } = this.store.get();
    if (!fold || !draft) return;
    fold.open = true;
    const open = firstOpen(answer?.sizing.setOut.slots.length ?? 0);
    for (const each of openables) this.proposing.setOpen(each, open.includes(each));
    fold.scrollIntoView({ block: 'start' });
    fold.querySelector('summary')?.focus({ preventScroll: true });
    void this.proposing.start(draft.job);
  }

  private switches(job: Job): TemplateResult {
    const open = new Set(this.proposing.open(job));
    const isBusy = this.proposing.searching.is === 'searching';
    return html`<fieldset class="open-choices" ?disabled=${isBusy}>
      <legend>Open to be chosen; what is not ticked is kept as it is</legend>
      ${openables.map(
        (of) =>
          html`<label>
            <input
              type="checkbox"
              .checked=${open.has(of)}
              @change=${(event: Event) => this.proposing.setOpen(of, (event.target as HTMLInputElement).checked)}
            />
            ${openWords[of]}
          </label>`,
      )}
    </fieldset>`;
  }

  private progress(): TemplateResult | typeof nothing {
    const { searching } = this.proposing;
    if (searching.is !== 'searching' && searching.is !== 'stopped') return nothing;
    const { news } = searching;
    const isStopped = searching.is === 'stopped';
    if (news?.kind === 'waiting') return html`<p role="status">${news.sentence}</p>`;
    if (!news) return html`<p role="status">${isStopped ? 'Stopped.' : 'Beginning…'}</p>`;
    const { stage, sizedCount, decidedCount, allowedCount, best } = news.progress;
    return html`<p role="status">${isStopped ? 'Stopped' : stage}${best ? '; one that passes is found' : ''}.</p>
      <progress
        aria-label="Designs decided, of all there are"
        max="1"
        value=${allowedCount > 0 ? decidedCount / allowedCount : 0}
      ></progress>
      <p class="remark">
        ${fixed(sizedCount, 0)} designs sized; ${percent(decidedCount / Math.max(1, allowedCount), 0)} of
        ${fixed(allowedCount, 0)} ruled out.
      </p>
      ${best ? html`<h3>Best so far</h3>${changeList(best.changes)}` : nothing}`;
  }

  private trouble(): TemplateResult | typeof nothing {
    const { searching } = this.proposing;
    if (searching.is !== 'refused' && searching.is !== 'failed') return nothing;
    const sentences =
      searching.is === 'refused' && searching.issues.length > 0
        ? searching.issues.map(({ sentence }) => sentence)
        : [searching.detail];
    return html`<div class="message is-${searching.is}" role="alert">
      <h3>No proposal</h3>
      ${sentences.map((sentence) => html`<p>${sentence}</p>`)}
    </div>`;
  }

  private miss({ nearestMiss }: Proposals, isOld: boolean): TemplateResult | typeof nothing {
    if (!nearestMiss) return nothing;
    const { sentence, fails, design } = nearestMiss;
    return html`<div class="message is-refused">
      <h3>Nothing passes as it is open now</h3>
      <p>${sentence}</p>
      <ul class="changes">
        ${fails.map(({ title, sentence: why }) => html`<li><b>${title}:</b> ${why}</li>`)}
      </ul>
      ${design ? html`${changeList(design.changes)}${isOld ? nothing : applyDesign(this.store, design, 'The nearest that passes')}` : nothing}
    </div>`;
  }

  private ruledOut({ fell, proof, rankedBy }: Proposals): TemplateResult {
    return html`<details class="ruled-out">
      <summary>What was tried and ruled out</summary>
      <p>${rankedBy}</p>
      <table class="small-table">
        <caption>
          ${fixed(proof.allowedCount, 0)} designs, ${fixed(proof.sizedCount, 0)} of them sized one by one
        </caption>
        <thead>
          <tr>
            <th scope="col">Fell by</th>
            <th scope="col" class="is-figure">Designs</th>
            <th scope="col">One of them</th>
          </tr>
        </thead>
        <tbody>
          ${fell.map(
            ({ title, count, sentence }) =>
              html`<tr>
                <th scope="row">${title}</th>
                <td class="is-figure">${fixed(count, 0)}</td>
                <td>${sentence}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </details>`;
  }

  private found(job: Job): TemplateResult | typeof nothing {
    const { found } = this.proposing;
    if (!found) return nothing;
    const { answer } = found;
    const isOld = this.proposing.isOld(job);
    const width = Math.min(560, this.measured.width || 560);
    return html`<div class="proposals ${isOld ? 'is-old' : ''}">
      <p role="status" class="proof">${answer.designs.length > 0 ? answer.proof.sentence : nothing}</p>
      ${isOld ? html`<p class="remark">The job was changed since: propose again for the job as it is now. A step back with Undo brings these back.</p>` : nothing}
      ${this.miss(answer, isOld)}
      ${
        answer.designs.length > 0
          ? html`${designTable(answer, this.store, isOld)}
              <p class="remark">${pricesOf(answer)}</p>
              <div class="designs-in-words">
                ${tradeOff(answer, width)} ${answer.designs.map((design, i) => designWords(design, i))}
              </div>`
          : nothing
      }
      ${this.ruledOut(answer)}
    </div>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { draft, frozen } = this.store.get();
    if (!draft || frozen) return nothing;
    const { job } = draft;
    const isBusy = this.proposing.searching.is === 'searching';
    return html`<details class="asked propose">
      <summary>
        <h2>Propose</h2>
        <span class="asked-digest">Whole designs for this wall that pass every check, side by side</span>
      </summary>
      <div class="asked-body" aria-busy=${isBusy ? 'true' : 'false'}>
        ${this.switches(job)}
        <p class="propose-buttons">
          ${
            isBusy
              ? html`<button type="button" @click=${() => this.proposing.stop()}>Stop</button>`
              : html`<button type="button" class="primary" @click=${() => void this.proposing.start(job)}>Propose designs</button>`
          }
        </p>
        ${this.progress()} ${this.trouble()} ${this.found(job)}
        <p class="remark">
          A proposal is worked out, and no more: the data sheets of the makers come first, and an electrician decides on the wiring.
        </p>
      </div>
    </details>`;
  }
}

customElements.define('propose-panel', ProposePanel);
