import { html, nothing, type TemplateResult } from 'lit';
import { fieldName } from '../../src/job/field-name.ts';
import { freeZoneId, newZone } from '../../src/job/zone.ts';
import { entryText, levelText } from '../format.ts';
import { chosenSlot } from '../state/chosen-slot.ts';
import { alter, apply, choose, removeItem } from '../state/edit.ts';
import { freeZoneName } from '../state/free-names.ts';
import { channelsOf } from '../state/sheet.ts';
import { readSlotNumbers, slotNumbersText } from '../state/slot-list.ts';
import { type FormContext, field } from './field.ts';
import { listChoice } from './list-choice.ts';
import { listField } from './list-field.ts';
import { foldOut } from './step.ts';

const zonesPath = ['dimming', 'zones'];

const zoneOf = (form: FormContext, index: number) => form.draft.job.dimming.zones[index];

/** Whether the working levels of a zone are the wall's or its own; its own begin as the wall's are. */
function levelsChoice(form: FormContext, index: number): TemplateResult {
  const { levels: walls } = form.draft.job.dimming;
  const name = fieldName([...zonesPath, index, 'levels']);
  const setTo = (levels: number[] | null): void =>
    apply(form.store, {
      what: '',
      fields: [name],
      edit: (job) => {
        const zones = job.dimming.zones.map((zone, i) => (i === index ? { ...zone, levels } : zone));
        return { ...job, dimming: { ...job.dimming, zones } };
      },
    });
  return listChoice({
    name,
    label: 'Working level of the zone',
    titles: [`as the wall, ${walls.map(levelText).join(' and ')}`, 'its own'],
    chosen: zoneOf(form, index)?.levels ? 1 : 0,
    take: (chosen) => setTo(chosen === 1 ? [...walls] : null),
  });
}

/** Brightness and levels of a zone, where they are others than those of the wall. */
function ownLevels(form: FormContext, index: number): TemplateResult {
  const { dimming, light } = form.draft.job;
  const channels = channelsOf(form.draft.job);
  const own = zoneOf(form, index)?.levels ?? [];
  const at = (key: string, empty: string): TemplateResult =>
    field(form, [...zonesPath, index, key], { empty });
  const lit = (own.length > 0 ? own : dimming.levels).filter((level) => level > 0);
  const lowest = dimming.lowest ?? (lit.length > 0 ? Math.min(...lit) : null);
  return html`${at('wanted_cd_per_m2', entryText(light.wanted_cd_per_m2, false))}
    ${levelsChoice(form, index)}
    ${own.map((_, i) =>
      field(
        form,
        [...zonesPath, index, 'levels', i],
        own.length > 1 ? { label: `Working level of ${channels[i]?.name ?? `channel ${i + 1}`}` } : {},
      ),
    )}
    ${at('lowest', lowest === null ? '' : entryText(lowest, true))}`;
}

function zone(form: FormContext, index: number): TemplateResult {
  const slots = zoneOf(form, index)?.slots ?? [];
  const chosen = chosenSlot(form.store.get());
  return html`<div class="item">
    ${field(form, [...zonesPath, index, 'name'])}
    ${listField(form, {
      name: fieldName([...zonesPath, index, 'slots']),
      label: 'Slots of the zone',
      hint: 'By number, such as “1–14, 20”.',
      text: slotNumbersText(slots),
      noun: 'slot',
      rows: 1,
      read: readSlotNumbers,
    })}
    ${ownLevels(form, index)}
    ${field(form, [...zonesPath, index, 'layout'], { empty: 'as the wall', help: 'How this zone is wired, where it is another way than the rest.' })}
    ${field(form, [...zonesPath, index, 'way'], { empty: 'as the wall', help: 'Where the cables of this zone run, where it is another edge.' })}
    <button type="button" @click=${() => toggleSlot(form, index)}>
      ${slots.includes(chosen) ? 'Take out' : 'Put in'} slot ${chosen}
    </button>
    <button type="button" @click=${() => removeItem(form.store, zonesPath, index)}>Remove this zone</button>
  </div>`;
}

function toggleSlot(form: FormContext, index: number): void {
  const slots = zoneOf(form, index)?.slots ?? [];
  const number = chosenSlot(form.store.get());
  const next = slots.includes(number)
    ? slots.filter((slot) => slot !== number)
    : [...slots, number].sort((a, b) => a - b);
  if (next.length > 0) choose(form.store, [...zonesPath, index, 'slots'], next);
  else removeItem(form.store, zonesPath, index);
}

function addZone(form: FormContext): void {
  const slot = chosenSlot(form.store.get());
  alter(form.store, (job) => {
    const { zones } = job.dimming;
    const fresh = newZone({ id: freeZoneId(zones), name: freeZoneName(zones), slots: [slot] });
    return { ...job, dimming: { ...job.dimming, zones: [...zones, fresh] } };
  });
}

/** Slots that are dimmed together, each zone with its levels, and what the slots in none are called. */
export function zonesFold(form: FormContext): TemplateResult {
  const { zones } = form.draft.job.dimming;
  return foldOut(
    'Zones dimmed together',
    html`${zones.map((_, i) => zone(form, i))}
      ${zones.length === 0 ? nothing : field(form, ['dimming', 'restName'], { empty: 'the rest' })}
      <button type="button" @click=${() => addZone(form)}>New zone with the chosen slot</button>`,
  );
}
