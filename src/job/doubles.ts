import type { JobIssue } from './issues.ts';
import type { Job } from './job.ts';

/** Where an item of a list says for the second time what another said, from 0, and where the first did. */
function* repeats(
  values: readonly (string | number)[],
): Generator<{ readonly at: number; readonly first: number }> {
  for (const [at, value] of values.entries()) {
    const first = values.indexOf(value);
    if (first !== at) yield { at, first };
  }
}

const doubled = (field: string, sentence: string): JobIssue => ({
  code: 'said-twice',
  place: { field },
  quantities: {},
  sentence,
});

/**
 * What a job says twice where only one can be meant: panels of one mark, places of one name, zones of one id or name, a slot
 * fed in two ways, an entry with two prices, two own products of one id.
 */
export function doublesIn({ panels, drivers, dimming, feeds, prices, products }: Job): JobIssue[] {
  const places = [...repeats(drivers.places.map(({ name }) => name))].map(({ at }) =>
    doubled(
      `drivers.places[${at + 1}].name`,
      `Two driver places are called "${drivers.places[at]!.name}", and drivers are listed by the name of their place: give one of them another name.`,
    ),
  );
  const zones = [...repeats(dimming.zones.map(({ id }) => id))].map(({ at, first }) =>
    doubled(
      `dimming.zones[${at + 1}].id`,
      `Zones ${first + 1} and ${at + 1} have the same id "${dimming.zones[at]!.id}": give one of them another.`,
    ),
  );
  const zoneNames = [...repeats(dimming.zones.map(({ name }) => name))].map(({ at }) =>
    doubled(
      `dimming.zones[${at + 1}].name`,
      `Two zones are called "${dimming.zones[at]!.name}", and slots are dimmed together by the name of their zone: give one of them another name, or put its slots into the other.`,
    ),
  );
  const slots = [...repeats(feeds.exceptions.map(({ slot }) => slot))].map(({ at }) =>
    doubled(
      `feeds.exceptions[${at + 1}].slot`,
      `Slot ${feeds.exceptions[at]!.slot} is fed another way twice: remove one of the two, or name another slot.`,
    ),
  );
  const listed = [...repeats(prices.list.map(({ product, entry }) => `${product} ${entry}`))].map(({ at }) =>
    doubled(
      `prices.list[${at + 1}].entry`,
      `The price of the ${prices.list[at]!.product} "${prices.list[at]!.entry}" is listed twice: remove one of the two.`,
    ),
  );
  const own = [...repeats(products.map(({ id }) => id))].map(({ at, first }) =>
    doubled(
      `products[${at + 1}].id`,
      `Own products ${first + 1} and ${at + 1} have the same id "${products[at]!.id}": remove one of the two.`,
    ),
  );
  const marks = [...repeats(panels.map(({ id }) => id))].map(({ at, first }) =>
    doubled(
      `panels[${at + 1}].id`,
      `Panels ${first + 1} and ${at + 1} are both marked "${panels[at]!.id}": give one of them another mark.`,
    ),
  );
  return [...marks, ...places, ...zones, ...zoneNames, ...slots, ...listed, ...own];
}
