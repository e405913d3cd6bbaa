/** One layer of the build-up, with how far it may be off. */
export interface BuildUpLayer {
  readonly name: string;
  readonly thickness_m: number;
  readonly tolerance_m: number;
}

/** The build-up against what there is. */
export interface BuildUp {
  readonly layers: readonly BuildUpLayer[];
  readonly used_m: number;
  /** Every layer at the thick end of its tolerance. */
  readonly usedAtMost_m: number;
  readonly available_m: number;
  /** Available less used; negative where it does not fit. */
  readonly spare_m: number;
  readonly fits: boolean;
  readonly fitsAtMost: boolean;
}

/**
 * Adds up the layers from room to wall and compares them with the depth available; tolerances add up in full.
 * @throws RangeError for a negative or endless length
 */
export function buildUp(layers: readonly BuildUpLayer[], available_m: number): BuildUp {
  for (const value of [available_m, ...layers.flatMap((l) => [l.thickness_m, l.tolerance_m])])
    if (!(value >= 0 && Number.isFinite(value))) throw new RangeError(`a length of ${value} m`);
  const used_m = layers.reduce((sum, layer) => sum + layer.thickness_m, 0);
  const usedAtMost_m = layers.reduce((sum, layer) => sum + layer.tolerance_m, used_m);
  const slack_m = 1e-9;
  return {
    layers,
    used_m,
    usedAtMost_m,
    available_m,
    spare_m: available_m - used_m,
    fits: used_m <= available_m + slack_m,
    fitsAtMost: usedAtMost_m <= available_m + slack_m,
  };
}
