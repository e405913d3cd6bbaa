import type { Job } from './job.ts';
import { stopsCables } from './opening.ts';

type Cables = Job['cables'];

/** Height of the cable way: along the top (head run) or the bottom (foot run) of the cavity. */
export function wayHeight_mm(panelHeight_mm: number, cables: Pick<Cables, 'way' | 'wayInset_mm'>): number {
  return cables.way === 'head' ? panelHeight_mm - cables.wayInset_mm : cables.wayInset_mm;
}

/** How the cables of a zone are laid, and along which edge: as it says itself, else as the wall; null for no zone. */
export function wiringOf(
  { cables, dimming }: Pick<Job, 'cables' | 'dimming'>,
  zone: string | null,
): Pick<Cables, 'layout' | 'way'> {
  const own = dimming.zones.find(({ name }) => name === zone);
  return { layout: own?.layout ?? cables.layout, way: own?.way ?? cables.way };
}

/** The edges cables run along, the wall's first, and how high. */
export function waysOf({
  panel,
  cables,
  dimming,
}: Job): { readonly way: Cables['way']; readonly y_mm: number }[] {
  const ways = new Set([cables.way, ...dimming.zones.map(({ way }) => way ?? cables.way)]);
  return [...ways].map((way) => ({ way, y_mm: wayHeight_mm(panel.height_mm, { ...cables, way }) }));
}

/**
 * The parts of a level line across the panel that lie in no opening, each by where it begins and ends from the left, in mm.
 * A line along the edge of an opening is not broken by it. Check: `tests/job/cable-way.test.ts`, by hand.
 */
export function wayParts_mm(
  y_mm: number,
  { panel, openings }: Pick<Job, 'panel' | 'openings'>,
): (readonly [from_mm: number, to_mm: number])[] {
  const met = openings.filter(
    (each) => stopsCables(each) && each.y_mm < y_mm && y_mm < each.y_mm + each.height_mm,
  );
  return met
    .reduce<(readonly [number, number])[]>(
      (parts, { x_mm, width_mm }) =>
        parts.flatMap(([from, to]): [number, number][] => [
          [from, Math.min(to, x_mm)],
          [Math.max(from, x_mm + width_mm), to],
        ]),
      [[0, panel.width_mm]],
    )
    .filter(([from, to]) => from < to);
}
