import { describe, expect, it } from 'vitest';
import { currentBand, currentGain, loadedBand, loopBand } from '../../src/hand-over/bands.ts';

describe('bands', () => {
  it('put flexible copper of nominal area (13 to 16 % below the tables) inside the loop band', () => {
    for (const share of [1.13, 1.16]) {
      const { low } = loopBand(share);
      expect(low).toBeLessThanOrEqual(1);
    }
  });

  it('leave an unloaded place the driver tolerance alone', () => {
    const band = loadedBand({ set_V: 24, volts_V: 24, current_A: 0, tolerance: 0.03 });
    expect(band.low).toBeCloseTo(23.28, 12);
    expect(band.high).toBeCloseTo(24.72, 12);
  });

  it('widen with the strip gain; a regulated strip has none', () => {
    const channels = [{ lampsInSeries: 6, lampForward_V: 2.9 }];
    expect(currentGain({ nominal_V: 24, law: 'regulated', channels })).toBe(0);
    const gain = currentGain({ nominal_V: 24, law: 'resistor', channels });
    expect(currentBand({ current_A: 1, tolerance: 0.03, gain }).high).toBeGreaterThan(
      currentBand({ current_A: 1, tolerance: 0.03, gain: 0 }).high,
    );
    expect(currentBand({ current_A: 1, tolerance: 0.1, gain: 20 }).low).toBe(0);
  });
});
