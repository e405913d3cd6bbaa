import type { JobIssue } from './issues.ts';
import type { Job } from './job.ts';
import type { Products } from './products.ts';

const issue = (code: JobIssue['code'], field: string, sentence: string): JobIssue => ({
  code,
  place: { field },
  quantities: {},
  sentence,
});

/** What of a build-up goes with a profile and what does not, before any size is looked at. */
export function profileIssues({ section }: Job, { profile }: Pick<Products, 'profile'>): JobIssue[] {
  const isRecessed = section.strip === 'recessed';
  if (profile === null)
    return isRecessed
      ? [
          issue(
            'profile-missing',
            'section.profile',
            'The strip is to lie in a profile that fills the slot, and none is chosen: choose a profile, or put the strip elsewhere.',
          ),
        ]
      : [];
  const { cover } = profile;
  return [
    ...(section.strip === 'front'
      ? [
          issue(
            'profile-misplaced',
            'section.strip',
            'A profile on the inner face of the front is not calculated: put it on the backing, in the slot or at the side, or do without it.',
          ),
        ]
      : []),
    ...(section.carrier === 'none'
      ? []
      : [
          issue(
            'profile-and-flat',
            'section.carrier',
            'The strip lies in a profile, so that there is no aluminium flat under it: choose none, or do without the profile.',
          ),
        ]),
    ...(isRecessed && section.cover !== 'open'
      ? [
          issue(
            'profile-closes-slot',
            'section.cover',
            'The profile fills the slot and has a cover of its own: set the slot cover to open.',
          ),
        ]
      : []),
    ...(cover !== null && cover.transmittance + cover.reflectance > 1 + 1e-9
      ? [
          issue(
            'cover-gains-light',
            'section.profile.cover.data.transmittance',
            'What the cover of the profile lets through and what it reflects add up to more than all of the light: lower one of the two.',
          ),
        ]
      : []),
  ];
}
