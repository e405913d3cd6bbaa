import { leastEfficiency } from '../drivers/efficiency.ts';
import { brightnessBands } from '../light/brightness.ts';
import { dotCuts } from '../light/dots.ts';
import { fallLimits, neighbourLimits } from '../light/evenness.ts';
import { fullModulationFrom_Hz, lowestDimLevel, usualDimmer } from '../light/flicker.ts';

/** The limits the checks hold answers against, from the question that knows each and cites its source. */
export const limits = {
  neighbour: neighbourLimits,
  fall: fallLimits,
  dots: dotCuts,
  glareFrom_cd_per_m2: brightnessBands.find((band) => band.word === 'glaring')!.from_cd_per_m2,
  fullModulationFrom_Hz,
  lowestDimLevel: (frequency_Hz: number) => lowestDimLevel({ frequency_Hz, ...usualDimmer }),
  leastEfficiency,
} as const;
