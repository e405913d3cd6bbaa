import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import type { SlotsRead } from '../../server/contract/papers.ts';
import type { Job } from '../../src/job/job.ts';
import type { Reply } from '../api.ts';
import { askSlotsOfDxf, askSlotsOfTable } from '../api-papers.ts';
import { counted, quantity, readNumber } from '../format.ts';
import { takeSlots } from '../state/edit.ts';
import type { State } from '../state/store.ts';
import { StoreElement } from './store-element.ts';

const units = ['mm', 'cm', 'dm', 'm', 'in', 'ft'] as const;

/** The most the service takes, in bytes. */
const largest_bytes = 8 * 1024 * 1024;

/** A drawing that was chosen, and how it is to be read. */
interface Drawing {
  readonly name: string;
  readonly text: string;
  readonly layer?: string;
  /** Given by the reader, where the drawing does not say. */
  readonly unit?: string;
  readonly cornerX: string;
  readonly cornerY: string;
}

interface Trouble {
  readonly sentences: readonly string[];
  readonly codes: readonly string[];
}

const troubleOf = (reply: Exclude<Reply<SlotsRead>, { kind: 'answer' | 'withdrawn' }>): Trouble => {
  const issues = reply.kind === 'refused' ? reply.issues : [];
  return {
    sentences: issues.length > 0 ? issues.map(({ sentence }) => sentence) : [reply.detail],
    codes: issues.map(({ code }) => code),
  };
};

/** What was read, as lines on the panel, so that the maker sees whether it is what was drawn. */
function sketch({ segments }: SlotsRead, { panel }: Job): SVGTemplateResult | typeof nothing {
  if (segments.length === 0) return nothing;
  const right = Math.max(panel.width_mm, ...segments.flatMap(({ x0_mm, x1_mm }) => [x0_mm, x1_mm]));
  const top = Math.max(panel.height_mm, ...segments.flatMap(({ y0_mm, y1_mm }) => [y0_mm, y1_mm]));
  const path = segments.map((s) => `M${s.x0_mm} ${top - s.y0_mm}L${s.x1_mm} ${top - s.y1_mm}`).join('');
  const edge = 0.02 * Math.max(right, top);
  return svg`<svg
    class="read-sketch"
    viewBox="${-edge} ${-edge} ${right + 2 * edge} ${top + 2 * edge}"
    role="img"
    aria-label="The panel with the slots that were read"
  >
    <rect y=${top - panel.height_mm} width=${panel.width_mm} height=${panel.height_mm}></rect>
    <path d=${path}></path>
  </svg>`;
}

const isOutside = ({ segments }: SlotsRead, { panel }: Job): number =>
  segments.filter(
    (s) => Math.max(s.x0_mm, s.x1_mm) > panel.width_mm || Math.max(s.y0_mm, s.y1_mm) > panel.height_mm,
  ).length;

/** Slots from a DXF or a pasted table: looked at first, taken over when the maker says so. */
export class DrawingIn extends StoreElement {
  static override properties = {
    drawing: { state: true },
    table: { state: true },
    read: { state: true },
    trouble: { state: true },
    isBusy: { state: true },
  };
  declare drawing: Drawing | undefined;
  declare table: string;
  declare read: SlotsRead | undefined;
  declare trouble: Trouble | undefined;
  declare isBusy: boolean;

  constructor() {
    super();
    this.table = '';
    this.isBusy = false;
  }

  protected override shows({ draft }: State): readonly unknown[] {
    return [draft?.job];
  }

  private async take(asked: Promise<Reply<SlotsRead>>): Promise<void> {
    this.isBusy = true;
    this.trouble = undefined;
    const reply = await asked;
    this.isBusy = false;
    if (reply.kind === 'answer') this.read = reply.value;
    else if (reply.kind !== 'withdrawn') {
      this.trouble = troubleOf(reply);
      // The layers stay, so that another can be chosen.
      if (this.read) this.read = { ...this.read, layer: null, segments: [], ignored: [], notes: [] };
    }
  }

