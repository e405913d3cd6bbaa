/** 0 degC in kelvin: ISO 80000-5. */
export const freezing_K = 273.15;

/**
 * Light per optical watt of a phosphor white lamp, CRI 80: 315 +- 15 lm/W, from the CIE 015:2018 LED spectra.
 * Check: `heat-ler-*`.
 */
export const luminousEfficacyOfRadiation_lm_per_W = 315;

/** The most lumens a watt of light of any colour carries, at 555 nm. Source: definition of the candela. */
export const mostLuminousEfficacy_lm_per_W = 683;

/** A driver limits somewhere between 105 and 150 % of its rating (memory); the most it may be. */
export const limitOverRating = 1.5;
