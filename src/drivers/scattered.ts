import type { Group, Load, LoadsToAllocate } from './loads.ts';
import {
  type Bounding,
  type Cut,
  classesOf,
  firstCuts,
  reaches,
  refutation,
  relaxedCuts,
} from './share-bounds.ts';
import { type Counts, countsInOrder } from './share-counts.ts';
import type { ShareEffort } from './share-effort.ts';
import { fillSharing } from './share-filling.ts';
import { type Cost, compareCosts, type Kind, kindsOf, roomiest } from './share-kinds.ts';
import { placesFor, rememberedRoom } from './share-places.ts';
import { type Budget, type FilledDriver, searchSharing } from './share-search.ts';

export interface ScatteredAsked {
  readonly given: LoadsToAllocate;
  readonly effort: ShareEffort;
  /** Whether drivers are held to their stock, and places to their room. */
  readonly holds: { readonly stock: boolean; readonly room: boolean };
  /** What costs as much or more is of no use; null for nothing known yet. */
  readonly below: Cost | null;
}

export interface Scattered {
  /** The cheapest that was found, if any costs less than what is known. */
  readonly groups: readonly Group[] | null;
  readonly cost: Cost | null;
  /** Nothing costs less than this, endless where nothing was found and all was tried. */
  readonly atLeast: Cost;
}

interface Trial extends ScatteredAsked {
  readonly kinds: readonly Kind[];
  readonly bounding: Bounding;
  readonly cuts: Cut[];
  readonly hasRoom: ReturnType<typeof rememberedRoom>;
  readonly budget: { steps: number };
  isRelaxed: boolean;
}

function trialOf(asked: ScatteredAsked): Trial {
  const { given, effort, holds } = asked;
  const all = kindsOf(given);
  // Without limits of room nothing is gained by a place that gives less.
  const kinds = holds.room ? all : roomiest(all);
  const stocks = given.models.map(({ stock }) => (holds.stock ? stock : null));
  const { loads } = given;
  const bounding = {
    ...{ loads, classes: classesOf(loads), kinds, stocks },
    ...{ budget: { work: effort.boundWork }, fillSteps: effort.fillSteps },
  };
  return {
    ...asked,
    ...{ kinds, bounding, cuts: firstCuts(bounding), hasRoom: rememberedRoom(given) },
    ...{ budget: { steps: effort.steps }, isRelaxed: false },
  };
}

type Places = readonly (readonly number[])[];

/** Places for a choice of drivers; any that give as much where room is not asked for. */
function placesOf({ kinds, holds, hasRoom }: Trial, counts: readonly number[]): Places | null | undefined {
  if (!holds.room) return counts.map((count, k) => Array<number>(count).fill(kinds[k]!.places[0]!));
  return placesFor(kinds, counts, hasRoom);
}

/** Whether one of the drivers could stand at a roomier place: a choice that costs the same and carries more. */
function isBettered({ kinds, holds, hasRoom }: Trial, counts: readonly number[]): boolean {
  return (
    holds.room &&
    counts.some((count, k) => {
      const better = kinds.findIndex(({ model }) => model === kinds[k]!.model);
      if (count === 0 || better === k) return false;
      const moved = counts.with(k, count - 1).with(better, counts[better]! + 1);
      return Array.isArray(placesFor(kinds, moved, hasRoom));
    })
  );
}

function grouped(filled: readonly FilledDriver[], places: Places, { kinds, given }: Trial): Group[] {
  const taken = kinds.map(() => 0);
  return filled.map(({ kind, outputs }) => ({
    model: kinds[kind]!.model,
    place: places[kind]![taken[kind]!++]!,
    outputs: outputs.map((held): Load[] => held.toSorted((a, b) => a - b).map((i) => given.loads[i]!)),
  }));
}

/** The groups of a choice; `none` where it cannot carry all loads; `unknown` where the trouble allowed says neither. */
function tried(trial: Trial, { counts }: Counts): Group[] | 'none' | 'unknown' {
  const { bounding, cuts, kinds, budget, effort } = trial;
  const places = placesOf(trial, counts);
  if (!places) return places === null ? 'none' : 'unknown';
  const { loads } = bounding;
  const within = <Found>(part: number, look: (own: Budget) => Found): Found => {
    const most = Math.min(budget.steps, Math.ceil(effort.steps / part));
    const own = { steps: most };
    const result = look(own);
    budget.steps -= most - own.steps;
    return result;
  };
  const search = (part: number): Group[] | 'none' | 'unknown' => {
    const sharing = within(part, (own) => searchSharing(loads, kinds, cuts, { counts, budget: own }));
    return typeof sharing === 'string' ? sharing : grouped(sharing, places, trial);
  };
  const fill = (part: number): Group[] | undefined => {
    const filled = within(part, (own) => fillSharing(loads, kinds, { counts, budget: own }));
    return filled && grouped(filled, places, trial);
  };
  const soon = search(40);
  const filledSoon = soon === 'unknown' ? fill(40) : soon;
  if (filledSoon) return filledSoon;
  if (!trial.isRelaxed) {
    trial.isRelaxed = true;
    cuts.push(...relaxedCuts(bounding));
    if (!cuts.every((cut) => reaches(cut, counts))) return 'none';
  }
  const cut = refutation(bounding, counts);
  if (cut) {
    cuts.push(cut);
    return 'none';
  }
  return fill(8) ?? search(10);
}

const endless: Cost = [Number.POSITIVE_INFINITY, 0];

/**
 * Shares loads out over drivers of any models, whichever loads go together: at the least cost there is, where that is below
 * what is known. Choices of drivers are gone through in rising order of cost; each is packed, or refuted: by the watts and
 * outputs it takes, by room, by the prices of the relaxed problem (which refute others with it), or by trying every way.
 *
 * @returns groups of the first choice that was packed, and a cost below which everything was refuted
 * Source: the functions it joins. Check: `tests/drivers/share-out.test.ts`, against every way there is.
 */
export function scattered(asked: ScatteredAsked): Scattered {
  const trial = trialOf(asked);
  const { cuts, kinds, bounding, effort, below } = trial;
  const mostDrivers = asked.given.loads.length;
  let [looks, tries] = [0, 0];
  let open: Cost | null = null;
  for (const choice of countsInOrder({ kinds, stocks: bounding.stocks, cuts, mostDrivers })) {
    if (below && compareCosts(choice.atLeast, below) >= 0)
      return { groups: null, cost: null, atLeast: open ?? below };
    if (++looks > effort.looks || tries >= effort.tries || trial.budget.steps <= 0)
      return { groups: null, cost: null, atLeast: open ?? choice.atLeast };
    if (!cuts.every((cut) => reaches(cut, choice.counts)) || isBettered(trial, choice.counts)) continue;
    tries++;
    const result = tried(trial, choice);
    if (typeof result !== 'string')
      return { groups: result, cost: choice.cost, atLeast: open ?? choice.cost };
    if (result === 'unknown') open ??= choice.cost;
  }
  return { groups: null, cost: null, atLeast: open ?? endless };
}
