import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  lengthsText,
  readingsText,
  readLengths,
  readReadings,
  readSegments,
  readSlotNumbers,
  segmentsText,
  slotNumbersText,
} from '../../web/state/slot-list.ts';

describe('a pasted list of lengths', () => {
  it.each([
    ['1200\n1250\n1300', [1200, 1250, 1300]],
    ['1200\t1250\t1300', [1200, 1250, 1300]],
    ['1200; 1250; 1300', [1200, 1250, 1300]],
    ['1200, 1250, 1300', [1200, 1250, 1300]],
    ['1200,1250,1300', [1200, 1250, 1300]],
    ['1200 | 1250 | 1300', [1200, 1250, 1300]],
    ['1.200 m, 125 cm, 1300 mm', [1200, 1250, 1300]],
    ['1200,5\n1250,25', [1200.5, 1250.25]],
    ['1,200\r\n1,250\r\n', [1200, 1250]],
    ['Length (mm)\n1200', [1200]],
  ])('reads %j', (text, lengths) => {
    expect(readLengths(text).values).toEqual(lengths);
  });

  it('keeps the words it could not read, to be shown', () => {
    expect(readLengths('Slot\n1200\nn/a\n#REF!').leftOver).toEqual(['Slot', 'n/a', '#REF!']);
  });

  it('reads back every list it writes', () => {
    const length = fc.integer({ min: 100, max: 200_000 }).map((tenths) => tenths / 10);
    fc.assert(
      fc.property(fc.array(length, { maxLength: 40 }), (lengths) => {
        expect(readLengths(lengthsText(lengths))).toEqual({ values: lengths, leftOver: [] });
      }),
      { seed: 21 },
    );
  });
});

describe('slots named by number', () => {
  it.each([
    ['1-4, 20', [1, 2, 3, 4, 20]],
    ['20 and 4 to 1', [1, 2, 3, 4, 20]],
    ['3, 3; 1\u20133', [1, 2, 3]],
    ['7', [7]],
  ])('%s are %j', (text, numbers) => {
    expect(readSlotNumbers(text)).toEqual({ values: numbers, leftOver: [] });
  });

  it('keep what is no number of a slot', () => {
    expect(readSlotNumbers('1-3 left 2-9999 4-')).toEqual({
      values: [1, 2, 3],
      leftOver: ['left', '2-9999', '4-'],
    });
  });

  it('are written as ranges where three or more follow one another', () => {
    expect(slotNumbersText([1, 2, 3, 5, 6, 9])).toBe('1\u20133, 5, 6, 9');
  });

  it('read back however they are written', () => {
    const some = fc.uniqueArray(fc.integer({ min: 1, max: 400 })).map((all) => all.sort((a, b) => a - b));
    fc.assert(
      fc.property(some, (numbers) => {
        expect(readSlotNumbers(slotNumbersText(numbers)).values).toEqual(numbers);
      }),
      { seed: 22 },
    );
  });
});

describe('readings of a life test', () => {
  it('take the light left as percent or as a ratio', () => {
    const text = '0 100\n1000 99.1 %\n6,000\t0.97\nhours light';
    expect(readReadings(text)).toEqual({
      values: [
        { hours: 0, maintenance: 1 },
        { hours: 1000, maintenance: 0.991 },
        { hours: 6000, maintenance: 0.97 },
      ],
      leftOver: ['hours light'],
    });
    const { values } = readReadings(text);
    expect(readReadings(readingsText(values)).values).toEqual(values);
  });
});

describe('pasted lines', () => {
  it('reads four coordinates a line and shows the lines that are not', () => {
    const { values, leftOver } = readSegments('Slots\n100 50 100 2000\n200\t50\t260\t2000\n1 2 3');
    expect(values).toEqual([
      { x0_mm: 100, y0_mm: 50, x1_mm: 100, y1_mm: 2000 },
      { x0_mm: 200, y0_mm: 50, x1_mm: 260, y1_mm: 2000 },
    ]);
    expect(leftOver).toEqual(['Slots', '1 2 3']);
  });

  it('are taken from the columns that a heading names', () => {
    const { values, leftOver } = readSegments('No.\tx0\ty0\tx1\ty1\n1\t100\t50\t100\t2000\n2\t200\t50\t260');
    expect(values).toEqual([{ x0_mm: 100, y0_mm: 50, x1_mm: 100, y1_mm: 2000 }]);
    expect(leftOver).toEqual(['2\t200\t50\t260']);
  });

  it('have a width of their own where a fifth number or a column says so', () => {
    const ends = { x0_mm: 100, y0_mm: 50, x1_mm: 100, y1_mm: 2000 };
    const next = { x0_mm: 200, y0_mm: 50, x1_mm: 200, y1_mm: 2000 };
    expect(readSegments('100 50 100 2000 12\n200 50 200 2000')).toEqual({
      values: [{ ...ends, width_mm: 12 }, next],
      leftOver: [],
    });
    const table = 'Width;x0;y0;x1;y1\n1.2 cm;100;50;100;2000\n;200;50;200;2000';
    expect(readSegments(table).values[0]).toEqual({ ...ends, width_mm: 12 });
    // A saw kerf of 1 mm, and a window of 201 mm.
    expect(readSegments('100 50 100 2000 1\n200 50 200 2000 201').leftOver).toHaveLength(2);
    // Counted rows, or rows with a width? Nobody knows.
    expect(readSegments('1 100 50 100 150\n2 200 50 200 150').values).toEqual([]);
  });

  it('reads back every set of lines it writes', () => {
    const coordinate = fc.integer({ min: 10_000, max: 300_000 }).map((tenths) => tenths / 10);
    const width_mm = fc.integer({ min: 20, max: 2000 }).map((tenths) => tenths / 10);
    const segment = fc.record(
      { x0_mm: coordinate, y0_mm: coordinate, x1_mm: coordinate, y1_mm: coordinate, width_mm },
      { requiredKeys: ['x0_mm', 'y0_mm', 'x1_mm', 'y1_mm'] },
    );
    fc.assert(
      fc.property(fc.array(segment, { maxLength: 30 }), (segments) => {
        expect(readSegments(segmentsText(segments))).toEqual({ values: segments, leftOver: [] });
      }),
      { seed: 22 },
    );
  });
});
