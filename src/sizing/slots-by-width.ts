import type { LightAnswer } from '../answer/light.ts';
import type { SetOut } from '../answer/set-out.ts';
import type { Sizing } from '../answer/sizing.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { SectionDescription } from '../heat/section-description.ts';
import type { Job } from '../job/job.ts';
import { forWidth } from '../job/slot-widths.ts';
import type { LightIssue } from '../light/issues.ts';
import { found, type Outcome } from '../outcome.ts';
import { figures } from '../words.ts';
import { type HeatLaw, heatLaw, stripTemperature_degC } from './heat-law.ts';
import { type LitProducts, nominal_W_per_m } from './light-of-job.ts';
import { sectionOfJob } from './section-of-job.ts';
import { warmLightAnswer } from './warm-light.ts';

/** The section of the slots of one width. */
export interface SectionOfWidth {
  readonly width_mm: number;
  /** With the section's slots as wide as these. */
  readonly job: Job;
  readonly section: SectionDescription;
}

/** The same with its light. */
export interface LitWidth extends SectionOfWidth {
  readonly light: LightAnswer;
}

/** The same with the law by which it warms. */
export interface WarmWidth extends LitWidth {
  readonly law: HeatLaw;
}

/**
 * A section for each width of slot, the widest first; one, of the very job, where no slot has a width of its own. Pitch, edge and
 * longest slot are those of the wall: each width is judged where it has least room.
 */
export function sectionsByWidth(job: Job, products: LitProducts, setOut: SetOut): SectionOfWidth[] {
  const widths = [...new Set(setOut.slots.map(({ width_mm }) => width_mm))].sort((a, b) => b - a);
  return widths.map((width_mm) => {
    const own = forWidth(job, width_mm);
    return { width_mm, job: own, section: sectionOfJob(own, products, setOut) };
  });
}

/** Slots and runs of one width, in a wall as it is. */
function runsOfWidth(setOut: SetOut, width_mm: number): SetOut {
  const slots = new Set(setOut.slots.filter((each) => each.width_mm === width_mm).map(({ id }) => id));
  return { ...setOut, runs: setOut.runs.filter(({ slot }) => slots.has(slot)) };
}

/** The light of each width. Refuses as `warmLightAnswer`. */
export function litByWidth(
  sections: readonly SectionOfWidth[],
  products: LitProducts,
  setOut: SetOut,
): Outcome<LitWidth[], LightIssue | HeatIssue> {
  const notes: string[] = [];
  const lit: LitWidth[] = [];
  for (const one of sections) {
    const runs = sections.length === 1 ? setOut : runsOfWidth(setOut, one.width_mm);
    const light = warmLightAnswer({ job: one.job, ...products, setOut: runs }, one.section);
    if (!light.ok) return light;
    notes.push(...light.notes);
    lit.push({ ...one, light: light.value });
  }
  return found(lit, [...new Set(notes)]);
}

/**
 * How each width warms, the one whose strip is warmest at its nominal watts first: all runs are taken to be as warm as those.
 * Refuses as `heatLaw`.
 */
export function warmestFirst(
  lit: readonly LitWidth[],
  { strip }: LitProducts,
  accuracy: Sizing['accuracy'],
): Outcome<WarmWidth[], HeatIssue> {
  const warm: WarmWidth[] = [];
  for (const one of lit) {
    const law = heatLaw(one.section, strip, one.light, accuracy);
    if (!law.ok) return law;
    warm.push({ ...one, law: law.value });
  }
  const degC = ({ law }: WarmWidth): number => stripTemperature_degC(law, nominal_W_per_m(strip));
  return found(warm.sort((a, b) => degC(b) - degC(a)));
}

/** The light of a wall: that of the first width, with the slots of each dimmed alike under their own figures. */
export function lightOfWidths([first, ...others]: readonly [LitWidth, ...LitWidth[]]): LightAnswer {
  if (others.length === 0) return first.light;
  const all = [first, ...others].sort((a, b) => b.width_mm - a.width_mm);
  return {
    ...first.light,
    zones: all.flatMap(({ width_mm, light }) => {
      const { full_cd_per_m2, outFraction, ripple } = light;
      const named = (name: string): string =>
        `${name === 'the wall' ? '' : `${name}, `}slots ${figures(width_mm)} mm wide`;
      return light.zones.map((zone) => ({
        ...zone,
        name: named(zone.name),
        ofWidth: { width_mm, full_cd_per_m2, outFraction, ripple },
      }));
    }),
    bareLampsSeen: (['standing', 'sitting'] as const).filter((posture) =>
      all.some(({ light }) => light.bareLampsSeen.includes(posture)),
    ),
  };
}
