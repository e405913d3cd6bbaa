import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/answer/findings.ts';
import type { Law, Quantity, Working } from '../../src/answer/workings.ts';
import { demoJobs, type Job, newJob, sizeJob, sizeJobCarefully } from '../../src/index.ts';
import { randomOf } from '../fuzz/random.ts';
import { randomJob } from '../fuzz/random-job.ts';

/** Laws as arithmetic, written apart from the engine. */
function given(law: Law, at: (symbol: string) => number): number {
  if (law.is === 'sum') {
    let total = 0;
    for (const symbol of law.plus) total += at(symbol);
    for (const symbol of law.minus) total -= at(symbol);
    return total;
  }
  if (law.is === 'product') {
    let over = 1;
    for (const symbol of law.over) over *= at(symbol);
    return law.times.map(at).reduce((a, b) => a * b, 1) / over;
  }
  if (law.is === 'power') return Math.exp(at(law.exponent) * Math.log(at(law.base)));
  if (law.is === 'whole') return Math.trunc(at(law.of) + 1e-9);
  const sorted = law.of.map(at).toSorted((a, b) => a - b);
  return law.is === 'least' ? sorted[0]! : sorted.at(-1)!;
}

/** Every quantity worked out anew from those that have no law, in the order of the working. */
function workedOut({ quantities }: Working, instead: { symbol: string; value: number } | null = null) {
  const values = new Map<string, number>();
  const at = (symbol: string): number => {
    const value = values.get(symbol);
    if (value === undefined) throw new Error(`${symbol} is used before it is there`);
    return value;
  };
  for (const { symbol, value, law } of quantities) {
    if (values.has(symbol)) throw new Error(`${symbol} is there twice`);
    const own = law === null ? value : given(law, at);
    values.set(symbol, instead?.symbol === symbol ? instead.value : own);
  }
  return values;
}

/** Relative to what was added and taken away, so that a small difference of large numbers is not asked for more than it has. */
function scaleOf({ law, value }: Quantity, values: ReadonlyMap<string, number>): number {
  const parts =
    law?.is === 'sum' ? [...law.plus, ...law.minus].map((each) => Math.abs(values.get(each)!)) : [];
  return Math.max(Math.abs(value), ...parts, 1e-12);
}

type Worked = Finding & { working: Working };
const hasWorking = (finding: Finding): finding is Worked => finding.working !== undefined;

function check(finding: Worked): void {
  const { working } = finding;
  const values = workedOut(working);
  for (const quantity of working.quantities) {
    const { symbol, value } = quantity;
    const off = Math.abs(values.get(symbol)! - value) / scaleOf(quantity, values);
    expect(off, `${finding.id} ${symbol}: ${values.get(symbol)} for ${value}`).toBeLessThan(1e-6);
  }
  const of = (symbol: string): Quantity => working.quantities.find((each) => each.symbol === symbol)!;
  expect(of(working.result).value, finding.id).toBeCloseTo(finding.value!, 9);
  expect(of(working.result).unit, finding.id).toBe(finding.unit);
  if (working.limit === null) expect(finding.limit, finding.id).toBeNull();
  else expect(of(working.limit).value, finding.id).toBeCloseTo(finding.limit!, 9);
}

const findingsOf = (job: Job, how = sizeJob): Finding[] => {
  const answer = how(job);
  return answer.ok ? answer.value.findings : [];
};

/** What a value of one quantity does with the limit: positive beyond it. */
function over(working: Working, symbol: string, value: number): number {
  const values = workedOut(working, { symbol, value });
  return values.get(working.result)! - values.get(working.limit!)!;
}

