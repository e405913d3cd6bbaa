import type { Section } from '../../src/answer/section.ts';
import type { Sizing } from '../../src/answer/sizing.ts';
import type { Job } from '../../src/job/job.ts';
import { shown } from './shown.ts';

const behind = {
  insulation: 'insulation, so that no heat goes that way',
  'inner wall': 'an inner wall with a room behind it, which takes heat',
} as const;

type Wall = NonNullable<Section['behind']>;

const figure = (value: number): string => shown(value, Number.isInteger(value) ? 0 : 1);

const layerWords = ({
  name,
  thickness_mm,
  timberShare,
  resistance_m2K_per_W,
  source,
}: Wall['layers'][number]) =>
  `${name} ${figure(thickness_mm)} mm${timberShare > 0 ? `, ${shown(100 * timberShare, 0)} % of it timber` : ''} (${shown(resistance_m2K_per_W, 2)} m²K/W${source === '' ? '' : `; ${source}`})`;

/** How sure the resistance is: where nothing bridges the layers both limits are one. */
const limitsWords = ({ lower_m2K_per_W: low, upper_m2K_per_W: high }: Wall): string =>
  high - low < 0.005 ? '' : `, between the limits ${shown(low, 2)} and ${shown(high, 2)}`;

/** Every layer of the wall behind with its resistance, and what they come to. */
function wallWords(wall: Wall): string {
  const air = wall.beyond === 'room' ? 'a room' : 'outside air';
  return `a wall of layers, from the backing: ${wall.layers.map(layerWords).join('; ')}; then ${air} at ${shown(wall.beyond_degC, 0)} °C. To that air ${shown(wall.resistance_m2K_per_W, 2)} m²K/W with ${shown(wall.film_m2K_per_W, 2)} on its far face (ISO 6946${limitsWords(wall)}); the wall by itself has a U-value of ${shown(wall.U_W_per_m2K, 2)} W/(m²K). Moisture in it is not looked at`;
}

/** What stands behind the backing, in full. */
export function behindInFull(job: Job, { section }: Pick<Sizing, 'section'>): string {
  const { behind: kind } = job.section;
  if (kind !== 'layers') return behind[kind];
  return section.behind ? wallWords(section.behind) : 'a wall of layers';
}

/** The same in a few words. */
export function behindShortly(job: Job, { section }: Pick<Sizing, 'section'>): string {
  const wall = section.behind;
  if (job.section.behind !== 'layers' || !wall) return job.section.behind;
  const names = wall.layers.map(({ name, thickness_mm }) => `${name} ${figure(thickness_mm)} mm`);
  return `${names.join(', ')}, then ${wall.beyond === 'room' ? 'a room' : 'outside air'}`;
}
