import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { repeat } from 'lit/directives/repeat.js';
import type { Imported, KeptProduct } from '../../server/contract/products.ts';
import { type OwnProduct, type ProductKind, productKinds } from '../../src/job/own-product.ts';
import type { ProductField } from '../../src/job/product-fields.ts';
import { amountText, counted, quantity } from '../format.ts';
import { saveFile } from '../state/files.ts';
import {
  bringFile,
  deleteOwn,
  importText,
  keepOwn,
  kindNames,
  refreshProducts,
  saveTable,
} from '../state/own-products.ts';
import {
  channelCount,
  type FormRead,
  fieldsShown,
  fromTypical,
  nameOf,
  type ProductTexts,
  readForm,
  textsOf,
  typicalEntries,
} from '../state/product-form.ts';
import type { State } from '../state/store.ts';
import { choiceText } from '../words.ts';
import { StoreElement } from './store-element.ts';

/** A product that is being entered: a new one, or one that was seen in the list. */
interface Editing {
  readonly kind: ProductKind;
  readonly seen: KeptProduct | undefined;
  readonly texts: ProductTexts;
  readonly channels: number;
  /** Whether somebody tried to keep it: from then on what is wrong is said. */
  readonly isTried: boolean;
}

const price = ({ kind, data, currency }: OwnProduct): string => {
  const cents = kind === 'cable' ? data.price_cents_per_m : data.price_cents;
  return cents === null ? '\u2013' : `${amountText(cents)} ${currency}`.trim();
};

/** What tells one product of a kind from another. */
function figures(product: OwnProduct): string {
  const { kind, data } = product;
  if (kind === 'strip') {
    const watts = data.channels.reduce((sum, channel) => sum + channel.watts_per_m, 0);
    return `${quantity(data.nominal_V, 'V', 0)}, ${quantity(watts, 'W/m')}`;
  }
  if (kind === 'driver') return `${quantity(data.output_V, 'V', 0)}, ${quantity(data.rated_W, 'W')}`;
  if (kind === 'dimmer') return `${counted(data.channelCount, 'channel')}, ${quantity(data.channel_A, 'A')}`;
  if (kind === 'cable') return `${quantity(data.area_mm2, 'mm2')}, cores ${data.coreCounts.join(' ')}`;
  if (kind === 'profile')
    return `${quantity(data.inside_mm, 'mm')} wide, ${quantity(data.height_mm, 'mm')} high inside`;
  return data.look;
}

const idOf = (name: string): string => `product-${name.replaceAll(/[^\w]+/g, '-')}`;

/** The workshop's own products: a list by kind, one at a time to be entered, and tables that go out and come in. */
export class OwnProducts extends StoreElement {
  static override properties = {
    kind: { state: true },
    search: { state: true },
    editing: { state: true },
    brought: { state: true },
    mayReplace: { state: true },
    isBusy: { state: true },
  };
  declare kind: ProductKind;
  declare search: string;
  declare editing: Editing | undefined;
  declare brought: { readonly name: string; readonly imported: Imported } | undefined;
  declare mayReplace: boolean;
  declare isBusy: boolean;

  constructor() {
    super();
    this.kind = 'strip';
    this.search = '';
    this.mayReplace = false;
    this.isBusy = false;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    void refreshProducts(this.store);
  }

  protected override shows({ ownProducts }: State): readonly unknown[] {
    return [ownProducts];
  }

  private async while(task: () => Promise<void>): Promise<void> {
    if (this.isBusy) return;
    this.isBusy = true;
    try {
      await task();
    } finally {
      this.isBusy = false;
    }
  }

  private focusSoon(selector: string): void {
    void this.updateComplete.then(() => this.querySelector<HTMLElement>(selector)?.focus());
  }

  private begin(texts: ProductTexts, seen?: KeptProduct): void {
    const { kind } = this;
    this.editing = { kind, seen, texts, channels: channelCount(texts), isTried: false };
    this.focusSoon(`#${idOf('data.name')}`);
  }

  private type(name: string, text: string): void {
    const { editing } = this;
    if (editing) this.editing = { ...editing, texts: { ...editing.texts, [name]: text } };
  }

