import { html, nothing, type TemplateResult } from 'lit';
import type { Job } from '../../src/job/job.ts';
import { counted } from '../format.ts';
import { apply } from '../state/edit.ts';
import { fieldSpec } from '../state/field-spec.ts';
import { fedBy, intoZone, madeOf, newZoneOf, outOfZones } from '../state/picked-slots.ts';
import type { Proposal } from '../state/proposals.ts';
import { slotNumbersText } from '../state/slot-list.ts';
import type { State } from '../state/store.ts';
import { choiceText } from '../words.ts';
import { StoreElement } from './store-element.ts';

/** One thing to make of the slots that are picked. */
interface Way {
  readonly text: string;
  readonly make: (job: Job, numbers: readonly number[]) => Proposal;
}

const zoneWays = ({ dimming: { zones } }: Job): Way[] => [
  { text: 'a new zone', make: newZoneOf },
  ...zones.map(({ id, name }) => ({
    text: name,
    make: (job: Job, numbers: readonly number[]) => intoZone(job, numbers, id),
  })),
  ...(zones.length > 0 ? [{ text: 'no zone', make: outOfZones }] : []),
];

type Arrangement = Job['feeds']['arrangement'];

/** Cut lines are chosen slot by slot. */
const feedWays = (): Way[] => [
  { text: 'as the wall', make: (_, numbers) => fedBy(numbers, null) },
  ...(fieldSpec(['feeds', 'arrangement']).words as Arrangement[])
    .filter((word) => word !== 'chosen')
    .map((word) => ({
      text: choiceText('arrangement', word, ''),
      make: (_: Job, numbers: readonly number[]) => fedBy(numbers, word),
    })),
];

/** Beneath the wall: the slots that are picked, and what can be made of them at once. */
export class PickedSlots extends StoreElement {
  protected override shows({ pickedSlots, draft, frozen }: State): readonly unknown[] {
    return [pickedSlots, draft?.job.dimming.zones, draft?.job.feeds, frozen];
  }

  /** What was made of them so far, as the wall has it. */
  private made(job: Job): string {
    const { zone, feed } = madeOf(job, this.store.get().pickedSlots);
    const fed = feed === null ? 'fed in different ways' : `fed ${choiceText('arrangement', feed, '')}`;
    if (zone === undefined) return `, ${fed}`;
    return zone === null ? `, in different zones, ${fed}` : `, in ${zone}, ${fed}`;
  }

  private menu(label: string, ways: readonly Way[]): TemplateResult {
    const take = (event: Event): void => {
      const menu = event.target as HTMLSelectElement;
      const { draft, pickedSlots } = this.store.get();
      const way = ways[menu.selectedIndex - 1];
      menu.selectedIndex = 0;
      if (draft && way) apply(this.store, way.make(draft.job, pickedSlots));
    };
    return html`<select aria-label=${label} @change=${take}>
      <option>${label}</option>
      ${ways.map(({ text }) => html`<option>${text}</option>`)}
    </select>`;
  }

  override render(): TemplateResult | typeof nothing {
    const { pickedSlots, draft, frozen } = this.store.get();
    if (pickedSlots.length === 0 || !draft || frozen) return nothing;
    return html`<div class="picked-slots">
      <p role="status">${counted(pickedSlots.length, 'slot')} picked: ${slotNumbersText(pickedSlots)}${this.made(draft.job)}</p>
      ${this.menu('Put them into…', zoneWays(draft.job))} ${this.menu('Feed them…', feedWays())}
      <button type="button" @click=${() => this.store.set({ pickedSlots: [] })}>Let go</button>
    </div>`;
  }
}

customElements.define('picked-slots', PickedSlots);
