import type { Job } from '../../src/job/job.ts';

/** The slot itself, or the first without an exception where it has one already: a slot is fed in one way. */
export function firstFree(slot: number, exceptions: Job['feeds']['exceptions']): number {
  const taken = new Set(exceptions.map((each) => each.slot));
  if (!taken.has(slot)) return slot;
  for (let number = 1; ; number++) if (!taken.has(number)) return number;
}

/** A name that no zone has yet: slots are dimmed together by it. */
export function freeZoneName(zones: Job['dimming']['zones']): string {
  const taken = new Set(zones.map(({ name }) => name));
  for (let number = zones.length + 1; ; number++) if (!taken.has(`Zone ${number}`)) return `Zone ${number}`;
}

/** A name that no driver place has yet: drivers are listed by the name of their place. */
export function freePlaceName(places: Job['drivers']['places']): string {
  const taken = new Set(places.map(({ name }) => name));
  for (let number = places.length + 1; ; number++)
    if (!taken.has(`Place ${number}`)) return `Place ${number}`;
}
