import { html, nothing, type TemplateResult } from 'lit';
import { alterChoosing } from '../state/edit.ts';
import { withProfile, withProfileCover } from '../state/sheet.ts';
import { type FormContext, field } from './field.ts';
import { listChoice } from './list-choice.ts';
import { offeredIn, ownNote } from './own-choice.ts';
import { foldOut } from './step.ts';

/** The list of profiles, the first being none. */
function profileList(form: FormContext): TemplateResult {
  const chosen = form.draft.job.section.profile?.entry;
  const { entries, ownFrom } = offeredIn(form, 'profile', chosen);
  const idAt = (index: number): string | null => entries[index - 1]?.id ?? null;
  return html`${listChoice({
    name: 'section.profile',
    label: 'Aluminium profile',
    titles: ['none', ...entries.map(({ name }) => name)],
    ownFrom: ownFrom + 1,
    chosen: 1 + entries.findIndex(({ id }) => id === chosen),
    take: (index) => alterChoosing(form.store, idAt(index), (job) => withProfile(job, idAt(index))),
    help: 'A straight U section the strip lies in. Measure the one you buy and enter its figures below.',
  })}
  ${ownNote(form, chosen)}`;
}

/** The covers of a profile, the first being none. */
function coverList(form: FormContext): TemplateResult {
  const cover = form.draft.job.section.profile?.cover;
  const chosen = cover?.own ?? cover?.entry;
  const { entries, ownFrom } = offeredIn(form, 'profileCover', chosen);
  const idAt = (index: number): string | null => entries[index - 1]?.id ?? null;
  return html`${listChoice({
    name: 'section.profile.cover',
    label: 'Cover of the profile',
    titles: ['none', ...entries.map(({ name }) => name)],
    ownFrom: ownFrom + 1,
    chosen: 1 + entries.findIndex(({ id }) => id === chosen),
    take: (index) => alterChoosing(form.store, idAt(index), (job) => withProfileCover(job, idAt(index))),
  })}
  ${ownNote(form, cover?.own)}`;
}

const measures = ['inside_mm', 'height_mm', 'wall_mm', 'base_mm', 'endCap_mm'];
const finishes = [
  'baseReflectance',
  'wallReflectance',
  'outsideReflectance',
  'insideEmissivity',
  'outsideEmissivity',
];
const coverFigures = [
  ...['thickness_mm', 'transmittance', 'reflectance', 'straight'],
  ...['limit_degC', 'conductivity_W_per_mK', 'emissivity', 'bar_mm', 'price_cents'],
];

/** The profile of the strip: which, its cover, how it is fixed, and every figure of it. */
export function profileFields(form: FormContext): TemplateResult {
  const { profile } = form.draft.job.section;
  const at = (...path: string[]) => field(form, ['section', 'profile', ...path]);
  if (profile === null) return profileList(form);
  const prices = ['bar_mm', 'price_cents', 'price_cents_per_cap'];
  const figures = ['name', ...measures, ...finishes, 'conductivity_W_per_mK', ...prices].map((key) =>
    field(form, ['section', 'profile', 'data', key], { empty: 'not given' }),
  );
  return html`${profileList(form)} ${coverList(form)} ${at('finish')} ${at('fixing')}
    ${foldOut('Every figure of the profile', html`${figures} ${at('contact_m2K_per_W')}`)}
    ${profile.cover === null ? nothing : foldOut('Every figure of its cover', html`${coverFigures.map((key) => field(form, ['section', 'profile', 'cover', 'data', key], { empty: 'not given' }))}`)}`;
}
