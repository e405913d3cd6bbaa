import type { Sizing } from '../../../src/answer/sizing.ts';
import type { Job } from '../../../src/job/job.ts';
import { letterReach } from '../ink/legible.ts';
import type { Lettering, Mark, Point } from '../ink/mark.ts';
import { elevation } from './elevation.ts';
import type { Drawing } from './scale.ts';

const swapped = { left: 'right', middle: 'middle', right: 'left' } as const;

/** Lettering where its mirror image would be, read the right way round: its box is the mirrored one. */
function mirroredLettering(text: Lettering, width_mm: number): Lettering {
  const [x, y] = text.at;
  const isUpright = Math.abs(Math.cos((text.angle_deg * Math.PI) / 180)) < 1e-6;
  // Upright lettering has its capitals to the left of its line, in the mirror to the right.
  const shift = isUpright ? (letterReach.above - letterReach.below) * text.em : 0;
  const at: Point = [width_mm - x + shift, y];
  if (isUpright) return { ...text, at };
  return { ...text, at, align: swapped[text.align], angle_deg: -text.angle_deg };
}

/** Marks seen from behind a panel so wide: left is right, and lettering is read as ever. */
export function mirrored(marks: readonly Mark[], width_mm: number): Mark[] {
  const across = ([x, y]: Point): Point => [width_mm - x, y];
  return marks.map((mark): Mark => {
    if (mark.kind === 'path') return { ...mark, points: mark.points.map(across) };
    if (mark.kind === 'circle') return { ...mark, centre: across(mark.centre) };
    return mirroredLettering(mark, width_mm);
  });
}

/** The elevation from the wall side, as whoever wires the panel sees it. */
export function rearElevation(job: Job, sizing: Sizing, perPaper: number): Drawing {
  return { marks: mirrored(elevation(job, sizing, perPaper).marks, job.panel.width_mm), perPaper };
}
