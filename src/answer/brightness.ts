/** How bright a slot strikes people in a home. */
export const brightnessWords = ['barely-lit', 'evening-glow', 'room-feature', 'daylight', 'glaring'] as const;

export type BrightnessWord = (typeof brightnessWords)[number];

/** A band of slot luminance and what it is good for. */
export interface BrightnessBand {
  readonly word: BrightnessWord;
  readonly from_cd_per_m2: number;
  readonly to_cd_per_m2: number;
  /** A luminance to begin with; none where nobody should begin. */
  readonly usual_cd_per_m2: number | null;
  /** As a choice of a maker, and as that choice stands in a sentence: "wanted is ...". */
  readonly title: string;
  readonly name: string;
  readonly sentence: string;
}

/**
 * Slot luminance, band by band. No published recommendation for a glowing slot in a home was found; the bands are
 * judgement: 5 to 20 times a wall of 10 to 20 cd/m2, inside the 20:1 of the IES handbook, and below its
 * 400 footlamberts (1370 cd/m2) for lamps in view. The cut between glow and feature is the middle of a gap.
 */
export const brightnessBands: readonly BrightnessBand[] = [
  {
    ...{ word: 'barely-lit', from_cd_per_m2: 0, to_cd_per_m2: 10, usual_cd_per_m2: null },
    title: 'Hardly lit',
    name: 'hardly lit',
    sentence: 'Hardly lit: seen in the dark only.',
  },
  {
    ...{ word: 'evening-glow', from_cd_per_m2: 10, to_cd_per_m2: 70, usual_cd_per_m2: 30 },
    title: 'Evening glow',
    name: 'an evening glow',
    sentence: 'An evening glow: soft, with the other lamps off or low.',
  },
  {
    ...{ word: 'room-feature', from_cd_per_m2: 70, to_cd_per_m2: 300, usual_cd_per_m2: 200 },
    title: 'Feature in a lit room',
    name: 'a feature in a lit room',
    sentence: 'A feature in a lit room: clear, and easy to look at.',
  },
  {
    ...{ word: 'daylight', from_cd_per_m2: 300, to_cd_per_m2: 1000, usual_cd_per_m2: 600 },
    title: 'Holds its own against daylight',
    name: 'bright enough to hold its own against daylight',
    sentence: 'Bright: holds its own against daylight, and wants a dimmer for the evening.',
  },
  {
    ...{ word: 'glaring', from_cd_per_m2: 1000, to_cd_per_m2: Number.MAX_VALUE, usual_cd_per_m2: null },
    title: 'Too bright',
    name: 'too bright to look at for long',
    sentence: 'Too bright to look at for long. Dim it, or use strip with fewer lumens per metre.',
  },
];

/**
 * The band a slot luminance falls in.
 *
 * @param luminance_cd_per_m2 what the eye meets, not negative.
 * @throws RangeError when negative or not a number.
 * Check: `tests/light/eye.test.ts`.
 */
export function brightnessBand(luminance_cd_per_m2: number): BrightnessBand {
  const band = brightnessBands.find(
    (b) => luminance_cd_per_m2 >= b.from_cd_per_m2 && luminance_cd_per_m2 <= b.to_cd_per_m2,
  );
  if (!band) throw new RangeError(`luminance must not be negative, but is ${luminance_cd_per_m2}`);
  return band;
}
