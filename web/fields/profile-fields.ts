import { html, nothing, type TemplateResult } from 'lit';
import { profileCatalogue, profileCoverCatalogue } from '../../src/job/profile-catalogue.ts';
import { alter } from '../state/edit.ts';
import { withProfile, withProfileCover } from '../state/sheet.ts';
import { type FormContext, field } from './field.ts';
import { listChoice } from './list-choice.ts';
import { foldOut } from './step.ts';

/** The list of profiles, the first being none. */
function profileList(form: FormContext): TemplateResult {
  const chosen = form.draft.job.section.profile?.entry;
  return listChoice({
    name: 'section.profile',
    label: 'Aluminium profile',
    titles: ['none', ...profileCatalogue.map(({ name }) => name)],
    chosen: 1 + profileCatalogue.findIndex(({ id }) => id === chosen),
    take: (index) => alter(form.store, (job) => withProfile(job, profileCatalogue[index - 1]?.id ?? null)),
    help: 'A straight U section the strip lies in. Measure the one you buy and enter its figures below.',
  });
}

/** The covers of a profile, the first being none. */
function coverList(form: FormContext): TemplateResult {
  const chosen = form.draft.job.section.profile?.cover?.entry;
  return listChoice({
    name: 'section.profile.cover',
    label: 'Cover of the profile',
    titles: ['none', ...profileCoverCatalogue.map(({ name }) => name)],
    chosen: 1 + profileCoverCatalogue.findIndex(({ id }) => id === chosen),
    take: (index) =>
      alter(form.store, (job) => withProfileCover(job, profileCoverCatalogue[index - 1]?.id ?? null)),
  });
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
  ...['limit_degC', 'conductivity_W_per_mK', 'emissivity'],
];

/** The profile of the strip: which, its cover, how it is fixed, and every figure of it. */
export function profileFields(form: FormContext): TemplateResult {
  const { profile } = form.draft.job.section;
  const at = (...path: string[]) => field(form, ['section', 'profile', ...path]);
  if (profile === null) return profileList(form);
  const figures = ['name', ...measures, ...finishes, 'conductivity_W_per_mK'].map((key) => at('data', key));
  return html`${profileList(form)} ${coverList(form)} ${at('finish')} ${at('fixing')}
    ${foldOut('Every figure of the profile', html`${figures} ${at('contact_m2K_per_W')}`)}
    ${profile.cover === null ? nothing : foldOut('Every figure of its cover', html`${coverFigures.map((key) => at('cover', 'data', key))}`)}`;
}
