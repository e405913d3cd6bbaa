import type { StripTemperature } from '../circuit/warm.ts';
import { type HeatLaw, stripTemperature_degC } from './heat-law.ts';
import type { Prepared } from './prepared.ts';

/**
 * Temperature that volts and watts of a run are worked out at: the one the job gives, else what its watts make of it.
 * Check: `tests/sizing/given-strip-temperature.test.ts`.
 */
export const stripTemperatureOf =
  ({ job }: Pick<Prepared, 'job'>, law: HeatLaw): StripTemperature =>
  ({ watts_per_m }) =>
    job.strip.strip_degC ?? stripTemperature_degC(law, watts_per_m);

/** What has to stand beside figures that rest on a given temperature, with the one that the watts would make. */
export function givenTemperatureNotes(
  { job, law }: Pick<Prepared, 'job' | 'law'>,
  watts_per_m: readonly number[],
): string[] {
  const given_degC = job.strip.strip_degC;
  if (given_degC === null) return [];
  const reckoned_degC = stripTemperature_degC(law, Math.max(...watts_per_m));
  return [
    `Volts, watts and the light lost to warmth stand for a strip at ${given_degC.toFixed(0)} °C, as the job gives it. Worked out, the warmest run would have ${reckoned_degC.toFixed(0)} °C, and the temperatures of the section are worked out from the watts all the same. Measure the strip in use, or leave its temperature out.`,
  ];
}
