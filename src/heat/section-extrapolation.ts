import type { FaceTemperatures, ProfileTemperatures, SectionTemperatures, Spot } from './section-answers.ts';

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
    t.profile?.mean_K ?? 0,
    t.profile?.air_K ?? 0,
    t.profile?.coverInside?.mean_K ?? 0,
    t.profile?.coverInside?.peak.temperature_K ?? 0,
    t.profile?.coverOutside?.mean_K ?? 0,
    t.profile?.coverOutside?.peak.temperature_K ?? 0,
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
  const face = (from: FaceTemperatures, to: FaceTemperatures): FaceTemperatures => ({
    mean_K: onward(from.mean_K, to.mean_K),
    peak: spot(from.peak, to.peak),
  });
  const maybeFace = (from: FaceTemperatures | null, to: FaceTemperatures | null): FaceTemperatures | null =>
    from === null || to === null ? null : face(from, to);
  const profile = (from: ProfileTemperatures, to: ProfileTemperatures): ProfileTemperatures => ({
    ...to,
    mean_K: onward(from.mean_K, to.mean_K),
    coverInside: maybeFace(from.coverInside, to.coverInside),
    coverOutside: maybeFace(from.coverOutside, to.coverOutside),
    air_K: onward(from.air_K, to.air_K),
    contact_W_per_m: onward(from.contact_W_per_m, to.contact_W_per_m),
  });
  return {
    strip: face(coarse.strip, fine.strip),
    solderPoint_K: onward(coarse.solderPoint_K, fine.solderPoint_K),
    hottestTimber: spot(coarse.hottestTimber, fine.hottestTimber),
    glueLine: maybe(coarse.glueLine, fine.glueLine),
    backOfBacking: spot(coarse.backOfBacking, fine.backOfBacking),
    roomFace: spot(coarse.roomFace, fine.roomFace),
    sheet: maybe(coarse.sheet, fine.sheet),
    profile: coarse.profile && fine.profile && profile(coarse.profile, fine.profile),
    cable: spot(coarse.cable, fine.cable),
    cavityAir_K: onward(coarse.cavityAir_K, fine.cavityAir_K),
    backingFaceMean_K: onward(coarse.backingFaceMean_K, fine.backingFaceMean_K),
    frontFaceMean_K: onward(coarse.frontFaceMean_K, fine.frontFaceMean_K),
  };
}