  private async keep(event: Event): Promise<void> {
    event.preventDefault();
    const { editing } = this;
    if (!editing) return;
    const read = readForm(editing.kind, editing.texts, editing.channels);
    if (!read.ok) {
      this.editing = { ...editing, isTried: true };
      return this.focusSoon('[aria-invalid="true"]');
    }
    await this.while(async () => {
      if (!(await keepOwn(this.store, read.product, editing.seen))) return;
      this.editing = undefined;
      this.focusSoon('#own-products-title');
    });
  }

  private entry(field: ProductField, isWrong: boolean): TemplateResult {
    const name = nameOf(field);
    const shown = this.editing!.texts[name] ?? '';
    const id = idOf(name);
    const given = field.kind === 'yes-no' ? ['yes', 'no'] : field.words;
    const words = given.length > 0 && field.isNullable ? ['', ...given] : given;
    if (words.length > 0) {
      const key = String(field.path.at(-1));
      return html`<span class="entry is-choice">
        <select id=${id} @change=${(event: Event) => this.type(name, String(words[(event.target as HTMLSelectElement).selectedIndex]))}>
          ${words.map((word) => html`<option .selected=${live(String(word) === shown)}>${word === '' ? 'not given' : choiceText(key, word, field.unit)}</option>`)}
        </select>
      </span>`;
    }
    const isNumber = ['number', 'ratio', 'money'].includes(field.kind);
    const described = [field.unit ? `${id}-unit` : '', isWrong ? `${id}-why` : ''].join(' ').trim();
    return html`<span class="entry ${isNumber ? 'is-number' : 'is-text'}">
      <input
        id=${id}
        type=${field.path[0] === 'dated' ? 'date' : 'text'}
        inputmode=${isNumber ? 'decimal' : 'text'}
        autocomplete="off"
        spellcheck="false"
        placeholder=${field.isNullable ? 'not given' : nothing}
        aria-invalid=${isWrong ? 'true' : nothing}
        aria-describedby=${described || nothing}
        .value=${live(shown)}
        @input=${(event: InputEvent) => this.type(name, (event.target as HTMLInputElement).value)}
      />${field.unit ? html`<span class="unit" id="${id}-unit">${field.unit}</span>` : nothing}
    </span>`;
  }

  private field(field: ProductField, read: FormRead): TemplateResult {
    const name = nameOf(field);
    const problem = this.editing!.isTried && !read.ok ? read.problems.get(name) : undefined;
    return html`<div class="field is-${field.kind} ${problem ? 'is-wrong' : ''}">
      <label for=${idOf(name)}>${field.label}</label>
      ${this.entry(field, problem !== undefined)}
      ${problem ? html`<p class="sentence" id="${idOf(name)}-why">${problem}</p>` : nothing}
    </div>`;
  }

  private beginFrom(kind: ProductKind): TemplateResult {
    const entries = typicalEntries(kind);
    const take = (event: Event): void => {
      const { editing } = this;
      const id = entries[(event.target as HTMLSelectElement).selectedIndex]!.id;
      if (!editing) return;
      const texts = { ...fromTypical(kind, id), 'data.name': editing.texts['data.name'] ?? '' };
      this.editing = { ...editing, texts, channels: channelCount(texts) };
    };
    return html`<div class="field is-product">
      <label for="product-typical">Begin with the values of</label>
      <span class="entry is-choice">
        <select id="product-typical" aria-describedby="product-typical-help" @change=${take}>
          ${entries.map(({ name }) => html`<option>${name}</option>`)}
        </select>
      </span>
      <p class="hint" id="product-typical-help">Typical of the trade, for what your data sheet does not say. Changing it here takes back what was entered below, but for the name.</p>
    </div>`;
  }

  private channelButtons({ channels, kind }: Editing): TemplateResult | typeof nothing {
    if (kind !== 'strip') return nothing;
    const set = (count: number): void => {
      if (this.editing) this.editing = { ...this.editing, channels: count };
    };
    return html`<div class="row-tools">
      ${channels < 4 ? html`<button type="button" @click=${() => set(channels + 1)}>One more channel</button>` : nothing}
      ${channels > 1 ? html`<button type="button" @click=${() => set(channels - 1)}>Without the last channel</button>` : nothing}
    </div>`;
  }

