import { describe, expect, it } from 'vitest';
import { type CircuitDescription, pairedCable } from '../../../src/circuit/description.ts';
import type { Fault } from '../../../src/readings/fault-fit.ts';
import { findFaultOnSite, type ModelOfSite } from '../../../src/readings/fault-on-site.ts';
import { circuitAt, ratiosAt, siteSpreads, unknownsOf } from '../../../src/readings/reading-model-site.ts';
import type { Reading } from '../../../src/readings/readings.ts';

const unknownsNow = () => unknownsOf(['D1.1', 'D2.1'], ['C01', 'C02'], siteSpreads(0.03));

describe('what a site may have otherwise', () => {
  // A uniform band from -h to h spreads by h/root 3, one of width w by w/root 12.
  it('spreads by so much', () => {
    const spreads = siteSpreads(0.03);
    expect(spreads.volts).toBeCloseTo(0.01732, 5);
    expect(spreads.copper).toBeCloseTo(0.07217, 5);
    expect(spreads).toMatchObject({ watts: 0.05, length: 0.03 });
    expect(siteSpreads(0.015).volts).toBeCloseTo(spreads.volts / 2, 12);
  });

  it('is volts of each output, watts, copper of cables and strip, and the length of each cable', () => {
    const [unknowns, spreads] = [unknownsNow(), siteSpreads(0.03)];
    expect(unknowns.map(({ kind, of }) => `${kind} ${of}`.trim())).toEqual([
      ...['volts D1.1', 'volts D2.1', 'watts', 'cable copper', 'strip copper', 'length C01', 'length C02'],
    ]);
    const { volts, watts, copper, length } = spreads;
    expect(unknowns.map(({ spread }) => spread)).toEqual([
      ...[volts, volts, watts, copper, copper, length, length],
    ]);
  });
});

// 0.01732 of the volts either way, 5 % of the watts twice, 7.217 % of the copper, 3 % of the first length.
const ratiosNow = () => ratiosAt([1, -1, 2, 1, -1, 1], unknownsNow());

describe('ratios to the plan', () => {
  it('are off by so many spreads', () => {
    const ratios = ratiosNow();
    expect(ratios.volts('D1.1')).toBeCloseTo(1.01732, 5);
    expect(ratios.volts('D2.1')).toBeCloseTo(0.98268, 5);
    expect(ratios.watts).toBeCloseTo(1.1, 12);
    expect(ratios.strip).toBeCloseTo(0.92783, 5);
    expect(ratios.cable('C01')).toBeCloseTo(1.07217 * 1.03, 4);
  });

  it('are one for what is not given, or not known', () => {
    const ratios = ratiosNow();
    expect(ratios.cable('C02')).toBeCloseTo(1.07217, 5);
    expect(ratios.volts('D9.1')).toBe(1);
    expect(ratiosAt([], unknownsNow()).watts).toBe(1);
  });
});

describe('a circuit on the site', () => {
  const cable = (id: string) =>
    pairedCable({
      ...{ id, channels: ['white'], from: { source: 'D1.1' }, to: { run: 'S01', cutLine: 0 } },
      ...{ length_m: 2, ohm_per_m: 0.01, contact_ohm: 0.005 },
    });
  const lamps = { lampsInSeries: 6, lampForward_V: 2.9, slope_V: 0.075 };
  const planned: CircuitDescription = {
    sources: [
      { id: 'D1.1', set_V: 24 },
      { id: 'D2.1', set_V: 24 },
    ],
    taps: [],
    runs: [
      {
        ...{
          id: 'S01',
          unitCount: 20,
          unitLength_m: 0.05,
          positiveRail_ohm_per_m: 0.1,
          strip_degC: 40,
          joints: [],
        },
        channels: [
          {
            ...{ id: 'white', returnRail_ohm_per_m: 0.2, level: 1 },
            law: { ...lamps, kind: 'resistor', nominal_V: 24, unit_W: 0.5 },
          },
        ],
      },
    ],
    cables: [cable('C01'), cable('joint')],
  };
  const thereNow = () => circuitAt(planned, ratiosNow(), new Set(['C01', 'C02']));

  it('has its own volts, watts and copper', () => {
    const there = thereNow();
    const [first, second] = there.sources;
    expect(first!.set_V).toBeCloseTo(24.4157, 4);
    expect(second!.set_V).toBeCloseTo(23.5843, 4);
    const [run] = there.runs;
    expect(run!.positiveRail_ohm_per_m).toBeCloseTo(0.092783, 6);
    expect(run!.channels[0]!.returnRail_ohm_per_m).toBeCloseTo(0.185566, 6);
    expect(run!.channels[0]!.law.unit_W).toBeCloseTo(0.55, 12);
    const [laid] = there.cables;
    for (const { ohm_per_m, contact_ohm, length_m } of [laid!.positive, ...laid!.returns]) {
      expect(ohm_per_m).toBeCloseTo(0.01 * 1.07217 * 1.03, 6);
      expect({ contact_ohm, length_m }).toEqual({ contact_ohm: 0.005, length_m: 2 });
    }
  });

  it('leaves what is no cable as it was', () => {
    const there = thereNow();
    expect(there.cables[1]).toEqual(planned.cables[1]);
    expect(there.taps).toBe(planned.taps);
  });

  it('as planned is the plan', () => {
    expect(circuitAt(planned, ratiosAt([], unknownsNow()), new Set(['C01']))).toEqual(planned);
  });
});

