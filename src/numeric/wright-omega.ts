/**
 * Wright omega function of a real argument: the w > 0 with `w + ln w = x`.
 *
 * A first guess within 1e-4, and one fourth-order correction of Fritsch, Shafer and Crowley, which leaves the last
 * bit or two. The guess is, from 0 to 64, two terms of the Taylor series (`w' = w/(1+w)`, `w'' = w/(1+w)^3`) from the
 * nearest quarter; above, the asymptotic series; below, `exp(x)/(1+exp(x))` corrected once. Holds for every finite x;
 * below -745 the answer underflows to 0.
 *
 * Source: Lawrence, Corless, Jeffrey, "Algorithm 917: Complex double-precision evaluation of the Wright omega
 * function", ACM TOMS 38 (2012), the correction step (from memory); Fritsch, Shafer, Crowley, CACM 16 (1973),
 * Algorithm 443. Check: `tests/numeric/wright-omega.test.ts` puts the answer back into the equation.
 */
export function wrightOmega(x: number): number {
  if (x >= 0 && x < tableEnd) return corrected(x, nearGuess(x));
  if (x >= tableEnd) return corrected(x, x - Math.log(x) * (1 - 1 / x));
  return x < -40 ? Math.exp(x) : corrected(x, corrected(x, leftGuess(x)));
}

const tableEnd = 64;
const perUnit = 4;

/** The function at every quarter from 0 to 64. */
const known = Float64Array.from({ length: perUnit * tableEnd + 1 }, (_, i) => {
  const x = i / perUnit;
  return corrected(x, corrected(x, corrected(x, x < 1 ? leftGuess(x) : x - Math.log(x) * (1 - 1 / x))));
});

function nearGuess(x: number): number {
  const nearest = Math.floor(x * perUnit + 0.5);
  const w = known[nearest]!;
  const ahead = x - nearest / perUnit;
  const perSlope = 1 / (1 + w);
  return w + ahead * w * perSlope * (1 + (ahead / 2) * perSlope * perSlope);
}

function leftGuess(x: number): number {
  const e = Math.exp(x);
  return e / (1 + e);
}

function corrected(x: number, w: number): number {
  const unaccounted = x - w - Math.log(w);
  const slope = 1 + w;
  const q = 2 * slope * (slope + (2 / 3) * unaccounted);
  return w * (1 + ((unaccounted / slope) * (q - unaccounted)) / (q - 2 * unaccounted));
}
