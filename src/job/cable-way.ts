import type { Job } from './job.ts';

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
