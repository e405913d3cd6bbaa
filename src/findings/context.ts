import type { Cable } from '../answer/cables.ts';
import type { CircuitAnswer } from '../answer/circuit.ts';
import type { Condition } from '../answer/conditions.ts';
import type { DriversAnswer } from '../answer/drivers.ts';
import type { Finding, Remedy } from '../answer/findings.ts';
import type { HeatAnswer } from '../answer/heat.ts';
import type { HungAnswer } from '../answer/hung.ts';
import type { InstallationAnswer } from '../answer/installation.ts';
import type { LightAnswer } from '../answer/light.ts';
import type { RoomLight } from '../answer/room-light.ts';
import type { Section } from '../answer/section.ts';
import type { SetOut } from '../answer/set-out.ts';
import type { Job } from '../job/job.ts';
import type { Products } from '../job/products.ts';

/** Limits that belong to the questions; `src/sizing/limits.ts` gathers them. */
export interface Limits {
  /** Differences of light between neighbours, as ratios: unnoticed, accepted; and how a difference looks, in words. */
  readonly neighbour: {
    readonly unseen: number;
    readonly fine: number;
    readonly looks: (difference: number) => string;
  };
  /** Fall of light along a slot, as a ratio: unseen; and how a fall looks, in words. */
  readonly fall: { readonly unseen: number; readonly looks: (fall: number) => string };
  /** Ripple over threshold: hidden, faint. */
  readonly dots: { readonly hidden: number; readonly faint: number };
  readonly glareFrom_cd_per_m2: number;
  readonly fullModulationFrom_Hz: { readonly lowRisk: number; readonly noEffect: number };
  /** Level below which a common dimmer of that frequency does not go, as a ratio. */
  readonly lowestDimLevel: (frequency_Hz: number) => number;
  /** Least efficiency the EU asks of a driver of that rating, as a ratio. */
  readonly leastEfficiency: (rated_W: number) => number;
}

/** A finding as a check makes it: one that asks for nothing may leave its remedies out. */
export type Check = Omit<Finding, 'remedies'> & { readonly remedies?: Finding['remedies'] };

/** One thing to change, and the field of the job that changes it. */
export const remedy = (field: string | null, sentence: string): Remedy => ({ field, sentence });

/** Where a figure of a product comes from: its maker only where somebody entered it from the sheet. */
export function sheet<Data extends object>(entered: Data, key: keyof Data, product: string): string {
  return entered[key] === undefined
    ? `typical of the trade: no figure from the ${product} maker's data sheet is entered`
    : `the ${product} maker's data sheet, as entered`;
}

/** Everything the checks look at: the job, its products, and the answer to each question. */
export interface Sized {
  readonly job: Job;
  readonly products: Products;
  readonly section: Section;
  readonly setOut: SetOut;
  readonly cables: readonly Cable[];
  readonly installation: InstallationAnswer;
  readonly circuit: CircuitAnswer;
  readonly drivers: DriversAnswer;
  readonly light: LightAnswer;
  readonly roomLight: RoomLight;
  readonly hung: HungAnswer;
  readonly heat: HeatAnswer;
  readonly conditions: readonly Condition[];
  readonly limits: Limits;
}

type Status = Finding['status'];

/** Status of a value that must stay below a limit: passes below it, watch where a softer limit is passed first. */
export function below(value: number, limit: number, watchFrom = limit): Status {
  if (value > limit * (1 + 1e-9)) return 'fails';
  return value > watchFrom * (1 + 1e-9) ? 'watch' : 'passes';
}

/** A value that is its limit but for the last bits of a sum is neither over nor under it. */
const unlessRounding = (margin: number, limit: number): number =>
  Math.abs(margin) <= 1e-9 * Math.abs(limit) ? 0 : margin;

/** A finding that compares a value with a limit it must stay below; the margin is what is left. */
export function limited(
  finding: Omit<Check, 'margin' | 'value' | 'limit'> & { readonly value: number; readonly limit: number },
): Check {
  return { ...finding, margin: unlessRounding(finding.limit - finding.value, finding.limit) };
}

/** A finding that compares a value with a limit it must reach; the margin is what it has beyond. */
export function reaching(finding: Parameters<typeof limited>[0]): Check {
  return { ...finding, margin: unlessRounding(finding.value - finding.limit, finding.limit) };
}

/** The element for which `measure` is largest; the list must not be empty. */
export function worst<Item>(items: readonly Item[], measure: (item: Item) => number): Item {
  return items.reduce((a, b) => (measure(b) > measure(a) ? b : a));
}
