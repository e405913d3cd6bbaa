/**
 * How luminance becomes a screen colour: one curve for the whole drawing. Luminance over `key` goes through
 * `t = l (1 + l / lw^2) / (1 + l)` (Reinhard and others, Photographic Tone Reproduction for Digital Images, 2002,
 * equation 4, from memory), which leaves the dark end linear and reaches full white at `white`; then the colour of
 * the light is scaled by t in linear light and encoded for the screen (IEC 61966-2-1). A slot of 200 cd/m2 lands
 * at 0.68 of full linear light; 10 % less light there is 4 % less on screen.
 */
const key_cd_per_m2 = 100;
const white_cd_per_m2 = 1000;

/** Share of full linear screen light for a luminance in cd/m2: 0 for darkness, 1 from 1,000 cd/m2. */
export function toneOf(luminance_cd_per_m2: number): number {
  const l = Math.max(0, luminance_cd_per_m2) / key_cd_per_m2;
  const white = white_cd_per_m2 / key_cd_per_m2;
  return Math.min(1, (l * (1 + l / white ** 2)) / (1 + l));
}

type Rgb = readonly [number, number, number];

const toLinear = (encoded: number): number =>
  encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;

const toEncoded = (linear: number): number =>
  linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;

const rgbOf = (hex: string): Rgb => {
  const channel = (at: number): number => Number.parseInt(hex.slice(at, at + 2), 16) / 255;
  return [channel(1), channel(3), channel(5)];
};

const hexOf = (rgb: Rgb): string =>
  `#${rgb
    .map((x) =>
      Math.round(255 * Math.min(1, Math.max(0, x)))
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;

/** The screen colour of light of this hue at this luminance. */
export function lightColour(hueHex: string, luminance_cd_per_m2: number): string {
  const t = toneOf(luminance_cd_per_m2);
  return hexOf(rgbOf(hueHex).map((x) => toEncoded(toLinear(x) * t)) as unknown as Rgb);
}

/** Share of a slot's luminance that the eye and the edge of the timber spread round it (judgement, for the drawing only). */
const veil = 0.12;

/** How strongly the halo round a slot shows, 0 to 1, by the same curve. */
export const haloStrength = (luminance_cd_per_m2: number): number =>
  toEncoded(toneOf(luminance_cd_per_m2 * veil));

/** Steps of the comparison: light relative to the brightest unit of the wall, from the darkest step up. */
const rampFrom = 0.7;
const ramp: readonly Rgb[] = ['#5a2a55', '#a03c4c', '#d9742f', '#f2b84b', '#fff3cf'].map(rgbOf);

/** The colour of a relative light between 0.7 (and below) and 1, for the comparison across the wall. */
export function comparedColour(relative: number): string {
  const at = (Math.min(1, Math.max(rampFrom, relative)) - rampFrom) / (1 - rampFrom);
  const position = at * (ramp.length - 1);
  const low = ramp[Math.floor(position)]!;
  const high = ramp[Math.ceil(position)]!;
  const share = position - Math.floor(position);
  return hexOf(low.map((x, i) => x + (high[i]! - x) * share) as unknown as Rgb);
}

/** The relative lights the scale of the comparison is labelled at. */
export const comparedMarks: readonly number[] = [0.7, 0.775, 0.85, 0.925, 1];
