import { html, nothing, type TemplateResult } from 'lit';
import { brightnessBands } from '../../src/answer/brightness.ts';
import { quantity } from '../format.ts';
import { alter } from '../state/edit.ts';
import { openDemo } from '../state/files.ts';
import { type Entry, firstWall, hasNoSlots } from '../state/first-wall.ts';
import type { State } from '../state/store.ts';
import type { ProposePanel } from './propose-panel.ts';
import { StoreElement } from './store-element.ts';

const asked: readonly { entry: Entry; label: string; unit: string; begin: string; help: string }[] = [
  {
    entry: 'width',
    label: 'Width of the wall',
    unit: 'mm',
    begin: '2400',
    help: 'Of the timber, from edge to edge.',
  },
  {
    entry: 'height',
    label: 'Height of the wall',
    unit: 'mm',
    begin: '2400',
    help: 'Of the timber, from its lower edge.',
  },
  {
    entry: 'depth',
    label: 'Depth there is',
    unit: 'mm',
    begin: '45',
    help: 'From what is behind to the face of the timber.',
  },
  {
    entry: 'count',
    label: 'Number of slots',
    unit: '',
    begin: '12',
    help: 'Upright and evenly spaced; other ways are under Slots.',
  },
  { entry: 'slot', label: 'Width of a slot', unit: 'mm', begin: '12', help: 'The opening that is seen.' },
];

const bands = brightnessBands.filter(({ usual_cd_per_m2 }) => usual_cd_per_m2 !== null);

const idOf = (entry: string): string => `first-${entry}`;

/** The first minute with an empty wall: what the piece is, what light is wanted, and then the tool proposes. */
export class FirstMinute extends StoreElement {
  static override properties = { wrong: { state: true }, drawn: { state: true } };
  declare wrong: ReadonlyMap<Entry, string>;
  /** The wall that was drawn from here, as long as nothing was proposed for it. */
  declare drawn: number | undefined;

  constructor() {
    super();
    this.wrong = new Map();
  }

  protected override shows({ draft, frozen, demoJobs }: State): readonly unknown[] {
    return [draft, frozen, demoJobs];
  }

  private draw(event: SubmitEvent): void {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const text = (entry: string): string =>
      (form.elements.namedItem(entry) as HTMLInputElement | HTMLSelectElement).value;
    const texts = Object.fromEntries(asked.map(({ entry }) => [entry, text(entry)])) as Record<Entry, string>;
    const wall = firstWall({ texts, wanted_cd_per_m2: Number(text('wanted')) });
    if (wall instanceof Map) {
      this.wrong = wall;
      const [first] = wall.keys();
      document.getElementById(idOf(first ?? ''))?.focus();
      return;
    }
    this.wrong = new Map();
    alter(this.store, (job) => ({ ...(wall as typeof job), title: job.title }));
    this.drawn = this.store.get().draft?.begun;
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('.propose-now')?.focus());
  }

  private propose(): void {
    this.drawn = undefined;
    void customElements.whenDefined('propose-panel').then(() => {
      document.querySelector<ProposePanel>('propose-panel')?.begin();
    });
  }

  private entry({ entry, label, unit, begin, help }: (typeof asked)[number]): TemplateResult {
    const id = idOf(entry);
    const problem = this.wrong.get(entry);
    return html`<div class="field ${problem ? 'is-wrong' : ''}">
      <label for=${id}>${label}</label>
      <span class="entry is-number">
        <input
          id=${id}
          name=${entry}
          inputmode="decimal"
          autocomplete="off"
          value=${begin}
          aria-invalid=${problem ? 'true' : nothing}
          aria-describedby="${id}-help${problem ? ` ${id}-why` : ''}${unit ? ` ${id}-unit` : ''}"
        />${unit ? html`<span class="unit" id="${id}-unit">${unit}</span>` : nothing}
      </span>
      ${problem ? html`<p class="sentence" id="${id}-why">${problem}</p>` : nothing}
      <p class="hint" id="${id}-help">${help}</p>
    </div>`;
  }

  private wanted(): TemplateResult {
    return html`<div class="field">
      <label for=${idOf('wanted')}>Brightness wanted</label>
      <span class="entry is-choice">
        <select id=${idOf('wanted')} name="wanted" aria-describedby="${idOf('wanted')}-help">
          ${bands.map(
            ({ usual_cd_per_m2, title, word }) =>
              html`<option value=${usual_cd_per_m2!} ?selected=${word === 'room-feature'}>
                ${title}, ${quantity(usual_cd_per_m2!, 'cd/m²')}
              </option>`,
          )}
        </select>
      </span>
      <p class="hint" id="${idOf('wanted')}-help">How a slot strikes you when it is lit; strip, heat and drivers follow from it.</p>
    </div>`;
  }

  private demos(): TemplateResult | typeof nothing {
    const { demoJobs } = this.store.get();
    if (demoJobs.length === 0) return nothing;
    return html`<p class="first-demos">
      Or look at one that is done:
      ${demoJobs.map(
        ({ id, title, summary }) =>
          html`<button type="button" class="plain" title=${summary} @click=${() => void openDemo(this.store, id)}>${title}</button>`,
      )}
    </p>`;
  }

  private beginning(): TemplateResult {
    return html`<section class="first-minute" aria-labelledby="first-title">
      <h2 id="first-title">Begin with the wall</h2>
      <form class="first-form" novalidate @submit=${(event: SubmitEvent) => this.draw(event)}>
        ${asked.map((each) => this.entry(each))} ${this.wanted()}
        <p class="first-tools">
          <button type="submit" class="primary">Draw the wall</button>
          <span class="hint">Everything else begins as it usually is, and each part of it can be changed on the left.</span>
        </p>
      </form>
      ${this.demos()}
    </section>`;
  }

  private proposing(): TemplateResult {
    return html`<section class="first-minute" aria-labelledby="first-title">
      <h2 id="first-title">Now let it propose</h2>
      <p>Strip, feeds, cables and drivers can be chosen for this wall so that every check passes.</p>
      <p class="first-tools">
        <button type="button" class="primary propose-now" @click=${() => this.propose()}>Propose designs for this wall</button>
        <button
          type="button"
          @click=${() => {
            this.drawn = undefined;
          }}
        >
          Go on by hand
        </button>
      </p>
    </section>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { draft, frozen } = this.store.get();
    if (!draft || frozen) return nothing;
    if (hasNoSlots(draft.job)) return this.beginning();
    return this.drawn !== undefined && this.drawn === draft.begun ? this.proposing() : nothing;
  }
}

customElements.define('first-minute', FirstMinute);
