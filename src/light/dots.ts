import { cyclesPerDegree, sensitivityWithFloor } from './contrast-sensitivity.ts';

/** What an eye makes of separate lamps. */
export type DotWord = 'hidden' | 'faint' | 'visible' | 'plain';

/** Whether the lamps show as hot spots, in numbers and in words. */
export interface DotVerdict {
  /** Contrast over threshold: below 1 not seen even in a laboratory. */
  readonly visibility: number;
  readonly frequency_per_deg: number;
  /** Michelson contrast seen half the time, at this frequency and luminance. */
  readonly threshold: number;
  readonly word: DotWord;
  readonly sentence: string;
}

/** Visibility below which dots are hidden, faint, visible; the cuts at 3 and 10 are judgement. */
export const dotCuts = { hidden: 1, faint: 3, visible: 10 } as const;

/** Side of the field used for the verdict; a real slot is narrower and the eye then less keen. */
const strictField_deg = 10;

const sentences: Readonly<Record<DotWord, string>> = {
  hidden: 'The LEDs do not show: the light is even to the keenest eye at this distance.',
  faint: 'The LEDs show faintly: somebody who looks for them at this distance will find them.',
  visible: 'The LEDs show as hot spots at this distance.',
  plain: 'The LEDs show plainly as hot spots.',
};

/** What spreads the lamps further, by where they show. */
const further: Readonly<Record<'slot' | 'profile cover', (isMuch: boolean) => string>> = {
  slot: (isMuch) => `Make the cavity ${isMuch ? 'much deeper,' : 'deeper'}`,
  'profile cover': (isMuch) => `Take a ${isMuch ? 'much ' : ''}higher profile${isMuch ? ',' : ''}`,
};

function sentenceFor(word: DotWord, on: keyof typeof further): string {
  if (word === 'hidden' || word === 'faint') return sentences[word];
  const isMuch = word === 'plain';
  return `${sentences[word]} ${further[on](isMuch)} or take strip with ${isMuch ? 'many ' : ''}more LEDs per metre.`;
}

function wordFor(visibility: number): DotWord {
  if (visibility < dotCuts.hidden) return 'hidden';
  if (visibility <= dotCuts.faint) return 'faint';
  return visibility <= dotCuts.visible ? 'visible' : 'plain';
}

/**
 * Whether the ripple of separate lamps is seen: `visibility = contrast * S(u)` with Barten's sensitivity S.
 *
 * @param view Michelson contrast of what the eye meets (0 to 1), lamp pitch, distance from the eye, luminance the
 *   slot is run at; all but the contrast above zero.
 * @returns visibility and the word for it: hidden below 1, faint to 3, visible to 10, plain above.
 * @throws RangeError when a length or the luminance is not positive.
 * Holds for young, practised eyes and sine patterns in a 10 degree field, so it is strict for a slot.
 * Source: Barten, Proc. SPIE 5294, 231 (2003) (secondary copy); cuts at 3 and 10 are judgement.
 * Check: `dots-*` in `reference/light.checks.ts`.
 */
export function dotVerdict(view: {
  readonly michelson: number;
  readonly lampPitch_m: number;
  readonly viewingDistance_m: number;
  readonly luminance_cd_per_m2: number;
  /** What they show on: the slot, where it is left out. */
  readonly on?: 'slot' | 'profile cover';
}): DotVerdict {
  if (!(view.luminance_cd_per_m2 > 0)) throw new RangeError('luminance must be positive');
  const frequency_per_deg = cyclesPerDegree({
    pitch_m: view.lampPitch_m,
    distance_m: view.viewingDistance_m,
  });
  const viewing = { luminance_cd_per_m2: view.luminance_cd_per_m2, field_deg: strictField_deg };
  const sensitivity = sensitivityWithFloor(frequency_per_deg, viewing);
  const visibility = view.michelson * sensitivity;
  const word = wordFor(visibility);
  return {
    visibility,
    frequency_per_deg,
    threshold: 1 / sensitivity,
    word,
    sentence: sentenceFor(word, view.on ?? 'slot'),
  };
}
