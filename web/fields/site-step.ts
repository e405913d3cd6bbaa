import { html } from 'lit';
import { quantity } from '../format.ts';
import { type FormContext, field } from './field.ts';
import type { Step } from './step.ts';

const siteKeys = [
  'room_degC',
  'touch',
  'mains_V',
  'breakerCurve',
  'breaker_A',
  'dropLimit',
  'fallLimit',
] as const;
const titleKeys = [
  'job',
  'client',
  'place',
  'maker',
  'drawnBy',
  'documentNumber',
  'revision',
  'date',
] as const;

/** Where the piece will stand, and the limits it is judged by. */
export function siteStep(form: FormContext): Step {
  const { site } = form.draft.job;
  return {
    title: 'Site and limits',
    picture: 'section',
    digest: `${quantity(site.mains_V, 'V', 0)}, room to ${quantity(site.room_degC, '°C')}`,
    holds: ['site'],
    body: html`${field(form, ['site', 'rules'])}
      <p class="hint">Findings on cables and fuses cite the clauses of these rules; none says that anything conforms. Under the NEC cables are
        sized by gauge, an output is loaded to Class 2 at most, and cut lengths stand in feet and inches too.</p>
      ${siteKeys.map((key) => field(form, ['site', key]))}
      ${field(form, ['site', 'moisture'], { empty: 'not said', help: 'In a damp or wet place the IP ratings of strip, drivers and dimmer are looked at; the electrician says what the place asks for.' })}
      ${field(form, ['site', 'escapeRoute'], { empty: 'not said', help: 'There the fire authority decides what may be built in; the papers say so.' })}
      ${field(form, ['site', 'note'], { empty: 'none', help: 'Printed on the cover and the driver schedule.' })}`,
  };
}

/** Title block of the papers. */
export function titleStep(form: FormContext): Step {
  const { title } = form.draft.job;
  return {
    title: 'Title block',
    picture: 'wall',
    digest: title.job || 'no name yet',
    holds: ['title'],
    body: html`${titleKeys.map((key) =>
      field(form, ['title', key], key === 'date' ? { isDate: true } : {}),
    )}`,
  };
}
