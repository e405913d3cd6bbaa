/**
 * How luminance becomes a screen colour: one curve for the whole drawing. The light's linear red, green and blue
 * are scaled so that together they carry its luminance L; each, over `key`, goes through
 * `t = l (1 + l / lw^2) / (1 + l)` (Reinhard and others, Photographic Tone Reproduction for Digital Images, 2002,
 * equation 4, from memory) and is encoded for the screen (IEC 61966-2-1). The dark end stays linear and keeps its
 * hue; towards `white` every channel fills up, so that a glaring slot goes white, as in a photograph.
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

/** Luminance of linear red, green and blue (IEC 61966-2-1). */
const shareOfLuminance = ([red, green, blue]: Rgb): number => 0.2126 * red + 0.7152 * green + 0.0722 * blue;

/** The screen colour of light of this hue at this luminance. */
export function lightColour(hueHex: string, luminance_cd_per_m2: number): string {
  const hue = rgbOf(hueHex).map(toLinear) as unknown as Rgb;
  const per = luminance_cd_per_m2 / (shareOfLuminance(hue) || 1);
  return hexOf(hue.map((x) => toEncoded(toneOf(x * per))) as unknown as Rgb);
}

/** Share of a slot's luminance that the eye and the edges of the timber spread round it (judgement, for the drawing). */
const veil = 0.1;

/** The colour of the halo round a slot, by the same curve: dimmer, and so warmer, than the slot itself. */
export const haloColour = (hueHex: string, luminance_cd_per_m2: number): string =>
  lightColour(hueHex, luminance_cd_per_m2 * veil);

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
