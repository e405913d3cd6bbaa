import { describe, expect, it } from 'vitest';
import {
  type Band,
  currentBand,
  currentGain,
  loadedBand,
  loopBand,
  unloadedBand,
} from '../../src/hand-over/bands.ts';

const near = (band: Band): Band => ({
  predicted: expect.closeTo(band.predicted, 12),
  low: expect.closeTo(band.low, 12),
  high: expect.closeTo(band.high, 12),
});

describe('the band of a loop', () => {
  it('puts flexible copper of nominal area (13 to 16 % below the tables) inside', () => {
    for (const share of [1.13, 1.16]) expect(loopBand(share).low).toBeLessThanOrEqual(1);
  });

  it('is 0.85 to 1.1 times the copper, and two contacts of 50 mΩ at the upper end', () => {
    // 0.85 x 2 = 1.7; 1.1 x 2 + 0.1 = 2.3.
    expect(loopBand(2)).toEqual(near({ predicted: 2, low: 1.7, high: 2.3 }));
    // No copper at all leaves the contacts.
    expect(loopBand(0)).toEqual(near({ predicted: 0, low: 0, high: 0.1 }));
  });
});

describe('the band of volts', () => {
  it('of an unloaded output is what the driver gives, 3 % either way', () => {
    // 0.03 x 24 = 0.72.
    expect(unloadedBand({ set_V: 24, tolerance: 0.03 })).toEqual(
      near({ predicted: 24, low: 23.28, high: 24.72 }),
    );
  });

  it('of an unloaded place is the tolerance of the driver alone', () => {
    expect(loadedBand({ set_V: 24, volts_V: 24, current_A: 0, tolerance: 0.03 })).toEqual(
      near({ predicted: 24, low: 23.28, high: 24.72 }),
    );
  });

  it('of a loaded place has the drop between 0.85 and 1.1 times predicted, and two contacts, as well', () => {
    // Drop 1 V, 2 A: least 0.85 V; most 1.1 + 2 x 0.1 = 1.3 V. 24 - 0.72 - 1.3 and 24 + 0.72 - 0.85.
    expect(loadedBand({ set_V: 24, volts_V: 23, current_A: 2, tolerance: 0.03 })).toEqual(
      near({ predicted: 23, low: 21.98, high: 23.87 }),
    );
  });

  it('knows no drop below nothing', () => {
    // Half a volt above what is set: no drop, 1 A over two contacts 0.1 V.
    expect(loadedBand({ set_V: 24, volts_V: 24.5, current_A: 1, tolerance: 0.03 })).toEqual(
      near({ predicted: 24.5, low: 23.18, high: 24.72 }),
    );
  });
});

describe('the band of a current', () => {
  it('is a tenth of the strip and the tolerance of the driver times the gain', () => {
    // 0.1 + 0.03 x 5 = 0.25 of 2 A either way.
    expect(currentBand({ current_A: 2, tolerance: 0.03, gain: 5 })).toEqual(
      near({ predicted: 2, low: 1.5, high: 2.5 }),
    );
    // A regulated strip does not follow the driver: a tenth alone.
    expect(currentBand({ current_A: 2, tolerance: 0.03, gain: 0 })).toEqual(
      near({ predicted: 2, low: 1.8, high: 2.2 }),
    );
  });

  it('ends at no current at all', () => {
    // 0.1 + 0.1 x 20 = 2.1: more than everything.
    expect(currentBand({ current_A: 1, tolerance: 0.1, gain: 20 })).toEqual(
      near({ predicted: 1, low: 0, high: 3.1 }),
    );
  });
});

describe('the gain of a strip', () => {
  const seven = { lampsInSeries: 7, lampForward_V: 2.6 };
  const six = { lampsInSeries: 6, lampForward_V: 2.9 };

  it('is its volts over what is left for the resistor; a regulated one has none', () => {
    // 24 / (24 - 7 x 2.6) = 24 / 5.8; the slope of the straight line I = (V - n Vf) / R, relative to V / I.
    expect(currentGain({ nominal_V: 24, law: 'resistor', channels: [seven] })).toBeCloseTo(24 / 5.8, 12);
    expect(currentGain({ nominal_V: 24, law: 'regulated', channels: [seven] })).toBe(0);
  });

  it('is that of the channel with the least left over, whichever stands first', () => {
    // 24 / 6.6 = 3.6 and 24 / 5.8 = 4.1.
    for (const channels of [
      [seven, six],
      [six, seven],
    ])
      expect(currentGain({ nominal_V: 24, law: 'resistor', channels })).toBeCloseTo(24 / 5.8, 12);
  });
});
