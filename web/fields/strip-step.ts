import { html, nothing, type TemplateResult } from 'lit';
import { channelsOf, shownValue } from '../state/sheet.ts';
import { type FormContext, field } from './field.ts';
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
] as const;

function channel(form: FormContext, index: number, several: boolean): TemplateResult {
  const path = ['strip', 'data', 'channels', index];
  return html`${several ? html`<h4>Channel ${index + 1}</h4>` : nothing}
  ${channelKeys.map((key) => field(form, [...path, key], key === 'cct_K' ? { empty: 'a colour' } : {}))}`;
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
    digest: typeof name === 'string' ? name : 'not in the catalogue',
    holds: ['strip'],
    body: html`${productChoice(form, 'strip', 'Typical strip')} ${field(form, ['strip', 'anchor'])} ${foldOut('From the data sheet', sheet)}`,
  };
}