  private form(editing: Editing): TemplateResult {
    const { kind, seen, texts, channels } = editing;
    const read = readForm(kind, texts, channels);
    const [one] = kindNames[kind];
    const wrong = editing.isTried && !read.ok ? read.problems.size : 0;
    const fields = fieldsShown(kind, channels);
    const isAbout = ({ path }: ProductField): boolean =>
      path[0] !== 'data' || path[1] === 'name' || String(path[1]).startsWith('price');
    return html`<form class="product-form" aria-label=${seen ? `Change a ${one}` : `A new ${one}`} @submit=${(event: Event) => void this.keep(event)}>
      <h4>${seen ? `Change “${seen.product.data.name}”` : `A new ${one}`}</h4>
      ${seen ? nothing : this.beginFrom(kind)}
      <div class="product-fields">
        ${fields.filter((field) => isAbout(field)).map((field) => this.field(field, read))}
      </div>
      <h5>What its data sheet says</h5>
      <div class="product-fields">
        ${fields.filter((field) => !isAbout(field)).map((field) => this.field(field, read))}
      </div>
      ${this.channelButtons(editing)}
      ${wrong > 0 ? html`<p class="sentence" role="alert">${counted(wrong, 'entry has', 'entries have')} to be put right before it can be kept.</p>` : nothing}
      <div class="row-tools">
        <button type="submit" ?disabled=${this.isBusy}>${seen ? 'Keep the change' : `Keep this ${one}`}</button>
        <button
          type="button"
          @click=${() => {
            this.editing = undefined;
            this.focusSoon('#own-products-title');
          }}
        >
          Leave it
        </button>
      </div>
    </form>`;
  }

  private row(kept: KeptProduct): TemplateResult {
    const { product } = kept;
    const { name } = product.data;
    const button = (text: string, act: () => void): TemplateResult =>
      html`<button type="button" aria-label="${text}: ${name}" ?disabled=${this.isBusy} @click=${act}>${text}</button>`;
    const copy = { ...textsOf(product), 'data.name': `${name} (copy)`.slice(0, 80) };
    return html`<tr>
      <th scope="row">${name}</th>
      <td data-label="Figures">${figures(product)}</td>
      <td data-label="Price">${price(product)}</td>
      <td data-label="In stock">${product.stock ?? '\u2013'}</td>
      <td data-label="Source">${product.source || '\u2013'}</td>
      <td data-label="Date">${product.dated || '\u2013'}</td>
      <td class="tools-cell">
        <div class="row-tools">
          ${button('Change', () => this.begin(textsOf(product), kept))}
          ${button('Copy', () => this.begin(copy))}
          ${button('Delete', () => void this.while(() => deleteOwn(this.store, kept)))}
        </div>
      </td>
    </tr>`;
  }

  private list(products: readonly KeptProduct[]): TemplateResult {
    const [, many] = kindNames[this.kind];
    const ofKind = products.filter(({ product }) => product.kind === this.kind);
    const words = this.search
      .toLowerCase()
      .split(/\s+/)
      .filter((word) => word !== '');
    const found = ofKind.filter(({ product }) => {
      const text = `${product.data.name} ${figures(product)} ${product.source}`.toLowerCase();
      return words.every((word) => text.includes(word));
    });
    if (ofKind.length === 0)
      return html`<p class="hint">No ${many.toLowerCase()} of your own yet. Add one, or bring in a table: the template has a column for every figure.</p>`;
    return html`<p class="hint" role="status">${found.length === ofKind.length ? counted(ofKind.length, 'product') : `${counted(found.length, 'product')} of ${ofKind.length}`}</p>
      <table class="register products">
        <caption class="unseen">${many} of this workshop</caption>
        <thead>
          <tr>
            ${['Name', 'Figures', 'Price', 'In stock', 'Source', 'Date'].map((text) => html`<th scope="col">${text}</th>`)}
            <th scope="col"><span class="unseen">What to do with it</span></th>
          </tr>
        </thead>
        <tbody>
          ${repeat(
            found,
            ({ product }) => product.id,
            (kept) => this.row(kept),
          )}
        </tbody>
      </table>`;
  }

