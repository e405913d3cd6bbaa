import type { Kind } from '../../src/drivers/share-kinds.ts';

/** A driver of 80 W and one output, which may give all of it, at one place. */
export const kindOf = (change: Partial<Kind>): Kind => ({
  ...{ model: 0, places: [0], outputCount: 1, usable_W: 80, output_W: 80, own_W: 0, isOfOneZone: true },
  ...{ cost: [1, 100], ...change },
});