describe('a fault on a site', () => {
  /**
   * Two ends of a line with volts 0.4 V up for each standard deviation of the driver: they read 24 V and 23 V, the second
   * less 2 V for each ohm at `a`. The loop is 0.5 ohm and those.
   */
  const shift = [0.4, 0.4, 0];
  const readAt = (fault: Fault): number[] => {
    const ohm = fault.kind === 'resistance' ? fault.ohm : 0;
    return fault.kind === 'missing run' || fault.kind === 'unfed run'
      ? [24, 0, 0.5]
      : [24, 23 - 2 * ohm, 0.5 + ohm];
  };
  const asked: { site: readonly number[]; fault: Fault }[] = [];
  const modelOfSite: ModelOfSite = (site, fault) => {
    asked.push({ site, fault });
    return { predict: readAt, shifts: [shift], resistancePlaces: ['a'], runs: ['r'] };
  };
  const readings = (volts: number, ohm: number): Reading[] =>
    (['noLoad', 'loaded', 'loop'] as const).map((quantity, i) => ({
      ...{ row: 'S01-F1', quantity, predicted: 0, low: 0, high: 0 },
      measured: readAt({ kind: 'resistance', place: 'a', ohm })[i]! + shift[i]! * volts,
    }));
  const find = (volts: number, ohm: number) => {
    asked.length = 0;
    return findFaultOnSite(modelOfSite, readings(volts, ohm));
  };

  it('is none where the driver alone explains the readings', () => {
    expect(find(1.5, 0)).toMatchObject({ verdict: 'as predicted', readingCount: 3 });
    expect(asked.map(({ fault }) => fault.kind)).toEqual(['none', 'none']);
    expect(asked[0]!.site).toEqual([]);
    // The gain of the meter is 0.072 V beside 0.4 V, and takes 3 % of it.
    expect(asked[1]!.site[0]).toBeGreaterThan(1.4);
    expect(asked[1]!.site[0]).toBeLessThan(1.5);
  });

  it('is found beside it', () => {
    const found = find(1.5, 0.3);
    expect(found.verdict).toBe('found');
    expect(found.suspects[0]!.fault).toMatchObject({ kind: 'resistance', place: 'a' });
    const { fault } = found.suspects[0]!;
    expect(fault.kind === 'resistance' && fault.ohm).toBeCloseTo(0.3, 1);
    // Asked again with the fault there, once it was found.
    expect(asked.at(-1)!.fault).toMatchObject({ kind: 'resistance', place: 'a' });
  });

  it('is not hidden by a site further off than three standard deviations', () => {
    const found = find(12, 0);
    for (const { site } of asked) for (const x of site) expect(Math.abs(x)).toBeLessThanOrEqual(3);
    expect(asked.some(({ site }) => site[0] === 3)).toBe(true);
    expect(found.readingCount).toBe(3);
    find(-12, 0);
    expect(asked.some(({ site }) => site[0] === -3)).toBe(true);
  });

  /**
   * The second volts lack 3 V. Which fault explains that depends on the fault the model was last asked with: each stage
   * knows one that does, and nothing else moves a reading. A resistance takes 10 V for each ohm.
   */
  const stage = (truth: Fault): ReturnType<ModelOfSite> => ({
    predict: (fault) => {
      const is =
        fault.kind === truth.kind && (fault.kind === 'none' || fault.place === (truth as typeof fault).place);
      const lost_V = !is ? 0 : fault.kind === 'resistance' ? 10 * fault.ohm : 3;
      return [24, 23 - lost_V, 0.5];
    },
    ...{ shifts: [[0, 0, 0]], resistancePlaces: ['a', 'r'], runs: ['r', 's'] },
  });
  const resistance = (place: string): Fault => ({ kind: 'resistance', place, ohm: 0 });

  // Asked as planned, with nothing wrong, and then with each fault found, until the one found is the one asked with.
  it.each<[string, Fault[], string[]]>([
    ['at once', [resistance('a')], ['a']],
    ['at another place', [resistance('a'), resistance('r')], ['a', 'r']],
    [
      'of another kind at a place of that name',
      [resistance('r'), { kind: 'missing run', place: 'r' }],
      ['r', 'r'],
    ],
    [
      'in another run',
      [
        { kind: 'missing run', place: 'r' },
        { kind: 'missing run', place: 's' },
      ],
      ['r', 's'],
    ],
  ])('is asked again until it stays: found %s', (_, truths, places) => {
    const askedWith: string[] = [];
    findFaultOnSite(
      (_site, fault) => {
        if (fault.kind !== 'none') askedWith.push(fault.place);
        return stage(truths[Math.min(askedWith.length, truths.length - 1)]!);
      },
      readings(0, 0).map((reading, i) => ({ ...reading, measured: [24, 20, 0.5][i]! })),
    );
    expect(askedWith).toEqual(places);
  });

  it('is given up after four rounds where the site does not settle', () => {
    let round = 0;
    const restless: ModelOfSite = () => {
      round += 1;
      const off = round % 2 === 0 ? 1 : -1;
      return {
        predict: (fault) => readAt(fault).map((x, i) => x + off * shift[i]!),
        shifts: [shift],
        resistancePlaces: ['a'],
        runs: ['r'],
      };
    };
    findFaultOnSite(restless, readings(0, 0));
    expect(round).toBe(5);
  });
});
