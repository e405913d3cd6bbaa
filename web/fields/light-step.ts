import { html, nothing, type TemplateResult } from 'lit';
import { brightnessBands } from '../../src/answer/brightness.ts';
import type { Job } from '../../src/job/job.ts';
import { entryText, quantity } from '../format.ts';
import { alterChoosing, choose } from '../state/edit.ts';
import { channelsOf } from '../state/sheet.ts';
import { type FormContext, field } from './field.ts';
import { listChoice } from './list-choice.ts';
import { offeredIn, ownNote } from './own-choice.ts';
import { roomFold } from './room-fold.ts';
import type { Step } from './step.ts';
import { zonesFold } from './zones-fold.ts';

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

type Dimming = Job['dimming'];

/** What may dim: nothing of this job, the drivers themselves, or a dimmer behind every output. */
const withoutDimmer: readonly (Pick<Dimming, 'control' | 'dimmer'> & { readonly title: string })[] = [
  { control: 'none', dimmer: null, title: 'no part of this job' },
  { control: 'driver', dimmer: null, title: 'the drivers themselves' },
];

/** What the light is dimmed by, in one list. */
function dimmerChoice(form: FormContext): TemplateResult {
  const { control, dimmer } = form.draft.job.dimming;
  const offered = offeredIn(form, 'dimmer', dimmer?.entry);
  const dimmers = offered.entries.map(({ id, name }) => ({
    control: 'dimmer' as const,
    dimmer: { entry: id, data: {} },
    title: name,
  }));
  const dimmedBy = [...withoutDimmer, ...dimmers];
  const isChosen = (each: (typeof dimmedBy)[number]): boolean =>
    each.control === control && each.dimmer?.entry === (control === 'dimmer' ? dimmer?.entry : undefined);
  return html`${listChoice({
    name: 'dimming.control',
    label: 'Dimmed by',
    titles: dimmedBy.map(({ title }) => title),
    ownFrom: withoutDimmer.length + offered.ownFrom,
    chosen: dimmedBy.findIndex(isChosen),
    take: (index) => {
      const { title: _, ...chosen } = dimmedBy[index]!;
      alterChoosing(form.store, chosen.dimmer?.entry ?? null, (job) => ({
        ...job,
        dimming: { ...job.dimming, ...chosen },
      }));
    },
    help: 'A dimmer stands behind every output, in the place of its driver.',
  })}
  ${ownNote(form, control === 'dimmer' ? dimmer?.entry : null)}`;
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
    picture: 'slot',
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
      ${several ? field(form, ['dimming', 'mixingLimit'], { empty: 'none' }) : nothing}
      ${field(form, ['dimming', 'sizeFor'])} ${field(form, ['dimming', 'pwm_Hz'], { empty: 'steady' })}
      ${job.dimming.pwm_Hz === null ? nothing : html`<p class="hint">Every pulse draws full current, so that a limit spares heat only.</p>`}
      ${zonesFold(form)} ${roomFold(form)}`,
  };
}
