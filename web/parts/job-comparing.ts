import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Comparison } from '../../server/contract/comparison.ts';
import type { Reply } from '../api.ts';
import { askComparison } from '../api-kept-jobs.ts';
import { type Comparable, comparables, usualBefore } from '../state/comparing.ts';
import type { State } from '../state/store.ts';
import { changeList } from './change-list.ts';
import { StoreElement } from './store-element.ts';

/** Two that were compared, and what came of it. */
interface Compared {
  readonly before: Comparable;
  readonly after: Comparable;
  readonly reply: Reply<Comparison> | undefined;
}

const sameSide = (a: Comparable, b: Comparable | undefined): boolean =>
  b !== undefined && JSON.stringify(a.side) === JSON.stringify(b.side);

/** Any two of the job on the page, what was proposed, issued or kept: what the second is otherwise in than the first. */
export class JobComparing extends StoreElement {
  static override properties = {
    first: { state: true },
    second: { state: true },
    compared: { state: true },
  };
  declare first: string | undefined;
  declare second: string | undefined;
  declare compared: Compared | undefined;
  private controller = new AbortController();

  protected override shows({ draft, frozen, proposed, workshop }: State): readonly unknown[] {
    return [draft, frozen, proposed, workshop.jobs, workshop.revisions];
  }

  override disconnectedCallback(): void {
    this.controller.abort();
    super.disconnectedCallback();
  }

  /** The two that are chosen; what is no longer there gives way to what is usual. */
  private chosen(all: readonly Comparable[]): readonly [Comparable, Comparable] {
    const find = (key: string | undefined, usual: string): Comparable =>
      all.find((one) => one.key === key) ?? all.find((one) => one.key === usual) ?? all[0]!;
    return [find(this.first, usualBefore(all, this.store.get())), find(this.second, 'draft')];
  }

  private async compare(before: Comparable, after: Comparable): Promise<void> {
    this.controller.abort();
    this.controller = new AbortController();
    this.compared = { before, after, reply: undefined };
    const reply = await askComparison({ before: before.side, after: after.side }, this.controller.signal);
    if (reply.kind !== 'withdrawn') this.compared = { before, after, reply };
  }

  private choice(
    label: string,
    all: readonly Comparable[],
    { key }: Comparable,
    take: (key: string) => void,
  ): TemplateResult {
    const id = `comparing-${label.toLowerCase()}`;
    const groups = [...new Set(all.map(({ group }) => group))];
    return html`<div class="field">
      <label for=${id}>${label}</label>
      <span class="entry is-choice">
        <select id=${id} @change=${(event: Event) => take((event.target as HTMLSelectElement).value)}>
          ${groups.map(
            (group) =>
              html`<optgroup label=${group}>
                ${all
                  .filter((one) => one.group === group)
                  .map(
                    (one) =>
                      html`<option value=${one.key} .selected=${live(one.key === key)}>${one.label}</option>`,
                  )}
              </optgroup>`,
          )}
        </select>
      </span>
    </div>`;
  }

  private outcome(all: readonly Comparable[]): TemplateResult | typeof nothing {
    if (!this.compared) return nothing;
    const { before, after, reply } = this.compared;
    if (!reply || reply.kind === 'withdrawn') return html`<p>Calculating both with care…</p>`;
    if (reply.kind !== 'answer') {
      const reasons = reply.kind === 'refused' ? reply.issues.map(({ sentence }) => sentence) : [];
      return html`<div class="message is-refused">
        <h3>These two could not be compared</h3>
        ${(reasons.length > 0 ? reasons : [reply.detail]).map((sentence) => html`<p>${sentence}</p>`)}
      </div>`;
    }
    const isOld = [before, after].some(
      (one) =>
        !sameSide(
          one,
          all.find(({ key }) => key === one.key),
        ),
    );
    const { made, became, shifts, changes } = reply.value;
    const isSame = made.length + became.length + changes.length === 0 && shifts === '';
    return html`<div class="comparison ${isOld ? 'is-old' : ''}">
      ${isOld ? html`<p class="remark">One of the two was changed since: compare again.</p>` : nothing}
      ${
        isSame
          ? html`<p>“${before.label}” and “${after.label}” come to the same.</p>`
          : changeList(
              `From “${before.label}” to “${after.label}”`,
              reply.value,
              'No field of the job is otherwise.',
            )
      }
    </div>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { draft, frozen } = this.store.get();
    if (!draft || frozen) return nothing;
    const all = comparables(this.store.get());
    const [before, after] = this.chosen(all);
    const isBusy = this.compared !== undefined && this.compared.reply === undefined;
    const compare = (event: Event): void => {
      event.preventDefault();
      void this.compare(before, after);
    };
    return html`<details class="asked comparing">
      <summary>
        <h2>Compare</h2>
        <span class="asked-digest">Any two of the job on the page, its revisions, proposals and kept jobs</span>
      </summary>
      <div class="asked-body" aria-busy=${isBusy ? 'true' : 'false'}>
        <form class="comparing-form" @submit=${compare}>
          ${this.choice('Before', all, before, (key) => {
            this.first = key;
          })}
          ${this.choice('After', all, after, (key) => {
            this.second = key;
          })}
          <button type="submit" class="primary" ?disabled=${isBusy}>Compare the two</button>
        </form>
        ${all.length < 2 ? html`<p class="hint">There is only the job on the page so far: keep it, issue it, or let designs be proposed.</p>` : nothing}
        <div role="status">${this.outcome(all)}</div>
      </div>
    </details>`;
  }
}

customElements.define('job-comparing', JobComparing);
