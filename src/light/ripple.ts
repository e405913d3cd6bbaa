import { bouncedLight } from './bounces.ts';
import { directHarmonic } from './direct-light.ts';
import { michelsonContrast } from './lamp-row.ts';
import type { SectionFacet } from './section-facets.ts';
import type { SolvedSection } from './solved-section.ts';

/** How uneven light is along the run because it comes from separate lamps. */
export interface Ripple {
  /** Amplitude of each harmonic of the lamp pitch, relative to the mean. */
  readonly amplitudes: readonly number[];
  /** `(brightest - darkest)/(brightest + darkest)`, 0 to 1. */
  readonly michelson: number;
}

/** Harmonics smaller than this share of the mean are dropped; the eye's best threshold is near 1.5e-3. */
const smallestAmplitude = 1e-5;
const mostHarmonics = 24;
/** Ways so long that less than 1e-11 of a ripple survives them. */
const nothingLeft_kR = 29;

/** Two places on a facet that stand for the whole of it (Gauss points). */
function gaussPoints(facet: SectionFacet): readonly [number, number, number, number] {
  const near = 0.5 - 0.5 / Math.sqrt(3);
  const dx = facet.x1 - facet.x0;
  const dy = facet.y1 - facet.y0;
  return [facet.x0 + near * dx, facet.y0 + near * dy, facet.x1 - near * dx, facet.y1 - near * dy];
}

type Points = readonly [number, number, number, number];

/** How much of a ripple survives the way between two facets: `(1 + kR)*exp(-kR)`, mean over their places. */
function survival(a: Points, aMoved_m: number, b: Points, waveNumber_per_m: number): number {
  let sum = 0;
  for (let p = 0; p < 4; p += 2) {
    for (let q = 0; q < 4; q += 2) {
      const dx = a[p]! + aMoved_m - b[q]!;
      const dy = a[p + 1]! - b[q + 1]!;
      const kR = waveNumber_per_m * Math.sqrt(dx * dx + dy * dy);
      if (kR < nothingLeft_kR) sum += (1 + kR) * Math.exp(-kR);
    }
  }
  return sum / 4;
}

/** Direct exchange areas per metre for one harmonic: those of the mean, each repeat weighted with what survives the way. */
function harmonicExchange(solved: SolvedSection, waveNumber_per_m: number): Float64Array {
  const { facets, exchange } = solved;
  const { count } = exchange;
  const points = facets.map(gaussPoints);
  const weighted_m = new Float64Array(count * count);
  for (const { moved_m: movedOf, shared_m } of exchange.repeats) {
    for (let i = 0; i < count; i++) {
      const moved_m = movedOf(facets[i]!);
      for (let j = 0; j < i; j++) {
        const shared = shared_m[i * count + j]!;
        if (shared === 0) continue;
        const value = shared * survival(points[i]!, moved_m, points[j]!, waveNumber_per_m);
        weighted_m[i * count + j]! += value;
        weighted_m[j * count + i]! += value;
      }
    }
  }
  return weighted_m;
}

/** Light of one harmonic on every facet after all bounces, per lumen per metre of strip. */
function harmonicLight(solved: SolvedSection, lampPitch_m: number, order: number): Float64Array {
  const waveNumber_per_m = (2 * Math.PI * order) / lampPitch_m;
  return bouncedLight({
    facets: solved.facets,
    shared_m: harmonicExchange(solved, waveNumber_per_m),
    direct: directHarmonic(solved.section, solved.facets, waveNumber_per_m),
  });
}

/**
 * Ripple along the run on the slot's centre line and on the back straight behind it, direct and reflected.
 *
 * Each harmonic of the lamp pitch is a radiosity problem of its own: the mean's exchange between two facets a
 * distance R apart, `c*c'/(2*R^3)`, becomes `c*c'/(2*R^3)*(1 + kR)*exp(-kR)` with `k = 2*pi*n/pitch`. Reflected
 * light therefore keeps less ripple than direct light, but some.
 *
 * @param solved the section with its mean light.
 * @param lampPitch_m distance from lamp to lamp, positive; the strip's own unless given.
 * @returns amplitudes relative to the mean, and the Michelson contrast; no ripple where there is no light.
 * Holds for long runs of equal lamps, to about 1 % of the ripple (facets); lamps of neighbouring strips in step. Every second lamp of a strip with
 * mixed colours needs its own pitch.
 * Source: Poisson summation of the diffuse kernel along the run, derived here.
 * Check: `tests/light/ripple.test.ts` (lamps counted one by one; a patchwork of faces in three dimensions).
 */
export function rippleOf(
  solved: SolvedSection,
  lampPitch_m = solved.section.strip.lampPitch_m,
): { readonly slotCentre: Ripple; readonly seenBackCentre: Ripple } {
  const { slotCentre, seenBackCentre } = solved.probes;
  const places = [slotCentre, seenBackCentre] as const;
  const amplitudes: [number[], number[]] = [[], []];
  for (let order = 1; order <= mostHarmonics; order++) {
    const light = harmonicLight(solved, lampPitch_m, order);
    const relative = places.map((at) => (solved.light[at]! > 0 ? light[at]! / solved.light[at]! : 0));
    if (Math.max(...relative) < smallestAmplitude) break;
    for (const [i, amplitude] of relative.entries()) amplitudes[i]!.push(amplitude);
  }
  const ripple = (list: readonly number[]): Ripple => ({
    amplitudes: list,
    michelson: michelsonContrast(list),
  });
  return { slotCentre: ripple(amplitudes[0]), seenBackCentre: ripple(amplitudes[1]) };
}
