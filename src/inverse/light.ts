import type { AskedLight } from '../answer/asked.ts';
import { entriesOf } from '../job/catalogues.ts';
import { leastDepthHidingDots, leastLampsHidingDots } from '../light/hidden-dots.ts';
import type { LightIssue } from '../light/issues.ts';
import { stripChoices, wantedStrip } from '../light/wanted.ts';
import { found, type Outcome } from '../outcome.ts';
import { undimmed } from '../sizing/channels.ts';
import { circuitLight, circuitShare } from '../sizing/dimming-of-job.ts';
import { stripTemperature_degC } from '../sizing/heat-law.ts';
import { fullFlux_lm_per_m, litSectionOfJob, nominal_W_per_m } from '../sizing/light-of-job.ts';
import type { Prepared } from '../sizing/prepared.ts';
import type { Settled } from '../sizing/settle.ts';
import { figures } from '../words.ts';

/** Light of the dimmest unit anywhere, as a share of a unit at nominal volts at the same level. */
function lowestLight({ solution, wired: { job, products, runs } }: Settled): number {
  const levels = runs.map(({ zone }) => circuitLight(job, products, zone));
  return Math.min(...solution.runs.flatMap((run, i) => undimmed(run.light, levels[i]!)));
}

/** What the drivers deliver at full: as solved, or in proportion where the circuit stands at lower levels. */
function fullDelivered_W({ job, products, setOut }: Prepared, { solution }: Settled): number {
  const { runs, strip_m } = setOut;
  const lit_m = runs.reduce(
    (sum, { zone, strip_mm }) => sum + (circuitShare(job, products, zone) * strip_mm) / 1000,
    0,
  );
  const share = lit_m / strip_m;
  return share > 0 ? solution.out_W / share : strip_m * nominal_W_per_m(products.strip);
}

function orRemark<Value>(outcome: Outcome<Value, LightIssue>, remarks: string[]): Value | null {
  if (outcome.ok) return outcome.value;
  remarks.push(...outcome.issues.map((issue) => issue.sentence));
  return null;
}

/** Catalogue strips of the job's voltage and channels against the wanted lumens. */
function choices({ job, products }: Prepared, flux_lm_per_m: number): AskedLight['strips'] {
  const { nominal_V, channels } = products.strip;
  const alike = entriesOf(job, 'strip').filter(
    (entry) => entry.nominal_V === nominal_V && entry.channels.length === channels.length,
  );
  const candidates = alike.map((entry) => ({
    id: entry.id,
    flux_lm_per_m: fullFlux_lm_per_m(entry),
    watts_per_m: nominal_W_per_m(entry),
  }));
  const names = new Map(alike.map((entry) => [entry.id, entry.name]));
  return stripChoices(candidates, flux_lm_per_m).map((choice) => ({
    ...choice,
    name: names.get(choice.id)!,
  }));
}

const partlyHidden =
  'The LEDs themselves can be seen through the slot from somewhere in the room: a depth or a number of LEDs that hides the hot spots does so only where the LEDs are out of sight.';

const ofOneWidth = (width_mm: number): string =>
  `Slots have several widths: these figures are of those ${figures(width_mm)} mm wide. Look at the brightness of the others in the list of zones.`;

/**
 * Light asked the other way round: the lumens and watts that give the wanted brightness, the greatest of all zones, at the dimmest unit and as warm
 * as it is now, the catalogue strips that do, what that saves on the wall, and the depth or the lamps per metre that hide the dots.
 */
export function askLight(prepared: Prepared, settled: Settled): Outcome<AskedLight, LightIssue> {
  const { job, products, setOut } = prepared;
  const section = litSectionOfJob(job, products, setOut);
  const watts_per_m = nominal_W_per_m(products.strip);
  const wanted_cd_per_m2 = Math.max(...prepared.light.zones.map((zone) => zone.wanted_cd_per_m2));
  const lowest = lowestLight(settled) * (prepared.light.warm?.fluxShare ?? 1);
  const wanted = wantedStrip({ section, wanted_cd_per_m2, lowestLight: lowest, watts_per_m });
  if (!wanted.ok) return wanted;
  const { flux_lm_per_m, level, given } = wanted.value;
  const remarks: string[] = prepared.light.bareLampsSeen.length > 0 ? [partlyHidden] : [];
  const view = { viewingDistance_m: job.light.viewing_mm / 1000, luminance_cd_per_m2: wanted_cd_per_m2 };
  if (prepared.others) remarks.push(ofOneWidth(job.slots.width_mm));
  const depth = orRemark(leastDepthHidingDots(section, view), remarks);
  const lamps = orRemark(leastLampsHidingDots(section, view), remarks);
  const share = Math.min(1, wanted.value.watts_per_m / watts_per_m);
  const warm_K =
    stripTemperature_degC(prepared.law, watts_per_m) -
    stripTemperature_degC(prepared.law, watts_per_m * share);
  const delivered_W = fullDelivered_W(prepared, settled);
  return found({
    needed: { flux_lm_per_m, watts_per_m: wanted.value.watts_per_m, level },
    given: {
      seen_cd_per_m2: given.seen_cd_per_m2,
      flux_lm_per_m: given.flux_lm_per_m,
      watts_per_m: given.watts_per_m,
    },
    saving: {
      watts: delivered_W * (1 - share),
      drivers_W: (delivered_W * share) / (1 - job.drivers.reserve),
      kelvins: warm_K,
    },
    strips: choices(prepared, flux_lm_per_m),
    leastDepth_mm: depth === null ? null : 1000 * depth.depth_m,
    leastLampsPerMetre: lamps?.lamps_per_m ?? null,
    remarks: [...new Set(remarks)],
  });
}
