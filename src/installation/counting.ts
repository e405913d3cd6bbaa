import { rememberedFor } from '../numeric/remembered.ts';
import { countTogether, leavingCount } from './bunching.ts';
import type { InstallationToPlan, Laid } from './installation-to-plan.ts';
import type { CountedPath, Path } from './plan.ts';

/** What is round a cable, degC: computed where it is known, and never less than the job gives. */
function airOf(path: Pick<Path, 'in'>, place: number, given: InstallationToPlan): number {
  const typed = given.cables.cable_degC;
  if (path.in === 'place') return Math.max(typed, given.place_degC[place]!);
  if (path.in === 'slot') return Math.max(typed, given.slot_degC);
  return path.in === 'remote' ? Math.max(typed, given.room_degC) : typed;
}

/** A piece of way with the air and the circuits of where it lies, seen from a place. */
export type Count = (path: Path, place: number) => CountedPath;

/**
 * Counts circuits side by side: outside the places where they lie, inside them all that leave the place. Every piece is
 * counted once, and is the same one whenever it is asked for.
 */
export function counting(laid: readonly Laid[], given: InstallationToPlan): Count {
  const outside = countTogether(laid.flatMap(({ cables }) => cables));
  const known = new Map<Path, CountedPath>();
  const inside = given.places.map((_, i) =>
    laid
      .filter(({ output }) => output.place === i)
      .reduce((sum, { cables }) => sum + leavingCount(cables), 0),
  );
  return (path, place) => {
    const counted = known.get(path) ?? {
      in: path.in,
      from: path.from,
      to: path.to,
      length_mm: path.length_mm,
      togetherCount: Math.max(given.cables.grouped, outside.get(path) ?? inside[place]!),
      air_degC: airOf(path, place, given),
    };
    known.set(path, counted);
    return counted;
  };
}

/** Of each place a piece of way inside it, however short. */
const insides = rememberedFor(({ places }: InstallationToPlan) =>
  places.map(({ x_mm, y_mm }): Path => {
    const at = { x_mm, y_mm };
    return { in: 'place', from: at, to: at, length_mm: 0 };
  }),
);

/** A cable where it leaves its place, however short its way inside. */
export const inPlace = (given: InstallationToPlan, place: number, count: Count): CountedPath =>
  count(insides(given)[place]!, place);
