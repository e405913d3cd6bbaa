import type { AskedHeat } from '../answer/asked.ts';
import { freezing_K } from '../constants.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { LimitedPlace } from '../heat/limits.ts';
import {
  answerPoint,
  type SectionQuestion as EngineQuestion,
  type Variant as EngineVariant,
  highestPower,
  passingDepths,
  type SweepPoint,
  sweepDepth,
  sweepPower,
  variantsOf,
} from '../heat/questions.ts';
import type { SectionDescription, SectionLoads } from '../heat/section-description.ts';
import type { Job } from '../job/job.ts';
import { newProfile, profileCatalogue } from '../job/profile-catalogue.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { HeatQuestion } from '../sizing/heat-answer.ts';
import { lampRise_K, loadsOfStrip } from '../sizing/heat-loads.ts';
import { limitsOfJob } from '../sizing/heat-places.ts';
import { unknownIssue } from '../sizing/heat-unknown.ts';
import { prepare } from '../sizing/prepare.ts';
import { flatOf } from '../sizing/section-of-job.ts';
import { figures } from '../words.ts';
import { putBack } from './put-back.ts';

/** Depths a maker may think of, and the powers strip is sold at, about the job's own. */
const depthRange = { least_mm: 8, most_mm: 60, pointCount: 14 } as const;
const powerShares = [0.25, 0.5, 0.75, 1, 1.25, 1.5, 2] as const;

type Variant = AskedHeat['variants'][number];

/** What a variant changes, in words: the measures are those it was asked with. */
function variantName(key: Variant['key'], carrier: Variant['carrier']): string {
  if (key === 'with-carrier' && carrier)
    return `with an aluminium flat ${figures(carrier.width_mm)} × ${figures(carrier.thickness_mm)} mm under the strip`;
  if (key === 'without-profile') return 'with the strip on the timber itself instead of the profile';
  if (key === 'slot-closed') return 'with an opal cover over the slot';
  return key === 'slot-open' ? 'with the slot open' : 'without the aluminium flat';
}

/** Flat and cover of a section in the trade's millimetres. */
function partsOf({ strip, sheet }: SectionDescription): Pick<Variant, 'carrier' | 'cover_mm' | 'profile'> {
  const { carrier } = strip;
  return {
    profile: null,
    carrier: carrier && { width_mm: 1000 * carrier.width_m, thickness_mm: 1000 * carrier.thickness_m },
    cover_mm: sheet && 1000 * sheet.thickness_m,
  };
}

/** Temperatures of a sweep count the warmer upper end in, as the answer to the job does. */
const withStratification_degC = (kelvin: number, point: SweepPoint): number =>
  kelvin + point.answer.stratification_K - freezing_K;

const solder_degC = (point: SweepPoint): number =>
  withStratification_degC(point.answer.temperatures.solderPoint_K, point);
const timber_degC = (point: SweepPoint): number =>
  withStratification_degC(point.answer.temperatures.hottestTimber.temperature_K, point);

/** Warm end of a place's band, which its limits are held against; null where no limit is. */
const warmEnd_degC = (point: SweepPoint, place: LimitedPlace): number | null =>
  point.checks.find(({ limit }) => limit.place === place)?.value_degC ?? null;

