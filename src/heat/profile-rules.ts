import { type HeatIssue, heatIssue } from './issues.ts';
import { leastAir_m, mm, slack_m } from './lengths.ts';
import {
  cavityWidth_m,
  type Profile,
  profileHeight_m,
  profileWidth_m,
  type SectionDescription,
} from './section-description.ts';

/** What goes with a profile and what does not, before any size is looked at. */
function togetherIssues({ strip, sheet, battenWidth_m }: SectionDescription): HeatIssue[] {
  const { mount, profile, carrier } = strip;
  if (profile === undefined)
    return [
      heatIssue(
        'profile-not-there',
        {},
        'The strip is to be recessed in the slot, and only a strip in a profile can be. Choose a profile, or put the strip on the backing.',
        { field: 'strip.mount' },
      ),
    ];
  const issues: HeatIssue[] = [];
  if (mount === 'front')
    issues.push(
      heatIssue(
        'profile-not-there',
        {},
        'A profile on the inner face of the front is not worked out. Put it on the backing, in the slot or at the side, or take the profile away.',
        { field: 'strip.mount' },
      ),
    );
  if (mount === 'side' && battenWidth_m <= 0)
    issues.push(
      heatIssue(
        'side-needs-batten',
        { battenWidth_m },
        'The profile is on the flank of a batten, and there is no batten. Give the batten a width or put the profile on the backing.',
        { field: 'strip.mount' },
      ),
    );
  if (carrier !== null)
    issues.push(
      heatIssue(
        'profile-and-carrier',
        {},
        'The strip lies in a profile, so there is no aluminium flat under it. Take away one of the two.',
        { field: 'strip.carrier' },
      ),
    );
  if (mount === 'recessed' && sheet !== null)
    issues.push(
      heatIssue(
        'profile-closes-slot',
        {},
        'A profile recessed in the slot fills it, so there is no slot cover besides. Leave the slot cover away: the profile has its own.',
        { field: 'sheet' },
      ),
    );
  return issues;
}

/** The room along the face that carries the profile, and off it. */
function roomFor(section: SectionDescription): { from_m: number; to_m: number; off_m: number } {
  const { mount } = section.strip;
  const half_m = cavityWidth_m(section) / 2;
  if (mount === 'side') return { from_m: 0, to_m: section.cavityDepth_m, off_m: 2 * half_m };
  const off_m = section.cavityDepth_m + (mount === 'recessed' ? section.front.thickness_m : 0);
  return { from_m: -half_m, to_m: half_m, off_m };
}

function heightIssues(section: SectionDescription, profile: Profile): HeatIssue[] {
  const height_m = profileHeight_m(profile);
  const { off_m } = roomFor(section);
  if (height_m <= off_m - leastAir_m + slack_m) return [];
  const { mount } = section.strip;
  const there = {
    side: `the cavity is ${mm(off_m)} from batten to batten`,
    recessed: `front and cavity together are ${mm(off_m)} deep`,
    backing: `the cavity is ${mm(off_m)} deep`,
    front: '',
  }[mount];
  return [
    heatIssue(
      'profile-too-high',
      { height_m, off_m },
      `The profile is ${mm(height_m)} high with its cover and ${there}, of which ${mm(leastAir_m)} of air have to be left. Take a lower profile or ${mount === 'side' ? 'set the battens further apart' : 'make the cavity deeper'}.`,
      { field: 'strip.profile' },
    ),
  ];
}

function widthIssues(section: SectionDescription, profile: Profile): HeatIssue[] {
  const { mount, offset_m } = section.strip;
  const width_m = profileWidth_m(profile);
  const standsInCavity = mount !== 'recessed' || profileHeight_m(profile) > section.front.thickness_m;
  const middle_m = mount === 'recessed' ? 0 : offset_m;
  const { from_m, to_m } = roomFor(section);
  const [low, high] = [middle_m - width_m / 2, middle_m + width_m / 2];
  const air_m = standsInCavity ? leastAir_m : 0;
  const isEndless = mount !== 'side' && section.battenWidth_m === 0;
  const fits = low >= from_m + air_m - slack_m && high <= to_m - air_m + slack_m;
  if (fits) return [];
  const beside = {
    side: 'in front of it and behind it',
    recessed: 'beside it',
    backing: 'beside it',
    front: '',
  }[mount];
  return [
    heatIssue(
      'profile-has-no-room',
      { from_m: low, to_m: high, low_m: from_m, high_m: to_m },
      `The profile is ${mm(width_m)} wide and reaches beyond the ${mm(to_m - from_m)} there are for it${isEndless ? ' from slot to slot' : ''}, of which ${mm(leastAir_m)} of air have to be left ${beside}. Move it, take a narrower one, or make the cavity ${mount === 'side' ? 'deeper' : 'wider'}.`,
      { field: 'strip.profile' },
    ),
  ];
}

/** A slot is cut to the profile that fills it. */
function slotIssues({ slotWidth_m, strip }: SectionDescription, profile: Profile): HeatIssue[] {
  const width_m = profileWidth_m(profile);
  if (strip.mount !== 'recessed' || Math.abs(slotWidth_m - width_m) <= slack_m) return [];
  return [
    heatIssue(
      'slot-not-as-wide-as-profile',
      { slotWidth_m, width_m },
      `The slot is ${mm(slotWidth_m)} wide and the profile that is to fill it ${mm(width_m)}. Make the slot ${mm(width_m)} wide or take another profile.`,
      { field: 'slotWidth' },
    ),
  ];
}

/** Why a profile cannot be built in a section, each with the sentence that says what to change; empty when it can. */
export function profileIssues(section: SectionDescription): HeatIssue[] {
  const together = togetherIssues(section);
  const { profile, width_m } = section.strip;
  if (profile === undefined || together.length > 0) return together;
  const narrow =
    width_m <= profile.inside_m + slack_m
      ? []
      : [
          heatIssue(
            'profile-narrower-than-strip',
            { strip_m: width_m, inside_m: profile.inside_m },
            `The strip is ${mm(width_m)} wide and the profile ${mm(profile.inside_m)} between its walls. Take a wider profile or a narrower strip.`,
            { field: 'strip.profile' },
          ),
        ];
  return [
    ...narrow,
    ...slotIssues(section, profile),
    ...widthIssues(section, profile),
    ...heightIssues(section, profile),
  ];
}
