import { html, nothing, type TemplateResult } from 'lit';
import type { CableData } from '../../src/job/cable.ts';
import { fieldName, type Path } from '../../src/job/field-name.ts';
import { fuseRemarks } from '../../src/job/fuses.ts';
import type { Job } from '../../src/job/job.ts';
import { counted } from '../format.ts';
import { chosenSlot } from '../state/chosen-slot.ts';
import { corePricesText, readCorePrices } from '../state/core-prices.ts';
import { alter, chooseTrunk, removeItem } from '../state/edit.ts';
import { firstFree } from '../state/free-names.ts';
import { shownValue } from '../state/sheet.ts';
import { readWholes } from '../state/slot-list.ts';
import { choiceText } from '../words.ts';
import { type FormContext, field } from './field.ts';
import { listChoice } from './list-choice.ts';
import { listField } from './list-field.ts';
import { offeredIn, ownNote } from './own-choice.ts';
import { productChoice } from './product-choice.ts';
import { foldOut, type Step } from './step.ts';

const cableKeys = [
  'name',
  'area_mm2',
  'conductor_ohm_per_km',
  'limit_degC',
  'outer_mm',
  'price_cents_per_m',
] as const;

type Feeding = Pick<Job['feeds'], 'arrangement' | 'cutLines'>;

/** The fields that say how a run is fed: where between its ends, or at which cut lines, only where that is asked. */
function feeding(form: FormContext, path: Path, { arrangement, cutLines }: Feeding): TemplateResult {
  return html`${field(form, [...path, 'arrangement'])}
    ${arrangement === 'between' ? field(form, [...path, 'betweenCount']) : nothing}
    ${
      arrangement === 'chosen'
        ? listField(form, {
            name: fieldName([...path, 'cutLines']),
            label: 'Cut lines to feed at',
            hint: 'Counted in cut units from the start of the strip, which is 0, such as “0 24 48”.',
            text: cutLines.join(' '),
            noun: 'cut line',
            rows: 2,
            read: readWholes,
          })
        : nothing
    }`;
}

function exception(form: FormContext, index: number): TemplateResult {
  const path = ['feeds', 'exceptions', index];
  const own = form.draft.job.feeds.exceptions[index];
  return html`<div class="item">
    ${field(form, [...path, 'slot'])} ${own ? feeding(form, path, own) : nothing}
    <button type="button" @click=${() => removeItem(form.store, ['feeds', 'exceptions'], index)}>
      Remove this exception
    </button>
  </div>`;
}

/** The number of the slot whose run is chosen on the drawing; the first without an exception where it has one. */
function nextSlot(form: FormContext): number {
  return firstFree(chosenSlot(form.store.get()), form.draft.job.feeds.exceptions);
}

function addException(form: FormContext): void {
  const slot = nextSlot(form);
  alter(form.store, (job) => {
    const fresh = { slot, arrangement: 'both' as const, betweenCount: 1, cutLines: [] };
    return { ...job, feeds: { ...job.feeds, exceptions: [...job.feeds.exceptions, fresh] } };
  });
}

function exceptions(form: FormContext): TemplateResult {
  const list = form.draft.job.feeds.exceptions;
  return html`${list.map((_, i) => exception(form, i))}
    <button type="button" @click=${() => addException(form)}>Feed the chosen slot another way</button>`;
}

/** Whether some slots of the wall hang on a trunk, as the wall or a zone says. */
const hasTrunk = ({ cables, dimming }: Job): boolean =>
  [cables, ...dimming.zones].some(({ layout }) => layout === 'trunk' || layout === 'ring');

/** The figures of a cable, and the numbers of cores it is sold with. */
function cableFigures(form: FormContext, stem: Path): TemplateResult {
  const path = [...stem, 'data', 'coreCounts'];
  const counts = (shownValue(form.draft.job, path) ?? []) as readonly number[];
  const pricesPath = [...stem, 'data', 'pricesByCores'];
  const prices = (shownValue(form.draft.job, pricesPath) ?? []) as CableData['pricesByCores'];
  return html`${cableKeys.map((key) => field(form, [...stem, 'data', key], { empty: 'not given' }))}
    ${listField(form, {
      name: fieldName(path),
      label: 'Numbers of cores it is sold with',
      hint: 'Such as “2 3 5”; each cable is bought with the least that is enough.',
      text: counts.join(' '),
      noun: 'number',
      rows: 1,
      read: readWholes,
    })}
    ${listField(form, {
      name: fieldName(pricesPath),
      label: 'Prices of a metre by number of cores',
      hint: 'Such as “3: 1.40; 5: 2.10”; two cores cost what is given above where they are not listed.',
      text: corePricesText(prices),
      noun: 'price',
      rows: 2,
      read: readCorePrices,
    })}`;
}

/** The cable of the trunks: that of the branches, or another of the catalogue. */
function trunkChoice(form: FormContext): TemplateResult {
  const name = 'cables.trunk';
  const chosen = form.draft.job.cables.trunk;
  const offered = offeredIn(form, 'cables', chosen?.entry);
  const entries = [null, ...offered.entries];
  return html`${listChoice({
    name,
    label: 'Cable of the trunks',
    titles: entries.map((entry) => entry?.name ?? 'the same as the branches'),
    ownFrom: offered.ownFrom + 1,
    chosen: entries.findIndex((entry) => entry?.id === chosen?.entry),
    take: (index) => chooseTrunk(form.store, entries[index]?.id ?? null),
    help: 'A trunk carries what all its branches draw: a thicker one spares volts.',
  })}
    ${ownNote(form, chosen?.entry)}
    ${chosen ? foldOut('Every figure of the trunk cable', cableFigures(form, name.split('.'))) : nothing}`;
}

/** Where each run is fed and by what cable. */
export function feedsStep(form: FormContext): Step {
  const { feeds, cables } = form.draft.job;
  const name = shownValue(form.draft.job, ['cables', 'data', 'name']);
  const at = (key: string) => field(form, ['cables', key]);
  return {
    title: 'Feeds and cables',
    picture: 'wall',
    digest: `fed ${choiceText('arrangement', feeds.arrangement, '')}; ${typeof name === 'string' ? name : cables.entry}`,
    holds: ['feeds', 'cables'],
    body: html`${feeding(form, ['feeds'], feeds)}
      ${foldOut(
        feeds.exceptions.length === 0
          ? 'Slots fed another way'
          : `${counted(feeds.exceptions.length, 'slot')} fed another way`,
        exceptions(form),
      )}
      ${productChoice(form, 'cables', 'Cable')}
      ${foldOut('Every figure of the cable', cableFigures(form, ['cables']))}
      ${at('layout')} ${hasTrunk(form.draft.job) ? trunkChoice(form) : nothing}
      ${field(form, ['cables', 'fuses'], { help: fuseRemarks[cables.fuses] })} ${at('way')} ${at('wayInset_mm')} ${at('wayWidth_mm')} ${at('tail_mm')} ${at('allowance')} ${at('cable_degC')}
      ${at('grouped')}
      ${foldOut(
        'Contacts and joints',
        html`${field(form, ['feeds', 'terminal_mohm'])} ${field(form, ['feeds', 'joint_mohm'])}`,
      )}`,
  };
}