  private readDrawing(change: Partial<Drawing>): void {
    if (!this.drawing) return;
    this.drawing = { ...this.drawing, ...change };
    const { text, layer, unit, cornerX, cornerY } = this.drawing;
    const corner = { cornerX_mm: readNumber(cornerX), cornerY_mm: readNumber(cornerY) };
    if (corner.cornerX_mm === undefined || corner.cornerY_mm === undefined) {
      this.trouble = {
        sentences: ['The corner is two numbers in mm, such as 0 and 0.'],
        codes: ['outside-range'],
      };
      return;
    }
    const { cornerX_mm, cornerY_mm } = corner;
    void this.take(askSlotsOfDxf(text, { layer, unit, cornerX_mm, cornerY_mm }));
  }

  private async choose(file: File): Promise<void> {
    this.read = undefined;
    if (file.size > largest_bytes) {
      const sentences = [
        'A drawing may have at most 8 MB: save only the layer with the slots as a drawing of its own.',
      ];
      this.trouble = { sentences, codes: [] };
      return;
    }
    this.drawing = { name: file.name, text: await file.text(), cornerX: '0', cornerY: '0' };
    this.readDrawing({});
  }

  private openPicker(): void {
    const picker = document.createElement('input');
    picker.type = 'file';
    picker.accept = '.dxf';
    picker.addEventListener('change', () => {
      const [file] = picker.files ?? [];
      if (file) void this.choose(file);
    });
    picker.click();
  }

  private readTable(): void {
    this.drawing = undefined;
    this.read = undefined;
    void this.take(askSlotsOfTable(this.table));
  }

  private unitChoice(): TemplateResult | typeof nothing {
    const isAsked = this.trouble?.codes.includes('units-missing') || this.drawing?.unit !== undefined;
    if (!this.drawing || !isAsked) return nothing;
    const take = (event: Event): void => {
      const { value } = event.target as HTMLSelectElement;
      if (value !== '') this.readDrawing({ unit: value });
    };
    return html`<div class="field">
      <label for="dxf-unit">One unit of the drawing is</label>
      <span class="entry is-choice">
        <select id="dxf-unit" @change=${take}>
          <option value="">choose</option>
          ${units.map((unit) => html`<option value=${unit} ?selected=${unit === this.drawing?.unit}>1 ${unit}</option>`)}
        </select>
      </span>
    </div>`;
  }

  private corner(): TemplateResult {
    const box = (key: 'cornerX' | 'cornerY', label: string): TemplateResult =>
      html`<div class="field">
        <label for="dxf-${key}">${label}</label>
        <span class="entry is-number">
          <input
            id="dxf-${key}"
            type="text"
            inputmode="decimal"
            autocomplete="off"
            .value=${this.drawing?.[key] ?? '0'}
            @change=${(event: Event) => this.readDrawing({ [key]: (event.target as HTMLInputElement).value })}
          /><span class="unit">mm</span>
        </span>
      </div>`;
    return html`${box('cornerX', 'Panel’s lower left corner, from the left')} ${box('cornerY', 'The same corner, from below')}`;
  }

  private layers({ layers }: SlotsRead): TemplateResult {
    const inside = (layer: SlotsRead['layers'][number]): string => {
      const parts = [
        [layer.lineCount, 'line'],
        [layer.polylineCount, 'polyline'],
        [layer.otherCount, 'other thing'],
      ] as const;
      return parts
        .filter(([n]) => n > 0)
        .map(([n, noun]) => counted(n, noun))
        .join(', ');
    };
    return html`<fieldset class="layers">
      <legend>Layer with the slots</legend>
      ${layers.map(
        (layer) =>
          html`<label>
            <input
              type="radio"
              name="dxf-layer"
              .checked=${layer.name === this.drawing?.layer}
              @change=${() => this.readDrawing({ layer: layer.name })}
            />
            <span>${layer.name}<small>${inside(layer)}</small></span>
          </label>`,
      )}
    </fieldset>`;
  }

