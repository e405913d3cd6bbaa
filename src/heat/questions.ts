import { freezing_K } from '../constants.ts';
import { remembered } from '../numeric/remembered.ts';
import { found, type Outcome } from '../outcome.ts';
import type { HeatIssue } from './issues.ts';
import { limitedTemperature_degC } from './limited-places.ts';
import type { LimitedPlace, TemperatureLimit } from './limits.ts';
import type { SectionTemperatures } from './section-answers.ts';
import type { SectionDescription, SectionLoads } from './section-description.ts';
import { type FieldRequest, type SectionField, solveSectionField } from './section-field.ts';
import { riseAtEnd_K, sectionResponse, unconfirmed_K } from './section-response.ts';

/** What stays the same while a question varies something. */
export interface SectionQuestion {
  readonly section: SectionDescription;
  readonly loads: SectionLoads;
  readonly request: FieldRequest;
  readonly limits: readonly TemperatureLimit[];
  /**
   * Judges by the warm end of the band: every doubt of the section, and watts that may be this many times those
   * described, 1 or more. Left out, by the answer as described.
   */
  readonly wattsAtMost?: number;
}

/** One limit beside what it limits, upper end of the cavity included. */
export interface LimitCheck {
  readonly limit: TemperatureLimit;
  readonly value_degC: number;
  /** Limit less value; negative where it is passed. */
  readonly margin_K: number;
}

/** What turns the rise of a place into that of the warm end, K. */
type WarmEnd = (place: LimitedPlace, rise_K: number) => number;

/** Every limit whose place exists, least margin first; at the warm end where there is one. */
export function limitChecks(
  limits: readonly TemperatureLimit[],
  answer: { readonly temperatures: SectionTemperatures; readonly stratification_K: number },
  room_degC = 0,
  warmEnd: WarmEnd = (_, rise_K) => rise_K,
): LimitCheck[] {
  return limits
    .flatMap((limit) => {
      const described_degC = limitedTemperature_degC(limit.place, answer);
      if (described_degC === null) return [];
      const value_degC = room_degC + warmEnd(limit.place, described_degC - room_degC);
      return [{ limit, value_degC, margin_K: limit.limit_degC - value_degC }];
    })
    .sort((a, b) => a.margin_K - b.margin_K);
}

/** Least margin to a limit that refuses or is a breach; cautions do not count against passing. */
function passingMargin_K(checks: readonly LimitCheck[]): number {
  const binding = checks.filter((check) => check.limit.beyond !== 'caution');
  return binding.reduce((least, check) => Math.min(least, check.margin_K), Number.POSITIVE_INFINITY);
}

/** One point of a sweep. */
export interface SweepPoint {
  readonly cavityDepth_m: number;
  readonly strip_W_per_m: number;
  readonly answer: SectionField;
  readonly checks: readonly LimitCheck[];
  readonly margin_K: number;
  readonly passes: boolean;
}

/** Section and loads of a question at a depth and a share of its watts. */
interface Variation {
  readonly cavityDepth_m?: number;
  readonly share?: number;
}

function varied(question: SectionQuestion, variation: Variation): SectionQuestion {
  const share = variation.share ?? 1;
  const { section, loads, request } = question;
  const absorbed = Object.entries(loads.facesAbsorbed_W_per_m ?? {}).map(([face, w]) => [face, w * share]);
  return {
    ...question,
    section: { ...section, cavityDepth_m: variation.cavityDepth_m ?? section.cavityDepth_m },
    loads: {
      strip_W_per_m: loads.strip_W_per_m * share,
      facesAbsorbed_W_per_m: Object.fromEntries(absorbed),
    },
    request: { ...request, lampRise_K: request.lampRise_K * share },
  };
}

/** Doubts hardly depend on the watts: those of a section serve every power of a sweep. */
const responseTo = remembered(
  ({ section, loads, request }: Pick<SectionQuestion, 'section' | 'loads' | 'request'>) =>
    sectionResponse(section, loads, request),
  32,
);

