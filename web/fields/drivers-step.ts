import { html, type TemplateResult } from 'lit';
import { fieldName, type Path } from '../../src/job/field-name.ts';
import type { DriverPlace } from '../../src/job/job.ts';
import { counted, percent, quantity } from '../format.ts';
import { alter, chooseFurtherDriver, removeItem } from '../state/edit.ts';
import { freePlaceName } from '../state/free-names.ts';
import { fieldId } from '../state/paths.ts';
import { shownValue, withOneMoreDriver } from '../state/sheet.ts';
import { type FormContext, field } from './field.ts';
import { listChoice } from './list-choice.ts';
import { offeredIn, ownNote } from './own-choice.ts';
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
  'standby_W',
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
  'ip',
  'price_cents',
] as const;

/** One sentence for figures whose use is not plain from their name. */
const driverHelp: Readonly<Record<string, string>> = {
  control: 'It counts where the light is dimmed by the drivers themselves, which the step of the light says.',
  outputsDimTogether: 'Then all of them serve one zone.',
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

/** Every figure of a driver model: the data sheet laid over the entry of the catalogue. */
const figuresOf = (form: FormContext, path: Path): TemplateResult =>
  foldOut(
    'Every figure of the driver',
    html`${driverKeys.map((key) => field(form, [...path, 'data', key], driverFieldOptions(key)))}`,
  );

const stockHelp = 'Left empty, as many as it takes can be had.';

function further(form: FormContext, index: number): TemplateResult {
  const path = ['drivers', 'also', index];
  const chosen = form.draft.job.drivers.also[index]!.entry;
  const { entries, ownFrom } = offeredIn(form, 'drivers', chosen);
  return html`<div class="item">
    ${listChoice({
      name: fieldName([...path, 'entry']),
      label: 'Further driver',
      titles: entries.map(({ name }) => name),
      ownFrom,
      chosen: entries.findIndex(({ id }) => id === chosen),
      take: (i) => chooseFurtherDriver(form.store, index, entries[i]!.id),
    })}
    ${ownNote(form, chosen)}
    ${field(form, [...path, 'stock'], { empty: 'any', help: stockHelp })}
    ${figuresOf(form, path)}
    <button type="button" @click=${() => removeItem(form.store, ['drivers', 'also'], index)}>Remove this driver</button>
  </div>`;
}

/** Models beside the driver of the job: whichever take fewest, then least watts, are used. */
function furtherDrivers(form: FormContext): TemplateResult {
  const { also } = form.draft.job.drivers;
  return foldOut(
    also.length === 0 ? 'Further drivers' : `${counted(also.length, 'further driver')}`,
    html`<p class="hint">
        Runs side by side share a driver: fewest drivers, then fewest rated watts, of all models allowed here.
      </p>
      ${also.map((_, i) => further(form, i))}
      ${
        also.length < 8
          ? html`<button type="button" id=${fieldId('drivers.also')} @click=${() => alter(form.store, withOneMoreDriver)}>Allow another driver</button>`
          : ''
      }`,
  );
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
    picture: 'wall',
    digest: `${typeof name === 'string' ? name : drivers.entry}, ${percent(drivers.reserve, 0)} in reserve`,
    holds: ['drivers'],
    body: html`${productChoice(form, 'drivers', 'Typical driver')}
      ${figuresOf(form, ['drivers'])} ${field(form, ['drivers', 'stock'], { empty: 'any', help: stockHelp })}
      ${furtherDrivers(form)}
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