  private leftOut({ ignored }: SlotsRead): TemplateResult {
    if (ignored.length === 0) return html`<p class="hint">Nothing was left out.</p>`;
    const total = ignored.reduce((sum, { count }) => sum + count, 0);
    return html`<details class="fold">
      <summary>${counted(total, 'thing')} left out, with the reasons</summary>
      <ul class="ignored">
        ${ignored.map(
          ({ what, layer, why, count }) =>
            html`<li>${count > 1 ? `${count} × ` : ''}${what}${layer === '' ? '' : ` on layer ${layer}`}: ${why}.</li>`,
        )}
      </ul>
    </details>`;
  }

  private result(read: SlotsRead, job: Job): TemplateResult | typeof nothing {
    const { segments, width_mm, notes } = read;
    if (segments.length === 0) return nothing;
    const outside = isOutside(read, job);
    const source = read.layer === null ? 'the table' : `layer ${read.layer}, drawn in ${read.unit}`;
    return html`<div class="read-slots">
      <p>${counted(segments.length, 'slot')} read from ${source}.</p>
      ${sketch(read, job)}
      <p>
        ${
          width_mm === null
            ? html`${segments.some((each) => each.width_mm !== undefined) ? 'Slots that were drawn with a width keep it; for the others the slot width' : 'No single width was drawn; the slot width'} stays ${quantity(job.slots.width_mm, 'mm')}.`
            : html`All are drawn ${quantity(width_mm, 'mm')} wide; the slot width, now
              ${quantity(job.slots.width_mm, 'mm')}, becomes that.`
        }
        ${outside > 0 ? `${counted(outside, 'slot reaches', 'slots reach')} beyond the panel as it is set now.` : ''}
      </p>
      ${notes.map((note) => html`<p class="own-value">${note}</p>`)} ${this.leftOut(read)}
      <button type="button" ?disabled=${this.isBusy} @click=${() => this.takeOver(read)}>
        Take over ${counted(segments.length, 'slot')}
      </button>
    </div>`;
  }

  private takeOver({ segments, width_mm }: SlotsRead): void {
    takeSlots(this.store, segments, width_mm);
    this.drawing = undefined;
    this.read = undefined;
    this.table = '';
  }

  private troubles(): TemplateResult | typeof nothing {
    const { trouble } = this;
    if (!trouble) return nothing;
    return html`<div role="alert">${trouble.sentences.slice(0, 6).map((sentence) => html`<p class="sentence">${sentence}</p>`)}</div>`;
  }

  private ofDrawing(job: Job): TemplateResult | typeof nothing {
    if (!this.drawing) return nothing;
    const { read } = this;
    return html`<p class="hint">“${this.drawing.name}”</p>
      ${this.troubles()} ${this.unitChoice()}
      ${read && read.layers.length > 0 ? html`${this.layers(read)} ${this.corner()} ${this.result(read, job)}` : nothing}`;
  }

  override render(): TemplateResult | typeof nothing {
    const job = this.store.get().draft?.job;
    if (!job) return nothing;
    const ofTable = this.drawing === undefined;
    return html`<details class="fold">
        <summary>From a drawing (DXF)</summary>
        <div class="fold-body">
          <button type="button" ?disabled=${this.isBusy} @click=${() => this.openPicker()}>Choose a DXF file</button>
          ${this.ofDrawing(job)}
        </div>
      </details>
      <details class="fold">
        <summary>From a table of coordinates</summary>
        <div class="fold-body">
          <div class="field is-list">
            <label for="coordinate-table">One slot a row: x0, y0, x1, y1 in mm</label>
            <textarea
              id="coordinate-table"
              rows="5"
              spellcheck="false"
              .value=${this.table}
              @input=${(event: InputEvent) => {
                this.table = (event.target as HTMLTextAreaElement).value;
              }}
            ></textarea>
          </div>
          <button type="button" ?disabled=${this.isBusy || this.table.trim() === ''} @click=${() => this.readTable()}>
            Read the table
          </button>
          ${ofTable ? this.troubles() : nothing} ${ofTable && this.read ? this.result(this.read, job) : nothing}
        </div>
      </details>`;
  }
}

customElements.define('drawing-in', DrawingIn);