describe('the working of a finding', () => {
  it('gives its value and its limit by its own laws, for every demo job, quick and careful', () => {
    const seen = new Set<string>();
    for (const { job } of demoJobs)
      for (const how of [sizeJob, sizeJobCarefully])
        for (const finding of findingsOf(job, how).filter(hasWorking)) {
          check(finding);
          seen.add(finding.id.replace(/-\d+$/, ''));
        }
    for (const id of [
      'voltage-drop',
      'light-fall',
      'cable-capacity',
      'driver-load',
      'driver-load-worst',
      'driver-ambient',
      'driver-case',
      'heat-solder',
      'heat-timber',
      'brightness',
      'dots',
      'depth',
      'way-room',
      'heat-left',
    ])
      expect([...seen], id).toContain(id);
  });

  it('does so for random jobs', () => {
    let count = 0;
    for (let number = 0; number < 50; number++)
      for (const finding of findingsOf(randomJob(randomOf(20, number))).filter(hasWorking)) {
        check(finding);
        count += 1;
      }
    expect(count).toBeGreaterThan(200);
  });

  it('is there for every figure that has a limit, but for counts', () => {
    for (const { job } of demoJobs)
      for (const finding of findingsOf(job, sizeJobCarefully))
        if (
          finding.value !== null &&
          finding.limit !== null &&
          finding.margin !== null &&
          finding.unit !== ''
        )
          expect(finding.working, finding.id).toBeDefined();
  });

  it('turns at the values it names: the verdict is one way just before and the other way just beyond', () => {
    let count = 0;
    for (const { job } of demoJobs)
      for (const { id, working } of findingsOf(job, sizeJobCarefully).filter(hasWorking))
        for (const { symbol, value } of working.turns) {
          const [before, beyond] = [
            over(working, symbol, value * 0.999),
            over(working, symbol, value * 1.001),
          ];
          expect(before * beyond, `${id} ${symbol} ${value}`).toBeLessThanOrEqual(0);
          count += 1;
        }
    expect(count).toBeGreaterThan(50);
  });

  it('names each place it uses once, and nothing it does not use', () => {
    for (const { job } of demoJobs)
      for (const { id, working } of findingsOf(job).filter(hasWorking)) {
        const { quantities, result, limit } = working;
        const used = new Set([result, ...(limit === null ? [] : [limit])]);
        for (const { law } of quantities.toReversed())
          if (law) for (const symbol of Object.values(law).flat()) used.add(symbol);
        expect(
          quantities.filter(({ symbol }) => !used.has(symbol)).map(({ symbol }) => symbol),
          id,
        ).toEqual([]);
      }
  });
});

describe('a working by hand', () => {
  const working = (change: (job: Job) => void, id: string): Working => {
    const job = structuredClone(newJob());
    change(job);
    return findingsOf(job).find((finding) => finding.id === id)!.working!;
  };
  const value = ({ quantities }: Working, symbol: string): number =>
    quantities.find((each) => each.symbol === symbol)!.value;

  it('adds up the depth and says which layer may be how thick', () => {
    const depth = working((job) => {
      Object.assign(job.section, { cavity_mm: 24, tolerance_mm: 2, available_mm: 45 });
      job.section.backing.thickness_mm = 6;
      job.section.front.thickness_mm = 12;
    }, 'depth');
    // 6 + 24 + 12 = 42, with 2 of tolerance 44 of 45: any one layer may be 1 mm more.
    expect(value(depth, 'd')).toBe(42);
    expect(value(depth, 'd_most')).toBe(44);
    const turns = Object.fromEntries(depth.turns.map((turn) => [turn.symbol, turn.value]));
    expect(turns.d_1).toBeCloseTo(7, 6);
    expect(turns.d_2).toBeCloseTo(25, 6);
    expect(turns.d_3).toBeCloseTo(13, 6);
  });

  it('rates a cable by the table in warm air', () => {
    const capacity = working((job) => {
      job.cables.entry = '1.5mm2';
      job.cables.cable_degC = 50;
      job.cables.grouped = 1;
    }, 'cable-capacity');
    // IEC 60364-5-52, table B.52.14: PVC in 50 degC 0.71; flexible cord of 1.5 mm2: 16 A.
    expect(value(capacity, 'I_30')).toBe(16);
    const k_T = Math.sqrt((70 - value(capacity, 'T_air')) / 40);
    expect(value(capacity, 'k_T')).toBeCloseTo(k_T, 12);
    expect(value(capacity, 'I_z')).toBeCloseTo(16 * k_T * value(capacity, 'k_G'), 9);
    // Air in which the most it carries is all it may: 70 - 40 (I / (16 k_G))^2.
    const air = 70 - 40 * (value(capacity, 'I') / (16 * value(capacity, 'k_G'))) ** 2;
    expect(capacity.turns.find(({ symbol }) => symbol === 'T_air')!.value).toBeCloseTo(air, 6);
  });
});
