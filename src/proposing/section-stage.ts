import type { LightAnswer } from '../answer/light.ts';
import type { SetOut } from '../answer/set-out.ts';
import type { Sizing } from '../answer/sizing.ts';
import { depthFinding } from '../findings/heat-findings.ts';
import { lightFindings } from '../findings/light-findings.ts';
import { setOutFindings } from '../findings/set-out-findings.ts';
import type { SectionDescription } from '../heat/section-description.ts';
import { sectionIssues } from '../heat/section-rules.ts';
import { entriesOf } from '../job/catalogues.ts';
import type { Job } from '../job/job.ts';
import { listedPrice_cents } from '../job/prices.ts';
import type { Products } from '../job/products.ts';
import { resolveProducts } from '../job/resolve.ts';
import type { StripData } from '../job/strip.ts';
import { sectionPitch_mm } from '../set-out/pitch.ts';
import { setOutJob } from '../set-out/set-out.ts';
import type { HeatLaw } from '../sizing/heat-law.ts';
import { heatUnknown } from '../sizing/heat-unknown.ts';
import { nominal_W_per_m } from '../sizing/light-of-job.ts';
import { limits } from '../sizing/limits.ts';
import { sectionAnswer } from '../sizing/section-answer.ts';
import {
  type LitWidth,
  lightOfWidths,
  litByWidth,
  sectionsByWidth,
  type WarmWidth,
  warmestFirst,
} from '../sizing/slots-by-width.ts';
import { leastReels_cents } from './bounds.ts';
import type { Choices, StripChoice } from './choices.ts';
import { type Fall, fallOfFindings, fallOfIssue } from './fallen.ts';

/** What decides light, depth and the heat law of a design. */
export interface SectionPick {
  readonly strip: StripChoice;
  readonly carrier: Job['section']['carrier'];
  readonly cover: Job['section']['cover'];
  readonly cavity_mm: number;
  readonly mount: Choices['mounts'][number];
  readonly slots: Job['slots'];
}

/** Every section the choices allow, in their order, the strip first. */
export const sectionPicks = (choices: Choices): SectionPick[] =>
  choices.strips.flatMap((strip) =>
    choices.carriers.flatMap((carrier) =>
      choices.covers.flatMap((cover) =>
        choices.depths_mm.flatMap((cavity_mm) =>
          choices.mounts.flatMap((mount) =>
            choices.pitches.map((slots) => ({ strip, carrier, cover, cavity_mm, mount, slots })),
          ),
        ),
      ),
    ),
  );

/** A job with a section of its own and any drivers of its volts. */
function withSection(job: Job, pick: SectionPick, drivers: Choices['drivers'][number]): Job {
  const { strip, carrier, cover, cavity_mm, mount, slots } = pick;
  const { entry, data, lifeTests } = strip;
  const { output_V: _, ...chosen } = drivers;
  return {
    ...job,
    slots,
    section: { ...job.section, carrier, cover, cavity_mm, ...mount },
    strip: { ...job.strip, entry, data, lifeTests: [...lifeTests] },
    drivers: { ...job.drivers, ...chosen, also: [...chosen.also] },
  };
}

/** A brightness of more than this times what is wanted, or less than that, is dimmed otherwise. */
const met = { least: 0.9, most: 1.5 } as const;

type Zone = LightAnswer['zones'][number];

const isMet = ({ luminance_cd_per_m2, wanted_cd_per_m2 }: Zone): boolean =>
  luminance_cd_per_m2 >= met.least * wanted_cd_per_m2 && luminance_cd_per_m2 <= met.most * wanted_cd_per_m2;

/** The working levels that give the wanted brightness, zone by zone, where those of the job do not and some do. */
function withLevels(job: Job, { zones }: LightAnswer): Job {
  const sum = (levels: readonly number[]): number => levels.reduce((all, level) => all + level, 0);
  const levelsOf = (name: string | null): number[] | undefined => {
    const own = zones.filter(({ zone }) => zone === name);
    if (own.every((zone) => isMet(zone) || zone.neededLevels.length === 0)) return undefined;
    // Of several widths that which needs most.
    return own.map(({ neededLevels }) => neededLevels).reduce((a, b) => (sum(b) > sum(a) ? b : a));
  };
  const { dimming } = job;
  return {
    ...job,
    dimming: {
      ...dimming,
      levels: levelsOf(null) ?? dimming.levels,
      zones: dimming.zones.map((zone) => ({ ...zone, levels: levelsOf(zone.name) ?? zone.levels })),
    },
  };
}

/** Temperatures that every section has: where the model does not hold, each is a warning. */
const notKnownCount = 4;

/** A section that stands as far as light and depth go. */
export interface StandingSection {
  readonly pick: SectionPick;
  /** With the section, its strip and its levels. */
  readonly job: Job;
  readonly products: Products;
  readonly light: LightAnswer;
  readonly section: SectionDescription;
  readonly depth_mm: number;
  /** Slots and strip, fed anyhow. */
  readonly setOut: SetOut;
  readonly strip_m: number;
  readonly stripJointCount: number;
  /** Warnings that strip, light and depth leave, whatever else is chosen. */
  readonly warningCount: number;
  /** How it warms, solved when first asked for; where slots have several widths, that of the warmest strip first. */
  readonly warm: (accuracy: Sizing['accuracy']) => readonly [WarmWidth, ...WarmWidth[]] | Fall;
}

