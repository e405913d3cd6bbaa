import { costOf } from '../../src/proposing/figures.ts';
import { search } from '../../src/proposing/search.ts';
import { nothingKnown } from '../../src/proposing/search-state.ts';
import { spaceOf } from '../../src/proposing/space.ts';
import { cheapestOf, randomWorld, type World } from '../proposing/worlds.ts';
import { type Kind, thrown } from './kind.ts';
import { randomOf } from './random.ts';

/** The least cost that the search finds in a world, with all the work it wants; null where nothing passes. */
export function searched({ job, open, within }: World): { cost: number[] | null; proved: boolean } {
  const space = spaceOf(job, new Set(open), within);
  const all = Number.POSITIVE_INFINITY;
  const going = search(space, costOf, { known: nothingKnown(), effort: all, start: null });
  for (let step = going.next(); ; step = going.next()) {
    if (!step.done) continue;
    const { best, proved } = step.value;
    return { cost: best && costOf(best.figures), proved };
  }
}

/** Small worlds in which every design is sized by itself: the search has to come to the same least cost, and to prove it. */
export const proposals: Kind<World> = {
  name: 'proposals',
  make: (seed, number) => randomWorld(randomOf(seed, number)),
  read: (text) => {
    const world = JSON.parse(text);
    return world.within && world.open ? world : null;
  },
  broken: (world) => {
    try {
      const { cost, proved } = searched(world);
      const least = cheapestOf(world);
      const same = JSON.stringify(cost) === JSON.stringify(least);
      return [
        ...(proved ? [] : ['not proved with endless work']),
        ...(same ? [] : [`found ${JSON.stringify(cost)}, least ${JSON.stringify(least)}`]),
      ];
    } catch (error) {
      return thrown(error);
    }
  },
};