/** Electrical watts that belong to a point whose strip heat is a share of the job's. */
function rowOf(asked: HeatQuestion, point: SweepPoint): AskedHeat['byDepth'][number] {
  const share = point.strip_W_per_m / asked.loads.strip_W_per_m;
  return {
    cavity_mm: 1000 * point.cavityDepth_m,
    strip_W_per_m: share * asked.electrical_W_per_m,
    solder_degC: solder_degC(point),
    timber_degC: timber_degC(point),
    solderHigh_degC: warmEnd_degC(point, 'solderPoint') ?? solder_degC(point),
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
  const figuresOf = (
    point: SweepPoint,
  ): Pick<Variant, 'solder_degC' | 'timber_degC' | 'change_K' | 'passes'> => ({
    solder_degC: solder_degC(point),
    timber_degC: timber_degC(point),
    change_K: solder_degC(point) - solder_degC(base),
    passes: point.passes,
  });
  for (const variant of variantsOf(asked.section)) {
    const section = fixedFlat(asked.job, variant);
    const point = answerPoint({ ...question, section, loads: loadsIn(section, question.loads) });
    if (!point.ok) continue;
    const parts = partsOf(section);
    const name = variantName(variant.key, parts.carrier);
    rows.push({ key: variant.key, name, ...parts, ...figuresOf(point.value) });
  }
  const other = profileVariant(asked);
  const point = other && answerPoint(other.question);
  if (other && point?.ok)
    rows.push({
      key: other.profile === null ? 'without-profile' : 'with-profile',
      name: other.name,
      ...partsOf(other.question.section),
      profile: other.profile,
      ...figuresOf(point.value),
    });
  return found(rows);
}

/** A flat that is put under the strip is of the finish and on the joint that the job says. */
function fixedFlat({ section }: Job, { key, section: asked }: EngineVariant): SectionDescription {
  const { carrier } = asked.strip;
  if (key !== 'with-carrier' || carrier === null) return asked;
  return { ...asked, strip: { ...asked.strip, carrier: { ...carrier, ...flatOf(section) } } };
}

/** A section with a profile where there is none, or without the one there is. */
interface ProfileVariant {
  readonly profile: string | null;
  readonly name: string;
  readonly question: EngineQuestion;
}

/** The job without its profile, or in the smallest profile of the list that has room for the strip and room in the cavity. */
function withOtherProfile(
  job: Job,
  { strip, profile }: HeatQuestion,
): { job: Job; profile: string | null } | null {
  const { section } = job;
  if (profile !== null) return { job: { ...job, section: { ...section, profile: null } }, profile: null };
  const room_mm = section.cavity_mm - section.tolerance_mm - 1;
  const entry = profileCatalogue.find(
    ({ inside_mm, base_mm, height_mm }) =>
      inside_mm >= strip.width_mm && base_mm + height_mm + 1.5 <= room_mm,
  );
  if (entry === undefined) return null;
  const drawn = { ...section, carrier: 'none', profile: newProfile(entry.id) } as const;
  return { job: { ...job, section: drawn }, profile: entry.id };
}

/** The same watts in the section with another profile, its own light included; null where that cannot be built. */
function profileVariant(asked: HeatQuestion): ProfileVariant | null {
  const { strip: mount } = asked.job.section;
  if (mount === 'recessed' || mount === 'front') return null;
  const other = withOtherProfile(asked.job, asked);
  const prepared = other && prepare(other.job, 'quick');
  if (!other || !prepared?.ok) return null;
  const { section, light, products } = prepared.value;
  const { strip, electrical_W_per_m } = asked;
  const loads = loadsOfStrip(electrical_W_per_m, strip, light);
  const limits = limitsOfJob({ ...asked, job: other.job, profile: products.profile });
  return {
    profile: other.profile,
    name: products.profile
      ? `with the strip in an aluminium profile with an opal cover: ${products.profile.name}`
      : variantName('without-profile', null),
    question: {
      ...{ section, loads, limits },
      request: { lampRise_K: lampRise_K(strip, loads) },
      wattsAtMost: wattsAtMostOf(asked),
    },
  };
}

/** How many times its watts the strip may draw over the tolerances of the circuit. */
const wattsAtMostOf = ({ electrical_W_per_m, ends_W_per_m }: HeatQuestion): number =>
  electrical_W_per_m === 0 ? 1 : ends_W_per_m.greatest / electrical_W_per_m;

const depths_m = Array.from(
  { length: depthRange.pointCount },
  (_, k) =>
    (depthRange.least_mm + (k * (depthRange.most_mm - depthRange.least_mm)) / (depthRange.pointCount - 1)) /
    1000,
);

/** Temperatures against depth, depths that pass, and depths that cannot be built with the reason. */
function byDepthAsked(
  asked: HeatQuestion,
  question: EngineQuestion,
): Pick<AskedHeat, 'byDepth' | 'passing_mm' | 'gaps'> {
  const swept = sweepDepth(question, depths_m);
  const passing = passingDepths(question, depths_m, swept);
  return {
    byDepth: swept.points.map((point) => rowOf(asked, point)),
    passing_mm: passing.map(({ from_m, to_m }) => ({ from_mm: 1000 * from_m, to_mm: 1000 * to_m })),
    gaps: swept.gaps.map(({ cavityDepth_m, issues }) => ({
      cavity_mm: 1000 * cavityDepth_m,
      reason: issues[0]!.sentence,
    })),
  };
}

/** The highest watts that pass, put back into the job; those of the section alone where the wall refuses them. */
function highestAsked(
  asked: HeatQuestion,
  question: EngineQuestion,
): Outcome<Pick<AskedHeat, 'highest_W_per_m' | 'highestNominal_W_per_m' | 'highestIsBounded'>, HeatIssue> {
  const highest = highestPower(question);
  if (!highest.ok) return highest;
  const { value } = highest;
  if (value === null || value.share === 0)
    return found({ highest_W_per_m: null, highestNominal_W_per_m: null, highestIsBounded: false });
  const back = value.unbounded ? null : putBack(asked.job, asked.strip, value.share);
  return found({
    highest_W_per_m: back?.drawn_W_per_m ?? value.share * asked.electrical_W_per_m,
    highestNominal_W_per_m: back?.nominal_W_per_m ?? null,
    highestIsBounded: !value.unbounded,
  });
}

/**
 * Heat asked the other way round: temperatures against depth and power, the depths that pass, the highest watts,
 * and what an aluminium flat, a profile and an open or a closed slot change (a variant that cannot be built is left out). All is judged by
 * the warm end of the quick answer's band, as the findings are: watts over the tolerances, and every doubt of the section.
 * Check: `tests/inverse/heat.test.ts`.
 */
export function askHeat(asked: HeatQuestion): Outcome<AskedHeat, HeatIssue> {
  const { section, loads, strip, job } = asked;
  if (asked.unknown !== null) return refused(unknownIssue(asked.unknown));
  const limits = limitsOfJob(asked);
  const wattsAtMost = wattsAtMostOf(asked);
  const request = { lampRise_K: lampRise_K(strip, loads) };
  const question = { section, loads, request, limits, wattsAtMost };
  const byPower = sweepPower(question, powerShares);
  if (!byPower.ok) return byPower;
  const highest = highestAsked(asked, question);
  if (!highest.ok) return highest;
  const base = byPower.value[powerShares.indexOf(1)]!;
  const variants = variantsAsked(asked, question, base);
  if (!variants.ok) return variants;
  return found({
    ...byDepthAsked(asked, question),
    byPower: byPower.value.map((point) => rowOf(asked, point)),
    ...highest.value,
    variants: variants.value,
    room_degC: job.site.room_degC,
  });
}
