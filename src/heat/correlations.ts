/** A Nusselt number of a tall vertical air gap, over its depth, `h = Nu*k/L`. */
export type GapCorrelation = 'elsherbiny' | 'iso15099' | 'macgregor-emery' | 'en673';

/** What a gap correlation is told: Rayleigh number over the gap's depth, Prandtl number, height over depth. */
export interface Gap {
  readonly rayleigh: number;
  readonly prandtl: number;
  readonly aspect: number;
}

/** The range a correlation was published for. */
interface GapRange {
  readonly rayleigh: readonly [number, number];
  readonly aspect: readonly [number, number];
}

/** Published ranges; outside them a result carries a remark. */
const gapRanges: Readonly<Record<GapCorrelation, GapRange>> = {
  elsherbiny: { rayleigh: [0, 2e7], aspect: [5, 110] },
  iso15099: { rayleigh: [0, 1e7], aspect: [5, 110] },
  'macgregor-emery': { rayleigh: [1e4, 1e9], aspect: [10, 40] },
  en673: { rayleigh: [0, 1e6], aspect: [5, 110] },
};

/** Least height over depth of a cavity that the usual correlation was published for. */
export const leastAspect = gapRanges.elsherbiny.aspect[0];

/**
 * Vertical gap of air: the greatest of `0.0605*Ra^(1/3)`,
 * `[1 + (0.104*Ra^0.293/(1 + (6310/Ra)^1.36))^3]^(1/3)` and `0.242*(Ra*L/H)^0.272`.
 *
 * Holds for air, 5 <= H/L <= 110, 1e2 <= Ra <= 2e7, isothermal faces; 10 to 15 % between authors.
 * Source: S. M. ElSherbiny, G. D. Raithby, K. G. T. Hollands, J. Heat Transfer 104 (1982) (from memory).
 * Check: `heat-elsherbiny-*` (recomputed values, H/L 40).
 */
export function elSherbiny(gap: Gap): number {
  const ra = gap.rayleigh;
  if (!(ra > 0)) return 1;
  const turbulent = 0.0605 * Math.cbrt(ra);
  const inner = (0.104 * ra ** 0.293) / (1 + (6310 / ra) ** 1.36);
  const transition = Math.cbrt(1 + inner ** 3);
  const boundaryLayer = 0.242 * (ra / gap.aspect) ** 0.272;
  return Math.max(turbulent, transition, boundaryLayer);
}

/**
 * Vertical gap of a glazing cavity: `max(Nu1, 0.242*(Ra*L/H)^0.272)` with `Nu1 = 1 + 1.7596678e-10*Ra^2.2984755` to 1e4,
 * `0.028154*Ra^0.4134` to 5e4, `0.0673838*Ra^(1/3)` above. The last two are joined where they cross, at 5.4e4: the
 * step of 0.6 % at the printed 5e4 would leave some sections without any balance.
 *
 * Source: ISO 15099:2003, 5.3.3.6 (from memory). Check: `heat-iso15099-*` (recomputed values, H/L 40).
 */
export function iso15099(gap: Gap): number {
  const ra = gap.rayleigh;
  if (!(ra > 0)) return 1;
  const first =
    ra > 1e4
      ? Math.min(0.028_154 * ra ** 0.4134, 0.067_383_8 * Math.cbrt(ra))
      : 1 + 1.759_667_8e-10 * ra ** 2.298_475_5;
  return Math.max(first, 0.242 * (ra / gap.aspect) ** 0.272);
}

/**
 * Vertical gap: `0.42*Ra^(1/4)*Pr^0.012*(H/L)^(-0.3)` up to Ra 1e7, `0.046*Ra^(1/3)` above; at least 1.
 *
 * Stated for Pr > 1 and 10 < H/L < 40, used for air in text books.
 * Source: R. K. MacGregor, A. F. Emery, J. Heat Transfer 91 (1969), as in Y. A. Cengel, Heat Transfer, eq. 9-52
 * (from memory). Check: `heat-cengel-window-nu`.
 */
export function macGregorEmery(gap: Gap): number {
  const ra = gap.rayleigh;
  const laminar = 0.42 * ra ** 0.25 * gap.prandtl ** 0.012 * gap.aspect ** -0.3;
  return Math.max(1, ra <= 1e7 ? laminar : 0.046 * Math.cbrt(ra));
}

/**
 * Vertical gap of sealed glazing: `max(1, 0.035*(Gr*Pr)^0.38)`.
 * Source: EN 673:2011, 5.3.2 (from memory). Check: `heat-en673-unity` (the gap at which convection begins).
 */
export function en673(gap: Gap): number {
  return Math.max(1, 0.035 * gap.rayleigh ** 0.38);
}

const laws: Readonly<Record<GapCorrelation, (gap: Gap) => number>> = {
  elsherbiny: elSherbiny,
  iso15099,
  'macgregor-emery': macGregorEmery,
  en673,
};

/** Nusselt number of a vertical gap by the named correlation; never below 1. */
export function gapNusselt(correlation: GapCorrelation, gap: Gap): number {
  return laws[correlation](gap);
}

/** Who published each law, as a reader knows it. */
const publishedBy: Readonly<Record<GapCorrelation, string>> = {
  elsherbiny: 'ElSherbiny, Raithby and Hollands, 1982',
  iso15099: 'ISO 15099',
  'macgregor-emery': 'MacGregor and Emery, 1969',
  en673: 'EN 673',
};

/** Remarks on a gap outside the range its correlation was published for; empty within it. */
export function gapRemarks(correlation: GapCorrelation, gap: Gap): string[] {
  const range = gapRanges[correlation];
  const outside = (x: number, [low, high]: readonly [number, number]) => x < low || x > high;
  const remarks: string[] = [];
  if (outside(gap.aspect, range.aspect))
    remarks.push(
      `The cavity is ${Number(gap.aspect.toFixed(1))} times as high as it is deep; the law its air is calculated by (${publishedBy[correlation]}) was published for ${range.aspect[0]} to ${range.aspect[1]} times.`,
    );
  if (outside(gap.rayleigh, range.rayleigh))
    remarks.push(
      `The air in the cavity moves more strongly than the law it is calculated by (${publishedBy[correlation]}) was published for: Rayleigh number ${Number(gap.rayleigh.toPrecision(2)).toLocaleString('en-GB')}.`,
    );
  return remarks;
}
