import type { Job } from '../../src/job/job.ts';
import type { Room } from '../../src/job/room.ts';

/** The slot itself, or the first without an exception where it has one already: a slot is fed in one way. */
export function firstFree(slot: number, exceptions: Job['feeds']['exceptions']): number {
  const taken = new Set(exceptions.map((each) => each.slot));
  if (!taken.has(slot)) return slot;
  for (let number = 1; ; number++) if (!taken.has(number)) return number;
}

/** The first of `Word 2`, `Word 3` and so on, from one past the count of a list, that is no name in it. */
function freeName(word: string, list: readonly { readonly name: string }[]): string {
  const taken = new Set(list.map(({ name }) => name));
  for (let number = list.length + 1; ; number++)
    if (!taken.has(`${word} ${number}`)) return `${word} ${number}`;
}

/** A name that no zone has yet: slots are dimmed together by it. */
export const freeZoneName = (zones: Job['dimming']['zones']): string => freeName('Zone', zones);

/** A name that no driver place has yet: drivers are listed by the name of their place. */
export const freePlaceName = (places: Job['drivers']['places']): string => freeName('Place', places);

/** A name that no place of the room has yet: findings call it by its name. */
export const freeRoomPlaceName = (points: Room['points']): string => freeName('Place', points);

/** A name that nothing hung in a slot has yet: findings call it by its name. */
export const freeHungName = (hung: Job['hung']): string => freeName('Peg', hung);

/** A name that no opening has yet: findings call it by its name. */
export const freeOpeningName = (openings: Job['openings']): string => freeName('Opening', openings);
