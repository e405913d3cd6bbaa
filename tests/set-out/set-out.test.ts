import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/new-job.ts';
import type { StripData } from '../../src/job/strip.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { newZone } from '../../src/job/zone.ts';
import { setOutJob } from '../../src/set-out/set-out.ts';

/** Units of 50 mm from short reels: 800 mm, 16 units. */
const strip: StripData = { ...stripCatalogue[0]!, unitsPerMetre: 20, reel_mm: 800 };

/** Three upright slots at 100, 300 and 500, standing on a line 100 mm up. */
const job: Job = {
  ...newJob(),
  panel: { width_mm: 1500, height_mm: 1300 },
  slots: {
    ...{ from: 'lengths', width_mm: 20, first_mm: 100, pitch_mm: 200 },
    ...{ level_mm: 100, align: 'foot', lengths_mm: [1010, 525, 260] },
  },
};

function setOut(of: Job, from = strip) {
  const result = setOutJob(of, from);
  if (!result.ok) throw new Error(result.issues[0]?.sentence);
  return result.value;
}

const issues = (of: Job, from = strip) => {
  const result = setOutJob(of, from);
  return result.ok ? [] : result.issues;
};

const exception = (slot: number) => ({ slot, arrangement: 'both' as const, betweenCount: 1, cutLines: [] });

describe('a wall of three slots, set out by hand', () => {
  it('holds 20, 10 and 5 units, what is left dark at both ends alike', () => {
    expect(
      setOut(job).runs.map((run) => [
        run.id,
        run.unitCount,
        run.strip_mm,
        run.darkStart_mm,
        run.darkFinish_mm,
      ]),
    ).toEqual([
      ['S01', 20, 1000, 5, 5],
      ['S02', 10, 500, 12.5, 12.5],
      ['S03', 5, 250, 5, 5],
    ]);
  });

  it('takes 1.75 m of strip with one joint, after the 16 units of a reel', () => {
    const { strip_m, jointCount, runs } = setOut(job);
    expect(strip_m).toBeCloseTo(1.75, 12);
    expect(jointCount).toBe(1);
    expect(runs.map((run) => run.jointLines)).toEqual([[16], [], []]);
  });

  it('is cut from three reels, longest piece first, and every piece says from which', () => {
    // 16, 10, 5 and 4 units: the 4 find 1 left on the second reel, and begin a third.
    const { reels, runs } = setOut(job);
    expect(reels).toMatchObject([
      { id: 'R1', length_mm: 800, pieces: ['S01-A'], used_mm: 800, left_mm: 0 },
      { id: 'R2', length_mm: 800, pieces: ['S02-A', 'S03-A'], used_mm: 750, left_mm: 50 },
      { id: 'R3', length_mm: 800, pieces: ['S01-B'], used_mm: 200, left_mm: 600 },
    ]);
    expect(runs.flatMap((run) => run.pieces).map((piece) => [piece.id, piece.length_mm, piece.reel])).toEqual(
      [
        ['S01-A', 800, 'R1'],
        ['S01-B', 200, 'R3'],
        ['S02-A', 500, 'R2'],
        ['S03-A', 250, 'R2'],
      ],
    );
  });

  it('is fed as the job says, but for the slots it names, at the ends of the strip', () => {
    const feeds = { ...job.feeds, arrangement: 'start' as const, exceptions: [exception(2)] };
    const { runs } = setOut({ ...job, feeds });
    // The strip of S02 begins 12.5 mm above the line and ends 500 mm further up.
    expect(
      runs.flatMap((run) => run.feedPoints).map((point) => [point.id, point.at, point.x_mm, point.y_mm]),
    ).toEqual([
      ['S01-F1', 'start', 100, 105],
      ['S02-F1', 'start', 300, 112.5],
      ['S02-F2', 'finish', 300, 612.5],
      ['S03-F1', 'start', 500, 105],
    ]);
  });

  it('lies beside what is next along the wall, 200 mm on', () => {
    const { neighbours, slots } = setOut(job);
    expect(slots.map((slot) => slot.id)).toEqual(['S01', 'S02', 'S03']);
    expect(neighbours.map((seen) => [seen.slot, seen.beside, seen.from_mm, seen.to_mm])).toEqual([
      ['S01', 'S02', 0, 525],
      ['S02', 'S01', 0, 525],
      ['S02', 'S03', 0, 260],
      ['S03', 'S02', 0, 260],
    ]);
    expect(neighbours.every((seen) => seen.fromDistance_mm === 200)).toBe(true);
  });
});

