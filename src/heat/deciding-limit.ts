import type { TemperatureLimit } from './limits.ts';

type Decides = Pick<TemperatureLimit, 'limit_degC' | 'beyond'>;

/**
 * The limits of one place in the order they decide, the deciding one first: the lowest passed limit that says no,
 * else the lowest passed caution, else the lowest there is; then the others from the lowest. Below the first the
 * verdict is a better one.
 *
 * @param limits of one place
 * @param high_degC warm end of the band, degC; a limit is passed above it, not at it
 * Check: `tests/heat/deciding-limit.test.ts`.
 */
export function decidingFirst<Limit extends Decides>(limits: readonly Limit[], high_degC: number): Limit[] {
  const rising = limits.toSorted((a, b) => a.limit_degC - b.limit_degC);
  const passed = rising.filter(({ limit_degC }) => high_degC > limit_degC);
  const first = passed.find(({ beyond }) => beyond !== 'caution') ?? passed[0] ?? rising[0];
  return first === undefined ? [] : [first, ...rising.filter((limit) => limit !== first)];
}
