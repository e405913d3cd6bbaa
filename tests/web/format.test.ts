import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  counted,
  entryText,
  fixed,
  moment,
  percent,
  quantity,
  ratioOfPercent,
  ratiosAsPercent,
  readEntryNumber,
  readNumber,
  span,
  stepped,
  tableFigure,
} from '../../web/format.ts';

const gap = '\u202f';

describe('writing', () => {
  it.each([
    [quantity(0.412, 'V'), `0.41${gap}V`],
    [quantity(12.34, 'W'), `12.3${gap}W`],
    [quantity(1834.4, 'mm'), `1,834${gap}mm`],
    [quantity(34.5, 'mm'), `34.5${gap}mm`],
    [quantity(53.7, '°C'), `54${gap}°C`],
    [quantity(-0.412, 'V'), `\u22120.41${gap}V`],
    [quantity(-0.001, 'V'), `0.00${gap}V`],
    [quantity(0.004, 'V'), `under 0.01${gap}V`],
    [quantity(0.0004, 'V', 3), `under 0.001${gap}V`],
    [quantity(0, 'V'), `0.00${gap}V`],
    [tableFigure(0.004, 2), '<0.01'],
    [tableFigure(0.005, 2), '0.01'],
    [tableFigure(0, 2), '0.00'],
    [tableFigure(1e-9, 2), '0.00'],
    [tableFigure(0.4, 0), '0'],
    [quantity(13, ''), '13'],
    [quantity(170.3, 'cd_per_m2'), `170${gap}cd/m²`],
    [span('35', 'and', '36', '°C'), `35 and 36${gap}°C`],
    [span('36', 'and', '36', 'degC'), `36${gap}°C`],
    [span(percent(0.004), 'to', percent(0.0041)), `0.4${gap}%`],
    [percent(0.0321), `3.2${gap}%`],
    [percent(-0.05, 0), `\u22125${gap}%`],
    [fixed(1234567.891, 1), '1,234,567.9'],
    [counted(1, 'slot'), '1 slot'],
    [counted(1200, 'slot'), '1,200 slots'],
  ])('writes %s', (written, expected) => {
    expect(written).toBe(expected);
  });
});

describe('reading', () => {
  it.each([
    ['12.5', 12.5],
    ['12,5', 12.5],
    ['1,834', 1834],
    ['1 834', 1834],
    ['1,834.5', 1834.5],
    ['0,125', 0.125],
    ['−3', -3],
    ['  7 ', 7],
    ['.5', 0.5],
  ])('reads %j as %d', (text, value) => {
    expect(readNumber(text)).toBe(value);
  });

  it.each(['', ' ', 'wide', '1.2.3', '12mm', '1e3', '--3', 'NaN', 'Infinity', '0x10'])(
    'refuses %j',
    (text) => {
      expect(readNumber(text)).toBeUndefined();
    },
  );

  it('gives back what it wrote into a field, plain or in percent', () => {
    const number = fc
      .double({ min: -1e6, max: 1e6, noNaN: true, noDefaultInfinity: true })
      .map((x) => Number(x.toPrecision(9)));
    fc.assert(
      fc.property(
        number.filter((x) => x === 0 || Math.abs(x) > 1e-5),
        (x) => {
          expect(readNumber(entryText(x, false))).toBe(x + 0);
          expect(ratioOfPercent(readNumber(entryText(x, true))!)).toBeCloseTo(x, 9);
        },
      ),
      { seed: 11 },
    );
  });

  it('reads every grouped number it writes', () => {
    fc.assert(
      fc.property(fc.integer({ min: -30_000_000, max: 30_000_000 }), (n) => {
        expect(readNumber(fixed(n, 0))).toBe(n + 0);
      }),
      { seed: 12 },
    );
  });
});

describe('bounds of ratios', () => {
  it('words them in percent and leaves other numbers alone', () => {
    expect(
      ratiosAsPercent(
        'Reserve must lie between 0 and 0.6: a ratio, 0.2 to load a driver to 80 % at most (common practice).',
      ),
    ).toBe(
      `Reserve must lie between 0${gap}% and 60${gap}%: 20${gap}% to load a driver to 80 % at most (common practice).`,
    );
    expect(ratiosAsPercent('Drop must lie between 0.005 and 0.2: a ratio, 0.05 after the rules.')).toBe(
      `Drop must lie between 0.5${gap}% and 20${gap}%: 5${gap}% after the rules.`,
    );
  });
});

describe('moments', () => {
  const now = new Date(2026, 4, 3, 18, 0);
  it('are a time today and a date with a time on any other day', () => {
    const earlier = new Date(2026, 4, 2, 23, 59).toISOString();
    expect(moment(new Date(2026, 4, 3, 9, 5).toISOString(), now, 'en-GB')).toBe('09:05');
    expect(moment(earlier, now, 'en-GB')).toBe('2 May 2026, 23:59');
    expect(moment(earlier, now, 'de-DE')).toBe('2. Mai 2026, 23:59');
    expect(moment(earlier, now)).toContain('2026');
    expect(moment('', now)).toBe('');
  });
});

describe('an entry', () => {
  it.each([
    ['20+2', 'mm', 22],
    ['2400 - 2 ', 'mm', 2398],
    ['9.4 m', 'mm', 9400],
    ['1,2 m + 35 cm - 4mm', 'mm', 1546],
    ['-5', 'mm', -5],
    ['0.1+0.2', 'W', 0.3],
    ['1 700', 'mm', 1700],
    ['3/8 in', 'mm', 9.525],
    ['1 3/8 in + 2 mm', 'mm', 36.925],
    ['9\' + 4"', 'mm', 2844.8],
    ['2 ft', 'mm', 609.6],
  ])('%s in a field of %s is %d', (text, unit, value) => {
    expect(readEntryNumber(text, unit)).toBe(value);
  });

  it.each([
    ['9.4 m', 'W'],
    ['20+', 'mm'],
    ['+', 'mm'],
    ['', 'mm'],
    ['20++2', 'mm'],
    ['2*3', 'mm'],
    ['12x', 'mm'],
    ['3/8', 'mm'],
    ['3/0 in', 'mm'],
    ['3/8 in', 'W'],
  ])('%s in a field of %s is no number', (text, unit) => {
    expect(readEntryNumber(text, unit)).toBeUndefined();
  });

  it('is stepped by its last digit, and never grows a tail', () => {
    expect(stepped('20', 1)).toBe('21');
    expect(stepped('0.3', -1)).toBe('0.2');
    expect(stepped('1,9', 1)).toBe('2.0');
    expect(stepped('2.00', 10)).toBe('2.10');
    expect(stepped('wide', 1)).toBeUndefined();
  });
});
