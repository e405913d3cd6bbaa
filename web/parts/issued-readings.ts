import { html, nothing, type TemplateResult } from 'lit';
import { counted, fixed, moment, unitText } from '../format.ts';
import {
  keepMyReading,
  keepTyped,
  refreshReadings,
  takeOverDraft,
  takeTheirReading,
} from '../state/issued-readings.ts';
import type { Measured, State } from '../state/store.ts';
import './person-name.ts';
import { StoreElement } from './store-element.ts';

type Clash = Measured['conflicts'][number];

const quantities = {
  loop_ohm: { name: 'loop', unit: 'ohm' },
  noLoad_V: { name: 'volts without load', unit: 'V' },
  loaded_V: { name: 'volts under load', unit: 'V' },
  current_A: { name: 'current', unit: 'A' },
  done: { name: 'step done', unit: 'tick' },
  linkOut: { name: 'link out', unit: 'tick' },
} as const;

function shown(value: Clash['value'], unit: string): string {
  if (value === null) return 'nothing';
  if (value === 'OL') return 'OL';
  return unit === 'tick' ? 'a tick' : `${Number(fixed(value, 3))} ${unitText(unit)}`;
}

/** Whether the readings of an issued revision are in the workshop's folder, and what two devices wrote into one box. */
export class IssuedReadings extends StoreElement {
  protected override shows({ measured }: State): readonly unknown[] {
    return [measured];
  }

  /** Whoever comes back to this window sees what was measured elsewhere meanwhile. */
  private readonly refresh = (): void => void refreshReadings(this.store);

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener('focus', this.refresh);
  }

  override disconnectedCallback(): void {
    window.removeEventListener('focus', this.refresh);
    super.disconnectedCallback();
  }

  /** Where the other value of a box comes from: typed here, or out of a file, by whom and when. */
  private mine(one: Clash): string {
    const taken = this.store
      .get()
      .measured?.taken.find(
        (each) => each.row === one.row && each.quantity === one.quantity && each.value === one.value,
      );
    if (!taken) return 'you typed';
    return `${[taken.by, moment(taken.at, new Date())].filter((text) => text !== '').join(', ')}, in the file:`;
  }

  private clash(one: Clash): TemplateResult {
    const { name, unit } = quantities[one.quantity];
    const { theirs } = one;
    const who = theirs.by === '' ? 'Somebody else' : theirs.by;
    return html`<li>
      ${one.row}, ${name}: ${who} wrote ${shown(theirs.value, unit)} at ${moment(theirs.at, new Date())};
      ${this.mine(one)} ${shown(one.value, unit)}.
      <button type="button" @click=${() => takeTheirReading(this.store, one)}>
        Take ${shown(theirs.value, unit)}
      </button>
      <button type="button" @click=${() => keepMyReading(this.store, one)}>Write ${shown(one.value, unit)} instead</button>
    </li>`;
  }

  private clashes(conflicts: Measured['conflicts']): TemplateResult | typeof nothing {
    if (conflicts.length === 0) return nothing;
    return html`<div class="message is-conflict" role="alert">
      <h3>${counted(conflicts.length, 'box was', 'boxes were')} filled in elsewhere too</h3>
      <p>Nothing was written over. Measure again if you are not sure, then choose.</p>
      <ul>
        ${conflicts.map((one) => this.clash(one))}
      </ul>
    </div>`;
  }

  private takeOver({ onDraft }: Measured): TemplateResult | typeof nothing {
    const count = Object.keys(onDraft).length;
    if (count === 0) return nothing;
    return html`<p>
      ${counted(count, 'reading was', 'readings were')} typed that this revision does not have.
      <button type="button" @click=${() => takeOverDraft(this.store)}>Take over what was measured on this revision</button>
    </p>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { measured } = this.store.get();
    if (!measured) return nothing;
    const { is, trouble, conflicts } = measured;
    const text =
      is === 'kept' ? 'Readings are kept in the workshop, on every device.' : 'Keeping the readings…';
    return html`<p class="readings-kept" role="status">${trouble === undefined ? text : ''}</p>
      ${
        trouble === undefined
          ? nothing
          : html`<p class="sentence" role="alert">
              What you typed last is not kept yet. ${trouble}
              <button type="button" @click=${() => void keepTyped(this.store)}>Keep it now</button>
            </p>`
      }
      ${this.clashes(conflicts)} ${this.takeOver(measured)}
      <person-name .store=${this.store}></person-name>`;
  }
}

customElements.define('issued-readings', IssuedReadings);
