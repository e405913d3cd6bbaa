import { html, nothing, type TemplateResult } from 'lit';
import { brightnessBands } from '../../src/answer/brightness.ts';
import { dimmerCatalogue } from '../../src/job/dimmer-catalogue.ts';
import type { Job } from '../../src/job/job.ts';
import { freeZoneId, newZone } from '../../src/job/zone.ts';
import { counted, entryText, quantity } from '../format.ts';
import { chosenSlot } from '../state/chosen-slot.ts';
import { alter, choose, removeItem } from '../state/edit.ts';
import { channelsOf } from '../state/sheet.ts';
import { type FormContext, field } from './field.ts';
import { listChoice } from './list-choice.ts';
import { foldOut, type Step } from './step.ts';

function levelButtons(form: FormContext): TemplateResult {
  const wanted = form.draft.job.light.wanted_cd_per_m2;
  return html`<div class="levels" role="group" aria-label="Brightness in words">
    ${brightnessBands.map(({ usual_cd_per_m2, title }) =>
      usual_cd_per_m2 === null
        ? nothing
        : html`<button
          type="button"
          aria-pressed=${wanted === usual_cd_per_m2 ? 'true' : 'false'}
          @click=${() => choose(form.store, ['light', 'wanted_cd_per_m2'], usual_cd_per_m2)}
        >
          ${title}<small>${quantity(usual_cd_per_m2, 'cd/m²')}</small>
        </button>`,
    )}
  </div>`;
}

const zonesPath = ['dimming', 'zones'];

function zone(form: FormContext, index: number): TemplateResult {
  const slots = form.draft.job.dimming.zones[index]?.slots ?? [];
  const chosen = chosenSlot(form.store.get());
  return html`<div class="item">
    ${field(form, [...zonesPath, index, 'name'])}
    <p class="hint">${counted(slots.length, 'slot')}: ${slots.join(', ')}</p>
    ${field(form, [...zonesPath, index, 'layout'], { empty: 'as the wall', help: 'How this zone is wired, where it is another way than the rest.' })}
    ${field(form, [...zonesPath, index, 'way'], { empty: 'as the wall', help: 'Where the cables of this zone run, where it is another edge.' })}
    <button type="button" @click=${() => toggleSlot(form, index)}>
      ${slots.includes(chosen) ? 'Take out' : 'Put in'} slot ${chosen}
    </button>
    <button type="button" @click=${() => removeItem(form.store, zonesPath, index)}>Remove this zone</button>
  </div>`;
}

function toggleSlot(form: FormContext, index: number): void {
  const slots = form.draft.job.dimming.zones[index]?.slots ?? [];
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
    const fresh = newZone({ id: freeZoneId(zones), name: `Zone ${zones.length + 1}`, slots: [slot] });
    return { ...job, dimming: { ...job.dimming, zones: [...zones, fresh] } };
  });
}

type Dimming = Job['dimming'];

/** What may dim: nothing of this job, the drivers themselves, or a dimmer of the catalogue behind every output. */
const dimmedBy: readonly (Pick<Dimming, 'control' | 'dimmer'> & { readonly title: string })[] = [
  { control: 'none', dimmer: null, title: 'no part of this job' },
  { control: 'driver', dimmer: null, title: 'the drivers themselves' },
  ...dimmerCatalogue.map(({ id, name }) => ({
    control: 'dimmer' as const,
    dimmer: { entry: id, data: {} },
    title: name,
  })),
];

/** What the light is dimmed by, in one list. */
function dimmerChoice(form: FormContext): TemplateResult {
  const { control, dimmer } = form.draft.job.dimming;
  const isChosen = (each: (typeof dimmedBy)[number]): boolean =>
    each.control === control && each.dimmer?.entry === (control === 'dimmer' ? dimmer?.entry : undefined);
  return listChoice({
    name: 'dimming.control',
    label: 'Dimmed by',
    titles: dimmedBy.map(({ title }) => title),
    chosen: dimmedBy.findIndex(isChosen),
    take: (index) => {
      const { title: _, ...chosen } = dimmedBy[index]!;
      alter(form.store, (job) => ({ ...job, dimming: { ...job.dimming, ...chosen } }));
    },
    help: 'A dimmer stands behind every output, in the place of its driver.',
  });
}

/** Wanted brightness first: it decides everything else. */
export function lightStep(form: FormContext): Step {
  const { job } = form.draft;
  const channels = channelsOf(job);
  const several = channels.length > 1;
  const lit = job.dimming.levels.filter((level) => level > 0);
  const usual = lit.length > 0 ? entryText(Math.min(...lit), true) : '';
  return {
    title: 'Light',
    digest: `${quantity(job.light.wanted_cd_per_m2, 'cd/m²')} wanted`,
    holds: ['light', 'dimming'],
    body: html`${levelButtons(form)} ${field(form, ['light', 'wanted_cd_per_m2'])}
      ${field(form, ['light', 'viewing_mm'])} ${field(form, ['light', 'floor_mm'])}
      ${channels.map((channel, i) =>
        field(form, ['dimming', 'levels', i], several ? { label: `Working level of ${channel.name}` } : {}),
      )}
      ${field(form, ['dimming', 'lowest'], { empty: usual })}
      <p class="hint">
        Levels are of full. The wanted brightness is judged at the working level; the lowest is what the dimmer must
        still reach, the working level where none is given.
      </p>
      ${dimmerChoice(form)}
      ${several ? field(form, ['dimming', 'mixingLimit'], { empty: 'every channel full at once' }) : nothing}
      ${field(form, ['dimming', 'sizeFor'])} ${field(form, ['dimming', 'pwm_Hz'], { empty: 'steady' })}
      ${job.dimming.pwm_Hz === null ? nothing : html`<p class="hint">Every pulse draws full current, so that a limit spares heat only.</p>`}
      ${foldOut(
        'Zones dimmed together',
        html`${job.dimming.zones.map((_, i) => zone(form, i))}
          <button type="button" @click=${() => addZone(form)}>New zone with the chosen slot</button>`,
      )}`,
  };
}