describe('zones', () => {
  const zoned = (...slotNumbers: number[][]): Job => ({
    ...job,
    dimming: {
      ...job.dimming,
      zones: slotNumbers.map((slots, i) => newZone({ id: `Z${i + 1}`, name: `Bay ${i + 1}`, slots })),
    },
  });

  it('name the runs that are dimmed together; a slot in none has none', () => {
    expect(setOut(zoned([3], [1])).runs.map((run) => run.zone)).toEqual(['Bay 2', null, 'Bay 1']);
  });

  it('go by the number in the list, however the slots lie along the wall', () => {
    const listed: Job = {
      ...zoned([1]),
      slots: {
        ...{ from: 'segments', width_mm: 20 },
        segments: [500, 100].map((x_mm) => ({ x0_mm: x_mm, y0_mm: 100, x1_mm: x_mm, y1_mm: 600 })),
      },
    };
    expect(setOut(listed).runs.map((run) => [run.id, run.zone])).toEqual([
      ['S02', null],
      ['S01', 'Bay 1'],
    ]);
  });

  it('that share a slot are refused, at the later one', () => {
    expect(issues(zoned([1, 2], [3, 2]))).toMatchObject([
      {
        code: 'slot-in-two-zones',
        place: { field: 'dimming.zones[2].slots' },
        quantities: { slotNumber: 2 },
        sentence: expect.stringContaining('Slot 2 is in zone "Bay 1" and in zone "Bay 2"'),
      },
    ]);
  });

  it('that name a slot twice are refused without speaking of another zone', () => {
    expect(issues(zoned([1, 3, 1])).map((issue) => issue.sentence)).toEqual([
      'Zone "Bay 1" names slot 1 twice: remove one of the two.',
    ]);
  });

  it('of a slot that there is not are refused, the last one that there is being taken', () => {
    expect(issues(zoned([3]))).toEqual([]);
    expect(issues(zoned([1], [2, 4]))).toMatchObject([
      {
        code: 'no-such-slot',
        place: { field: 'dimming.zones[2].slots' },
        quantities: { slotNumber: 4, slotCount: 3 },
      },
    ]);
  });

  it('numbers of slots a zone names and a wall no longer has are refused together, once for each zone', () => {
    // Three slots stand: 1 to 3. The first zone names one beyond, the second three.
    expect(issues(zoned([1, 4], [2, 5, 6, 7])).map(({ place, sentence }) => [place.field, sentence])).toEqual(
      [
        [
          'dimming.zones[1].slots',
          'There is no slot 4: the wall has 3. Change the number, or remove the entry.',
        ],
        [
          'dimming.zones[2].slots',
          'There are no slots 5, 6 and 7: the wall has 3. Change the numbers, or remove them.',
        ],
      ],
    );
  });
});

describe('what cannot be built', () => {
  it('an exception for a slot that there is not', () => {
    const feeds = { ...job.feeds, exceptions: [exception(3), exception(5)] };
    expect(issues({ ...job, feeds })).toMatchObject([
      {
        code: 'no-such-slot',
        place: { field: 'feeds.exceptions[2].slot' },
        quantities: { slotNumber: 5, slotCount: 3 },
      },
    ]);
  });

  it('is said all at once: short slots, one unit fed in between, a zone without its slot', () => {
    const broken: Job = {
      ...job,
      slots: { ...job.slots, lengths_mm: [49, 1010, 60] } as Job['slots'],
      feeds: { ...job.feeds, arrangement: 'between' },
      dimming: { ...job.dimming, zones: [newZone({ id: 'Z1', name: 'Bay', slots: [9] })] },
    };
    expect(issues(broken).map((issue) => [issue.code, issue.place.slot])).toEqual([
      ['slot-too-short', 'S01'],
      ['no-cut-line-between', 'S03'],
      ['no-such-slot', undefined],
    ]);
  });

  it('slots that do not fit the panel, before anything else', () => {
    expect(issues({ ...job, panel: { width_mm: 400, height_mm: 1300 } })).toMatchObject([
      { code: 'slot-outside-panel', place: { slot: 'S03' } },
    ]);
  });
});
