import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, sizeJob } from '../../src/index.ts';
import type { StripData } from '../../src/job/strip.ts';
import { stripCatalogue } from '../../src/job/strip-catalogue.ts';
import { setOutJob } from '../../src/set-out/set-out.ts';

/** So many upright slots of 7,990 mm, strip of 200 cut units a metre. */
function tallWall(slotCount: number, length_mm = 7990): Job {
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
      lengths_mm: Array.from({ length: slotCount }, () => length_mm),
    },
    strip: { ...job.strip, data: { unitsPerMetre: 200 } },
    feeds: { ...job.feeds, exceptions: [] },
    dimming: { ...job.dimming, zones: [] },
  };
}

const [white] = stripCatalogue[0]!.channels;
const fourChannels: StripData = {
  ...stripCatalogue[0]!,
  unitsPerMetre: 200,
  channels: ['red', 'green', 'blue', 'white'].map((name) => ({ ...white!, name })),
};

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

  it.each([
    [100, false],
    [101, true],
  ])('%i slots of 250 units, each with four channels: refused is %s', (slotCount, isRefused) => {
    // 1,250 mm hold 250 units of 5 mm; 100 · 250 · 4 are exactly the most, 101 slots 1,000 more.
    const result = setOutJob(tallWall(slotCount, 1250), fourChannels);
    const issues = result.ok ? [] : result.issues;
    expect(issues.map((issue) => issue.quantities)).toEqual(
      isRefused ? [{ unitCount: 101_000, mostUnits: 100_000, unitsPerMetre: 200, channelCount: 4 }] : [],
    );
    if (isRefused) expect(issues[0]!.sentence).toContain('25,250 cut units, each with 4 channels');
  });

  it('says how many, and which number to look at', () => {
    const answer = sizeJob(tallWall(400));
    if (answer.ok) throw new Error('was sized');
    const [issue] = answer.issues;
    expect(issue!.quantities).toMatchObject({ unitCount: 639_200, unitsPerMetre: 200, channelCount: 1 });
    expect(issue!.sentence).toContain('639,200 cut units, more than');
    expect(issue!.place.field).toBe('strip.data.unitsPerMetre');
  });
});
