import { freezing_K } from '../constants.ts';
import type { LimitedPlace } from './limits.ts';
import type { SectionTemperatures } from './section-answers.ts';

/** Temperature of a limited place, with the allowance for the upper end; null where the place does not exist. */
export function limitedTemperature_degC(
  place: LimitedPlace,
  answer: { readonly temperatures: SectionTemperatures; readonly stratification_K: number },
): number | null {
  const { temperatures: t, stratification_K } = answer;
  const at: Readonly<Record<LimitedPlace, number | undefined>> = {
    solderPoint: t.solderPoint_K,
    tape: t.strip.peak.temperature_K,
    timber: t.hottestTimber.temperature_K,
    glueLine: t.glueLine?.temperature_K,
    cable: t.cable.temperature_K,
    roomFace: t.roomFace.temperature_K,
    sheet: t.sheet?.temperature_K,
    coverInside: t.profile?.coverInside?.peak.temperature_K,
    coverOutside: t.profile?.coverOutside?.peak.temperature_K,
  };
  const value = at[place];
  return value === undefined ? null : value + stratification_K - freezing_K;
}
