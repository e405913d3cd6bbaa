import type { Job } from './job.ts';

/** The name itself, or with the first number behind it that no other name has. */
function numbered(name: string, taken: ReadonlySet<string>): string {
  if (!taken.has(name)) return name;
  for (let number = 2; ; number++) {
    const ending = ` (${number})`;
    const next = `${name.slice(0, 30 - ending.length)}${ending}`;
    if (!taken.has(next)) return next;
  }
}

/** Places that share a name get numbers behind it: drivers name their place by it. */
function placesTold(places: Job['drivers']['places']): Job['drivers']['places'] {
  const names = new Set(places.map(({ name }) => name));
  const seen = new Set<string>();
  return places.map((place) => {
    const name = seen.has(place.name) ? numbered(place.name, names) : place.name;
    seen.add(name);
    names.add(name);
    return { ...place, name };
  });
}

/** Of several exceptions for one slot the first was the one that counted. */
function exceptionsTold(exceptions: Job['feeds']['exceptions']): Job['feeds']['exceptions'] {
  const slots = exceptions.map(({ slot }) => slot);
  return exceptions.filter(({ slot }, i) => slots.indexOf(slot) === i);
}

/** Slots of zones that share a name were dimmed together, as one zone is now. */
function zonesTold(zones: Job['dimming']['zones']): Job['dimming']['zones'] {
  const names = [...new Set(zones.map(({ name }) => name))];
  return names.map((called) => {
    const alike = zones.filter(({ name }) => name === called);
    return { ...alike[0]!, slots: alike.flatMap(({ slots }) => slots) };
  });
}

/**
 * What a job of format 1 means in this one. Keys that format 1 did not have are left out of its files, and each of
 * them has a default that means what was meant then; what this format no longer takes is put in order here: driver
 * places that share a name, zones that do, and a slot that is an exception twice.
 */
export function fromFormat1(job: Job): Job {
  const { feeds, drivers, dimming } = job;
  return {
    ...job,
    feeds: { ...feeds, exceptions: exceptionsTold(feeds.exceptions) },
    drivers: { ...drivers, places: placesTold(drivers.places) },
    dimming: { ...dimming, zones: zonesTold(dimming.zones) },
  };
}
