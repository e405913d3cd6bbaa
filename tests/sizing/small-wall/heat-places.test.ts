import { describe, expect, it } from 'vitest';
import type { SlotLine } from '../../../src/answer/set-out.ts';
import { newJob } from '../../../src/job/new-job.ts';
import { limitsOfJob, type PlacedTemperature, temperatureRow } from '../../../src/sizing/heat-places.ts';
import { heatUnknown, unknownIssue } from '../../../src/sizing/heat-unknown.ts';

const job = newJob();
const made = { job, strip: { limit_degC: 75 } };

const at = (place: PlacedTemperature['place'], high_degC: number): PlacedTemperature => ({
  ...{ place, value_degC: high_degC - 5, low_degC: high_degC - 9, high_degC, power: 1, x_mm: 3, y_mm: 30 },
});

describe('a temperature beside its limits', () => {
  it('has its name, its numbers and where it is', () => {
    expect(temperatureRow(at('timber', 40), made)).toMatchObject({
      ...{
        id: 'timber',
        name: 'Hottest timber',
        value_degC: 35,
        low_degC: 31,
        high_degC: 40,
        x_mm: 3,
        y_mm: 30,
      },
    });
  });

  it('has the limit that decides first: of 60, 77 and 90 degC the lowest passed that says no', () => {
    const order = (high_degC: number) =>
      temperatureRow(at('timber', high_degC), made).limits.map(({ limit_degC }) => limit_degC);
    expect(order(50)).toEqual([60, 77, 90]);
    expect(order(80)).toEqual([77, 60, 90]);
    // Judged by the warm end: at 80 the value itself is 75.
    expect(temperatureRow(at('timber', 80), made).limit_degC).toBe(77);
  });

  it('has only the limits of its own place, and what they rest on', () => {
    const { limits, limit_degC } = temperatureRow(at('roomFace', 40), made);
    expect(limit_degC).toBe(60);
    expect(limits.map(({ id }) => id)).toEqual(['roomFace-touch-60']);
    expect(limits[0]!.basis).toMatch(/^EN ISO 13732-1.*\(memory\)$/);
  });

  it('takes the rating of the strip, typical until somebody entered it', () => {
    const rating = (entered: boolean) => {
      const own = newJob();
      if (entered) own.strip.data.limit_degC = 75;
      return temperatureRow(at('solderPoint', 50), { job: own, strip: made.strip }).limits[0]!;
    };
    expect(rating(false)).toMatchObject({ limit_degC: 75, basis: expect.stringContaining('typical') });
    expect(rating(true)).toMatchObject({ limit_degC: 75, basis: expect.stringContaining('as entered') });
  });

  it('depends on how the front is met: 48 degC where people lean on it', () => {
    const leant = { ...job, site: { ...job.site, touch: 'leant on' as const } };
    const touch = limitsOfJob({ ...made, job: leant }).filter(({ place }) => place === 'roomFace');
    expect(touch.map(({ limit_degC }) => limit_degC)).toEqual([48]);
  });
});

describe('a section the model does not hold for', () => {
  const slot = (dx_mm: number): SlotLine => ({
    ...{ id: 'S01', number: 1, panel: null, x0_mm: 500, y0_mm: 100, x1_mm: 500 + dx_mm, y1_mm: 1100 },
    ...{ length_mm: 1000, width_mm: 20 },
  });
  const tall = { slotHeight_m: 1, cavityDepth_m: 0.02 };

  it('is one with slots that do not stand upright, or lower than five times its depth', () => {
    expect(heatUnknown([slot(0), slot(20)], tall)).toBeNull();
    expect(heatUnknown([slot(0), slot(21)], tall)).toMatch(/do not stand upright/);
    // ElSherbiny's correlation was published from an aspect of 5.
    expect(heatUnknown([slot(0)], { slotHeight_m: 0.1, cavityDepth_m: 0.02 })).toBeNull();
    expect(heatUnknown([slot(0)], { slotHeight_m: 0.099, cavityDepth_m: 0.02 })).toMatch(/less than 5 times/);
  });

  it('is refused where heat is asked about, and leads to the slots', () => {
    expect(unknownIssue('Not known.')).toMatchObject({
      ...{ code: 'heat-not-known', place: { field: 'slots' }, quantities: {}, sentence: 'Not known.' },
    });
  });
});
