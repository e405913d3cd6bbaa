import { describe, expect, it } from 'vitest';
import { setOutFindings } from '../../../src/findings/set-out-findings.ts';
import { feedAt, isTold, told, type Wall, wall } from './wall.ts';

const at = (id: string, change?: (wall: Wall) => void) => told(setOutFindings(wall(change)), id);
const is = (id: string, change?: (wall: Wall) => void) => isTold(setOutFindings(wall(change)), id);

it('a wall in order has these findings of its set-out, and all of them pass', () => {
  const told = (change?: (wall: Wall) => void) =>
    setOutFindings(wall(change)).map(({ id, status }) => [id, status]);
  expect(told()).toEqual([
    ['dark-end', 'passes'],
    ['longest-run', 'passes'],
  ]);
  expect(told(({ products }) => (products.strip.longestRun_mm = null))).toEqual([['dark-end', 'passes']]);
});

describe('dark ends', () => {
  // Ends of 5 + 5, 10 + 20 and 15 + 0 mm: the longest is the finish of S02, 5 mm short of the 25 that show.
  it('names the longest of all ends', () => {
    expect(at('dark-end')).toMatchObject({
      ...{ status: 'passes', value: 20, limit: 25, margin: 5, unit: 'mm', fields: [] },
      place: { slot: 'S02', field: 'strip.entry' },
      sentence: 'The longest dark end is 20 mm, in slot S02.',
    });
  });

  it('takes the start of a run where that is the longer one', () => {
    const start = at('dark-end', ({ setOut }) => (setOut.runs[2]!.darkStart_mm = 24));
    expect(start).toMatchObject({ value: 24, margin: 1, place: { slot: 'S03' } });
  });

  it('passes at 25 mm and is to be watched beyond', () => {
    const finish = (mm: number) => at('dark-end', ({ setOut }) => (setOut.runs[0]!.darkFinish_mm = mm));
    expect(finish(25)).toMatchObject({ status: 'passes', margin: 0, fields: [] });
    // 20 units to the metre can be cut every 1000/20 = 50 mm.
    expect(finish(25.5)).toMatchObject({
      ...{ status: 'watch', value: 25.5, margin: -0.5, fields: ['slots', 'strip.entry'] },
      sentence: 'In slot S01 the last 25.5 mm stay dark, because strip can only be cut every 50 mm.',
    });
    expect(finish(25.5).advice[1]).toContain('than 50 mm');
  });

  it('speaks of an end from half a millimetre on', () => {
    const all = (mm: number) =>
      at('dark-end', ({ setOut }) => {
        for (const run of setOut.runs) Object.assign(run, { darkStart_mm: mm, darkFinish_mm: mm });
      }).sentence;
    expect(all(0.4)).toBe('The strip fills every slot from end to end.');
    expect(all(0.5)).toBe('The longest dark end is 0.5 mm, in slot S01.');
  });
});

describe('joints', () => {
  const joined =
    (...numbers: number[]) =>
    (made: Wall) => {
      for (const number of numbers) made.setOut.runs[number - 1]!.jointLines = [10];
      made.setOut.jointCount = numbers.length;
    };

  it('are told where there are any', () => {
    expect(is('joints')).toBe(false);
    expect(at('joints', joined(2))).toMatchObject({
      ...{ status: 'watch', value: 1, limit: 0, margin: -1, fields: ['strip.entry'] },
      place: { slot: 'S02', field: 'strip.entry' },
    });
    expect(at('joints', joined(2)).sentence).toMatch(/^Slot S02 is longer than a reel/);
  });

  it('of several slots are counted together', () => {
    const two = at('joints', joined(2, 3));
    expect(two).toMatchObject({ value: 2, margin: -2, place: { slot: 'S02' } });
    expect(two.sentence).toMatch(/^Slots S02 and S03 are longer than a reel/);
  });
});

describe('strip fed from one point', () => {
  type Feed = [cutLine: number, conductors?: 'both' | 'positive' | 'return'];
  const fed =
    (limit_mm: number, ...feeds: Feed[]) =>
    ({ products, setOut }: Wall) => {
      products.strip.longestRun_mm = limit_mm;
      for (const run of setOut.runs) run.feedPoints = [feedAt(run.id, 10)];
      setOut.runs[1]!.feedPoints = feeds.map(([line, conductors]) => feedAt('S02', line, conductors));
    };

  it('passes up to the figure and is to be watched beyond', () => {
    expect(at('longest-run', fed(1000, [0]))).toMatchObject({
      ...{ status: 'passes', value: 1000, limit: 1000, margin: 0, fields: [] },
      sentence: 'No feed point serves more than 1,000 mm of strip.',
    });
    expect(at('longest-run', fed(999, [0]))).toMatchObject({
      ...{ status: 'watch', value: 1000, limit: 999, margin: -1, fields: ['feeds.arrangement'] },
      place: { slot: 'S02', field: 'feeds.arrangement' },
      sentence: 'In slot S02 one feed point serves 1,000 mm of strip; 999 mm are given as the longest.',
    });
  });

  // S01 and S03 are fed in the middle: 500 mm to either end. Of S02, 20 units of 50 mm, the furthest unit decides.
  it.each<[string, number, Feed[]]>([
    ['at the start: all of it', 1000, [[0]]],
    ['at the finish: all of it', 1000, [[20]]],
    ['at both ends: half', 500, [[0], [20]]],
    ['at 5 of 20: the 15 units beyond', 750, [[5]]],
    ['at 15 of 20: the 15 units before', 750, [[15]]],
    ['at 1 and 19: half of the 18 units between', 500, [[1], [19]]],
    ['at 0, 2 and 3: the 17 units beyond', 850, [[0], [2], [3]]],
    [
      'crossed, a conductor at each end: all of it',
      1000,
      [
        [0, 'positive'],
        [20, 'return'],
      ],
    ],
    ['both at 12, one at each end: the 12 units before', 600, [[0, 'positive'], [12], [20, 'return']]],
    ['at 0, 2 and 20, half of 18 units: no more than the others', 500, [[0], [2], [20]]],
  ])('fed %s', (_, value, feeds) => {
    expect(at('longest-run', fed(5000, ...feeds)).value).toBeCloseTo(value, 9);
  });

  // 0, 2, 20: half of the 18 units between is 450 mm.
  it('halves what lies between two feeds', () => {
    const alone = at('longest-run', (made) => {
      fed(5000, [0], [2], [20])(made);
      made.setOut.runs = [made.setOut.runs[1]!];
    });
    expect(alone.value).toBeCloseTo(450, 9);
  });

  it('rests on the maker only where the figure was entered', () => {
    expect(at('longest-run').basis).toContain('typical of the trade');
    expect(at('longest-run', ({ job }) => (job.strip.data.longestRun_mm = 5000)).basis).toBe(
      "the strip maker's data sheet, as entered",
    );
  });
});
