const steps = 400;

/** Integral of `cos^(m+1)` from 0 to an angle, by Simpson's rule. */
function lit(angle: number, exponent: number): number {
  const at = (i: number): number => Math.cos((angle * i) / steps) ** (exponent + 1);
  let sum = at(0) + at(steps);
  for (let i = 1; i < steps; i++) sum += (i % 2 === 1 ? 4 : 2) * at(i);
  return (sum * angle) / (3 * steps);
}

/**
 * Share of the light straight from a row of lamps that a body in the slot takes from the slot plane beside it:
 * `(1 - I(a)/I(pi/2))/2` with `tan a = s/p` and `I(a)` the integral of `cos^(m+1)` from 0 to a; for m = 1
 * `1/2 - (a + sin a cos a)/pi`.
 *
 * The body is a rectangle as wide as the slot that comes p behind the slot plane. A ray from a lamp D further along on the other
 * side reaches the plane at s beside the body only if it passes its corner, `D < h*s/p`: one half of the row is never hidden,
 * and of the other all beyond that. The depth h of the lamps cancels.
 * @param beside_m s, not negative. @param reach_m p, above zero, up to the lamps. @param exponent m of intensity `cos^m`.
 * @returns 0 to 1/2
 * Holds on the middle line of a slot straight before a long row, over whole lamp pitches.
 * Source: geometry, derived here. Check: `tests/light/shadow.test.ts` (rays counted one by one).
 */
export function blockedShare(of: {
  readonly beside_m: number;
  readonly reach_m: number;
  readonly exponent: number;
}): number {
  const { beside_m, reach_m, exponent } = of;
  if (!(beside_m >= 0 && reach_m > 0))
    throw new RangeError('a shadow needs a place beside it and a reach above zero');
  return (1 - lit(Math.atan2(beside_m, reach_m), exponent) / lit(Math.PI / 2, exponent)) / 2;
}

/** A body in a slot, and the light behind it. */
export interface Shading {
  readonly width_m: number;
  /** Behind the slot plane; what does not come behind it shades only what it covers. */
  readonly reach_m: number;
  /** Of the light on the slot plane the share that comes straight from the lamps, 0 to 1. */
  readonly directShare: number;
  readonly exponent: number;
  /** Share of the light that has to be missing for a place to count as dark, above 0. */
  readonly missing: number;
}

/**
 * Length of the slot that a body darkens by more than a share: itself, and to either side as far as
 * `directShare*blockedShare(s)` is more, found by halves. Reflected light is taken as if the body were not there.
 * @returns metres, the width of the body at least
 * Check: `tests/light/shadow.test.ts`.
 */
export function darkLength_m({ width_m, reach_m, directShare, exponent, missing }: Shading): number {
  if (reach_m <= 0 || directShare / 2 <= missing) return width_m;
  const missingAt = (beside_m: number): number => directShare * blockedShare({ beside_m, reach_m, exponent });
  let [dark, bright] = [0, reach_m];
  while (missingAt(bright) > missing) bright *= 2;
  for (let i = 0; i < 60; i++) {
    const middle = (dark + bright) / 2;
    if (missingAt(middle) > missing) dark = middle;
    else bright = middle;
  }
  return width_m + 2 * bright;
}
