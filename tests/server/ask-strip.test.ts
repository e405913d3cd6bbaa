import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type AskedStrip, askedStrip } from '../../src/answer/asked.ts';
import { openTestService, problemIn, type TestService } from './support.ts';

let service: TestService;

beforeAll(async () => {
  service = await openTestService();
});
afterAll(() => service.close());

const sheet = {
  nominal_V: 24,
  watts_per_m: 9.6,
  cut_mm: 50,
  lampsPerMetre: 120,
  law: 'resistor',
  rails: { from: 'longest run', length_mm: 5000 },
};

const ask = (changes: Readonly<Record<string, unknown>> = {}) =>
  service.ask('POST', '/api/ask/strip-from-data-sheet', { body: { ...sheet, ...changes } });

describe('POST /api/ask/strip-from-data-sheet', () => {
  it('gives the fields of a strip, where each is from, and a rail for each drop', async () => {
    const answer = await ask();
    expect(answer.status, answer.text).toBe(200);
    const strip: AskedStrip = JSON.parse(answer.text);
    expect(askedStrip.safeParse(strip).error?.issues).toBeUndefined();
    expect(strip.data).toMatchObject({ nominal_V: 24, unitsPerMetre: 20, longestRun_mm: 5000 });
    expect(strip.rails.map(({ drop }) => drop!.ratio)).toEqual([0.03, 0.05, 0.1]);
    const taken = strip.rails.filter((rail) => rail.taken);
    expect(taken.map((rail) => rail.rail_mohm_per_m)).toEqual([strip.data.railPositive_mohm_per_m]);
    expect(Math.abs(taken[0]!.drop!.reached_V - taken[0]!.drop!.asked_V)).toBeLessThan(0.006);
  });

  it('needs no job, and takes the other two ways to the rails', async () => {
    const volts = { from: 'measured volts', length_mm: 5000, start_V: 24, finish_V: 23.3, strip_degC: 35 };
    for (const rails of [volts, { from: 'copper', width_mm: 4, weight_oz: 2 }]) {
      const answer = await ask({ rails });
      expect(answer.status, answer.text).toBe(200);
      expect(JSON.parse(answer.text).rails).toHaveLength(1);
    }
  });

  it('says no with the entry, the quantities and what to check', async () => {
    const answer = await ask({
      rails: { from: 'measured volts', length_mm: 5000, start_V: 23, finish_V: 24 },
    });
    expect(answer.status).toBe(422);
    const { title, issues } = problemIn(answer);
    expect(title).not.toMatch(/job/);
    expect(issues).toMatchObject([
      { code: 'does-not-fit', place: { field: 'rails' }, quantities: { given: 24, possible: 23 } },
    ]);
    expect(issues[0]!.sentence).toMatch(/Check which reading is which/);
  });

  it('names every field that is wrong, missing or not expected', async () => {
    const fieldsOf = async (changes: Readonly<Record<string, unknown>>) => {
      const answer = await ask(changes);
      expect(answer.status, answer.text).toBe(400);
      return problemIn(answer).issues.map(({ place, sentence }) => [place.field, sentence]);
    };
    expect(await fieldsOf({ watts_per_m: 400, cut_mm: undefined })).toEqual([
      ['watts_per_m', expect.stringMatching(/Strip power must lie between 0\.5 W\/m and 40 W\/m/)],
      ['cut_mm', expect.stringMatching(/Cut length must be a number in mm/)],
    ]);
    expect(await fieldsOf({ rails: { from: 'longest run', length_mm: 50 } })).toEqual([
      ['rails.length_mm', expect.stringMatching(/Longest run from one end must lie between 500 mm/)],
    ]);
    expect(await fieldsOf({ rails: { from: 'hearsay' } })).toEqual([
      ['rails.from', expect.stringMatching(/longest run, measured volts or copper/)],
    ]);
    expect((await fieldsOf({ channels: [] }))[0]![1]).toMatch(/"channels" is not expected here/);
  });
});
