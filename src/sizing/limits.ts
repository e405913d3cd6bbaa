import { brightnessBands } from '../answer/brightness.ts';
import { leastEfficiency } from '../drivers/efficiency.ts';
import { dotCuts } from '../light/dots.ts';
import { fallLimits, fallVerdict, neighbourLimits, neighbourVerdict } from '../light/evenness.ts';
import { fullModulationFrom_Hz, lowestDimLevel, usualDimmer } from '../light/flicker.ts';

/** The limits the checks hold answers against, from the question that knows each and cites its source. */
export const limits = {
  neighbour: { ...neighbourLimits, looks: (difference: number) => neighbourVerdict(difference).looks },
  fall: { ...fallLimits, looks: (fall: number) => fallVerdict(fall).looks },
  dots: dotCuts,
  glareFrom_cd_per_m2: brightnessBands.find((band) => band.word === 'glaring')!.from_cd_per_m2,
  fullModulationFrom_Hz,
  lowestDimLevel: (frequency_Hz: number) => lowestDimLevel({ frequency_Hz, ...usualDimmer }),
  leastEfficiency,
} as const;
