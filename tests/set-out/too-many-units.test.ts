import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, sizeJob } from '../../src/index.ts';

/** So many upright slots of 7,990 mm, strip of 200 cut units a metre. */
function tallWall(slotCount: number): Job {
  const { job } = demoJobs[0]!;
  return {
    ...job,
    panel: { width_mm: 30_000, height_mm: 8_000 },
    slots: {
      from: 'lengths',
      width_mm: 12,
      first_mm: 50,
      pitch_mm: 74,
      level_mm: 0,
      align: 'foot',
      lengths_mm: Array.from({ length: slotCount }, () => 7990),
    },
    strip: { ...job.strip, data: { unitsPerMetre: 200 } },
    feeds: { ...job.feeds, exceptions: [] },
    dimming: { ...job.dimming, zones: [] },
  };
}

describe('a wall of more cut units than one job is calculated for', () => {
  // 7,990 mm hold 1,598 units of 5 mm: 62 slots hold 99,076, 63 hold 100,674.
  it.each([
    [62, false],
    [63, true],
  ])('%i slots: refused is %s', (slotCount, isRefused) => {
    const answer = sizeJob(tallWall(slotCount));
    const codes = answer.ok ? [] : answer.issues.map((issue) => issue.code);
    expect(codes.includes('too-many-units')).toBe(isRefused);
  });

  it('says how many, and which number to look at', () => {
    const answer = sizeJob(tallWall(400));
    if (answer.ok) throw new Error('was sized');
    const [issue] = answer.issues;
    expect(issue!.quantities).toMatchObject({ unitCount: 639_200, unitsPerMetre: 200, channelCount: 1 });
    expect(issue!.sentence).toContain('639,200 cut units');
    expect(issue!.place.field).toBe('strip.data.unitsPerMetre');
  });
});
