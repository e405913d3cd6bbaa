import type { ProfilePart, Section } from '../answer/section.ts';
import type { Job } from '../job/job.ts';
import { profileHeight_mm } from '../job/profile.ts';
import type { LitProducts } from './light-of-job.ts';

type Span = readonly [number, number];

/** Strip is drawn this thick; data sheets print 1.5 to 3 mm. */
const stripThickness_mm = 2;

/** A box given along the face that carries the profile, from its middle, and off that face. */
function placing({ section }: Job, height_mm: number, pitch_mm: number) {
  const { front, cavity_mm, strip, stripOffset_mm, batten_mm } = section;
  const inner = front.thickness_mm;
  if (strip === 'side') {
    const [flank, middle] = [(pitch_mm - batten_mm) / 2, inner + cavity_mm / 2 - stripOffset_mm];
    return ([a0, a1]: Span, [o0, o1]: Span) => ({
      ...{ x0_mm: flank - o1, x1_mm: flank - o0 },
      ...{ y0_mm: middle + a0, y1_mm: middle + a1 },
    });
  }
  const rear = strip === 'recessed' ? height_mm : inner + cavity_mm;
  const middle = strip === 'recessed' ? 0 : stripOffset_mm;
  return ([a0, a1]: Span, [o0, o1]: Span) => ({
    ...{ x0_mm: middle + a0, x1_mm: middle + a1 },
    ...{ y0_mm: rear - o1, y1_mm: rear - o0 },
  });
}

/** The profile of a job as it lies in the section, part by part, the strip last; null where there is none. */
export function profileParts(
  job: Job,
  { strip, profile }: LitProducts,
  pitch_mm: number,
): Section['profile'] {
  if (profile === null) return null;
  const { inside_mm, wall_mm, base_mm, height_mm, cover } = profile;
  const place = placing(job, profileHeight_mm(profile), pitch_mm);
  const [near, far] = [inside_mm / 2, inside_mm / 2 + wall_mm];
  const rim = base_mm + height_mm;
  const part = (name: ProfilePart['part'], along: Span, off: Span): ProfilePart => ({
    part: name,
    ...place(along, off),
  });
  return [
    part('base', [-far, far], [0, base_mm]),
    part('wall', [-far, -near], [base_mm, rim]),
    part('wall', [near, far], [base_mm, rim]),
    ...(cover === null ? [] : [part('cover', [-far, far], [rim, rim + cover.thickness_mm])]),
    part('strip', [-strip.width_mm / 2, strip.width_mm / 2], [base_mm, base_mm + stripThickness_mm]),
  ];
}
