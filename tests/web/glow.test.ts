import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { comparedColour, haloColour, lightColour, toneOf } from '../../web/drawing/glow.ts';

const sum = (hex: string): number =>
  [1, 3, 5].reduce((total, at) => total + Number.parseInt(hex.slice(at, at + 2), 16), 0);

describe('the tone curve', () => {
  it('is dark at nothing, full at 1,000 cd/m2 and linear in the dark', () => {
    expect(toneOf(0)).toBe(0);
    expect(toneOf(1000)).toBeCloseTo(1, 12);
    expect(toneOf(0.2) / toneOf(0.1)).toBeCloseTo(2, 2);
  });

  it('never shows more light darker', () => {
    const luminance = fc.double({ min: 0, max: 5000, noNaN: true });
    fc.assert(
      fc.property(luminance, luminance, (a, b) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        expect(toneOf(high)).toBeGreaterThanOrEqual(toneOf(low));
        expect(sum(lightColour('#ffb16e', high))).toBeGreaterThanOrEqual(sum(lightColour('#ffb16e', low)));
      }),
      { seed: 31 },
    );
  });

  it('shows a fall of light of a tenth, keeps the hue of a dim slot and turns a glaring one white', () => {
    expect(sum(lightColour('#ffb16e', 180))).toBeLessThan(sum(lightColour('#ffb16e', 200)));
    const dim = lightColour('#ffb16e', 5);
    expect(Number.parseInt(dim.slice(1, 3), 16)).toBeGreaterThan(Number.parseInt(dim.slice(5), 16));
    expect(lightColour('#ffb16e', 20000)).toBe('#ffffff');
    expect(sum(haloColour('#ffb16e', 200))).toBeLessThan(sum(lightColour('#ffb16e', 200)));
  });
});

describe('the comparison', () => {
  it('has one end for the brightest and one for 70 % and below', () => {
    expect(comparedColour(0.2)).toBe(comparedColour(0.7));
    expect(sum(comparedColour(1))).toBeGreaterThan(sum(comparedColour(0.85)));
    expect(sum(comparedColour(0.85))).toBeGreaterThan(sum(comparedColour(0.7)));
  });
});
