import type { SectionTemperatures, Spot } from './section-answers.ts';

/** Furthest any named temperature moved from one answer to the next. */
export function movedBetween(a: SectionTemperatures, b: SectionTemperatures): number {
  const places = (t: SectionTemperatures): number[] => [
    t.strip.mean_K,
    t.strip.peak.temperature_K,
    t.hottestTimber.temperature_K,
    t.backOfBacking.temperature_K,
    t.roomFace.temperature_K,
    t.glueLine?.temperature_K ?? 0,
    t.sheet?.temperature_K ?? 0,
    t.cavityAir_K,
    t.cable.temperature_K,
  ];
  const before = places(a);
  return Math.max(...places(b).map((value, i) => Math.abs(value - before[i]!)));
}

/**
 * Every temperature carried on to where ever finer meshes lead, `T = Tfine + (Tfine - Tcoarse)/(r^2 - 1)`: with cells
 * `r` times as fine, the error of the method falls to `1/r^2`.
 * @param ratio r, above 1
 * Source: L. F. Richardson's extrapolation. Check: against a mesh twice as fine in `tests/heat/section-field.test.ts`.
 */
export function extrapolated(
  coarse: SectionTemperatures,
  fine: SectionTemperatures,
  ratio: number,
): SectionTemperatures {
  const onward = (from: number, to: number): number => to + (to - from) / (ratio * ratio - 1);
  const spot = (from: Spot, to: Spot): Spot => ({
    ...to,
    temperature_K: onward(from.temperature_K, to.temperature_K),
  });
  const maybe = (from: Spot | null, to: Spot | null): Spot | null =>
    from === null || to === null ? null : spot(from, to);
  return {
    strip: {
      mean_K: onward(coarse.strip.mean_K, fine.strip.mean_K),
      peak: spot(coarse.strip.peak, fine.strip.peak),
    },
    solderPoint_K: onward(coarse.solderPoint_K, fine.solderPoint_K),
    hottestTimber: spot(coarse.hottestTimber, fine.hottestTimber),
    glueLine: maybe(coarse.glueLine, fine.glueLine),
    backOfBacking: spot(coarse.backOfBacking, fine.backOfBacking),
    roomFace: spot(coarse.roomFace, fine.roomFace),
    sheet: maybe(coarse.sheet, fine.sheet),
    cable: spot(coarse.cable, fine.cable),
    cavityAir_K: onward(coarse.cavityAir_K, fine.cavityAir_K),
    backingFaceMean_K: onward(coarse.backingFaceMean_K, fine.backingFaceMean_K),
    frontFaceMean_K: onward(coarse.frontFaceMean_K, fine.frontFaceMean_K),
  };
}
