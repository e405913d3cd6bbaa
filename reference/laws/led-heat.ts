import { luminousEfficacyOfRadiation_lm_per_W } from '../../src/constants.ts';

/** Watts of a strip by where they end. */
export interface StripWatts {
  /** Heat in the strip itself. */
  readonly strip_W_per_m: number;
  /** Light that stays in the build-up and warms the faces it falls on. */
  readonly trapped_W_per_m: number;
  /** Light that leaves by the slot. */
  readonly leaving_W_per_m: number;
}

/**
 * Splits electrical watts: heat of the strip `P*(1 - eta/LER)`, the rest is light, of which the share that leaves is
 * given and what stays is heat on the faces.
 *
 * @param input electrical_W_per_m at least 0; efficacy_lm_per_W of the strip at its terminals, below LER;
 * leavingShare 0..1 of the light that leaves the slot
 * Source: CIE 015:2018 spectra with V(lambda) (efficacy recomputed). Check: `heat-fraction-*`.
 */
export function splitStripWatts(input: {
  readonly electrical_W_per_m: number;
  readonly efficacy_lm_per_W: number;
  readonly leavingShare: number;
  readonly efficacyOfRadiation_lm_per_W?: number;
}): StripWatts {
  const ler = input.efficacyOfRadiation_lm_per_W ?? luminousEfficacyOfRadiation_lm_per_W;
  const share = input.efficacy_lm_per_W / ler;
  if (!(share >= 0 && share < 1)) throw new RangeError(`${input.efficacy_lm_per_W} lm/W of ${ler}`);
  if (!(input.leavingShare >= 0 && input.leavingShare <= 1))
    throw new RangeError(`share of light that leaves ${input.leavingShare}`);
  const light = input.electrical_W_per_m * share;
  return {
    strip_W_per_m: input.electrical_W_per_m - light,
    trapped_W_per_m: light * (1 - input.leavingShare),
    leaving_W_per_m: light * input.leavingShare,
  };
}