  private bring(event: Event): void {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (!file) return;
    const { mayReplace } = this;
    void this.while(async () => {
      const imported = await bringFile(this.store, this.kind, { file, mayReplace });
      this.brought = imported && { name: file.name, imported };
      input.value = '';
    });
  }

  private report(): TemplateResult | typeof nothing {
    if (!this.brought) return nothing;
    const { name, imported } = this.brought;
    const { problems, problemCount, notTaken } = imported;
    const save = (): void =>
      saveFile(`not-taken-${name}`, new Blob([notTaken ?? ''], { type: 'text/csv;charset=utf-8' }));
    return html`<div class="brought" role="status">
      <p><strong>“${name}”:</strong> ${importText(imported)}</p>
      ${
        problems.length === 0
          ? nothing
          : html`<ul>
              ${problems.slice(0, 50).map(({ row, column, sentence }) => html`<li>Row ${row}${column === null ? '' : `, ${column}`}: ${sentence}</li>`)}
            </ul>
            ${problemCount > 50 ? html`<p class="hint">And ${problemCount - 50} more, each with its row in the table below.</p>` : nothing}`
      }
      <div class="row-tools">
        ${notTaken === null ? nothing : html`<button type="button" @click=${save}>Save the rows that were not taken</button>`}
        <button
          type="button"
          @click=${() => {
            this.brought = undefined;
          }}
        >
          Close this report
        </button>
      </div>
    </div>`;
  }

  private tools(): TemplateResult {
    const { kind } = this;
    const [one] = kindNames[kind];
    return html`<div class="product-tools">
        <button type="button" ?disabled=${this.isBusy} @click=${() => this.begin(fromTypical(kind, ''))}>Add a ${one}</button>
        <button type="button" @click=${() => void saveTable(this.store, kind, 'products')}>Save as a table</button>
        <button type="button" @click=${() => void saveTable(this.store, kind, 'template')}>Save an empty table</button>
      </div>
      <div class="product-tools">
        <label for="own-table">Bring in a table (CSV)</label>
        <input id="own-table" type="file" accept=".csv,.txt,text/csv,text/plain" ?disabled=${this.isBusy} @change=${(event: Event) => this.bring(event)} />
        <label class="tick"
          ><input
            type="checkbox"
            .checked=${live(this.mayReplace)}
            @change=${(event: Event) => {
              this.mayReplace = (event.target as HTMLInputElement).checked;
            }}
          />
          Replace what is here under the same name</label
        >
      </div>`;
  }

  override render(): TemplateResult {
    const { products, trouble } = this.store.get().ownProducts;
    const counts = (kind: ProductKind): number =>
      products.filter(({ product }) => product.kind === kind).length;
    return html`<section class="own-products" aria-labelledby="own-products-title">
      <h3 id="own-products-title" tabindex="-1">Own products</h3>
      <p class="hint">
        What this workshop buys, with its price, source and date. The lists of the job offer them beside typical ones; a job takes a copy of what it uses.
      </p>
      ${trouble === undefined ? nothing : html`<p class="sentence">They cannot be shown. ${trouble}</p>`}
      <div class="product-tools">
        <label for="own-kind">Kind</label>
        <select
          id="own-kind"
          ?disabled=${this.editing !== undefined}
          @change=${(event: Event) => {
            this.kind = productKinds[(event.target as HTMLSelectElement).selectedIndex]!;
            this.brought = undefined;
          }}
        >
          ${productKinds.map((kind) => html`<option .selected=${live(kind === this.kind)}>${kindNames[kind][1]} (${counts(kind)})</option>`)}
        </select>
        <span class="with-label">
          <label for="own-search">Search</label>
          <input
            id="own-search"
            type="text"
            autocomplete="off"
            .value=${live(this.search)}
            @input=${(event: InputEvent) => {
              this.search = (event.target as HTMLInputElement).value;
            }}
          />
        </span>
      </div>
      ${this.editing ? this.form(this.editing) : html`${this.tools()} ${this.report()} ${this.list(products)}`}
    </section>`;
  }
}

customElements.define('own-products', OwnProducts);
