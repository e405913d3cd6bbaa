/** Gives the next number of its series, over 0 and under 1. */
export type Random = () => number;

/**
 * A repeatable series of numbers: Lehmer's generator modulo 2^31 - 1 with multiplier 48271.
 * @param seed whole number from 1 to 2147483646; another throws `RangeError`
 * Source: Park, Miller, Stockmeyer, CACM 36 (1993). Check: from seed 1 the 10,000th state is 399268537.
 */
export function seededRandom(seed: number): Random {
  const modulus = 2147483647;
  if (!Number.isInteger(seed) || seed < 1 || seed >= modulus) throw new RangeError(`no seed: ${seed}`);
  let state = seed;
  return () => {
    state = (state * 48271) % modulus;
    return state / modulus;
  };
}
