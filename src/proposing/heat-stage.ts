import type { SetOut } from '../answer/set-out.ts';
import { temperatureFinding } from '../findings/heat-findings.ts';
import { unconfirmed_K } from '../heat/section-response.ts';
import { averageShare } from '../sizing/dimming-of-job.ts';
import { heatAnswer } from '../sizing/heat-answer.ts';
import type { HeatLaw } from '../sizing/heat-law.ts';
import { loadsOfStrip } from '../sizing/heat-loads.ts';
import { heatUnknown } from '../sizing/heat-unknown.ts';
import { nominal_W_per_m } from '../sizing/light-of-job.ts';
import { leastCurrentShare, leastVolts_V } from './bounds.ts';
import type { Fall } from './fallen.ts';
import type { StandingSection } from './section-stage.ts';

/** Watts a metre that the strip draws at least where it draws most, on average. */
function least_W_per_m({ job, products }: StandingSection, runs: SetOut['runs']): number {
  const zones = [...new Set(runs.map(({ zone }) => zone))];
  const average = Math.max(...zones.map((zone) => averageShare(job, products, zone)));
  const lit = job.dimming.sizeFor === 'levels' || job.dimming.mixingLimit !== null ? 0 : 1;
  const least_V = leastVolts_V(job, products);
  const share = (least_V / products.strip.nominal_V) * leastCurrentShare(job, products, least_V);
  return average * lit * share * nominal_W_per_m(products.strip);
}

/**
 * The limit of temperature a section passes with the fewest watts its strip can draw, since fewer watts never heat more;
 * undefined where it passes none. Held against the warm end of the quick band, less what the confirming mesh may take
 * off it twice, so that no section falls here that the careful answer lets pass.
 */
export function fallOfHeat(at: StandingSection, law: HeatLaw): Fall | undefined {
  const { job, products, section, light, setOut } = at;
  const electrical_W_per_m = least_W_per_m(at, setOut.runs);
  if (electrical_W_per_m === 0) return undefined;
  const heat = heatAnswer({
    ...{ job, strip: products.strip, profile: products.profile, section, law, electrical_W_per_m },
    loads: loadsOfStrip(electrical_W_per_m, products.strip, light),
    ends_W_per_m: { least: electrical_W_per_m, greatest: electrical_W_per_m },
    unknown: heatUnknown(setOut.slots, section),
  });
  if (!heat.ok) return undefined;
  const failing = heat.value.temperatures.flatMap((row) => {
    const surely_degC = row.high_degC - 2 * unconfirmed_K(row.high_degC - law.room_degC);
    const limit = row.limits.find((each) => each.beyond !== 'caution' && surely_degC > each.limit_degC);
    return limit ? temperatureFinding({ ...row, limits: [limit] }) : [];
  })[0];
  return failing && { check: failing.id, title: failing.title, sentence: failing.sentence };
}
