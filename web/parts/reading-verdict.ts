import { html, nothing, type TemplateResult } from 'lit';
import type { JudgedReadings } from '../../src/answer/asked.ts';
import type { Schedule } from '../../src/answer/schedules.ts';
import type { Job } from '../../src/job/job.ts';
import type { Reply } from '../api.ts';
import { askVerdict } from '../api-papers.ts';
import { counted, percent, quantity } from '../format.ts';
import { jumpTo } from '../state/jump.ts';
import {
  clearReadings,
  type ReadingBox,
  readingBoxes,
  type TickBox,
  tickBoxes,
  writtenRows,
} from '../state/readings.ts';
import { isSameWork, stillness } from '../state/recompute.ts';
import type { Frozen, Measured, State } from '../state/store.ts';
import { liveTooEarly } from '../state/test-order.ts';
import { statusShape } from './finding-list.ts';
import './issued-readings.ts';
import { StoreElement } from './store-element.ts';

type Suspect = JudgedReadings['suspects'][number];

const verdicts = {
  'as predicted': { status: 'passes', title: 'As predicted' },
  found: { status: 'fails', title: 'Found' },
  'cannot tell': { status: 'watch', title: 'Cannot tell' },
} as const;

function suspectText({ kind, name, ohm, ohmSpread, posterior }: Suspect): string {
  const share = posterior > 0.995 ? '' : `, probability ${percent(posterior, 0)}`;
  if (kind === 'none') return `nothing wrong${share}`;
  if (kind === 'open circuit') return `open circuit at ${name}${share}`;
  if (ohm === null) {
    const why = kind === 'unfed run' ? 'draws nothing because no volts reach it' : 'draws nothing';
    return `run ${name} ${why}${share}`;
  }
  const spread = ohmSpread === null ? '' : `, give or take ${quantity(2 * ohmSpread, 'ohm', 2)}`;
  return `${quantity(ohm, 'ohm', 2)} too much at ${name}${spread}${share}`;
}

/** How many steps are ticked off, and how many links are still to be taken out before anything is energised. */
function ticksSaid(ticks: readonly TickBox[]): string {
  const of = (written: TickBox['written']) => ticks.filter((tick) => tick.written === written);
  const count = (all: readonly TickBox[]): string =>
    `${all.filter(({ isTicked }) => isTicked).length} of ${all.length}`;
  const links = of('linkOut');
  const out = links.length === 0 ? '' : `, ${count(links)} links ticked out`;
  return `${count(of('done'))} steps done${out}.`;
}

/** What all readings of the test sheet say together, and where to look. */
export class ReadingVerdict extends StoreElement {
  static override properties = { reply: { state: true }, isAsking: { state: true } };
  declare reply: Exclude<Reply<JudgedReadings>, { kind: 'withdrawn' }> | undefined;
  declare isAsking: boolean;
  private asked: { readonly job: Job; readonly text: string } | undefined;
  private controller = new AbortController();

  constructor() {
    super();
    this.isAsking = false;
  }

  protected override shows({ answer, draft, measured }: State): readonly unknown[] {
    return [answer?.job, draft?.readings, measured];
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.controller.abort();
    this.asked = undefined;
  }

  private sheet(): Schedule | undefined {
    return this.store.get().answer?.sizing.schedules.find(({ id }) => id === 'test-sheet');
  }

  private boxes(): ReadingBox[] {
    const sheet = this.sheet();
    return sheet ? readingBoxes(sheet, this.store.get().draft?.readings ?? {}) : [];
  }

  /** Asks once nobody has typed for a moment; a newer question withdraws the one before. */
  private async follow(): Promise<void> {
    const { answer, frozen } = this.store.get();
    // All of them together are judged by the engine that gave the bands, or not at all.
    if (frozen && !frozen.isOfThisEngine) return;
    const job = answer?.job;
    const rows = writtenRows(this.boxes());
    const text = JSON.stringify(rows);
    if (!job || (isSameWork(this.asked?.job, job) && this.asked?.text === text)) return;
    this.asked = { job, text };
    this.controller.abort();
    this.controller = new AbortController();
    const { signal } = this.controller;
    this.isAsking = rows.length > 0;
    if (rows.length === 0) this.reply = undefined;
    if (rows.length === 0 || !(await stillness(signal))) return;
    const reply = await askVerdict(job, rows, signal);
    if (signal.aborted || reply.kind === 'withdrawn') return;
    this.isAsking = false;
    this.reply = reply;
  }

  protected override willUpdate(): void {
    void this.follow();
  }

