import type { Issue } from '../../src/outcome.ts';
import type { Where } from './store.ts';

/** Reasons that say the same of several places. */
export interface Reason {
  /** The first of them in full. */
  readonly issue: Issue;
  /** Where else the same holds. */
  readonly others: readonly Where[];
  /** How many reasons are one here. */
  readonly count: number;
}

/** The thing on the wall that a place names, if it names one. */
export const placeName = (place: Where): string =>
  place.slot ?? place.run ?? place.feedPoint ?? place.driver ?? place.cable ?? '';

/** The sentence without the name of its own place and the figures that belong to it. */
function gist({ code, place, sentence }: Issue): string {
  const names = [place.slot, place.run, place.feedPoint, place.driver, place.cable].filter(
    (x) => x !== undefined,
  );
  const nameless = names.reduce((text, name) => text.replaceAll(name, ''), sentence);
  return names.length === 0 ? `${code} ${sentence}` : `${code} ${nameless.replaceAll(/\d+/g, '')}`;
}

/** Equal reasons once each, with their count, in the order in which they first come. */
export function groupedReasons(issues: readonly Issue[]): Reason[] {
  const groups = new Map<string, Issue[]>();
  for (const issue of issues) {
    const key = gist(issue);
    groups.set(key, [...(groups.get(key) ?? []), issue]);
  }
  return [...groups.values()].map(([first, ...rest]) => {
    const others = new Map(rest.map(({ place }) => [placeName(place), place]));
    others.delete('');
    others.delete(placeName(first!.place));
    return { issue: first!, others: [...others.values()], count: rest.length + 1 };
  });
}