export type Staged =
  | { readonly ok: true; readonly value: StandingSection }
  | { readonly ok: false; readonly fall: Fall };

const fell = (fall: Fall): Staged => ({ ok: false, fall });

function warmOnce(widths: readonly LitWidth[], products: Products): StandingSection['warm'] {
  const known = new Map<Sizing['accuracy'], ReturnType<StandingSection['warm']>>();
  return (accuracy) => {
    const kept = known.get(accuracy);
    if (kept) return kept;
    const warm = warmestFirst(widths, products, accuracy);
    const answer = warm.ok ? (warm.value as [WarmWidth, ...WarmWidth[]]) : fallOfIssue(warm.issues[0]!);
    known.set(accuracy, answer);
    return answer;
  };
}

/** How the section of a design warms, beside the strip that is warmest where slots have several widths. */
export function lawOf(at: StandingSection, accuracy: Sizing['accuracy']): HeatLaw | Fall {
  const warm = at.warm(accuracy);
  return 'check' in warm ? warm : warm[0].law;
}

/** The light of a job in each width of its slots, and what it falls by where a section cannot be. */
function litWidths(
  job: Job,
  products: Products,
  setOut: SetOut,
): { readonly value: readonly [LitWidth, ...LitWidth[]] } | { readonly fall: Fall } {
  const sections = sectionsByWidth(job, products, setOut);
  const impossible = sections.flatMap(({ section }) => sectionIssues(section))[0];
  if (impossible) return { fall: fallOfIssue(impossible) };
  const lit = litByWidth(sections, products, setOut);
  return lit.ok ? { value: lit.value as [LitWidth, ...LitWidth[]] } : { fall: fallOfIssue(lit.issues[0]!) };
}

/**
 * Light and depth of a section, and what it falls by where it does: neither rests on feeds, cables or drivers, so that all
 * designs with it fall together. Levels are set to what gives the wanted brightness where they are open.
 */
export function stageSection(
  job: Job,
  pick: SectionPick,
  { choices, isLevelOpen }: { readonly choices: Choices; readonly isLevelOpen: boolean },
): Staged {
  const drivers = choices.drivers.find(({ output_V }) => output_V === pick.strip.nominal_V);
  if (drivers === undefined)
    return fell({
      check: 'voltage-mismatch',
      title: 'Drivers of the volts of the strip',
      sentence: `The drivers are kept, and a strip of ${pick.strip.nominal_V} V is not made for them.`,
    });
  const first = withSection(job, pick, drivers);
  const products = resolveProducts(first);
  if (!products.ok) return fell(fallOfIssue(products.issues[0]!));
  const { strip } = products.value;
  const setOut = setOutJob(
    { ...first, feeds: { ...first.feeds, arrangement: 'start', exceptions: [] } },
    strip,
    products.value.profile?.endCap_mm ?? 0,
  );
  if (!setOut.ok) return fell(fallOfIssue(setOut.issues[0]!));
  const lit = litWidths(first, products.value, setOut.value);
  if ('fall' in lit) return fell(lit.fall);
  const levelled = isLevelOpen ? withLevels(first, lightOfWidths(lit.value)) : first;
  const widths = litWidths(levelled, products.value, setOut.value);
  if ('fall' in widths) return fell(widths.fall);
  const [{ section }] = widths.value;
  const light = lightOfWidths(widths.value);
  const depth = sectionAnswer(levelled, products.value, sectionPitch_mm(setOut.value, job));
  const seen = { job: levelled, products: products.value, light, limits, section: depth };
  const laid = setOutFindings({ ...seen, setOut: setOut.value }).filter(({ id }) => id !== 'longest-run');
  const findings = [...lightFindings(seen), depthFinding(seen), ...laid];
  const fall = fallOfFindings(findings);
  if (fall) return fell(fall);
  return {
    ok: true,
    value: {
      pick,
      job: levelled,
      products: products.value,
      light,
      section,
      depth_mm: depth.depth_mm,
      setOut: setOut.value,
      strip_m: setOut.value.strip_m,
      stripJointCount: setOut.value.jointCount,
      warningCount:
        findings.filter(({ status }) => status === 'watch').length +
        (heatUnknown(setOut.value.slots, section) === null ? 0 : notKnownCount),
      warm: warmOnce(widths.value, products.value),
    },
  };
}

/** Strip of a section by its data sheet, and its reels; nothing where it cannot be laid, which its section then says. */
export function leastStrip(
  job: Job,
  { strip, slots }: SectionPick,
): { strip_W: number; reels_cents: number } {
  const data = {
    ...entriesOf(job, 'strip').find(({ id }) => id === strip.entry)!,
    ...strip.data,
  } as StripData;
  const feeds: Job['feeds'] = { ...job.feeds, arrangement: 'start', exceptions: [] };
  const present = resolveProducts(job);
  const endCap_mm = (present.ok ? present.value.profile?.endCap_mm : 0) ?? 0;
  const setOut = setOutJob({ ...job, slots, feeds }, data, endCap_mm);
  if (!setOut.ok) return { strip_W: 0, reels_cents: 0 };
  const price_cents = data.price_cents ?? listedPrice_cents(job.prices, 'strip', strip.entry);
  return {
    strip_W: setOut.value.strip_m * nominal_W_per_m(data),
    reels_cents: leastReels_cents(setOut.value, { strip: { ...data, id: strip.entry, price_cents } }),
  };
}