  /** Where there is only one, the sentence has said it already. */
  private suspect(suspect: Suspect, isOnly: boolean): TemplateResult {
    const leads = Object.keys(suspect.place).length > 0;
    return html`<li>
      ${isOnly ? nothing : suspectText(suspect)}
      ${
        leads
          ? html`<button
              type="button"
              class="plain"
              aria-label="Show on the drawing: ${suspect.name}"
              @click=${() => jumpTo(this.store, suspect.place)}
            >
              Show on the drawing
            </button>`
          : nothing
      }
    </li>`;
  }

  private verdict(): TemplateResult | typeof nothing {
    const { reply } = this;
    if (!reply) return nothing;
    if (reply.kind !== 'answer') {
      const issues = reply.kind === 'refused' ? reply.issues.map(({ sentence }) => sentence) : [];
      const sentences = issues.length > 0 ? issues : [reply.detail];
      return html`${sentences.slice(0, 6).map((sentence) => html`<p class="sentence">${sentence}</p>`)}`;
    }
    const { verdict, sentence, suspects } = reply.value;
    const { status, title } = verdicts[verdict];
    return html`<div class="finding is-${status} ${this.isAsking ? 'is-old' : ''}">
      <h3>${statusShape(status)}<span>${title}</span></h3>
      <p>${sentence}</p>
      <ul class="suspects">
        ${suspects.map((suspect) => this.suspect(suspect, suspects.length === 1))}
      </ul>
    </div>`;
  }

  private counts(boxes: readonly ReadingBox[]): string {
    const of = (judged: ReadingBox['judged']): number => boxes.filter((box) => box.judged === judged).length;
    const typed = boxes.length - of('empty');
    const parts = [
      [of('in band'), 'in their bands'],
      [of('below band'), 'below'],
      [of('above band'), 'above'],
      [of('open circuit'), 'open'],
      [of('not a reading'), 'not understood'],
    ] as const;
    const shares = parts.filter(([n]) => n > 0).map(([n, what]) => `${n} ${what}`);
    return `${typed} of ${counted(boxes.length, 'box', 'boxes')} filled in${shares.length > 0 ? `: ${shares.join(', ')}` : ''}.`;
  }

  /** Where the readings are, and what is to be decided about them. */
  private foot(frozen: Frozen | undefined, measured: Measured | undefined): TemplateResult {
    if (!frozen || !measured)
      return html`<p class="hint">
        This is a draft: issue it first, since readings belong to what was issued. What is typed here stays in this browser
        only, and can be taken over onto the issued test sheet.
      </p>`;
    return html`${frozen.isOfThisEngine ? nothing : html`<p class="hint">All together they can be held against the wiring by engine ${frozen.entry.engine} only, which gave these bands.</p>`}
      <issued-readings .store=${this.store}></issued-readings>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { frozen, measured } = this.store.get();
    if (frozen && !measured)
      return html`<p class="sentence">The readings of this revision could not be had: go back and look at it again.</p>`;
    const boxes = this.boxes();
    const sheet = this.sheet();
    const ticks = sheet ? tickBoxes(sheet, this.store.get().draft?.readings ?? {}) : [];
    const here = new Set([...boxes, ...ticks].map(({ row, written }) => `${row} ${written}`));
    const typed = Object.keys(this.store.get().draft?.readings ?? {});
    const strays = typed.filter((key) => !here.has(key));
    if (typed.length === 0) {
      return html`<p class="remark">
          Type what the meter showed into the boxes: each is held against its band, and all together against the wiring.
        </p>
        ${this.foot(frozen, measured)}`;
    }
    const early = sheet && liveTooEarly(sheet, boxes, this.store.get().draft?.readings ?? {});
    return html`<div class="readings">
      ${early === undefined ? nothing : html`<p class="message is-refused too-early" role="alert">${early}</p>`}
      <div role="status">
        <p>${this.counts(boxes)} ${this.isAsking ? 'Holding them against the wiring…' : ''}</p>
        <p>${ticksSaid(ticks)}</p>
        ${this.verdict()}
      </div>
      ${strays.length > 0 ? html`<p class="hint">${counted(strays.length, 'reading belongs', 'readings belong')} to rows this sheet does not have.</p>` : nothing}
      ${this.foot(frozen, measured)}
      ${frozen ? nothing : html`<button type="button" @click=${() => clearReadings(this.store)}>Clear the readings</button>`}
    </div>`;
  }
}

customElements.define('reading-verdict', ReadingVerdict);
