import type { LightAnswer } from '../answer/light.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { SectionDescription } from '../heat/section-description.ts';
import type { Job } from '../job/job.ts';
import type { LightIssue } from '../light/issues.ts';
import type { Outcome } from '../outcome.ts';
import { type HeatLaw, heatLaw, stripTemperature_degC } from './heat-law.ts';
import { type LightQuestion, lightAnswer, type WarmStrip } from './light-answer.ts';
import { nominal_W_per_m } from './light-of-job.ts';

/** Data sheets give the light of a strip at this temperature. */
const sheet_degC = 25;

/** A line drawn through a data sheet from 25 to 100 °C is believed down to half of the light. */
const least = 0.5;

/**
 * Light of a strip at a temperature over that on its data sheet: `1 - k (t - 25)`, not below a half.
 *
 * @param loss_per_K k, 0 to 0.01 per kelvin
 * Holds along the nearly straight part of the curve a data sheet prints, some 0 to 100 degC (memory); a strip colder than 25 degC gives more.
 * Check: `tests/sizing/warm-light.test.ts`, by hand.
 */
export function fluxShareAt(degC: number, loss_per_K: number): number {
  return Math.max(least, 1 - loss_per_K * (degC - sheet_degC));
}

/** The strip of a job at watts a metre: as warm as the job gives it, else as its section makes it. */
function warmBy(job: Job, law: HeatLaw, loss_per_K: number): WarmStrip {
  return (watts_per_m) => {
    const strip_degC = job.strip.strip_degC ?? stripTemperature_degC(law, watts_per_m);
    return { strip_degC, fluxShare: fluxShareAt(strip_degC, loss_per_K) };
  };
}

/**
 * The light of a job with its strip as warm as its watts make it, where the data sheet says what light that costs; else as on the
 * data sheet. Light that is lost is heat, so that the section is asked twice: with all the light, and with what is left of it;
 * a third time would move the strip by some hundredths of a kelvin. Of the quick law at either accuracy, so that both have the
 * same light. Refuses as `lightAnswer` and `heatLaw`. Check: `tests/sizing/warm-light.test.ts`.
 */
export function warmLightAnswer(
  asked: LightQuestion,
  section: SectionDescription,
): Outcome<LightAnswer, LightIssue | HeatIssue> {
  const { job, strip } = asked;
  const cold = lightAnswer(asked);
  const loss_per_K = strip.fluxLoss_per_K ?? null;
  if (!cold.ok || loss_per_K === null) return cold;
  const first = heatLaw(section, strip, cold.value, 'quick');
  if (!first.ok) return first;
  const warm = warmBy(job, first.value, loss_per_K)(nominal_W_per_m(strip));
  const second = heatLaw(section, strip, { ...cold.value, warm }, 'quick');
  if (!second.ok) return second;
  return lightAnswer({ ...asked, warmAt: warmBy(job, second.value, loss_per_K) });
}
