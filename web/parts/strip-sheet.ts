import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { AskedStrip } from '../../src/answer/asked.ts';
import { askStripSheet, type Reply } from '../api.ts';
import { radios } from '../fields/radios.ts';
import { percent, quantity } from '../format.ts';
import { fieldId } from '../state/paths.ts';
import { sheetProposal } from '../state/proposals.ts';
import { channelsOf } from '../state/sheet.ts';
import type { Draft, State } from '../state/store.ts';
import {
  chooseRailSource,
  entriesOf,
  entryShown,
  keepEntries,
  railSource,
  readSheet,
  type SheetEntry,
  typeEntry,
} from '../state/strip-sheet.ts';
import { choiceText, railSources } from '../words.ts';
import { applyButton, remarkList } from './asked-fold.ts';
import { StoreElement } from './store-element.ts';

const milliohms = (rail_mohm_per_m: number): string =>
  quantity(rail_mohm_per_m, 'mΩ/m', rail_mohm_per_m < 10 ? 2 : rail_mohm_per_m < 100 ? 1 : 0);

type Rail = AskedStrip['rails'][number];

/** A strip of one colour worked out from what its data sheet prints or a meter shows, and put into the job. */
export class StripSheetPart extends StoreElement {
  static override properties = {
    reply: { state: true },
    isAsking: { state: true },
    isTried: { state: true },
  };
  declare reply: Exclude<Reply<AskedStrip>, { kind: 'withdrawn' }> | undefined;
  declare isAsking: boolean;
  /** Whether somebody has asked: from then on an entry that is missing says so. */
  declare isTried: boolean;
  private asked = '';
  private begun: number | undefined;
  private controller = new AbortController();

  constructor() {
    super();
    this.isAsking = false;
    this.isTried = false;
  }

  protected override shows({ draft }: State): readonly unknown[] {
    return [draft];
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.controller.abort();
    this.isAsking = false;
  }

  /** Another job on the page has nothing to do with what was asked before. */
  protected override willUpdate(): void {
    const begun = this.store.get().draft?.begun;
    if (begun === this.begun) return;
    this.begun = begun;
    this.controller.abort();
    this.reply = undefined;
    this.isAsking = false;
    this.isTried = false;
  }

  private async work(event: Event): Promise<void> {
    event.preventDefault();
    const { draft } = this.store.get();
    if (!draft) return;
    this.isTried = true;
    const read = readSheet(draft);
    if (!read.ok) {
      await this.updateComplete;
      this.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
      return;
    }
    keepEntries(this.store);
    this.controller.abort();
    this.controller = new AbortController();
    const { signal } = this.controller;
    this.isAsking = true;
    const reply = await askStripSheet(read.sheet, signal);
    if (signal.aborted || reply.kind === 'withdrawn') return;
    this.asked = JSON.stringify(read.sheet);
    this.isAsking = false;
    this.reply = reply;
  }

  private typed(draft: Draft, entry: SheetEntry, id: string, isWrong: boolean): TemplateResult {
    const described = [entry.unit ? `${id}-unit` : '', isWrong ? `${id}-why` : ''].join(' ').trim();
    return html`<span class="entry is-number">
      <input
        id=${id}
        type="text"
        inputmode="decimal"
        autocomplete="off"
        aria-invalid=${isWrong ? 'true' : nothing}
        aria-describedby=${described || nothing}
        .value=${live(entryShown(draft, entry))}
        @input=${(event: InputEvent) => typeEntry(this.store, entry, (event.target as HTMLInputElement).value)}
      />${entry.unit ? html`<span class="unit" id="${id}-unit">${entry.unit}</span>` : nothing}
    </span>`;
  }

  private chosen(draft: Draft, entry: SheetEntry, id: string): TemplateResult {
    const shown = entryShown(draft, entry);
    const take = (event: Event): void =>
      typeEntry(this.store, entry, String(entry.words[(event.target as HTMLSelectElement).selectedIndex]));
    return html`<span class="entry is-choice">
      <select id=${id} @change=${take}>
        ${entry.words.map(
          (word) =>
            html`<option .selected=${live(String(word) === shown)}>${choiceText(entry.key, word, entry.unit)}</option>`,
        )}
      </select>
    </span>`;
  }

  private entry(draft: Draft, entry: SheetEntry, problems: ReadonlyMap<string, string>): TemplateResult {
    const id = fieldId(`sheet.${entry.key}`);
    const problem = problems.get(entry.place);
    const isChoice = entry.words.length > 0;
    return html`<div class="field ${isChoice ? 'is-choice' : 'is-number'} ${problem ? 'is-wrong' : ''}">
      <label for=${id}>${entry.label}${entry.mayBeEmpty ? ', if known' : nothing}</label>
      ${isChoice ? this.chosen(draft, entry, id) : this.typed(draft, entry, id, problem !== undefined)}
      ${problem ? html`<p class="sentence" id="${id}-why">${problem}</p>` : nothing}
    </div>`;
  }

