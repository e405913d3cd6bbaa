import type { SetOut } from '../answer/set-out.ts';
import { leastAspect } from '../heat/correlations.ts';
import { type HeatIssue, heatIssue } from '../heat/issues.ts';
import type { SectionDescription } from '../heat/section-description.ts';
import { isUpright } from '../set-out/pitch.ts';

const sample =
  'Build one slot as it will be, closed in as on the wall, run it fully on for three hours in a warm room, and measure strip, timber and front before you make the rest.';

/**
 * Why the model of the section does not hold for a job, and what to do; null where it holds. It is of upright slots, and
 * of cavities at least as high against their depth as the correlation of their air was published for.
 */
export function heatUnknown(
  slots: SetOut['slots'],
  { slotHeight_m, cavityDepth_m }: Pick<SectionDescription, 'slotHeight_m' | 'cavityDepth_m'>,
): string | null {
  if (!isUpright(slots))
    return `Not known: some slots do not stand upright, and air in a sloping or level cavity moves otherwise than in the upright one that is worked out. ${sample}`;
  if (slotHeight_m < leastAspect * cavityDepth_m)
    return `Not known: the cavity is less than ${leastAspect} times as high as it is deep, and what is worked out holds for tall ones. ${sample}`;
  return null;
}

/** The same as a refusal of a question about heat. */
export function unknownIssue(unknown: string): HeatIssue {
  return heatIssue('heat-not-known', {}, unknown, { field: 'slots' });
}
