import type { LightZone } from '../answer/light.ts';
import { levelFields } from '../job/zone-levels.ts';
import { levelsOf } from '../words.ts';
import type { Sized } from './context.ts';

/** What light is judged by: nothing electrical, nothing warm. */
export type Lit = Pick<Sized, 'job' | 'products' | 'light' | 'limits'>;

/** Slots dimmed alike, in the wall they are part of. */
export interface Zone {
  readonly sized: Lit;
  readonly lit: LightZone;
}

/** Every group of slots that is dimmed alike; where there are several, a finding about one says which. */
export const zonesOf = (sized: Lit): Zone[] => sized.light.zones.map((lit) => ({ sized, lit }));

/** Whether all slots are dimmed alike. */
export const isOnly = ({ sized }: Zone): boolean => sized.light.zones.length === 1;

/** A title, with the zone where there are several. */
export const titled = (title: string, zone: Zone): string =>
  isOnly(zone) ? title : `${title}, ${zone.lit.name}`;

/** A sentence that begins with its zone where there are several. */
export function saidOf(zone: Zone, sentence: string): string {
  const { name } = zone.lit;
  return isOnly(zone) ? sentence : `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${sentence}`;
}

/** The name of a finding: of a zone with levels of its own, with the number of the zone in the job. */
export function idOf(id: string, { sized, lit }: Zone): string {
  const number = sized.job.dimming.zones.findIndex(({ name }) => name === lit.zone) + 1;
  const width = lit.ofWidth ? `-${lit.ofWidth.width_mm}mm` : '';
  return number === 0 ? `${id}${width}` : `${id}-${number}${width}`;
}

/** What the light of a zone is read off: the section of its width, where slots have several. */
export const sectionOf = ({
  sized,
  lit,
}: Zone): Pick<Lit['light'], 'full_cd_per_m2' | 'outFraction' | 'ripple'> => lit.ofWidth ?? sized.light;

/** The fields of the job that set the levels of a zone. */
export const fieldsOf = ({ sized, lit }: Zone) => levelFields(sized.job, lit.zone);

/** The working levels of a zone in words: "the working level of 15 %". */
export function working({ sized, lit }: Zone): string {
  const said = levelsOf(lit.levels.working, sized.products.strip.channels);
  return said.includes('(') ? `the working levels of ${said}` : `the working level of ${said}`;
}
