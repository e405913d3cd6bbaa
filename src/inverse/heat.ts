import type { AskedHeat } from '../answer/asked.ts';
import { freezing_K } from '../constants.ts';
import type { HeatIssue } from '../heat/issues.ts';
import {
  answerPoint,
  type HeatQuestion as EngineQuestion,
  highestPower,
  passingDepths,
  type SweepPoint,
  sweepDepth,
  sweepPower,
  variantsOf,
} from '../heat/questions.ts';
import type { SectionDescription, SectionLoads } from '../heat/section-description.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { HeatQuestion } from '../sizing/heat-answer.ts';
import { lampRise_K } from '../sizing/heat-loads.ts';
import { limitsOfJob } from '../sizing/heat-places.ts';
import { unknownIssue } from '../sizing/heat-unknown.ts';
import { figures } from '../words.ts';

/** Depths a maker may think of, and the powers strip is sold at, about the job's own. */
const depthRange = { least_mm: 8, most_mm: 60, pointCount: 14 } as const;
const powerShares = [0.25, 0.5, 0.75, 1, 1.25, 1.5, 2] as const;

type Variant = AskedHeat['variants'][number];

/** What a variant changes, in words: the measures are those it was asked with. */
function variantName(key: Variant['key'], carrier: Variant['carrier']): string {
  if (key === 'with-carrier' && carrier)
    return `with an aluminium carrier ${figures(carrier.width_mm)} × ${figures(carrier.thickness_mm)} mm under the strip`;
  if (key === 'slot-closed') return 'with an opal cover over the slot';
  return key === 'slot-open' ? 'with the slot open' : 'without the aluminium carrier';
}

/** Carrier and cover of a section in the trade's millimetres. */
function partsOf({ strip, sheet }: SectionDescription): Pick<Variant, 'carrier' | 'cover_mm'> {
  const { carrier } = strip;
  return {
    carrier: carrier && { width_mm: 1000 * carrier.width_m, thickness_mm: 1000 * carrier.thickness_m },
    cover_mm: sheet && 1000 * sheet.thickness_m,
  };
}

/** Temperatures of a sweep count the warmer upper end in, as the answer to the job does. */
const withUpperEnd_degC = (kelvin: number, point: SweepPoint): number =>
  kelvin + point.answer.upperEnd_K - freezing_K;

const solder_degC = (point: SweepPoint): number =>
  withUpperEnd_degC(point.answer.temperatures.solderPoint_K, point);
const timber_degC = (point: SweepPoint): number =>
  withUpperEnd_degC(point.answer.temperatures.hottestTimber.temperature_K, point);

/** Electrical watts that belong to a point whose strip heat is a share of the job's. */
function rowOf(asked: HeatQuestion, point: SweepPoint): AskedHeat['byDepth'][number] {
  const share = point.strip_W_per_m / asked.loads.strip_W_per_m;
  return {
    cavity_mm: 1000 * point.cavityDepth_m,
    strip_W_per_m: share * asked.electrical_W_per_m,
    solder_degC: solder_degC(point),
    timber_degC: timber_degC(point),
    margin_K: point.margin_K,
    passes: point.passes,
  };
}

/** Light that warmed a cover leaves through the slot once the cover is gone. */
function loadsIn(section: SectionDescription, loads: SectionLoads): SectionLoads {
  if (section.sheet !== null) return loads;
  return { ...loads, facesAbsorbed_W_per_m: { ...loads.facesAbsorbed_W_per_m, sheet: 0 } };
}

function variantsAsked(
  asked: HeatQuestion,
  question: EngineQuestion,
  base: SweepPoint,
): Outcome<AskedHeat['variants'], HeatIssue> {
  const rows: AskedHeat['variants'] = [];
  for (const variant of variantsOf(asked.section)) {
    const point = answerPoint({
      ...question,
      section: variant.section,
      loads: loadsIn(variant.section, question.loads),
    });
    if (!point.ok) continue;
    const parts = partsOf(variant.section);
    rows.push({
      key: variant.key,
      name: variantName(variant.key, parts.carrier),
      ...parts,
      solder_degC: solder_degC(point.value),
      timber_degC: timber_degC(point.value),
      change_K: solder_degC(point.value) - solder_degC(base),
      passes: point.value.passes,
    });
  }
  return found(rows);
}

/**
 * Heat asked the other way round: temperatures against depth and power, the depths that pass, the highest watts,
 * and what a carrier and an open or a closed slot change (a variant that cannot be built is left out).
 */
export function askHeat(asked: HeatQuestion): Outcome<AskedHeat, HeatIssue> {
  const { section, loads, strip, job } = asked;
  if (asked.unknown !== null) return refused(unknownIssue(asked.unknown));
  const limits = limitsOfJob(asked);
  const question = { section, loads, request: { lampRise_K: lampRise_K(strip, loads) }, limits };
  const range = {
    from_m: depthRange.least_mm / 1000,
    to_m: depthRange.most_mm / 1000,
    pointCount: depthRange.pointCount,
  };
  const step_m = (range.to_m - range.from_m) / (range.pointCount - 1);
  const byDepth = sweepDepth(
    question,
    Array.from({ length: range.pointCount }, (_, i) => range.from_m + i * step_m),
  );
  if (!byDepth.ok) return byDepth;
  const passing = passingDepths(question, range);
  if (!passing.ok) return passing;
  const byPower = sweepPower(question, powerShares);
  if (!byPower.ok) return byPower;
  const highest = highestPower(question);
  if (!highest.ok) return highest;
  const base = byPower.value[powerShares.indexOf(1)]!;
  const variants = variantsAsked(asked, question, base);
  if (!variants.ok) return variants;
  return found({
    byDepth: byDepth.value.map((point) => rowOf(asked, point)),
    passing_mm: passing.value.map(({ from_m, to_m }) => ({ from_mm: 1000 * from_m, to_mm: 1000 * to_m })),
    byPower: byPower.value.map((point) => rowOf(asked, point)),
    highest_W_per_m: highest.value === null ? null : highest.value.share * asked.electrical_W_per_m,
    highestIsBounded: highest.value !== null && !highest.value.unbounded,
    variants: variants.value,
    room_degC: job.site.room_degC,
  });
}