function warmEndOf(
  question: SectionQuestion,
  at: SectionQuestion,
  share: number,
): Outcome<WarmEnd, HeatIssue> {
  const { loads, request, wattsAtMost } = question;
  if (wattsAtMost === undefined) return found((_, rise_K) => rise_K);
  const responses = responseTo({ section: at.section, loads, request });
  if (!responses.ok) return responses;
  const shares = { described: share, end: share * wattsAtMost };
  return found(
    (place, rise_K) => riseAtEnd_K('warm', rise_K, responses.value[place]!, shares) + unconfirmed_K(rise_K),
  );
}

/** Answers one point of a question. */
export function answerPoint(
  question: SectionQuestion,
  variation: Variation = {},
): Outcome<SweepPoint, HeatIssue> {
  const at = varied(question, variation);
  const outcome = solveSectionField(at.section, at.loads, { ...at.request, confirm: false });
  if (!outcome.ok) return outcome;
  const warmEnd = warmEndOf(question, at, variation.share ?? 1);
  if (!warmEnd.ok) return warmEnd;
  const checks = limitChecks(at.limits, outcome.value, at.section.room_K - freezing_K, warmEnd.value);
  const margin_K = passingMargin_K(checks);
  return found(
    {
      cavityDepth_m: at.section.cavityDepth_m,
      strip_W_per_m: at.loads.strip_W_per_m,
      answer: outcome.value,
      checks,
      margin_K,
      passes: margin_K >= 0,
    },
    outcome.notes,
  );
}

/** A depth that cannot be built, and why. */
export interface DepthGap {
  readonly cavityDepth_m: number;
  readonly issues: readonly HeatIssue[];
}

/** Temperatures against cavity depth; what cannot be built is a gap. @param depths_m above 0, in the order wanted */
export function sweepDepth(
  question: SectionQuestion,
  depths_m: readonly number[],
): { readonly points: readonly SweepPoint[]; readonly gaps: readonly DepthGap[] } {
  const points: SweepPoint[] = [];
  const gaps: DepthGap[] = [];
  for (const cavityDepth_m of depths_m) {
    const outcome = answerPoint(question, { cavityDepth_m });
    if (outcome.ok) points.push(outcome.value);
    else gaps.push({ cavityDepth_m, issues: outcome.issues });
  }
  return { points, gaps };
}

/** Temperatures against power; all heat and the lamp's rise go with it. @param shares of the loads, at least 0 */
export function sweepPower(
  question: SectionQuestion,
  shares: readonly number[],
): Outcome<readonly SweepPoint[], HeatIssue> {
  const points: SweepPoint[] = [];
  for (const share of shares) {
    const outcome = answerPoint(question, { share });
    if (!outcome.ok) return outcome;
    points.push(outcome.value);
  }
  return found(points);
}

/** A stretch of depths that pass. */
export interface PassingDepths {
  readonly from_m: number;
  readonly to_m: number;
}

const depthStep_m = 1e-4;

/** Depth between a passing and a failing one where the margin is used up, to a tenth of a millimetre. */
function crossing(question: SectionQuestion, pass_m: number, fail_m: number): number {
  let [pass, fail] = [pass_m, fail_m];
  while (Math.abs(pass - fail) > depthStep_m) {
    const middle = (pass + fail) / 2;
    const outcome = answerPoint(question, { cavityDepth_m: middle });
    if (outcome.ok && outcome.value.passes) pass = middle;
    else fail = middle;
  }
  return pass;
}

/**
 * The set of cavity depths that pass, as stretches; empty where none does. Temperature does not fall steadily
 * with depth, so there may be several, and "no depth passes" is an answer. A depth that cannot be built does not pass.
 *
 * @param depths_m at least two, rising; stretches narrower than a step may be missed
 * Check: each end passes and the depth beyond it does not, `tests/heat/questions.test.ts`.
 */
export function passingDepths(
  question: SectionQuestion,
  depths_m: readonly number[],
  { points }: ReturnType<typeof sweepDepth> = sweepDepth(question, depths_m),
): readonly PassingDepths[] {
  if (!(depths_m.length >= 2 && depths_m.every((depth, k) => depth > (depths_m[k - 1] ?? 0))))
    throw new RangeError('a range of depths needs two ends, rising');
  const passing = new Set(points.filter((point) => point.passes).map((point) => point.cavityDepth_m));
  const stretches: PassingDepths[] = [];
  let from_m: number | null = null;
  for (const [k, depth_m] of depths_m.entries()) {
    const before_m = depths_m[k - 1];
    const passes = passing.has(depth_m);
    if (passes && from_m === null)
      from_m = before_m === undefined ? depth_m : crossing(question, depth_m, before_m);
    if (!passes && from_m !== null && before_m !== undefined) {
      stretches.push({ from_m, to_m: crossing(question, before_m, depth_m) });
      from_m = null;
    }
  }
  if (from_m !== null) stretches.push({ from_m, to_m: depths_m.at(-1)! });
  return stretches;
}

