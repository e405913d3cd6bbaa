import { mostLuminousEfficacy_lm_per_W } from '../constants.ts';
import type { StripChannel } from './strip.ts';

/**
 * Lumens of one watt of light of a white lamp: 300 to 350 over the CIE's LED spectra with V(lambda), 345 the highest
 * (CIE 015:2018, worked out); a lamp that leaves out more colour than they do is not sold for interiors.
 */
const white_lm_per_W = 350;

/**
 * The keenest that the eye is for any light of a hue, as V(lambda) where the hue ends towards green: red from 610 nm
 * up, amber from 585, blue up to 480, cyan up to 505, violet up to 430 nm.
 */
const hues: readonly (readonly [hue: RegExp, eye: number])[] = [
  [/\bred\b/i, 0.503],
  [/\b(amber|orange)\b/i, 0.8163],
  [/\bcyan\b/i, 0.4073],
  [/\bblue\b/i, 0.13902],
  [/\bviolet\b/i, 0.0116],
];

/** A bound on the lumens of one electrical watt, and what sets it. */
export interface LuminousBound {
  readonly most_lm_per_W: number;
  readonly because: string;
}

/**
 * The most lumens a watt can carry as light of a channel, `683 lm/W * V(lambda)` at the best wavelength of its hue; no
 * lamp turns more than every watt into light. A coloured channel whose name says no hue, or two, has the bound of all.
 *
 * Source: V(lambda) of CIE 018:2019 (from memory), 683 lm/W from the definition of the candela; white from CIE 015:2018
 * LED spectra. Check: `tests/trials/impossible-efficacy.test.ts`.
 */
export function luminousBound({ cct_K, name }: Pick<StripChannel, 'cct_K' | 'name'>): LuminousBound {
  if (cct_K !== null)
    return {
      most_lm_per_W: white_lm_per_W,
      because: `a watt of white light carries 300 to ${white_lm_per_W} lm`,
    };
  const named = hues.filter(([hue]) => hue.test(name));
  const eye = named.length === 1 ? named[0]![1] : 1;
  const bound = Math.round(mostLuminousEfficacy_lm_per_W * eye);
  return {
    most_lm_per_W: bound,
    because:
      eye === 1
        ? `a watt of light carries ${bound} lm at most, and that as green of 555 nm`
        : `a watt of light of this colour carries ${bound} lm at most`,
  };
}

/**
 * Lumens per watt from which a figure wants a second look: the best strips sold reach about this (common practice,
 * from memory). Heat gives credit for no more light than this.
 */
export const doubtful_lm_per_W = 200;
