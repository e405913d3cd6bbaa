import type { Job } from './job.ts';

/** What a proposal may choose, in the order a maker thinks of it; everything else is kept. */
export const openables = [
  'strip',
  'level',
  'feeds',
  'layout',
  'cables',
  'drivers',
  'carrier',
  'protection',
  'depth',
  'cover',
  'mount',
  'pitch',
] as const;

export type Openable = (typeof openables)[number];

const usuallyOpen = [
  ...(['strip', 'level', 'feeds', 'layout', 'cables', 'drivers', 'carrier', 'protection'] as const),
] satisfies readonly Openable[];

/**
 * Choices that are open unless the maker keeps them: what is bought and wired; and the depth of the cavity where the
 * build-up as it stands has no room, so that nothing could pass with it.
 */
export function openByDefault({ section }: Pick<Job, 'section'>): Openable[] {
  const { backing, cavity_mm, front, tolerance_mm, available_mm } = section;
  const used_mm = backing.thickness_mm + cavity_mm + front.thickness_mm + tolerance_mm;
  return [...usuallyOpen, ...(used_mm > available_mm + 1e-9 ? (['depth'] as const) : [])];
}