  private rail(strip: AskedStrip, rail: Rail): TemplateResult {
    return html`<tr class=${rail.taken ? 'is-least' : ''}>
      <th scope="row">${rail.drop ? percent(rail.drop.ratio, 0) : ''}</th>
      <td class="is-figure">${milliohms(rail.rail_mohm_per_m)}</td>
      <td class="is-figure">${quantity(rail.widthOf2oz_mm, 'mm', 1)}</td>
      <td class="is-act">${applyButton(this.store, sheetProposal(strip, rail.rail_mohm_per_m))}</td>
    </tr>`;
  }

  private choice(strip: AskedStrip): TemplateResult {
    return html`<table class="small-table">
      <caption>
        What the longest run may rest on
      </caption>
      <thead>
        <tr>
          <th scope="col">Drop</th>
          <th scope="col" class="is-figure">Each rail</th>
          <th scope="col" class="is-figure">As 2 oz copper</th>
          <th scope="col"><span class="unseen">Apply</span></th>
        </tr>
      </thead>
      <tbody>
        ${strip.rails.map((rail) => this.rail(strip, rail))}
      </tbody>
    </table>`;
  }

  private proof({ drop, rail_mohm_per_m }: Rail): TemplateResult | typeof nothing {
    if (!drop) return nothing;
    return html`<p class="remark">
      Checked by calculating the length again with ${milliohms(rail_mohm_per_m)} in each rail: it drops
      ${quantity(drop.reached_V, 'V', 3)}; asked for was ${quantity(drop.asked_V, 'V', 3)}.
    </p>`;
  }

  private found(strip: AskedStrip): TemplateResult {
    const taken = strip.rails.find((rail) => rail.taken)!;
    const isOne = strip.rails.length === 1;
    return html`<p class="with-apply">
        <span>
          <strong>Each rail has ${milliohms(taken.rail_mohm_per_m)} at 20 °C</strong>, as much as
          ${quantity(taken.widthOf2oz_mm, 'mm', 1)} of 2 oz copper.
        </span>
        ${isOne ? applyButton(this.store, sheetProposal(strip, taken.rail_mohm_per_m)) : nothing}
      </p>
      ${isOne ? nothing : this.choice(strip)} ${remarkList(strip.remarks)} ${this.proof(taken)}
      <h4>What was taken from what</h4>
      <ul class="taken-from">
        ${strip.basis.map(({ from, sentence }) => html`<li>${sentence} <span class="from">${from}</span></li>`)}
      </ul>
      <p class="remark">
        Applying sets these figures only. Light, colour, width and highest temperature stay as the job has them: enter
        yours under “Every figure of the strip”.
      </p>`;
  }

  private answer(isOld: boolean): TemplateResult | typeof nothing {
    const { reply } = this;
    if (!reply) return nothing;
    if (reply.kind === 'answer') {
      return html`<div class="asked-answer ${isOld ? 'is-old' : ''}">${this.found(reply.value)}</div>`;
    }
    const issues = reply.kind === 'refused' ? reply.issues.map(({ sentence }) => sentence) : [];
    const sentences = issues.length > 0 ? issues : [reply.detail];
    return html`<div class="message is-${reply.kind}" role="alert">
      <h4>${reply.kind === 'refused' ? 'No strip fits these figures' : 'No answer'}</h4>
      ${sentences.map((sentence) => html`<p>${sentence}</p>`)}
    </div>`;
  }

  private form(draft: Draft): TemplateResult {
    const read = readSheet(draft);
    const problems = this.isTried && !read.ok ? read.problems : new Map<string, string>();
    const { strip, rails } = entriesOf(draft);
    const isOld = this.reply !== undefined && !(read.ok && JSON.stringify(read.sheet) === this.asked);
    const source = railSource(draft);
    return html`<form novalidate @submit=${(event: Event) => this.work(event)}>
        ${strip.map((entry) => this.entry(draft, entry, problems))}
        ${radios('What tells about its copper', railSources, source, (way) => chooseRailSource(this.store, way))}
        ${rails.map((entry) => this.entry(draft, entry, problems))}
        <button type="submit">Work it out</button>
      </form>
      <p class="hint" role="status">${this.standing(isOld)}</p>
      ${this.answer(isOld)}`;
  }

  /** Where the answer stands, in words that are read out when they change. */
  private standing(isOld: boolean): string {
    if (this.isAsking) return 'Working it out…';
    if (isOld) return 'The figures above have changed since: work it out again.';
    return this.reply?.kind === 'answer' ? 'Worked out from the figures above.' : '';
  }

  override render(): TemplateResult | typeof nothing {
    const { draft } = this.store.get();
    if (!draft) return nothing;
    const channelCount = channelsOf(draft.job).length;
    if (channelCount > 1) {
      return html`<p class="hint">
        The strip of this job has ${channelCount} channels on one positive rail: neither a longest run nor two volts tell
        its rails apart. Enter the resistance of each under “Every figure of the strip”, or choose a typical strip of one
        colour above.
      </p>`;
    }
    return html`<p class="hint">
        For strip of one colour that is not in the list. Sheets leave out the resistance of the copper, which decides the
        drop: it is worked out from the longest run, from two measured volts (best), or from the copper itself.
      </p>
      ${this.form(draft)}`;
  }
}

customElements.define('strip-sheet', StripSheetPart);
