import { html, nothing, svg, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { moment, unitText } from '../format.ts';
import { typeIssuedReading } from '../state/issued-readings.ts';
import { type Judged, keyOf, type ReadingBox, type TickBox, typeReading } from '../state/readings.ts';
import type { Store } from '../state/store.ts';
import { statusShape } from './finding-list.ts';

const words: Readonly<Record<Judged, string>> = {
  empty: '',
  'not a reading': 'no reading',
  'in band': 'in band',
  'below band': 'below',
  'above band': 'above',
  'open circuit': 'open circuit',
};

const arrow = (path: string): TemplateResult =>
  html`<svg class="shape is-fails" width="12" height="12" viewBox="0 0 16 16" aria-hidden="true">
    ${svg`<path d=${path}></path>`}
  </svg>`;

function shapeOf(judged: Judged): TemplateResult | typeof nothing {
  if (judged === 'in band') return statusShape('passes');
  if (judged === 'below band') return arrow('M1 2h14L8 14z');
  if (judged === 'above band') return arrow('M1 14h14L8 2z');
  if (judged === 'open circuit') return statusShape('fails');
  return judged === 'empty' ? nothing : statusShape('watch');
}

/** Enter leads to the next box, as one goes down the sheet with a meter in the other hand. */
function goOn(event: KeyboardEvent): void {
  if (event.key !== 'Enter') return;
  event.preventDefault();
  const here = event.target as HTMLInputElement;
  const all = [...(here.closest('table')?.querySelectorAll<HTMLInputElement>('.reading-box input') ?? [])];
  all[all.indexOf(here) + 1]?.focus();
}

const typeInto = (store: Store): typeof typeReading =>
  store.get().measured ? typeIssuedReading : typeReading;

/** Who wrote what stands in the box of an issued revision, and when. */
function writer(
  store: Store,
  { row, written }: Pick<ReadingBox | TickBox, 'row' | 'written'>,
): TemplateResult | typeof nothing {
  const reading = store.get().measured?.boxes[keyOf(row, written)];
  if (!reading) return nothing;
  const when = moment(reading.at, new Date());
  return html` <span class="written-by">${reading.by === '' ? when : `${reading.by}, ${when}`}</span>`;
}

/** A box of the test sheet to tick off. */
export function tickEntry(store: Store, tick: TickBox): TemplateResult {
  const take = (event: Event): void =>
    typeInto(store)(store, tick, (event.target as HTMLInputElement).checked ? '1' : '');
  return html`<label class="tick-box">
    <input type="checkbox" aria-label="${tick.row}: ${tick.label}" .checked=${live(tick.isTicked)} @change=${take} />
    ${tick.label}${writer(store, tick)}
  </label>`;
}

/** Writes what a meter shows of an open loop, so that nobody has to find letters on a keyboard of figures. */
function openButton(store: Store, box: ReadingBox): TemplateResult | typeof nothing {
  if (box.written !== 'loop_ohm') return nothing;
  const isOpen = box.judged === 'open circuit';
  return html`<button
    type="button"
    class="over-range"
    title="The meter shows OL: the loop is open"
    aria-label="${box.row}: ${box.label}, OL, the loop is open"
    aria-pressed=${isOpen ? 'true' : 'false'}
    @click=${() => typeInto(store)(store, box, isOpen ? '' : 'OL')}
  >
    OL
  </button>`;
}

/** A box of the test sheet to type a measured value into, with its judgement beneath: a word and a shape. */
export function readingEntry(store: Store, box: ReadingBox): TemplateResult {
  const id = `reading-${box.row}-${box.written}`.replaceAll(/[^\w]+/g, '-');
  return html`<span class="reading-box is-${box.judged.replaceAll(' ', '-')}">
    <span class="reading-entry"><input
      id=${id}
      type="text"
      inputmode="decimal"
      autocomplete="off"
      aria-label="${box.row}: ${box.label}, measured, ${unitText(box.unit)}"
      aria-describedby="${id}-judged"
      aria-invalid=${box.judged === 'not a reading' ? 'true' : nothing}
      .value=${live(box.text)}
      @keydown=${goOn}
      @input=${(event: InputEvent) => typeInto(store)(store, box, (event.target as HTMLInputElement).value)}
    />${openButton(store, box)}</span>
    <span class="judged" id="${id}-judged">${shapeOf(box.judged)}${words[box.judged]}${writer(store, box)}</span>
  </span>`;
}
