import { describe, expect, it } from 'vitest';
import { below, limited, reaching, remedy, sheet, worst } from '../../../src/findings/context.ts';

describe('a value below its limit', () => {
  it.each([
    [5, 'passes'],
    [8, 'passes'],
    [8.000001, 'watch'],
    [10, 'watch'],
    [10.000001, 'fails'],
  ])('%d with a limit of 10, to be watched from 8: %s', (value, status) => {
    expect(below(value, 10, 8)).toBe(status);
  });

  it.each([
    [10, 'passes'],
    [10.000001, 'fails'],
  ])('%d with a limit of 10 and nothing to be watched: %s', (value, status) => {
    expect(below(value, 10)).toBe(status);
  });

  // 0.1 + 0.2 is 0.3 but for the last bit.
  it('is not over it by the last bits of a sum', () => {
    expect(below(0.1 + 0.2, 0.3)).toBe('passes');
    expect(below(0.1 + 0.2, 1, 0.3)).toBe('passes');
  });
});

describe('a margin', () => {
  const finding = { id: 'a', question: 'heat', status: 'passes', place: {}, title: '', unit: '' } as const;
  const margin = (how: typeof limited, value: number, limit: number) =>
    how({ ...finding, basis: '', sentence: '', value, limit }).margin;

  it('is what is left up to a limit, or what goes beyond one to be reached', () => {
    expect(margin(limited, 7, 10)).toBe(3);
    expect(margin(limited, 12, 10)).toBe(-2);
    expect(margin(reaching, 7, 10)).toBe(-3);
    expect(margin(reaching, 12, 10)).toBe(2);
  });

  it('is nought where only the last bits of a sum differ, for limits of either sign', () => {
    expect(margin(limited, 0.1 + 0.2, 0.3)).toBe(0);
    expect(margin(reaching, 0.1 + 0.2, 0.3)).toBe(0);
    expect(margin(limited, -0.1 - 0.2, -0.3)).toBe(0);
    expect(margin(limited, 1 - 1e-9, 1)).toBe(0);
    expect(margin(limited, 1 - 3e-9, 1)).toBeGreaterThan(2e-9);
    expect(margin(limited, 1000 - 5e-7, 1000)).toBe(0);
  });
});

describe('the worst of a list', () => {
  const size = ({ size }: { size: number }) => size;

  it('is the largest, wherever it stands', () => {
    for (const sizes of [
      [3, 1, 2],
      [1, 3, 2],
      [1, 2, 3],
    ])
      expect(
        worst(
          sizes.map((size) => ({ size })),
          size,
        ).size,
      ).toBe(3);
  });

  it('is the first of two alike', () => {
    const list = [{ size: 1 }, { size: 2, first: true }, { size: 2, first: false }];
    expect(worst(list, size)).toBe(list[1]);
  });
});

describe('where a figure comes from', () => {
  it('is the maker where it was entered, nought among it', () => {
    const entered: { current_A?: number; price?: number } = { current_A: 0 };
    expect(sheet(entered, 'current_A', 'driver')).toBe("the driver maker's data sheet, as entered");
    expect(sheet(entered, 'price', 'driver')).toMatch(/^typical of the trade: .* driver maker's/);
  });
});

describe('a remedy', () => {
  it('is a sentence and the field it leads to', () => {
    expect(remedy('strip.entry', 'Take another.')).toEqual({
      field: 'strip.entry',
      sentence: 'Take another.',
    });
    expect(remedy(null, 'Wait.').field).toBeNull();
  });
});