/** The highest power that passes. */
export interface HighestPower {
  /** Share of the loads asked about. */
  readonly share: number;
  readonly strip_W_per_m: number;
  readonly point: SweepPoint;
  /** Not bounded by any limit up to the highest share tried. */
  readonly unbounded: boolean;
}

const shareAccuracy = 1e-3;

/**
 * The highest watts per metre that pass: the share of the loads at which the least margin is used up, found by
 * bisection, since more watts are never cooler. Null where even no power passes (the room itself is too warm).
 *
 * @param highestShare of the loads that is tried
 * Check: passes there and not 1 % above, `tests/heat/questions.test.ts`.
 */
export function highestPower(
  question: SectionQuestion,
  highestShare = 5,
): Outcome<HighestPower | null, HeatIssue> {
  const at = (share: number): Outcome<SweepPoint, HeatIssue> => answerPoint(question, { share });
  const top = at(highestShare);
  const result = (share: number, point: SweepPoint, unbounded: boolean): HighestPower => ({
    share,
    strip_W_per_m: point.strip_W_per_m,
    point,
    unbounded,
  });
  if (top.ok && top.value.passes) return found(result(highestShare, top.value, true));
  const bottom = at(0);
  if (!bottom.ok) return bottom;
  if (!bottom.value.passes) return found(null);
  // Watts at which nothing settles are as far over as can be.
  const marginOf = (outcome: Outcome<SweepPoint>): number => (outcome.ok ? outcome.value.margin_K : -1000);
  let [low, high] = [
    { share: 0, point: bottom.value },
    { share: highestShare, margin_K: marginOf(top) },
  ];
  while (high.share - low.share > shareAccuracy * high.share) {
    // Temperatures rise almost in proportion, so aim where a straight line crosses, but never at an end.
    const straight = low.point.margin_K / (low.point.margin_K - high.margin_K);
    const share = low.share + (high.share - low.share) * Math.min(0.95, Math.max(0.05, straight));
    const outcome = at(share);
    if (outcome.ok && outcome.value.passes) low = { share, point: outcome.value };
    else high = { share, margin_K: marginOf(outcome) };
  }
  return found(result(low.share, low.point, false));
}

/** The section as described beside the changes a maker may think of. */
export interface Variant {
  readonly key: 'with-carrier' | 'without-carrier' | 'slot-closed' | 'slot-open';
  readonly section: SectionDescription;
}

/** Aluminium flat 20 mm by 2 mm, anodised, the common way to carry a strip. */
const usualCarrier = {
  thickness_m: 0.002,
  width_m: 0.02,
  conductivity_W_per_mK: 160,
  emissivity: 0.8,
} as const;

/** Opal sheet of 3 mm PMMA. */
const usualSheet = { thickness_m: 0.003, conductivity_W_per_mK: 0.18, emissivity: 0.9 } as const;

/** With or without a carrier, and with the slot open or closed, as far as there is no profile in the way: the changes from what is described. */
export function variantsOf(section: SectionDescription): readonly Variant[] {
  const { profile, mount } = section.strip;
  if (mount === 'recessed') return [];
  const carried = section.strip.carrier !== null;
  const width_m = Math.max(usualCarrier.width_m, section.strip.width_m);
  const carrier = carried ? null : { ...usualCarrier, width_m };
  const sheet = section.sheet === null ? usualSheet : null;
  const flat: Variant = {
    key: carried ? 'without-carrier' : 'with-carrier',
    section: { ...section, strip: { ...section.strip, carrier } },
  };
  return [
    ...(profile === undefined ? [flat] : []),
    { key: section.sheet === null ? 'slot-closed' : 'slot-open', section: { ...section, sheet } },
  ];
}
