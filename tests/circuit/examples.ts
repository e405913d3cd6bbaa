import { type FeedArrangement, fedRun, type Lead } from '../../src/circuit/arrangements.ts';
import {
  type Cable,
  type CircuitDescription,
  pairedCable,
  type Run,
  type Terminal,
} from '../../src/circuit/description.ts';
import type { RegulatedLaw, ResistorLaw, StripLaw } from '../../src/circuit/strip-law.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';

/** A 24 V strip of 10 W/m with units of 50 mm and 2 oz copper of 4 mm. */
export const resistorLaw: ResistorLaw = {
  kind: 'resistor',
  nominal_V: 24,
  unit_W: 0.5,
  lampsInSeries: 6,
  lampForward_V: 3,
  slope_V: 0.075,
};

export const regulatedLaw: RegulatedLaw = { ...resistorLaw, kind: 'regulated', dropout_V: 1.2 };

export const lead: Lead = { length_m: 3, ohm_per_m: 0.0133, contact_ohm: 0.004 };

/** A run of single-colour strip; anything may be set otherwise. */
export function stripRun(id: string, unitCount: number, changes: Partial<Run> = {}): Run {
  return {
    id,
    unitCount,
    unitLength_m: 0.05,
    positiveRail_ohm_per_m: 0.0616,
    channels: [channel('white')],
    strip_degC: 25,
    joints: [],
    ...changes,
  };
}

export function channel(id: string, law: StripLaw = resistorLaw, level = 1, returnRail_ohm_per_m = 0.0616) {
  return { id, law, level, returnRail_ohm_per_m };
}

export function alone(
  run: Run,
  arrangement: FeedArrangement,
  changes: Partial<Lead> = {},
): CircuitDescription {
  return fedRun({ run, set_V: 24, arrangement, lead: { ...lead, ...changes } });
}

export function cable(
  id: string,
  from: Terminal,
  to: Terminal,
  changes: Partial<Lead> = {},
  channels = ['white'],
): Cable {
  return pairedCable({ id, channels, from, to, ...lead, ...changes });
}

/**
 * Thirty runs of all kinds on three drivers, hung on a random tree of taps, run ends and drivers, some fed twice,
 * some chained; every number random within what is sold.
 */
export function randomForest(seed: number, runCount = 30): CircuitDescription {
  const random = seededRandom(seed);
  const between = (from: number, to: number): number => from + (to - from) * random();
  const whole = (from: number, to: number): number => Math.floor(between(from, to + 1));
  const sources = ['a', 'b', 'c'].map((id) => ({ id, set_V: between(23.5, 24.5) }));
  const taps = Array.from({ length: 9 }, (_, t) => ({ id: `t${t}` }));
  const length = (): Partial<Lead> => ({ length_m: between(0.2, 6), contact_ohm: between(0, 0.01) });
  const root = (t: number): Terminal => (t < 3 ? { source: sources[t]!.id } : { tap: `t${whole(0, t - 1)}` });
  const cables: Cable[] = taps.map(({ id }, t) => cable(`trunk-${id}`, root(t), { tap: id }, length()));
  const runs = Array.from({ length: runCount }, (_, r) => {
    const run = randomRun(`r${r}`, between, whole);
    const at = { run: run.id, cutLine: whole(0, run.unitCount) };
    cables.push(cable(`feed-${r}`, { tap: `t${whole(0, 8)}` }, at, length()));
    return run;
  });
  for (let r = 0; r < runCount; r += 5) {
    const [one, next] = [runs[r]!, runs[r + 1]!];
    cables.push(
      cable(`chain-${r}`, { run: one.id, cutLine: one.unitCount }, { run: next.id, cutLine: 0 }, length()),
    );
  }
  return { sources, taps, runs, cables };
}

function randomRun(
  id: string,
  between: (from: number, to: number) => number,
  whole: (from: number, to: number) => number,
): Run {
  const unitCount = whole(3, 40);
  const law = { ...(between(0, 1) < 0.3 ? regulatedLaw : resistorLaw), unit_W: between(0.2, 0.9) };
  return stripRun(id, unitCount, {
    positiveRail_ohm_per_m: between(0.03, 0.12),
    channels: [channel('white', law, between(0, 1) < 0.3 ? between(0.1, 1) : 1, between(0.03, 0.12))],
    strip_degC: between(15, 70),
    joints: unitCount > 10 ? [{ cutLine: whole(1, unitCount - 1), contact_ohm: between(0, 0.02) }] : [],
  });
}
