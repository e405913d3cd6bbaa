import { html, nothing, type TemplateResult } from 'lit';
import { alter, removeItem } from '../state/edit.ts';
import { channelsOf, shownValue } from '../state/sheet.ts';
import { readingsText, readLengths, readReadings } from '../state/slot-list.ts';
import { type FormContext, field } from './field.ts';
import { listField } from './list-field.ts';
import { productChoice } from './product-choice.ts';
import { foldOut, type Step } from './step.ts';

const channelKeys = [
  'name',
  'watts_per_m',
  'lumens_per_m',
  'cct_K',
  'lampsInSeries',
  'lampForward_V',
] as const;
const stripKeys = [
  'nominal_V',
  'law',
  'dropout_V',
  'unitsPerMetre',
  'lampsPerMetre',
  'width_mm',
  'reel_mm',
  'railPositive_mohm_per_m',
  'railReturn_mohm_per_m',
  'halfAngle_deg',
  'longestRun_mm',
  'limit_degC',
  'solderRise_K_per_W',
  'slope_V',
  'fluxLoss_per_K',
  'ip',
  'price_cents',
] as const;

function channel(form: FormContext, index: number, several: boolean): TemplateResult {
  const path = ['strip', 'data', 'channels', index];
  return html`${several ? html`<h4>Channel ${index + 1}</h4>` : nothing}
  ${channelKeys.map((key) => field(form, [...path, key], key === 'cct_K' ? { empty: 'a colour' } : {}))}`;
}

const testsPath = ['strip', 'lifeTests'];

function lifeTest(form: FormContext, index: number): TemplateResult {
  const path = [...testsPath, index];
  return html`<div class="item">
    ${field(form, [...path, 'case_degC'])} ${field(form, [...path, 'sampleCount'])}
    ${listField(form, {
      name: `strip.lifeTests[${index + 1}].readings`,
      label: 'Readings',
      hint: 'Hours and light left in percent, one reading a line.',
      text: readingsText(form.draft.job.strip.lifeTests[index]?.readings ?? []),
      noun: 'reading',
      read: readReadings,
    })}
    <button type="button" @click=${() => removeItem(form.store, testsPath, index)}>Remove this test</button>
  </div>`;
}

function addLifeTest(form: FormContext): void {
  const readings = [
    { hours: 0, maintenance: 1 },
    { hours: 6000, maintenance: 1 },
  ];
  alter(form.store, (job) => {
    const lifeTests = [...job.strip.lifeTests, { case_degC: 85, sampleCount: 20, readings }];
    return { ...job, strip: { ...job.strip, lifeTests } };
  });
}

function lifeTests(form: FormContext): TemplateResult {
  const { length } = form.draft.job.strip.lifeTests;
  return html`<p class="hint">From the report of the LEDs’ maker (IES LM-80). Without one, no life is calculated.</p>
    ${form.draft.job.strip.lifeTests.map((_, i) => lifeTest(form, i))}
    ${length < 3 ? html`<button type="button" @click=${() => addLifeTest(form)}>Add a life test</button>` : nothing}`;
}

/** The strip, with every figure of its data sheet. */
export function stripStep(form: FormContext): Step {
  const { job } = form.draft;
  const channels = channelsOf(job);
  const name = shownValue(job, ['strip', 'data', 'name']);
  const sheet = html`${field(form, ['strip', 'data', 'name'])}
    ${channels.map((_, i) => channel(form, i, channels.length > 1))}
    ${channels.length > 1 ? html`<h4>The strip</h4>` : nothing}
    ${stripKeys.map((key) => field(form, ['strip', 'data', key], { empty: 'not given' }))}`;
  return {
    title: 'Strip',
    picture: 'run',
    digest: typeof name === 'string' ? name : 'not in the catalogue',
    holds: ['strip'],
    body: html`${productChoice(form, 'strip', 'Typical strip')} ${field(form, ['strip', 'anchor'])}
      ${field(form, ['strip', 'strip_degC'], { empty: 'none' })} ${foldOut('Every figure of the strip', sheet)}
      ${form.store.get().frozen ? nothing : foldOut('Work the strip out from its data sheet', html`<strip-sheet .store=${form.store}></strip-sheet>`)}
      ${listField(form, {
        name: 'strip.offcuts_mm',
        label: 'Offcuts in stock',
        hint: 'Lengths of the same strip, such as “1400 950”; they are cut first where that spares a reel.',
        text: job.strip.offcuts_mm.join(' '),
        noun: 'offcut',
        rows: 1,
        read: readLengths,
      })}
      ${foldOut('Life tests of the LEDs', lifeTests(form))}`,
  };
}
