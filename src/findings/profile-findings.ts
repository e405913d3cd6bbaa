import { profileHeight_mm } from '../job/profile.ts';
import { apart, mm } from '../words.ts';
import { type Check, limited, remedy, type Sized } from './context.ts';

/** Air left before a profile, without which it would touch what is before it. */
const leastAir_mm = 0.5;

/** What a profile stands in, and how deep that is. */
function roomOf({ job: { section }, section: { pitch_mm } }: Sized): {
  name: string;
  depth_mm: number;
  field: string;
} {
  if (section.strip === 'side')
    return { name: 'the bay is', depth_mm: pitch_mm - section.batten_mm, field: 'section.batten_mm' };
  if (section.strip === 'recessed')
    return {
      name: 'front and cavity together are',
      depth_mm: section.front.thickness_mm + section.cavity_mm,
      field: 'section.cavity_mm',
    };
  return { name: 'the cavity is', depth_mm: section.cavity_mm, field: 'section.cavity_mm' };
}

/** How far a profile in the slot stands out of the front into the cavity, in words. */
function standing({ job: { section } }: Sized, height_mm: number): string {
  if (section.strip !== 'recessed') return '';
  const out_mm = height_mm - section.front.thickness_mm;
  return out_mm > 0 ? ` It stands ${mm(out_mm)} out of the rear of the front.` : '';
}

/** Whether a profile fits where it is put, the tolerance of the build-up against it. */
export function profileFindings(sized: Sized): Check[] {
  const { profile } = sized.products;
  if (profile === null) return [];
  const height_mm = profileHeight_mm(profile);
  const { name, depth_mm, field } = roomOf(sized);
  const worst_mm = height_mm + sized.job.section.tolerance_mm + leastAir_mm;
  const isOver = worst_mm > depth_mm + 1e-9;
  const [needed, there] = apart(mm, worst_mm, depth_mm);
  const wayOut = field === 'section.batten_mm' ? 'Take a narrower batten.' : 'Make the cavity deeper.';
  return [
    limited({
      id: 'profile-room',
      question: 'depth',
      status: isOver ? 'fails' : 'passes',
      place: { field },
      title: 'Room for the profile',
      value: worst_mm,
      limit: depth_mm,
      unit: 'mm',
      basis:
        'height of the profile with its cover, the tolerance in the job, and half a millimetre of air (judgement)',
      sentence: `The profile is ${mm(height_mm)} high${profile.cover ? ' with its cover' : ''}; with the tolerance and ${mm(leastAir_mm)} of air it needs ${needed}, and ${name} ${there} deep.${standing(sized, height_mm)}`,
      remedies: isOver
        ? [remedy('section.profile.entry', 'Take a lower profile.'), remedy(field, wayOut)]
        : [],
    }),
  ];
}
