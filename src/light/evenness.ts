/** How a slow fall of light along one slot, or a step to its neighbour, strikes people. */
export type EvennessWord = 'unseen' | 'fine' | 'noticed' | 'plain';

/** One reading of an unevenness. */
export interface EvennessVerdict {
  /** Share of the brighter end or slot that is missing at the darker one, 0 to 1. */
  readonly fall: number;
  readonly michelson: number;
  readonly word: EvennessWord;
  readonly sentence: string;
}

/**
 * Michelson contrast of a fall: `F/(2 - F)`.
 *
 * @param fall share of the brightest light missing at the darkest place, 0 to 1.
 * Check: `fall-michelson-*` in `reference/light.checks.ts`.
 */
export function fallContrast(fall: number): number {
  if (!(fall >= 0 && fall <= 1)) throw new RangeError(`a fall is a share from 0 to 1, not ${fall}`);
  return fall / (2 - fall);
}

/** Upper ends of the bands for a slow fall along one slot; judgement, consistent with the published figures. */
export const fallLimits = { unseen: 0.1, fine: 0.2, noticed: 0.3 } as const;

/** Upper ends of the bands between neighbouring slots at the same height: detection and acceptance. */
export const neighbourLimits = { unseen: 0.074, fine: 0.178, noticed: 0.26 } as const;

const fallSentences: Readonly<Record<EvennessWord, string>> = {
  unseen: 'The slot looks the same from end to end.',
  fine: 'The slot fades a little from end to end; hardly anybody will notice.',
  noticed:
    'The fade shows when both ends are in view. Feed the run from its other end too, or in the middle.',
  plain: 'One end is plainly darker. Feed the run from both ends, shorten it, or use strip that draws less.',
};

const neighbourSentences: Readonly<Record<EvennessWord, string>> = {
  unseen: 'Neighbouring slots look equally bright.',
  fine: 'A careful eye can tell neighbouring slots apart, and most people accept it as a match.',
  noticed:
    'One slot looks brighter than the next. Bring their feeds closer to equal: same cable, same feed end.',
  plain: 'One slot is plainly brighter than the next. Feed both from the same end with the same cable.',
};

function wordFor(
  fall: number,
  limits: Readonly<Record<'unseen' | 'fine' | 'noticed', number>>,
): EvennessWord {
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
 * Check: `tests/light/evenness.test.ts`.
 */
export function fallVerdict(fall: number): EvennessVerdict {
  const word = wordFor(fall, fallLimits);
  return { fall, michelson: fallContrast(fall), word, sentence: fallSentences[word] };
}

/**
 * What a difference between two neighbouring slots at the same height looks like.
 *
 * @param brighter_cd_per_m2 light of either slot, in any unit both share, not negative.
 * @param other_cd_per_m2 light of the other.
 * @returns unseen to 7.4 % (detection between two views), fine to 17.8 % (accepted as matching), noticed to 26 %
 *   (smallest useful control step on luminaire faces), plain above.
 * Source: Hu and Davis, Opt. Express 24, A885 (2016), and their study of luminaire faces; secondary copies.
 * Check: `hu-davis-*` in `reference/light.checks.ts`.
 */
export function neighbourVerdict(brighter_cd_per_m2: number, other_cd_per_m2: number): EvennessVerdict {
  const most = Math.max(brighter_cd_per_m2, other_cd_per_m2);
  const least = Math.min(brighter_cd_per_m2, other_cd_per_m2);
  if (!(least >= 0)) throw new RangeError('light must not be negative');
  const fall = most > 0 ? 1 - least / most : 0;
  const word = wordFor(fall, neighbourLimits);
  return { fall, michelson: fallContrast(fall), word, sentence: neighbourSentences[word] };
}
