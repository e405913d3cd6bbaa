import { html, type TemplateResult } from 'lit';
import type { DriverPlace } from '../../src/job/job.ts';
import { counted, percent, quantity } from '../format.ts';
import { alter, removeItem } from '../state/edit.ts';
import { freePlaceName } from '../state/free-names.ts';
import { shownValue } from '../state/sheet.ts';
import { type FormContext, field } from './field.ts';
import { productChoice } from './product-choice.ts';
import { foldOut, type Step } from './step.ts';

const driverKeys = [
  'name',
  'output_V',
  'rated_W',
  'outputCount',
  'current_A',
  'tolerance',
  'efficiency',
  'powerFactor',
  'inrush_A',
  'inrush_us',
  'perBreakerB16',
  'length_mm',
  'width_mm',
  'height_mm',
  'clearance_mm',
  'fullLoadAmbient_degC',
  'derating_per_K',
  'highestAmbient_degC',
  'caseLimit_degC',
  'terminalConductors',
  'control',
  'outputsDimTogether',
] as const;

/** One sentence for figures whose use is not plain from their name. */
const driverHelp: Readonly<Record<string, string>> = {
  control: 'It counts where the light is dimmed by the drivers themselves, which the step of the light says.',
  terminalConductors: 'Where more cables leave an output than its terminals take, a block stands behind it.',
};

const driverFieldOptions = (key: string) => ({
  empty: 'not given',
  ...(driverHelp[key] === undefined ? {} : { help: driverHelp[key] }),
});

const placeKeys = [
  'x_mm',
  'y_mm',
  'width_mm',
  'height_mm',
  'depth_mm',
  'terminalsFace',
  'vented',
  'ventOpening_mm2',
] as const;

function place(form: FormContext, index: number, several: boolean): TemplateResult {
  const path = ['drivers', 'places'];
  const at = (key: string, options: Parameters<typeof field>[2] = {}) =>
    field(form, [...path, index, key], options);
  return html`<div class="item">
    ${at('name')}
    ${at('kind', { help: 'A remote place is known by its length of cable; its drivers light the panel from where that comes in.' })}
    ${
      form.draft.job.drivers.places[index]?.kind === 'remote'
        ? at('cable_mm', {
            empty: 'needed',
            help: 'From the place to where the cable meets the cable way, which is as far from the left as the place.',
          })
        : ''
    }
    ${placeKeys.map((key) => at(key))}
    ${at('reachable', { help: 'Blocks and fuses stand only where a hand can reach them.' })}
    <p class="hint">Cables leave the drivers of this place on the side that their output terminals face.</p>
    ${
      several
        ? html`<button type="button" @click=${() => removeItem(form.store, path, index)}>Remove this place</button>`
        : ''
    }
  </div>`;
}

function addPlace(form: FormContext): void {
  alter(form.store, (job) => {
    const last = job.drivers.places.at(-1);
    if (!last) return job;
    const fresh: DriverPlace = {
      ...last,
      name: freePlaceName(job.drivers.places),
      x_mm: last.x_mm + last.width_mm + 100,
    };
    return { ...job, drivers: { ...job.drivers, places: [...job.drivers.places, fresh] } };
  });
}

/** The drivers, how far they may be loaded, and where they go. */
export function driversStep(form: FormContext): Step {
  const { job } = form.draft;
  const { drivers } = job;
  const name = shownValue(form.draft.job, ['drivers', 'data', 'name']);
  const at = (key: string, empty?: string) => field(form, ['drivers', key], empty ? { empty } : {});
  const several = drivers.places.length > 1;
  const volts = shownValue(form.draft.job, ['drivers', 'data', 'output_V']);
  const usual = typeof volts === 'number' ? quantity(volts, '') : '';
  return {
    title: 'Drivers',
    digest: `${typeof name === 'string' ? name : drivers.entry}, ${percent(drivers.reserve, 0)} in reserve`,
    holds: ['drivers'],
    body: html`${productChoice(form, 'drivers', 'Typical driver')}
      ${foldOut('Every figure of the driver', html`${driverKeys.map((key) => field(form, ['drivers', 'data', key], driverFieldOptions(key)))}`)}
      ${at('reserve')} ${at('set_V', usual)} ${at('outputCeiling_W', job.site.rules === 'NEC' ? 'Class 2' : 'none')}
      ${foldOut(
        several ? `${counted(drivers.places.length, 'place')} for drivers` : 'Place for the drivers',
        html`${drivers.places.map((_, i) => place(form, i, several))}
          ${
            drivers.places.length < 12
              ? html`<button type="button" @click=${() => addPlace(form)}>Add a place</button>`
              : ''
          }`,
      )}`,
  };
}
