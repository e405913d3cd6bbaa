import type { LoadsToAllocate } from './loads.ts';
import type { Kind } from './share-kinds.ts';

/** Whether drivers of some models have room together in a place, each question asked once. */
export type HasRoom = LoadsToAllocate['hasRoom'];

/** The question of room, with what it said before kept. */
export function rememberedRoom({ hasRoom }: LoadsToAllocate): HasRoom {
  const known = new Map<string, boolean>();
  return (place, models) => {
    const key = `${place}:${models}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const answer = hasRoom(place, models);
    known.set(key, answer);
    return answer;
  };
}

/** Questions of room after which a choice is let go. */
const mostAsked = 400;

/**
 * A place for each of some drivers, kind by kind, such that all have room; null where there is none, undefined where none was
 * found with so many questions. Drivers of one kind go to their places in order, so that no way is tried twice.
 */
export function placesFor(
  kinds: readonly Kind[],
  counts: readonly number[],
  hasRoom: HasRoom,
): readonly (readonly number[])[] | null | undefined {
  const drivers = counts.flatMap((count, k) => Array<number>(count).fill(k));
  const models = new Map<number, number[]>();
  const chosen: number[] = [];
  let asked = 0;
  const go = (at: number): boolean => {
    const k = drivers[at];
    if (k === undefined) return true;
    const { places, model } = kinds[k]!;
    const from = drivers[at - 1] === k ? places.indexOf(chosen[at - 1]!) : 0;
    for (const place of places.slice(from)) {
      if (asked++ > mostAsked) return false;
      const here = [...(models.get(place) ?? []), model];
      if (!hasRoom(place, here)) continue;
      models.set(place, here);
      chosen.push(place);
      if (go(at + 1)) return true;
      chosen.pop();
      models.set(place, here.slice(0, -1));
    }
    return false;
  };
  if (go(0)) return counts.map((_, k) => chosen.filter((_place, i) => drivers[i] === k));
  return asked > mostAsked ? undefined : null;
}
