import { describe, expect, it } from 'vitest';
import { testLines } from '../../src/hand-over/test-lines.ts';

const columns = ['ref', 'step', 'loaded', 'loadedLow', 'loadedMeasured'].map((key) => ({
  ...{ key, label: key, unit: '', digits: 2 },
}));

const sheet = (refs: readonly string[]) => ({
  ...{ id: 'test-sheet' as const, title: 'Test sheet', notes: [], columns },
  rows: refs.map((ref) => [ref, 'what to do', ...(/^[VL]/.test(ref) ? [null, null, '–'] : [24, 23, null])]),
});

describe('the lines of the test sheet', () => {
  it('put both ends of a run into one line', () => {
    expect(
      testLines(sheet(['V1', 'L1', 'D1.1', 'D2.1', 'S01-F1', 'S01 finish', 'S02-F1', 'S02 finish'])),
    ).toEqual({
      steps: [0, 1],
      outputs: [2, 3],
      lines: [
        [4, 5],
        [6, 7],
      ],
    });
  });

  it('take two lines for a run with three or four places, and keep what is alone alone', () => {
    const refs = [
      'D1.1',
      'S01-F1',
      'S01-F2',
      'S01 start',
      'S01 finish',
      'S02.1-F1',
      'S02.2-F1',
      'S02.2-F2',
      'S02.2 start',
    ];
    expect(testLines(sheet(refs))).toEqual({
      steps: [],
      outputs: [0],
      lines: [[1, 2], [3, 4], [5], [6, 7], [8]],
    });
  });
});
