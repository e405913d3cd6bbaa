/** A length as a refusal says it. */
export const mm = (length_m: number): string => `${Number((length_m * 1000).toFixed(2))} mm`;

/** Lengths that differ by less are one. */
export const slack_m = 1e-9;

/** Air about a profile, or beside a flat with a joint: less is as good as touching, which is not worked out. */
export const leastAir_m = 0.0005;
