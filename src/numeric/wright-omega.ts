/**
 * Wright omega function of a real argument: the w > 0 with `w + ln w = x`.
 *
 * A first guess within a few percent (exp(x) on the left, the series about w = 1 in the middle, x - ln x on the
 * right), and one or two fourth-order corrections of Fritsch, Shafer and Crowley, which leave the last bit or two.
 * Holds for every finite x; below -745 the answer underflows to 0.
 *
 * Source: Lawrence, Corless, Jeffrey, "Algorithm 917: Complex double-precision evaluation of the Wright omega
 * function", ACM TOMS 38 (2012), the correction step (from memory); Fritsch, Shafer, Crowley, CACM 16 (1973),
 * Algorithm 443. Check: `tests/numeric/wright-omega.test.ts` puts the answer back into the equation.
 */
export function wrightOmega(x: number): number {
  if (x < -40) return Math.exp(x);
  if (x >= 10) return corrected(x, farGuess(x));
  return corrected(x, corrected(x, firstGuess(x)));
}

/** Asymptotic series in 1/x, four terms: within 2e-4 from 10 upwards, so that one correction is enough. */
function farGuess(x: number): number {
  const l = Math.log(x);
  return x - l + (l * (1 + ((l - 2) / 2 + (6 - 9 * l + 2 * l * l) / (6 * x)) / x)) / x;
}

function firstGuess(x: number): number {
  if (x < -1) {
    const e = Math.exp(x);
    return e / (1 + e);
  }
  const t = x - 1;
  return x < 4 ? 1 + t / 2 + t ** 2 / 16 - t ** 3 / 192 : x - Math.log(x) * (1 - 1 / x);
}

function corrected(x: number, w: number): number {
  const unaccounted = x - w - Math.log(w);
  const slope = 1 + w;
  const q = 2 * slope * (slope + (2 / 3) * unaccounted);
  return w * (1 + ((unaccounted / slope) * (q - unaccounted)) / (q - 2 * unaccounted));
}
