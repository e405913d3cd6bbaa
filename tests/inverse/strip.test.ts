import { describe, expect, it } from 'vitest';
import { fedRun } from '../../src/circuit/arrangements.ts';
import { solveCircuit } from '../../src/circuit/solve-circuit.ts';
import { askedStrip, askStrip, type Job, newJob, readJob, stripCatalogue } from '../../src/index.ts';
import { job as jobSchema } from '../../src/job/job.ts';
import type { StripSheet } from '../../src/job/strip-sheet.ts';
import { prepare } from '../../src/sizing/prepare.ts';
import { settle } from '../../src/sizing/settle.ts';

const sheet: StripSheet = {
  nominal_V: 24,
  watts_per_m: 14.4,
  cut_mm: 41.67,
  lampsPerMetre: 168,
  law: 'resistor',
  rails: { from: 'longest run', length_mm: 5000 },
};

function asked(changes: Partial<StripSheet> = {}) {
  const outcome = askStrip({ ...sheet, ...changes });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

/** One slot of 5 m of the strip, fed at its start by next to no cable. */
function jobWith({ data, channel }: ReturnType<typeof asked>): Job {
  const job = newJob();
  const channels = [{ ...stripCatalogue[5]!.channels[0]!, ...channel }];
  return {
    ...job,
    panel: { width_mm: 400, height_mm: 5200 },
    slots: {
      from: 'generator',
      axis: 'upright',
      width_mm: 12,
      left_mm: 100,
      right_mm: 100,
      foot_mm: 100,
      head_mm: 100,
      spacing: { by: 'count', count: 1 },
    },
    strip: { ...job.strip, data: { ...data, channels } },
    feeds: { ...job.feeds, arrangement: 'start', terminal_mohm: 0, joint_mohm: 0 },
    drivers: { ...job.drivers, entry: '24V-100W' },
  };
}

describe('a strip worked out from its data sheet', () => {
  it('goes into a job, and has there the drop along the strip that was asked for', () => {
    const strip = asked();
    expect(askedStrip.safeParse(strip).error?.issues).toBeUndefined();
    const job = jobWith(strip);
    expect(jobSchema.safeParse(job).error?.issues).toBeUndefined();
    const prepared = prepare(job, 'quick');
    if (!prepared.ok) throw new Error(JSON.stringify(prepared.issues));
    const settled = settle(prepared.value);
    if (!settled.ok) throw new Error(JSON.stringify(settled.issues));
    const run = { ...settled.value.description.runs[0]!, strip_degC: 25 };
    expect(run.unitCount).toBe(120);
    const lead = { length_m: 0, ohm_per_m: 0, contact_ohm: 0 };
    const solved = solveCircuit(fedRun({ run, set_V: 24, arrangement: { kind: 'start' }, lead }));
    if (!solved.ok) throw new Error(JSON.stringify(solved.issues));
    const { positivePad_V, channels } = solved.value.runs[0]!;
    const pads_V = positivePad_V.map((volts, k) => volts - channels[0]!.returnPad_V[k]!);
    const along_V = pads_V[0]! - pads_V.at(-1)!;
    expect(along_V).toBeCloseTo(strip.rails.find(({ taken }) => taken)!.drop!.reached_V, 6);
    expect(Math.abs(along_V / 1.2 - 1)).toBeLessThan(0.005);
  });

  it('names the field each figure belongs to, and every field is one of the job', () => {
    const strip = asked({
      law: 'regulated',
      rails: { from: 'measured volts', length_mm: 5000, start_V: 24, finish_V: 22.9 },
    });
    const job = jobWith(strip) as unknown as Record<string, unknown>;
    for (const { field } of strip.basis) {
      if (field === null) continue;
      const steps = field.replaceAll(/\[(\d+)\]/g, (_, n: string) => `.${Number(n) - 1}`).split('.');
      const value = steps.reduce<unknown>((at, step) => (at as Record<string, unknown>)?.[step], job);
      expect(value, field).toBeTypeOf('number');
    }
    const standIns = strip.basis.filter(({ from }) => from === 'usual value');
    expect(standIns.map(({ sentence }) => sentence).join(' ')).toMatch(/1 V for the regulator.*at 40 °C/);
    expect(strip.data).toMatchObject({ dropout_V: 1, unitsPerMetre: 24 });
    expect(strip.data).not.toHaveProperty('longestRun_mm');
  });

  it('gives the rail of catalogue copper, figures without noise, and no proof where nothing was fitted', () => {
    const { data, rails } = asked({ rails: { from: 'copper', width_mm: 4, weight_oz: 2 } });
    expect(data).toMatchObject({ railPositive_mohm_per_m: 61.6, railReturn_mohm_per_m: 61.6 });
    expect(rails).toHaveLength(1);
    expect(rails[0]).toMatchObject({ rail_mohm_per_m: 61.6, taken: true, drop: null });
  });

  it('stays within what a job takes for every sheet at its bounds, or refuses with the entry to look at', () => {
    const entries = ['rails', 'lampsPerMetre', 'lampsInSeries', 'watts_per_m'];
    const ways: StripSheet['rails'][] = [
      { from: 'copper', width_mm: 0.5, weight_oz: 1 },
      { from: 'copper', width_mm: 20, weight_oz: 6 },
      { from: 'longest run', length_mm: 500 },
      { from: 'longest run', length_mm: 100000, drop: 0.005 },
      { from: 'measured volts', length_mm: 500, start_V: 60, finish_V: 5, strip_degC: -10 },
    ];
    let answerCount = 0;
    for (const rails of ways)
      for (const watts_per_m of [0.5, 40])
        for (const [cut_mm, lampsPerMetre] of [
          [1000, 10],
          [50, 120],
          [5, 200],
        ] as const) {
          const outcome = askStrip({ ...sheet, rails, watts_per_m, cut_mm, lampsPerMetre });
          if (outcome.ok) {
            answerCount++;
            expect(askedStrip.safeParse(outcome.value).error?.issues).toBeUndefined();
            expect(readJob(jobWith(outcome.value)).ok).toBe(true);
          } else for (const { place } of outcome.issues) expect(entries).toContain(place.field);
        }
    expect(answerCount).toBeGreaterThan(10);
  });
});
