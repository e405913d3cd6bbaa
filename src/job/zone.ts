import * as z from 'zod';
import { layouts, ways } from './cables.ts';
import { lowestLevel, workingLevels } from './dimming-levels.ts';
import { wantedBrightness } from './light.ts';
import { choice, line } from './quantity.ts';
import { mostSlots, slotNumber } from './slots.ts';

/** Slots that are dimmed together. What is null is the wall's. */
export const zone = z.strictObject({
  /** Kept for the life of the job; left out, the reader gives it one. */
  id: line('Zone id', 30).default(''),
  name: line('Zone name', 30),
  slots: z
    .array(slotNumber)
    .min(1, { error: 'A zone without slots: name at least one slot or remove the zone.' })
    .max(mostSlots, { error: `A zone holds at most ${mostSlots} slots: name each slot once.` }),
  levels: workingLevels.nullable().default(null),
  lowest: lowestLevel.nullable().default(null),
  wanted_cd_per_m2: wantedBrightness.nullable().default(null),
  layout: choice('Cable layout of the zone', layouts).nullable().default(null),
  way: choice('Cable way of the zone', ways).nullable().default(null),
});

type Zone = z.infer<typeof zone>;

/** A zone that is in everything else like the rest of the wall. */
export const newZone = (of: Pick<Zone, 'id' | 'name' | 'slots'>): Zone => ({
  ...of,
  levels: null,
  lowest: null,
  wanted_cd_per_m2: null,
  layout: null,
  way: null,
});

/** Gives the zones of a list that have no id one each, in their order. */
export function withZoneIds(zones: readonly Zone[]): Zone[] {
  return zones.reduce<Zone[]>(
    (named, zone, i) => named.with(i, zone.id === '' ? { ...zone, id: freeZoneId(named) } : zone),
    [...zones],
  );
}

/** The first id that no zone of a list has. */
export function freeZoneId(zones: readonly { readonly id: string }[]): string {
  const taken = new Set(zones.map(({ id }) => id));
  for (let number = 1; ; number++) if (!taken.has(`Z${number}`)) return `Z${number}`;
}
