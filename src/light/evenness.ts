/** How a slow fall of light along one slot, or a step to its neighbour, strikes people. */
export type EvennessWord = 'unseen' | 'fine' | 'noticed' | 'plain';

/** How an unevenness strikes people, as a word and as a sentence for the maker. */
export interface EvennessVerdict {
  readonly word: EvennessWord;
  readonly looks: string;
}

/** Upper ends of the bands for a slow fall along one slot; judgement, consistent with the published figures. */
export const fallLimits = { unseen: 0.1, fine: 0.2, noticed: 0.3 } as const;

/** Upper ends of the bands between neighbouring slots at the same height: detection and acceptance. */
export const neighbourLimits = { unseen: 0.074, fine: 0.178, noticed: 0.26 } as const;

const fallLooks: Readonly<Record<EvennessWord, string>> = {
  unseen: 'It looks the same from end to end.',
  fine: 'It fades a little from end to end; hardly anybody will notice.',
  noticed: 'The fade shows when both ends are in view.',
  plain: 'One end is plainly darker.',
};

const neighbourLooks: Readonly<Record<EvennessWord, string>> = {
  unseen: 'They look equally bright.',
  fine: 'A careful eye can tell them apart, and most people accept them as a match.',
  noticed: 'One looks brighter than the other.',
  plain: 'One is plainly brighter than the other.',
};

/** @param fall share of the brighter end or slot that is missing at the darker one, 0 to 1 */
function wordFor(
  fall: number,
  limits: Readonly<Record<'unseen' | 'fine' | 'noticed', number>>,
): EvennessWord {
  if (!(fall >= 0 && fall <= 1)) throw new RangeError(`a fall is a share from 0 to 1, not ${fall}`);
  if (fall <= limits.unseen) return 'unseen';
  if (fall <= limits.fine) return 'fine';
  return fall <= limits.noticed ? 'noticed' : 'plain';
}

/**
 * What a slow fall of light along one slot looks like.
 *
 * @param fall `1 - darkest/brightest` along the slot, 0 to 1.
 * @returns unseen to 10 %, fine to 20 %, noticed to 30 %, plain above.
 * Source: bands are judgement, beside: 10 % less anywhere unnoticed on lit wall sections (Elliott and Hu 2026),
 * up to 20 % unnoticed dimming (cited in Hu and Davis, Opt. Express 24, A885 (2016)); secondary copies.
 * Check: `tests/light/eye.test.ts`.
 */
export function fallVerdict(fall: number): EvennessVerdict {
  const word = wordFor(fall, fallLimits);
  return { word, looks: fallLooks[word] };
}

/**
 * What a difference between two neighbouring slots at the same height looks like.
 *
 * @param difference `1 - darker/brighter`, 0 to 1.
 * @returns unseen to 7.4 % (detection between two views), fine to 17.8 % (accepted as matching), noticed to 26 %
 *   (smallest useful control step on luminaire faces), plain above.
 * Source: Hu and Davis, Opt. Express 24, A885 (2016), and their study of luminaire faces; secondary copies.
 * Check: `hu-davis-*` in `reference/light.checks.ts`.
 */
export function neighbourVerdict(difference: number): EvennessVerdict {
  const word = wordFor(difference, neighbourLimits);
  return { word, looks: neighbourLooks[word] };
}
